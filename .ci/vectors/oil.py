#!/usr/bin/python3
"""Recompute the recorded vectors of oil.

The function viscosity_index of the Python package chemicals, an implementation of
ASTM D2270 independent of this project, writes oil/testdata/viscosityindex.csv; with
--check it compares the recorded file instead and fails on drift. The package and
fluids, which it needs in a version of like age, are read from where they are
installed or from checkouts named in PYTHONPATH: Debian packages fluids but not
chemicals, so a machine without both says so and exits 77, "skipped".
"""
import csv
import pathlib
import sys

try:
    import chemicals
    from chemicals.viscosity import viscosity_index
except ImportError as e:
    print(f"{sys.argv[0]}: {e}: nothing checked; see the text at the head of this script")
    sys.exit(77)

RECORD = pathlib.Path(__file__).resolve().parents[2] / "oil/testdata/viscosityindex.csv"
# At 100 °C: on and between the rows of the table, at its seams and beyond its end. At 70
# itself the standard still reads the table, the package the formula.
AT_100 = [2, 2.05, 2.5, 3.4, 4.25, 5.05, 7.8, 8.86, 12.34, 19.95, 20, 20.1, 25.5, 29.9, 30, 30.25, 41.7, 69.8, 70.5, 100, 250]
# Times that viscosity at 40 °C.
RATIOS = [1.5, 2.5, 4, 6, 9, 14]
# The record holds ten digits; last-digit rounding may differ between libm versions.
RELATIVE = 1e-9

HEADER = f"""\
# Viscosity index by ASTM D2270 from the viscosities at 40 and 100 °C.
# Computed by chemicals.viscosity.viscosity_index of chemicals {chemicals.__version__},
# github.com/CalebBell/chemicals, an implementation independent of this project.
# Regenerate: python3 .ci/vectors/oil.py    Compare: python3 .ci/vectors/oil.py --check
at40_mm2_per_s,at100_mm2_per_s,viscosity_index
"""


def rows():
    for y in AT_100:
        for ratio in RATIOS:
            u = round(y * ratio, 6)
            yield u, y, viscosity_index(u * 1e-6, y * 1e-6)


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
