#!/usr/bin/python3
"""Recompute the recorded vectors of spring/gas.

An independent implementation of the 1976 standard atmosphere (Debian package
python3-fluids) writes spring/gas/testdata/atmosphere.csv; with --check it
compares the recorded file instead and fails on drift.
"""
import csv
import pathlib
import sys

import fluids
from fluids.atmosphere import ATMOSPHERE_1976

RECORD = pathlib.Path(__file__).resolve().parents[2] / "spring/gas/testdata/atmosphere.csv"
ALTITUDES = [-500, -250, 0, 100, 250, 500, 750, 1000, 1250, 1500, 1750, 2000, 2250, 2500,
             3000, 3500, 4000, 4500, 5000, 6000, 7000, 8000, 9000, 10000, 11000]  # m
# The record holds ten digits; last-digit rounding may differ between libm versions.
RELATIVE = 1e-9

HEADER = f"""\
# U.S. Standard Atmosphere, 1976, at geometric altitude: temperature and pressure.
# Computed by fluids.atmosphere.ATMOSPHERE_1976 of fluids {fluids.__version__} (Debian python3-fluids),
# an evaluation of the standard's formula independent of this project.
# Regenerate: python3 .ci/vectors/gas.py    Compare: python3 .ci/vectors/gas.py --check
altitude_m,temperature_K,pressure_Pa
"""


def rows():
    for z in ALTITUDES:
        air = ATMOSPHERE_1976(z)
        yield z, air.T, air.P


def write():
    RECORD.parent.mkdir(parents=True, exist_ok=True)
    with RECORD.open("w", encoding="utf-8") as f:
        f.write(HEADER)
        for z, t, p in rows():
            f.write(f"{z},{t:#.10g},{p:#.10g}\n")


def check():
    with RECORD.open(encoding="utf-8") as f:
        recorded = [[float(x) for x in row]
                    for row in csv.reader(line for line in f if not line.startswith("#"))
                    if row and row[0] != "altitude_m"]
    computed = [list(row) for row in rows()]
    if [r[0] for r in recorded] != [c[0] for c in computed]:
        return [f"{RECORD}: altitudes differ from {ALTITUDES}"]
    return [f"{RECORD}: at {r[0]:g} m recorded {r[1:]}, computed {c[1:]}"
            for r, c in zip(recorded, computed)
            if any(abs(a - b) > RELATIVE * abs(b) for a, b in zip(r[1:], c[1:]))]


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
