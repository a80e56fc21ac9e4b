#!/usr/bin/env python3
"""Writes table.csv: the dewatering table, its chute and its return hose computed
without the library, with SciPy 1.10.1 (solve_ivp DOP853, brentq).

The rack equation dq/dx = -C m sqrt(2 g h cos t), E = h cos t + q2/2gh2 on the
shooting branch, E = E0 + x sin t (total) or E0 (specific), is integrated over
x(s) with s = sqrt(q), strip by strip (16, at their middles) under a side tilt.
"""
import csv
from math import cos, log10, pi, sin, sqrt, tan, radians, degrees

import scipy
from scipy.integrate import solve_ivp
from scipy.optimize import brentq

G = 9.80665
CODE = f"SciPy {scipy.__version__}"


def depth(q, e, t):
    """Shooting depth normal to the bars."""
    hc = (q * q / (G * cos(t))) ** (1 / 3)
    f = lambda h: h * cos(t) + q * q / (2 * G * h * h) - e
    if f(hc) >= 0:
        return hc
    return brentq(f, hc * 1e-6, hc, xtol=1e-17, rtol=1e-15)


def start(q, v, t):
    hc = (q * q / (G * cos(t))) ** (1 / 3)
    if v * hc <= q:
        return 1.5 * hc * cos(t), hc
    return q / v * cos(t) + v * v / (2 * G), q / v


def rack(q0, v, t, cm, total, stop):
    """Wetted length and the flow left at stop."""
    e0, h0 = start(q0, v, t)
    s0 = sqrt(q0)

    def rhs(w, x):
        s = s0 - w * w
        e = e0 + (x[0] * sin(t) if total else 0)
        q = s * s
        h = depth(q, e, t) if q > 1e-16 else 0
        vel = sqrt(2 * G * max(e - h * cos(t), 0))
        return [2 * w * 2 / cm * sqrt(vel / (2 * G * cos(t)))]
    sol = solve_ivp(rhs, (0, sqrt(s0)), [0], method="DOP853", rtol=1e-11, atol=1e-13, dense_output=True)
    length = sol.y[0, -1]
    if stop >= length:
        return length, 0.0
    w = brentq(lambda w: sol.sol(w)[0] - stop, 0, sqrt(s0), xtol=1e-14)
    return length, (s0 - w * w) ** 2


def grate(Q, v, W, L, m, C, t, tilt, blocked, cover, eff, total):
    cm = C * m * eff * (1 - blocked) * (1 - cover)
    mean = Q / W
    _, h = start(mean, v, t)
    half = W * tan(tilt) / (2 * h)
    n = 16 if tilt else 1
    off, most = 0.0, 0.0
    for i in range(n):
        u = (i + 0.5) / n
        if half <= 1:
            share = 1 - half + 2 * half * u
        else:
            wet = max(0.5, sqrt(2 * h / (W * tan(tilt))))
            share = max(0, 2 / wet ** 2 * (u - (1 - wet)))
        if share == 0:
            continue
        off += rack(mean * share, v, t, cm, total, L)[1] * W / n
        most = max(most, mean * share)
    return off, rack(most, v, t, cm, total, L)[0]


def friction(re, rel):
    return brentq(lambda F: F + 2 * log10(rel / 3.7 + 2.51 * F / re), 0.5, 40, xtol=1e-15, rtol=1e-15) ** -2


cols = ("flow_m3_s velocity_m_s width_m length_m gap_m bar_m coef slope_deg tilt_deg blocked cover effectiveness energy quantity "
        "product_kg_s bore_m kept slide_m_s footprint_m2 adhering share wall_m freeboard_m manning_n filled drop_m roughness_m loss_sum "
        "viscosity_m2_s air wet_kg drained_kg").split()
rows = []


def add(func, expected, tol, source, locator="", **inputs):
    rows.append([func] + [inputs.get(c, "") for c in cols] + [repr(expected), tol, "independent code", source, locator])


