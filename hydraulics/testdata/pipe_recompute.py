"""Recompute the independent rows of pipe_*.csv without the library.

Needs mpmath, fluids and iapws (Debian python3-mpmath, python3-fluids,
python3-iapws). Prints, per function, the rows recomputed and the worst relative
difference from the expected value of the row; a row outside its tolerance is
printed in full. Nothing here imports or calls the Go code.

    /usr/bin/python3 pipe_recompute.py
"""

import csv
import math
import os
import sys

import fluids.drag
import fluids.fittings
import fluids.friction
import mpmath as mp
from iapws import _iapws
from iapws.iapws08 import _Tension_SeaWater

mp.mp.dps = 40
HERE = os.path.dirname(os.path.abspath(__file__))
G = 9.80665


def num(row, name, default=None):
    return float(row[name]) if row.get(name) else default


def colebrook(re, rel):
    """Darcy factor of Colebrook 1939 with 3.7 and 2.51."""
    re, rel = mp.mpf(re), mp.mpf(rel)
    residual = lambda y: y + 2 * mp.log10(rel / mp.mpf("3.7") + mp.mpf("2.51") * y / re)
    return 1 / mp.findroot(residual, 1 / mp.sqrt(mp.mpf(fluids.friction.Haaland(float(re), float(rel))))) ** 2


def factor(re, rel):
    return 64 / mp.mpf(re) if re <= 2000 else colebrook(re, rel)


def loss(q, bore, length, rough, k, nu, g=G):
    """Head lost by Darcy-Weisbach, fittings included."""
    v = q / (mp.pi / 4 * mp.mpf(bore) ** 2)
    return (factor(v * bore / nu, rough / bore) * length / bore + k) * v * v / (2 * g)


def flow(h, *pipe):
    return mp.findroot(lambda q: loss(q, *pipe) - h, (mp.mpf("1e-4"), mp.mpf("1")), solver="anderson", tol=1e-24)


def flow_of(h, pipes, layout, nu, g):
    """Flow that h drives through pipes in series, in parallel, or the first feeding the rest."""
    arg = [(p[0], p[1], p[2], p[3], nu, g) for p in pipes]
    if layout == "parallel":
        return sum(flow(h, *a) for a in arg)
    if layout == "series":
        return mp.findroot(lambda q: sum(loss(q, *a) for a in arg) - h, (mp.mpf("1e-5"), mp.mpf("1")), solver="anderson", tol=1e-24)
    def rest(q):  # head left for the parallel pipes behind the feeder
        return h - loss(q, *arg[0])
    low, high = mp.mpf("1e-6"), flow(h, *arg[0])
    for _ in range(110):
        mid = (low + high) / 2
        if sum(flow(rest(mid), *a) for a in arg[1:]) > mid:
            low = mid
        else:
            high = mid
    return (low + high) / 2


def walther(r):
    t1, v1, t2, v2, t = (mp.mpf(r[c]) for c in ("t1_k", "v1_mm2_s", "t2_k", "v2_mm2_s", "t_k"))
    w = lambda v: mp.log10(mp.log10(v + mp.mpf("0.7")))
    b = (w(v1) - w(v2)) / (mp.log10(t2) - mp.log10(t1))
    return mp.mpf(10) ** (mp.mpf(10) ** (w(v1) - b * (mp.log10(t) - mp.log10(t1)))) - mp.mpf("0.7")


def friction(r):
    re, rel = num(r, "reynolds"), num(r, "relative_roughness", 0)
    return {
        "Colebrook": colebrook,
        "SwameeJain": lambda re, k: mp.mpf("0.25") / mp.log10(mp.mpf(k) / mp.mpf("3.7") + mp.mpf("5.74") / mp.mpf(re) ** mp.mpf("0.9")) ** 2,
        "Haaland": fluids.friction.Haaland,
        "Churchill": lambda re, k: fluids.friction.Churchill_1977(re, k),
        "Serghides": fluids.friction.Serghides_1,
        "ZigrangSylvester": fluids.friction.Zigrang_Sylvester_2,
    }[r["func"]](re, rel)


