"""Writes bed_points.csv and bed.csv: a surveyed bowl and its storage by another
road, every triangle of SciPy's Delaunay triangulation clipped at the level as a
polygon. Run with Debian's python3-scipy."""
import csv
import numpy as np, scipy
from scipy.spatial import Delaunay

rng = np.random.default_rng(11)
xy = (rng.random((400, 2)) * [120, 80]).round(3)
z = (((xy[:, 0] - 30) / 90) ** 2 + ((xy[:, 1] - 40) / 50) ** 2 + 0.03 * rng.normal(size=400)).round(3)
with open("bed_points.csv", "w", newline="") as f:
    w = csv.writer(f, lineterminator="\n")
    w.writerow(["x_m", "y_m", "z_m"])
    w.writerows([[float(a), float(b), float(c)] for (a, b), c in zip(xy, z)])

def clip(tri, h):
    out = []
    for i in range(3):
        p, q = tri[i], tri[(i + 1) % 3]
        if p[2] <= h:
            out.append(p)
        if (p[2] < h < q[2]) or (q[2] < h < p[2]):
            t = (h - p[2]) / (q[2] - p[2])
            out.append(p + t * (q - p))
    return out

def storage(h):
    area = volume = 0.0
    for s in Delaunay(xy).simplices:
        poly = clip([np.array([*xy[i], z[i]]) for i in s], h)
        for k in range(1, len(poly) - 1):
            a, b, c = poly[0], poly[k], poly[k + 1]
            t = 0.5 * abs((b[0] - a[0]) * (c[1] - a[1]) - (c[0] - a[0]) * (b[1] - a[1]))
            area += t
            volume += t * (h - (a[2] + b[2] + c[2]) / 3)
    return area, volume

src = "every triangle of SciPy %s's Delaunay triangulation clipped at the level as a polygon" % scipy.__version__
with open("bed.csv", "w", newline="") as f:
    w = csv.writer(f, lineterminator="\n")
    w.writerow("func stage_m volume_m3 expected tol kind source locator".split())
    for h in (0.05, 0.2, 0.4567, 0.7, 1.0, 1.5, 2.5):
        a, v = storage(h)
        w.writerow(["Bed.Area", h, "", repr(float(a)), "1e-10", "independent code", src, ""])
        w.writerow(["Bed.Volume", h, "", repr(float(v)), "1e-10", "independent code", src, ""])
        w.writerow(["Bed.Stage", "", repr(float(v)), repr(h), "1e-9", "independent code", src, ""])