RACK = CODE + " DOP853 on the rack equation, strips summed in Python"
for Q, v, t, tilt, b, cov, eff, en in (
        (0.064, 1.26, 8, 0, 0, 0, 1, "total"), (0.064, 1.26, 8, 0, 0, 0, 1, "specific"), (0.064, 1.26, 8, 4, 0.2, 0.1, 1, "total"),
        (0.1, 2.0, 15, 2, 0.3, 0.2, 0.8, "total"), (0.03, 0, 0, 1, 0, 0, 1, "specific"), (0.05, 0.9, 5, 12, 0.1, 0, 1.2, "total")):
    W, L, gap, bar, C = 0.9, 0.5, 0.008, 0.01, 0.6
    off, length = grate(Q, v, W, L, gap / (gap + bar), C, radians(t), radians(tilt), b, cov, eff, en == "total")
    inp = dict(flow_m3_s=Q, velocity_m_s=v, width_m=W, length_m=L, gap_m=gap, bar_m=bar, coef=C, slope_deg=t, tilt_deg=tilt, blocked=b, cover=cov,
               effectiveness=eff, energy=en)
    add("Grate.Dewater", off / Q, "abs 2e-7", RACK, quantity="runoff_share", **inp)
    add("Grate.Dewater", length, "1e-6", RACK, quantity="wetted_length_m", **inp)

# A table: 254 mm hose, animals at 0.5 kg/s.
T = dict(width_m=0.8, length_m=0.6, gap_m=0.008, bar_m=0.01, coef=0.6, bore_m=0.254, kept=0.8, slide_m_s=0.4, footprint_m2=0.02, adhering=0.03)


def table(Q, prod, t, tilt, b, eff):
    v = T["kept"] * Q / (pi / 4 * T["bore_m"] ** 2)
    cover = prod / T["slide_m_s"] * T["footprint_m2"] / T["width_m"]
    return grate(Q, v, T["width_m"], T["length_m"], 0.008 / 0.018, T["coef"], radians(t), radians(tilt), b, cover, eff, True)


for Q, prod, t, tilt, b in ((0.064, 0.5, 8, 0, 0.1), (0.1, 1.5, 10, 0, 0.2), (0.09, 0.8, 6, 3, 0.1)):
    off, _ = table(Q, prod, t, tilt, b, 1)
    add("DewateringTable.At", off * 1018 / prod + T["adhering"], "1e-5", RACK, quantity="carry_over", flow_m3_s=Q, product_kg_s=prod,
        slope_deg=t, tilt_deg=tilt, blocked=b, **T)
for prod, t, tilt, b in ((0.5, 8, 0, 0.1), (1.0, 12, 0, 0.3)):
    q = brentq(lambda q: table(q, prod, t, tilt, b, 1)[1] - T["length_m"], 0.002, 0.5, xtol=1e-9)
    add("DewateringTable.DryFlow", q, "1e-6", RACK + ", brentq", share=0, product_kg_s=prod, slope_deg=t, tilt_deg=tilt, blocked=b, **T)
    q = brentq(lambda q: table(q, prod, t, tilt, b, 1)[0] / q - 0.05, 0.002, 0.5, xtol=1e-9)
    add("DewateringTable.DryFlow", q, "1e-6", RACK + ", brentq", share=0.05, product_kg_s=prod, slope_deg=t, tilt_deg=tilt, blocked=b, **T)
# The angles, heights and calibration found back from a known answer.
Q, prod, b = 0.062, 0.5, 0.1
for name, func in (("slope", "DewateringTable.DrySlope"), ("tilt", "DewateringTable.DryTilt")):
    for share in (0.02, 0.03, 0.06):
        f = (lambda a: table(Q, prod, a, 0, b, 1)[0] / Q - share) if name == "slope" else \
            (lambda a: table(Q, prod, 8, a, b, 1)[0] / Q - share)
        if f(0) < 0 < f(14):
            a = brentq(f, 0, 14, xtol=1e-10)
            add(func, a, "1e-5", RACK + ", brentq", "degrees, up to 14", flow_m3_s=Q, product_kg_s=prod,
                slope_deg=8, tilt_deg=0, blocked=b, share=share, **T)
