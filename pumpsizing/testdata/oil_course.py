"""Writes oil_course.csv: warming of the oil of a hydraulic drive with losses
that follow its viscosity, by SciPy. Run with Debian's python3-scipy:

    /usr/bin/python3 oil_course.py > oil_course.csv

Duty of the impeller: 82.961609 N m at 520.350 r/min, shaft 4520.66771 W. Motor
80 cm3, 0.92 and 0.88; 30 m of 19 mm line; 7 bar of valves and return; oil pump
0.85; 87 kg of oil, 1900 J/(kg K), 15.6 W/K, air and start at the row's
temperature. ISO VG 46 by ASTM D341 through 46 mm2/s at 40 C and 6.8 at 100 C,
870 kg/m3 at 15 C less 0.65 per kelvin.
"""
import math

import scipy
from scipy.integrate import solve_ivp

SHAFT, TORQUE = 4520.66771, 82.961609
OMEGA = SHAFT / TORQUE
w = lambda v: math.log10(math.log10(v + 0.7))
B = (w(46) - w(6.8)) / (math.log10(373.15) - math.log10(313.15))
A = w(46) + B * math.log10(313.15)


def heat(T):
    nu = (10 ** (10 ** (A - B * math.log10(T))) - 0.7) * 1e-6
    rho = 870 - 0.65 * (T - 288.15)
    dp = 2 * math.pi * TORQUE / (80e-6 * 0.88)
    q = 80e-6 * OMEGA / (2 * math.pi) / 0.92
    v = q / (math.pi / 4 * 0.019**2)
    re = v * 0.019 / nu
    f = 64 / re
    if re >= 2300:
        b = 0.3164 / re**0.25
        f = b if re > 4000 else max(f, b)
    p = dp + f * 30 / 0.019 * rho * v * v / 2 + 7e5
    return q * p / 0.85 - SHAFT, p


def row(case, start, seconds):
    rhs = lambda t, y: [(heat(y[0])[0] - 15.6 * (y[0] - start - 273.15)) / (87 * 1900)]
    s = solve_ivp(rhs, (0, seconds), [start + 273.15], method="LSODA", rtol=1e-11, atol=1e-9, max_step=5)
    T = s.y[0][-1]
    src = f"SciPy {scipy.__version__} solve_ivp by the script beside this table"
    print(f"{case}_t,HydraulicDrive.OilCourse,{start},{seconds},temperature C,{T - 273.15:.8f},abs 2e-4,independent code,{src},")
    print(f"{case}_p,HydraulicDrive.OilCourse,{start},{seconds},pressure bar,{heat(T)[1] / 1e5:.8f},1e-5,independent code,{src},")


print("case,func,start_c,seconds,quantity,expected,tol,kind,source,locator")
row("cold_first_ten_minutes", 5, 600)
row("cold_hour", 5, 3600)
row("warm_half_hour", 33, 1800)
row("warm_hour", 33, 3600)