def pipe(r):
    bore, length, rough, nu = num(r, "bore_m"), num(r, "length_m"), num(r, "roughness_m", 0), num(r, "nu_m2_s")
    g, q, h = num(r, "g_m_s2", G), num(r, "flow_m3_s"), num(r, "head_m")
    f = r["func"]
    if f in ("Pipeline.Flow", "Pipe.FlowFor"):
        return flow(h, bore, length, rough, 0, nu, g)
    if f in ("Pipeline.Head", "Pipe.HeadLoss"):
        return loss(q, bore, length, rough, 0, nu, g)
    if f == "Pipe.LengthFor":
        return h / loss(q, bore, 1, rough, 0, nu, g)
    if f == "HazenWilliams" and "10.67" in r["source"]:
        return mp.mpf("10.67") * length * (q / mp.mpf(r["c_factor"])) ** mp.mpf("1.852") / mp.mpf(bore) ** mp.mpf("4.8704")
    return None


def lines(r):
    if not r["lengths_m"] or r["note"]:
        return None
    cols = [[mp.mpf(x) for x in r[c].split(";")] for c in ("bores_m", "lengths_m", "roughness_m", "loss_sums")]
    return flow_of(mp.mpf(r["head_m"]), list(zip(*cols)), r["layout"], mp.mpf(r["nu_m2_s"]), num(r, "g_m_s2", G))


def fittings(r):
    f, ff = r["func"], fluids.fittings
    bore, bore2, angle = num(r, "bore_m"), num(r, "bore2_m"), num(r, "angle_deg")
    if f in ("TeeSpec.Converging", "TeeSpec.Diverging"):
        branch, both = num(r, "branch_m3_s"), num(r, "combined_m3_s")
        name = "K_%s_%s_Crane" % (r["what"], f.split(".")[1].lower())
        return getattr(ff, name)(D_run=bore2, D_branch=bore, Q_run=both - branch, Q_branch=branch, angle=angle)
    if f == "SuddenContraction" and r["what"] == "rennels":
        return ff.contraction_sharp(bore, bore2)
    if f == "ConicalExpansion":
        return ff.diffuser_conical(Di1=bore, Di2=bore2, angle=angle, method="Crane")
    if f == "ConicalContraction":
        return ff.contraction_conical(Di1=bore, Di2=bore2, angle=angle, method="Crane")
    if f == "Mitre" and not r["what"] and "Rennels" in r["source"]:
        return ff.bend_miter(angle=angle, Di=bore, method="Rennels")
    if f == "FullyRoughFactor":
        return ff.ft_Crane(bore)
    if f == "ValveKv":
        return ff.Kv_to_K(num(r, "kv_m3_h"), bore)
    return None


def carry(r):
    if r["func"] == "DragCoefficient" and r["law"] == "clift_grace_weber":
        return fluids.drag.Clift(num(r, "reynolds"))
    return None


def water(r):
    if r["func"] != "WaterSurfaceTension":
        return None
    salt = num(r, "salinity") * 35.16504 / 35 / 1000
    return _Tension_SeaWater(num(r, "t_c") + 273.15, salt) if salt else _iapws._Tension(num(r, "t_c") + 273.15)


def oil(r):
    return walther(r) if r["func"] == "Oil.Viscosity" else None


def main():
    worst, failed = {}, False
    for name, again in (("pipe_friction", friction), ("pipe_loss", pipe), ("pipe_lines", lines), ("pipe_fittings", fittings),
                        ("pipe_carry", carry), ("pipe_water", water), ("pipe_oil", oil)):
        with open(os.path.join(HERE, name + ".csv"), newline="") as f:
            for r in csv.DictReader(f):
                if r["kind"] != "independent code" or r["func"] in ("FrictionFactor", "CurvedFactor"):
                    continue
                got = again(r)
                if got is None:
                    continue
                want = float(r["expected"])
                off = abs(float((got - mp.mpf(r["expected"])) / (want or 1)))
                limit = float(r["tol"].split()[-1]) / (abs(want) if r["tol"].startswith("abs") else 1)
                if off > limit:
                    failed = True
                    print("outside:", name, r)
                n, w = worst.get(r["func"], (0, 0.0))
                worst[r["func"]] = (n + 1, max(w, off))
    for func in sorted(worst):
        print("%-22s %3d rows, worst %.1e" % (func, *worst[func]))
    sys.exit(failed)


main()
