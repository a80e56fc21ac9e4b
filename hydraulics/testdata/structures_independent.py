#!/usr/bin/env python3
"""Writes structures_discharge.csv: structures between two levels, and sections,
computed without the library in Python (SciPy 1.10.1 brentq where inverted).

Levels are above the crest, sill or invert at the pond.
"""
import csv
from math import acos, asin, cos, log10, pi, radians, sin, sqrt, tan

import scipy
from scipy.interpolate import PchipInterpolator
from scipy.optimize import brentq

G = 9.80665
cols = "kind_of level_m tail_m width_m channel_m height_m crest_length_m modular boards thickness_m leak_m3_s diameter_m length_m manning_n fall_m depth_m side_slope flow_m3_s".split()
rows = []


def add(func, expected, source, tol="1e-10", locator="", kind="independent code", **inp):
    rows.append([func] + [inp.get(c, "") for c in cols] + [repr(float(expected)), tol, kind, source, locator])


def villemonte(r, n):
    return 1 if r <= 0 else (1 - r ** n) ** 0.385


# Thin-plate weir, USBR constants at b/B 0.5 and 1 (feet), submerged.
def kc(h, b, B, P):
    c1, c2, kb = {0.5: (0.0612, 3.173, 0.010), 1.0: (0.4, 3.22, -0.003)}[b / B]
    f = 0.3048
    return (c1 * h / P + c2) * (b / f + kb) * (h / f + 0.003) ** 1.5 * f ** 3


for b, B, P, h, t in ((0.5, 1, 0.4, 0.2, -1), (0.5, 1, 0.4, 0.2, 0.08), (1, 1, 0.4, 0.3, 0.15), (1, 1, 0.5, 0.12, 0.1)):
    add("RectangularWeir.Discharge", kc(h, b, B, P) * villemonte(t / h, 1.5), "USBR Kindsvater-Carter with Villemonte 1947, evaluated in Python",
        level_m=h, tail_m=t, width_m=b, channel_m=B, height_m=P)
for h, t in ((0.2, -1), (0.2, 0.1), (0.15, 0.14)):
    q = 8 / 15 * 0.578 * sqrt(2 * G) * (h + 0.00085) ** 2.5
    add("VNotchWeir.Discharge", q * villemonte(t / h, 2.5), "Kindsvater-Shen, Ce .578, kh .85 mm, with Villemonte 1947, evaluated in Python",
        kind_of="shen90", level_m=h, tail_m=t)


def broad(h, L):
    c = 0.864 + (1.04 - 0.864) * min(1, max(0, (h / L - 0.4) / 1.2))
    return (2 / 3) ** 1.5 * sqrt(G) * c * h ** 1.5


for h, t, m in ((0.1, -1, 0.66), (0.3, -1, 0.66), (0.3, 0.15, 0.66), (0.3, 0.25, 0.66), (0.5, 0.4, 0.7), (0.9, -1, 0.66)):
    add("BroadCrest.Discharge", broad(h, 0.5) * villemonte((t / h - m) / (1 - m), 1.5), "critical depth with C .864 rising to 1.04, Villemonte above the modular limit, evaluated in Python",
        level_m=h, tail_m=t, width_m=1, crest_length_m=0.5, height_m=1, modular=m)

# Stoplogs: two boards of 0.2 m, level above the sill.
for z, t in ((0.35, -1), (0.41, -1), (0.44, -1), (0.55, -1), (0.55, 0.45), (0.35, 0.25)):
    b, th, P, leak = 1.0, 0.05, 0.4, 2e-4
    h = z - P
    q = 0
    if h > 0:
        s = min(1, max(0, (h / th - 0.4) / 1.2))
        # below 3 cm the head correction of the thin plate fades out
        thin = (0.4 * h / P + 3.22) * (b / 0.3048 - 0.003) * (h / 0.3048 + 0.003 * min(1, h / 0.03)) ** 1.5 * 0.3048 ** 3
        q = ((1 - s) * (2 / 3) ** 1.5 * sqrt(G) * 0.864 * b * h ** 1.5 + s * thin) * villemonte((t - P) / h, 1.5)
    lk = leak * b * sum(sqrt(max(0, z - max(j, t))) for j in (0, 0.2))
    add("StoplogBay.Discharge", q + lk, "thin and broad crest blended by head over thickness, joints as orifices, evaluated in Python", level_m=z, tail_m=t,
        width_m=b, channel_m=1, thickness_m=th, leak_m3_s=leak, boards="0.2;0.2")
    add("StoplogBay.Leakage", lk, "joints as orifices, evaluated in Python", level_m=z, tail_m=t, width_m=b, channel_m=1, thickness_m=th, leak_m3_s=leak, boards="0.2;0.2")
