"""Writes scipy_delaunay.csv: point sets in general position and the triangles
SciPy (Qhull) makes of them. Run with Debian's python3-scipy."""
import csv
import numpy as np, scipy
from scipy.spatial import Delaunay

rng = np.random.default_rng(20260101)
with open("scipy_delaunay.csv", "w", newline="") as f:
    w = csv.writer(f)
    w.writerow(["# Delaunay triangles by SciPy %s (scipy.spatial.Delaunay); kind: independent code" % scipy.__version__])
    w.writerow(["set", "record", "a", "b", "c"])
    sets = {
        "uniform": rng.random((150, 2)).round(4) * 100,
        "normal": rng.normal(size=(150, 2)).round(4),
        "lines": np.array([(500000 + 8 * (i % 6) + 0.05 * rng.random(), 4.1e6 + 0.5 * (i // 6) + 0.05 * rng.random()) for i in range(150)]).round(4),
    }
    for name, pts in sets.items():
        for x, y in pts:
            w.writerow([name, "point", repr(float(x)), repr(float(y)), ""])
        shifted = pts - pts.mean(axis=0)  # Qhull works in plain floating point
        for t in sorted(tuple(sorted(map(int, s))) for s in Delaunay(shifted).simplices):
            w.writerow([name, "triangle", *t])
