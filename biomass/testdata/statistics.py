#!/usr/bin/env python3
"""Writes statistics.csv: distributions and intervals computed with SciPy, to hold
beside the closed forms and special functions of this package.

Run with a Python that has SciPy; the versions go into the source column.
"""
import csv
import math
import sys

import numpy as np
import scipy
from scipy import integrate, stats

SOURCE = f"SciPy {scipy.__version__} "
rows = []


def row(func, expected, tol, source, locator="", **inputs):
    rows.append(dict(inputs, func=func, expected=repr(float(expected)), tol=tol,
                     kind="independent code", source=SOURCE + source, locator=locator))


# Lognormal: median 4486, LogSD 0.1724.
ln = stats.lognorm(s=0.1724, scale=4486)
for p in (1e-6, 0.025, 0.1, 0.5, 0.9, 0.999999):
    row("Lognormal.Quantile", ln.ppf(p), "1e-9", "stats.lognorm.ppf", median=4486, log_sd=0.1724, p=p)
for x in (2000, 3590, 4486, 5600, 9000):
    row("Lognormal.CDF", ln.cdf(x), "1e-10", "stats.lognorm.cdf", median=4486, log_sd=0.1724, x=x)
row("Lognormal.Mean", ln.mean(), "1e-12", "stats.lognorm.mean", median=4486, log_sd=0.1724)
row("Lognormal.SD", ln.std(), "1e-12", "stats.lognorm.std", median=4486, log_sd=0.1724)
row("Lognormal.CV", ln.std() / ln.mean(), "1e-12", "stats.lognorm", median=4486, log_sd=0.1724)
row("LognormalFromMean", stats.lognorm(s=math.sqrt(math.log(1 + 0.25**2)), scale=100 / math.sqrt(1 + 0.25**2)).ppf(0.9),
    "1e-10", "stats.lognorm.ppf of the distribution with mean 100 and cv 0.25", mean=100, cv=0.25, p=0.9)
for floor, p in ((3000, 0.1), (3000, 0.9), (5500, 0.5), (9000, 0.1), (9000, 0.9), (12000, 0.5)):
    row("Lognormal.QuantileAbove", ln.isf((1 - p) * ln.sf(floor)), "1e-9", "stats.lognorm.isf of the upper tail",
        median=4486, log_sd=0.1724, floor=floor, p=p)

# Binomial intervals.
for k, n in ((5, 120), (0, 50), (50, 50), (1, 300), (17, 40)):
    for method, name in (("exact", "clopper-pearson"), ("wilson", "wilson")):
        ci = stats.binomtest(k, n).proportion_ci(0.95, method)
        for side, v in (("low", ci.low), ("high", ci.high)):
            tol = "1e-9" if v else "abs 1e-15"
            row("BinomialInterval", v, tol, f"stats.binomtest.proportion_ci {method}", quantity=side, k=k, n=n, method=name)
    b = stats.beta(k + 0.5, n - k + 0.5)
    row("BinomialInterval", b.ppf(0.025) if k else 0, "1e-9" if k else "abs 1e-15", "stats.beta.ppf, 0 at k = 0",
        quantity="low", k=k, n=n, method="jeffreys")
    row("BinomialInterval", b.ppf(0.975) if k < n else 1, "1e-9", "stats.beta.ppf, 1 at k = n",
        quantity="high", k=k, n=n, method="jeffreys")