add("StoplogBay.Crest", 0.4, "sum of the boards", level_m=0, tail_m=0, width_m=1, channel_m=1, thickness_m=0.05, leak_m3_s=2e-4, boards="0.2;0.2")


# Culvert: headwater equations of HDS-5 inverted for the flow, concrete pipe with
# a square edge in a headwall.
def circle(q, d):
    def crit(a):
        area = d * d / 4 * (a - sin(a) * cos(a))
        return area * sqrt(G * area / (d * sin(a))) - q
    a = brentq(crit, 1e-4, pi - 1e-7, xtol=1e-15)
    area = d * d / 4 * (a - sin(a) * cos(a))
    y = d / 2 * (1 - cos(a))
    return y, y + area / (2 * d * sin(a))


def headwater(q, d, length, n, fall, tail):
    s, area = fall / length, pi / 4 * d * d
    x = 1.811 * q / (area * sqrt(d))
    dc, hc = circle(q, d)
    uns = lambda x, hc: hc + 0.0098 * x * x * d - 0.5 * s * d * min(1, x / 0.5)
    sub = lambda x: d * (0.0398 * x * x + 0.67 - 0.5 * s)
    if x <= 3.5:
        inlet = uns(x, hc)
    elif x >= 4:
        inlet = sub(x)
    else:
        q35 = 3.5 * area * sqrt(d) / 1.811
        a, b = uns(3.5, circle(q35, d)[1]), sub(4.0)
        inlet = a + (b - a) * (x - 3.5) / 0.5
    v = q / area
    outlet = (1.5 + 19.63 * n * n * length / (d / 4) ** (4 / 3)) * v * v / (2 * G) + max(tail + fall, (dc + d) / 2) - fall
    return max(inlet, outlet)


for h, t, fall, n in ((0.35, -1, 0.06, 0.012), (0.6, -1, 0.06, 0.012), (0.62, -1, 0.2, 0.012), (1.2, -1, 0.06, 0.012), (1.2, 0.9, 0.06, 0.024), (0.8, 0.5, 0.0, 0.013)):
    d, length = 0.45, 10
    q = brentq(lambda q: headwater(q, d, length, n, fall, t) - h, 1e-3, 3, xtol=1e-14)
    add("Culvert.Discharge", q, f"HDS-5 headwater inverted, SciPy {scipy.__version__} brentq", level_m=h, tail_m=t, diameter_m=d, length_m=length, manning_n=n, fall_m=fall)


# Siphon: 150 mm, 20 m, K 2.5, intake 0.3, crest at 3 or 10, outfall -1.
def darcy(h, d, length, eps, k, nu):
    def f(v):
        re = v * d / nu
        F = brentq(lambda F: F + 2 * log10(eps / d / 3.7 + 2.51 * F / re), 0.5, 40, xtol=1e-15)
        return (k + length / d / F ** 2) * v * v / (2 * G) - h
    return brentq(f, 0.01, 100, xtol=1e-15)


for crest, z in ((3, 1), (3, 0.5), (10, 1)):
    v = darcy(z + 1, 0.15, 20, 1e-4, 2.5, 0.8e-6)
    rise = (101325 - 4247) / (995.65 * G)
    v = min(v, darcy(rise - (crest - z), 0.15, 8, 1e-4, 2, 0.8e-6))
    add("Siphon.Discharge", v * pi / 4 * 0.15 ** 2, f"least of Darcy-Weisbach with Colebrook and the crest at vapour pressure, SciPy {scipy.__version__} brentq", level_m=z, tail_m=-2, height_m=crest)
