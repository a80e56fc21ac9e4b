"""Writes pint_matrix.csv: every unit of every type converted to every other unit
of it, by pint and its own unit definitions in 60-digit decimal arithmetic.

    /usr/bin/python3 pint_matrix.py ../records_gen.go > pint_matrix.csv

Units that pint lacks (a milligram per litre as CaCO3) have no row here. The acre
is written as 43 560 square international feet, since pint's is a survey acre.
"""

import decimal
import re
import sys

import pint

decimal.getcontext().prec = 60
ureg = pint.UnitRegistry(non_int_type=decimal.Decimal)

NAMES = {  # symbol as units prints it -> pint
    "US gal": "gallon", "imp gal": "imperial_gallon", "US fl oz": "fluid_ounce",
    "imp fl oz": "imperial_fluid_ounce", "US Mgal": "megagallon", "acre": "(43560 * foot * foot)",
    "t": "metric_ton", "oz avdp": "ounce", "short ton": "short_ton", "long ton": "long_ton",
    "grain": "grain", "lb": "pound", "g_n": "standard_gravity", "kn": "knot", "ha": "hectare",
    "mH2O": "(meter * water * g_0)", "ftH2O": "(foot * water * g_0)", "inH2O": "(inch * water * g_0)",
    "mmHg": "(millimeter * mercury * g_0)", "mechanical hp": "horsepower", "metric hp": "metric_horsepower",
    "Btu": "Btu_it", "TR": "(12000 * Btu_it / hour)", "kcal_th": "(1000 * cal)", "kcal_IT": "(1000 * cal_it)",
    "Wh": "watt_hour", "kWh": "kilowatt_hour", "lbf": "pound_force", "kgf": "kilogram_force",
    "rpm": "revolutions_per_minute", "rev": "turn", "°": "degree", "cP": "centipoise", "cSt": "centistokes",
    "°F": "delta_degF", "Δ°F": "delta_degF", "Δ°C": "delta_degC", "K": "kelvin", "Ω": "ohm", "mΩ": "milliohm",
    "VA": "volt_ampere", "kVA": "kilovolt_ampere", "meq": "millimole", "PSU": None, "ppm": "0.000001", "%": "0.01",
    "d": "day", "h": "hour", "min": "minute", "s": "second", "in": "inch", "mi": "mile", "ft": "foot", "yd": "yard",
    "m": "meter", "L": "liter", "A": "ampere", "V": "volt", "N": "newton", "J": "joule", "W": "watt", "Pa": "pascal",
    "bar": "bar", "atm": "atmosphere", "psi": "psi", "rad": "radian", "Hz": "hertz", "kHz": "kilohertz", "g": "gram",
}
PREFIXES = {"k": "kilo", "m": "milli", "c": "centi", "d": "deci", "µ": "micro", "M": "mega", "h": "hecto"}
WORD = re.compile(r"(US Mgal|US gal|imp gal|US fl oz|imp fl oz|oz avdp|short ton|long ton|mechanical hp|metric hp|"
                  r"kcal_th|kcal_IT|g_n|mH2O|ftH2O|inH2O|mmHg|Δ°F|Δ°C|°F|[A-Za-zµΩ%°]+)(\d?)")


def unit_call(word):
    """Returns the Python expression of a pint quantity of one of the unit."""
    name = pint_name(word)
    return re.sub(r"[A-Za-z_]\w*|[\d.]+", lambda m: f'D("{m[0]}")' if m[0][0].isdigit() else f'one("{m[0]}")', name)


def pint_name(word):
    if word in NAMES:
        return NAMES[word]
    if word[0] in PREFIXES and word[1:] in NAMES:
        return PREFIXES[word[0]] + NAMES[word[1:]]
    raise KeyError(word)


def to_pint(symbol):
    """Returns symbol as a pint quantity, or None where pint has no such unit."""
    if "CaCO3" in symbol or symbol == "PSU":
        return None
    symbol = re.sub(r"\{.*?\}", "", symbol)
    if symbol.startswith("/"):
        symbol = "1" + symbol
    expr = WORD.sub(lambda m: unit_call(m[1]) + ("**" + m[2] if m[2] else ""), symbol.replace("·", " * "))
    return eval(expr, {"one": lambda name: ureg.Quantity(decimal.Decimal(1), name), "D": decimal.Decimal})


def main():
    text = open(sys.argv[1], encoding="utf-8").read()
    print("# Written by pint_matrix.py; do not edit.")
    print("func,from,to,expected,tol,kind,source,locator")
    source = "independent code,pint " + pint.__version__ + " (Python),"
    for m in re.finditer(r"var \w+Units = \[\.\.\.\]unitRecord\{\n(.*?)\n\}\n\nvar \w+ = quantityRecord\{\n\tname: \"(\w+)\"",
                         text, re.S):
        symbols = re.findall(r'^\t\{"(.*?)",', m[1], re.M)
        for a in symbols:
            for b in symbols:
                x, y = to_pint(a), to_pint(b)
                if a == b or x is None or y is None:
                    continue
                factor = (ureg.Quantity(x) / ureg.Quantity(y)).to("").magnitude
                # 4.5e-16: the unit's size, the product and the quotient are rounded.
                print(f'{m[2]}.In,{a},{b},{decimal.Decimal(factor):.17g},4.5e-16,{source}')


main()
