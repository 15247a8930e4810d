#!/usr/bin/python3
"""Recompute the recorded vectors of oil.

The procedures A and B of ASTM D2270-10, with linear interpolation in its Table 1 and
its equations above 70 mm2/s, written out anew in plain Python, write
oil/testdata/viscosityindex.csv; with --check they compare the recorded file instead and
fail on drift. The table itself is read from oil/indextable.go, so the record proves the
procedures and the interpolation, and nothing about the table: a Go test holds that
against the quadratic equations of the standard's appendix. The same numbers, to ten
digits, were first computed by viscosity_index of the Python package chemicals 1.5.2,
which Debian does not have and from which the table was taken.
"""
import csv
import math
import pathlib
import re
import sys

RECORD = pathlib.Path(__file__).resolve().parents[2] / "oil/testdata/viscosityindex.csv"
# At 100 °C: on and between the rows of the table, at its seams and beyond its end. At 70
# itself the standard still reads the table, the package the formula.
AT_100 = [2, 2.05, 2.5, 3.4, 4.25, 5.05, 7.8, 8.86, 12.34, 19.95, 20, 20.1, 25.5, 29.9, 30, 30.25, 41.7, 69.8, 70.5, 100, 250]
# Times that viscosity at 40 °C.
RATIOS = [1.5, 2.5, 4, 6, 9, 14]
# The record holds ten digits; last-digit rounding may differ between libm versions.
RELATIVE = 1e-9

# The viscosities of the rows at 100 °C: 2 to 20 in steps of 0.1, to 30 of 0.2, to 70 of 0.5.
ROWS = [i / 10 for i in range(20, 200)] + [i / 10 for i in range(200, 300, 2)] + [i / 10 for i in range(300, 705, 5)]
TABLE = [(y, float(low), float(high)) for y, (low, high) in zip(ROWS, re.findall(
    r"\{([\d.]+), ([\d.]+)\}", (RECORD.parents[1] / "indextable.go").read_text(encoding="utf-8")), strict=True)]

HEADER = """\
# Viscosity index by ASTM D2270 from the viscosities at 40 and 100 °C.
# Computed by .ci/vectors/oil.py from the table in indextable.go; equal to what
# viscosity_index of the Python package chemicals 1.5.2 gives, from the same table.
# Regenerate: python3 .ci/vectors/oil.py    Compare: python3 .ci/vectors/oil.py --check
at40_mm2_per_s,at100_mm2_per_s,viscosity_index
"""


def limits(y):
    """L and H of the standard, in mm2/s, for a viscosity y at 100 °C."""
    if y > 70:
        return 0.8353 * y * y + 14.67 * y - 216, 0.1684 * y * y + 11.85 * y - 97
    for (y0, l0, h0), (y1, l1, h1) in zip(TABLE, TABLE[1:]):
        if y0 <= y <= y1:
            part = (y - y0) / (y1 - y0)
            return l0 + part * (l1 - l0), h0 + part * (h1 - h0)
    raise ValueError(f"{y} mm2/s is below the table")


def viscosity_index(u, y):
    """Procedure A up to an index of 100, procedure B above."""
    low, high = limits(y)
    if u >= high:
        return 100 * (low - u) / (low - high)
    return (10 ** ((math.log10(high) - math.log10(u)) / math.log10(y)) - 1) / 0.00715 + 100


def rows():
    for y in AT_100:
        for ratio in RATIOS:
            u = round(y * ratio, 6)
            yield u, y, viscosity_index(u, y)


def write():
    RECORD.parent.mkdir(parents=True, exist_ok=True)
    with RECORD.open("w", encoding="utf-8") as f:
        f.write(HEADER)
        for u, y, index in rows():
            f.write(f"{u:.10g},{y:.10g},{index:#.10g}\n")


def check():
    with RECORD.open(encoding="utf-8") as f:
        recorded = [[float(x) for x in row]
                    for row in csv.reader(line for line in f if not line.startswith("#"))
                    if row and row[0] != "at40_mm2_per_s"]
    computed = [list(row) for row in rows()]
    if [r[:2] for r in recorded] != [c[:2] for c in computed]:
        return [f"{RECORD}: the viscosities differ from those of the script"]
    return [f"{RECORD}: at {r[:2]} recorded {r[2]}, computed {c[2]}"
            for r, c in zip(recorded, computed)
            if abs(r[2] - c[2]) > RELATIVE * abs(c[2])]


def main(args):
    if args == []:
        write()
        return 0
    if args != ["--check"]:
        print(f"usage: {sys.argv[0]} [--check]", file=sys.stderr)
        return 2
    drift = check()
    for line in drift:
        print(line, file=sys.stderr)
    return 1 if drift else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