# Partial expectations by quadrature, independent of the closed forms.
for shape, mean, cv, w in (("lognormal", 20, 0.25, 18), ("lognormal", 20, 0.25, 35), ("normal", 20, 0.2, 18), ("normal", 20, 0.2, 30)):
    if shape == "lognormal":
        s = math.sqrt(math.log(1 + cv * cv))
        d = stats.lognorm(s=s, scale=mean / math.sqrt(1 + cv * cv))
        lo = 0
    else:
        d = stats.norm(mean, cv * mean)
        lo = -20 * mean
    pts = [mean * (1 + z * cv) for z in (-3, -1, 0, 1, 3)]
    mass = integrate.quad(lambda x: x * d.pdf(x), max(lo, mean * (1 - 12 * cv)) if shape == "normal" else 0, w,
                          epsabs=1e-14, epsrel=1e-13, limit=500, points=[p for p in pts if 0 < p < w])[0] / mean
    row("WeightDistribution.Below", d.cdf(w), "1e-10", "stats distribution function", quantity="number", shape=shape, mean=mean, cv=cv, x=w)
    row("WeightDistribution.Below", mass, "1e-9", "integrate.quad of x f(x)", quantity="mass", shape=shape, mean=mean, cv=cv, x=w)

# A lot's class: mean weight 19.5 g with cv 0.03 on 29 degrees of freedom, yield 0.65 with SD 0.012.
sw, sy = math.sqrt(math.log1p(0.03**2)), math.sqrt(math.log1p((0.012 / 0.65)**2))
s = math.hypot(sw, sy)
count = 453.59237 / 19.5 / 0.65
for dof, label in ((0, "normal"), (29, "t")):
    d = stats.norm() if dof == 0 else stats.t(dof * (s / sw)**4)
    cdf = lambda edge: d.cdf(math.log(edge / count) / s)
    for name, lo, hi in (("26/30", 25.5, 30.5), ("31/35", 30.5, 35.5), ("36/40", 35.5, 40.5), ("41/50", 40.5, 50.5)):
        row("LotInput.Grade", cdf(hi) - cdf(lo), "1e-8", f"stats, {label} on the logarithm of the count", quantity=name,
            mean=19.5, cv=0.03, dof=dof, yield_=0.65, yield_sd=0.012)
    row("LotInput.Grade", count * math.exp(-s * d.ppf(0.9)), "1e-9", f"stats, {label}", quantity="low",
        mean=19.5, cv=0.03, dof=dof, yield_=0.65, yield_sd=0.012)
    row("LotInput.Grade", count * math.exp(s * d.ppf(0.9)), "1e-9", f"stats, {label}", quantity="high",
        mean=19.5, cv=0.03, dof=dof, yield_=0.65, yield_sd=0.012)

# Blend of three estimates, one error in common, by numpy linear algebra.
medians = np.array([4486.0, 4680.0, 4300.0])
own = np.log1p(np.array([0.17, 0.12, 0.25])**2)
common = np.array([0.03, 0.03, 0.05])
V = np.log1p(np.outer(common, common)) + np.diag(own)
w = np.linalg.solve(V, np.ones(3))
var = 1 / w.sum()
w = w * var
m = w @ np.log(medians)
r = np.log(medians) - m
for name, v in (("p50_kg", math.exp(m)), ("log_sd", math.sqrt(var)), ("weight0", w[0]), ("weight1", w[1]), ("weight2", w[2]),
                ("agreement", stats.chi2(2).sf(r @ np.linalg.solve(V, r)))):
    row("Blend", v, "1e-9", "and NumPy: generalised least squares with a covariance matrix", quantity=name,
        medians="4486;4680;4300", own="0.17;0.12;0.25", common="0.03;0.03;0.05")

# Schnabel limits: exact Poisson limits of 24 recaptures.
row("MarkSums.Schnabel", 10740 / stats.gamma(25).ppf(0.975), "1e-9", "stats.gamma.ppf", quantity="low", k=24, cm=10740)
row("MarkSums.Schnabel", 10740 / stats.gamma(24).ppf(0.025), "1e-9", "stats.gamma.ppf", quantity="high", k=24, cm=10740)