# Lift curve Q = 0.12 - 0.012 H: the height at which the flow just dries.
q = brentq(lambda q: table(q, prod, 8, 0, b, 1)[1] - T["length_m"], 0.002, 0.5, xtol=1e-10)
add("DewateringTable.DryHeight", (0.12 - q) / 0.012, "1e-5", RACK + ", brentq", "flow 0.12 - 0.012 lift, m3/s and m", share=0, product_kg_s=prod,
    slope_deg=8, tilt_deg=0, blocked=b, **T)
# A drain test made with effectiveness 0.8.
off, _ = table(0.09, prod, 8, 0, b, 0.8)
wet = 20 * (1 + T["adhering"] + off * 1018 / prod)
add("CalibrateTable", 0.8, "1e-5", RACK, "a test made with effectiveness 0.8", flow_m3_s=0.09, product_kg_s=prod, slope_deg=8, tilt_deg=0, blocked=b,
    wet_kg=repr(wet), drained_kg=20, **T)
add("DrainTest.CarryOver", 0.08, "1e-12", "by definition: (21.6 - 20)/20, Python", wet_kg=21.6, drained_kg=20)

# Chute and hose.
for deg in (10, 20, 30, 45):
    add("AeratedChuteAir", 0.75 * sin(radians(deg)) ** 0.75, "1e-12", "Hager 1991 (from memory), evaluated in Python", slope_deg=deg)
w, wall, fb, deg, n = 0.5, 0.2, 0.05, 20, 0.012
y = (wall - fb) * (1 - 0.75 * sin(radians(deg)) ** 0.75)
cap = w * y * (w * y / (w + 2 * y)) ** (2 / 3) * sqrt(sin(radians(deg))) / n
add("Chute.Capacity", cap, "1e-12", "Manning with the sine of the slope, evaluated in Python", width_m=w, wall_m=wall, freeboard_m=fb, slope_deg=deg, manning_n=n)
Q = 0.02
y = brentq(lambda y: w * y * (w * y / (w + 2 * y)) ** (2 / 3) * sqrt(sin(radians(deg))) / n - Q, 1e-6, 1, xtol=1e-15)
add("Chute.Carry", y / (1 - 0.75 * sin(radians(deg)) ** 0.75), "1e-9", CODE + " brentq on Manning, bulked by Hager 1991", quantity="bulked_depth_m",
    flow_m3_s=Q, width_m=w, wall_m=wall, freeboard_m=fb, slope_deg=deg, manning_n=n)
for d, r in ((0.1016, 7 / 24), (0.1524, 0.25)):
    add("StackFlow", 27.8 * r ** (5 / 3) * (d / 0.0254) ** (8 / 3) * 3.785411784e-3 / 60, "1e-12", "Wyly & Eaton 1961 (from memory), evaluated in Python",
        bore_m=d, filled=repr(r))
add("IntakeSubmergence", 0.2 * (1 + 2.3 * 1.5 / sqrt(G * 0.2)), "1e-12", "ANSI/HI 9.8 (from memory), evaluated in Python", bore_m=0.2, velocity_m_s=1.5)
d, length, eps, k, nu, air = 0.2, 12, 3e-4, 2.1, 0.85e-6, 0.2
for drop in (0.5, 2.4):
    v = brentq(lambda v: (k + friction(v * d / nu, eps / d) * length / d) * v * v / (2 * G) - drop, 0.01, 30, xtol=1e-15)
    q = (1 - air) * v * pi / 4 * d * d
    hose = dict(bore_m=d, length_m=length, roughness_m=eps, loss_sum=k, viscosity_m2_s=nu, air=air)
    add("ReturnHose.Capacity", q, "1e-10", CODE + " brentq on Darcy-Weisbach with Colebrook", drop_m=drop, **hose)
    add("ReturnHose.DropFor", drop, "1e-10", CODE + " brentq on Darcy-Weisbach with Colebrook", flow_m3_s=repr(q), **hose)

with open("table.csv", "w", newline="") as f:
    w = csv.writer(f, lineterminator="\n")
    w.writerow(["func"] + cols + "expected tol kind source locator".split())
    w.writerows(rows)