add("Siphon.BreaksAt", 0.3, "the intake", level_m=1, tail_m=-2, height_m=3)

# An outlet known by a table.
x, y = [0, 0.2, 0.5, 1.0], [0, 0.02, 0.09, 0.15]
p = PchipInterpolator(x, y)
for z, t in ((0.1, -1), (0.4, -1), (0.8, -1), (0.8, 0.4), (1.5, -1)):
    q = float(p(z)) if z <= 1 else 0.15 * sqrt(z)
    add("RatedOutlet.Discharge", q * villemonte(t / z, 1.5), f"SciPy {scipy.__version__} PchipInterpolator, root above the table, Villemonte 1947", level_m=z, tail_m=t)
add("Rating.LevelAt", 0.2 + 0.3 * (0.05 - 0.02) / 0.07, "straight line between (0.2, 0.02) and (0.5, 0.09)", flow_m3_s=0.05, kind="derived by hand")

# Two holes of 0.2 by 0.1 m, Cd 0.6, in series and side by side, deep under water.
hole = 0.6 * 0.02 * sqrt(2 * G)
add("StructuresInSeries.Discharge", hole * sqrt(0.5 / 2), "two equal orifices share the head: Cd A sqrt(2g h/2)", kind="derived by hand", level_m=1, tail_m=0.5)
add("StructuresInSeries.Between", 0.75, "two equal orifices share the head", kind="derived by hand", level_m=1, tail_m=0.5)
add("StructuresInParallel.Discharge", 2 * hole * sqrt(0.5), "twice one orifice", kind="derived by hand", level_m=1, tail_m=0.5)

# Sections.
for d, yy in ((0.6, 0.1), (0.6, 0.45), (1.0, 0.999)):
    a = acos(1 - 2 * yy / d)
    src = "circle geometry through acos, Python"
    add("CircularSection.Area", d * d / 4 * (a - sin(a) * cos(a)), src, diameter_m=d, depth_m=yy)
    add("CircularSection.WettedPerimeter", d * a, src, diameter_m=d, depth_m=yy)
    add("CircularSection.TopWidth", d * sin(a), src, diameter_m=d, depth_m=yy)
add("CircularSection.MaxDepth", 0.6, "the diameter", diameter_m=0.6, depth_m=0.1)
for b, z, yy in ((0.6, 1.5, 0.3), (0, 2, 0.4), (2, 0, 0.7)):
    src = "geometry of the trapezoid, Python"
    add("TrapezoidalSection.Area", (b + b + 2 * z * yy) / 2 * yy, src, width_m=b, side_slope=z, depth_m=yy)
    add("TrapezoidalSection.WettedPerimeter", b + 2 * sqrt(yy ** 2 + (z * yy) ** 2), src, width_m=b, side_slope=z, depth_m=yy)
    add("TrapezoidalSection.TopWidth", b + 2 * z * yy, src, width_m=b, side_slope=z, depth_m=yy)
add("RectangularSection.Area", 0.35, "0.7 by 0.5", width_m=0.7, depth_m=0.5)
add("RectangularSection.WettedPerimeter", 1.7, "0.7 + 2 by 0.5", width_m=0.7, depth_m=0.5)
add("RectangularSection.TopWidth", 0.7, "the width", width_m=0.7, depth_m=0.5)
add("FroudeNumber", 1.2 / (2 * 0.8) / sqrt(G * 0.8), "V/sqrt(g y), Python", width_m=2, depth_m=0.8, flow_m3_s=1.2)
add("GrateSpec.VoidRatio", 8 / 18, "gap 8 mm, bar 10 mm", kind="derived by hand")

with open("structures_discharge.csv", "w", newline="") as f:
    w = csv.writer(f, lineterminator="\n")
    w.writerow(["func"] + cols + "expected tol kind source locator".split())
    w.writerows(rows)