# Catch curve: brute-force integration over ln B and ln k, no conjugacy.
minutes = np.array([20, 40, 65, 90, 120.0])
net = np.array([900, 700, 640, 430, 380.0])
median, log_sd, noise = 4600.0, 0.10, 0.10
lb = np.linspace(math.log(median) - 8 * log_sd, math.log(median) + 8 * log_sd, 3201)
lk = np.linspace(math.log(1e-5), math.log(1e-1), 3001)
t0 = np.concatenate([[0], minutes[:-1]])
log_post = -0.5 * ((lb - math.log(median)) / log_sd)[:, None]**2 + np.zeros(len(lk))[None, :]
for a, b, c in zip(t0, minutes, net):
    share = np.log(np.exp(-np.exp(lk) * a) - np.exp(-np.exp(lk) * b))
    log_post += -0.5 * ((math.log(c) - lb[:, None] - share[None, :]) / noise)**2
weight = np.exp(log_post - log_post.max())
B = np.exp(lb)
delivered = net.sum()


def cumulative(density, x0):
    """Distribution function of B above x0 on a fine grid."""
    total = integrate.cumulative_trapezoid(density, lb, initial=0)
    base = np.interp(math.log(x0), lb, total)
    return (total - base) / (total[-1] - base)


marginal = integrate.trapezoid(weight, lk, axis=1)
cdf = cumulative(marginal, delivered)
keep = B > delivered * (1 + 1e-9)
base = dict(median=median, log_sd=log_sd, ticket_log_sd=noise, minutes=";".join(f"{x:g}" for x in minutes), nets_kg=";".join(f"{x:g}" for x in net))
for p in (0.1, 0.5, 0.9):
    total = math.exp(np.interp(p, cdf[keep], lb[keep]))
    row("CatchCurve.Remaining", total - delivered, "2e-4", "and NumPy: sum over a grid of crop and decline", p=p, **base)
    row("CatchCurve.Total", total, "2e-4", "and NumPy: sum over a grid of crop and decline", p=p, **base)
for m_left in (1000, 1500):
    i = np.searchsorted(lb, math.log(delivered + m_left))
    row("CatchCurve.ProbabilityRemaining", np.interp(math.log(delivered + m_left), lb, cdf), "abs 1e-4", "and NumPy: sum over a grid of crop and decline", x=m_left, **base)
inside = lb > math.log(delivered)
norm = integrate.trapezoid(integrate.trapezoid(weight[inside], lb[inside], axis=0), lk)


def prob_left(target, later):
    ok = (B[inside][:, None] - delivered) * np.exp(-np.exp(lk) * later)[None, :] <= target
    return integrate.trapezoid(integrate.trapezoid(np.where(ok, weight[inside], 0), lb[inside], axis=0), lk) / norm


for p in (0.5, 0.9):
    lo, hi = 0.0, 3600.0
    for _ in range(40):
        mid = (lo + hi) / 2
        lo, hi = (mid, hi) if prob_left(100, mid) < p else (lo, mid)
    row("CatchCurve.TimeTo", hi, "2e-3", "and NumPy: sum over a grid of crop and decline, search on time", x=100, p=p, **base)
mk = integrate.trapezoid(weight[inside], lb[inside], axis=0)
ck = integrate.cumulative_trapezoid(mk, lk, initial=0)
row("CatchCurve.Decline", math.exp(np.interp(0.5, ck / ck[-1], lk)), "1e-4", "and NumPy: sum over a grid, per minute", **base)

for r in rows:
    if "yield_" in r:
        r["yield"] = r.pop("yield_")
columns = ["func", "quantity", "median", "log_sd", "mean", "cv", "x", "p", "floor", "k", "n", "cm", "method", "shape", "dof", "yield", "yield_sd",
           "medians", "own", "common", "ticket_log_sd", "minutes", "nets_kg", "expected", "tol", "kind", "source", "locator"]
out = csv.DictWriter(open(sys.argv[1] if len(sys.argv) > 1 else "statistics.csv", "w", newline=""), columns, lineterminator="\n")
out.writeheader()
out.writerows(rows)
