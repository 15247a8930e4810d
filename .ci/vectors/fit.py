#!/usr/bin/python3
"""Recompute the recorded vectors of spring/fit.

Writes spring/fit/testdata/readings.csv, made-up bench readings with noise, and
spring/fit/testdata/curve_fit.csv, what scipy.optimize.curve_fit (Debian package
python3-scipy) makes of them with a model written out anew here. With --check it
fits the recorded readings again instead and fails on drift.
"""
import csv
import pathlib
import sys

import numpy as np
import scipy
from scipy.optimize import curve_fit

DATA = pathlib.Path(__file__).resolve().parents[2] / "spring/fit/testdata"
AMBIENT = 0.101325  # MPa, so that MPa·mm² = N


def gas(x, area, volume, pressure, n):
    """Force in N at x in mm of a chamber in mm², mm³ and MPa absolute."""
    return area * (pressure * (1 - area * x / volume) ** -n - AMBIENT)


def loop(x, rate, preload, friction):
    travel, sign = x
    return rate * (travel + preload) + sign * friction


def oil_gap(x, rate, preload, volume):
    travel, _ = x
    return rate * (travel + preload) + gas(travel, 1800, volume * 1e3, AMBIENT, 1.3)


def air(x, volume, n):
    travel, _ = x
    piston, rod = np.pi / 4 * 34**2, np.pi / 4 * 12**2
    annulus, negative, port, fill = piston - rod, 70e3, 6, 1.06
    joined = fill / (1 - piston * port / (volume * 1e3)) * (1 + annulus * port / negative)
    return gas(travel, piston, volume * 1e3, fill, n) + gas(travel, -annulus, negative, joined, n)


# name: model, travel in mm, both branches, true values, noise in N, bounds
CASES = {
    "loop": (loop, 300, True, (9.1, 6.2, 22), 4, ((1, -20, 0), (30, 40, 200))),
    "gap": (oil_gap, 300, False, (9.1, 6.2, 760), 6, ((1, -20, 600), (30, 40, 3000))),
    "air": (air, 290, False, (430, 1.27), 8, ((300, 1), (900, 1.6))),
    "bound": (oil_gap, 300, False, (9.4, 6.2, 760), 6, ((1, -20, 600), (9, 40, 3000))),
}
NAMES = {"loop": ("rate N/mm", "preload mm", "friction N"), "gap": ("rate N/mm", "preload mm", "gap volume mL"),
         "air": ("chamber volume mL", "exponent"), "bound": ("rate N/mm", "preload mm", "gap volume mL")}


def readings():
    """Made-up readings; 31 travels, in and perhaps out again."""
    rng = np.random.default_rng(20240229)
    for case, (model, stroke, both, truth, noise, _) in CASES.items():
        for sign in (1, -1) if both else (1,):
            travel = np.linspace(0, stroke, 31)
            force = model((travel, np.full_like(travel, sign)), *truth) + rng.normal(0, noise, travel.size)
            for x, f in zip(travel, force):
                yield case, f"{x:.1f}", f"{f:.1f}", str(sign)


def read(name):
    with (DATA / name).open(encoding="utf-8") as f:
        return list(csv.reader(line for line in f if not line.startswith("#")))[1:]


def fits():
    rows = read("readings.csv")
    for case, (model, _, _, _, _, bounds) in CASES.items():
        x, f, sign = np.array([[float(v) for v in row[1:]] for row in rows if row[0] == case]).T
        start = [(lo + hi) / 2 for lo, hi in zip(*bounds)]
        values, covariance = curve_fit(model, (x, sign), f, p0=start, bounds=bounds, method="trf", jac="3-point",
                                       x_scale=start, ftol=1e-15, xtol=1e-15, gtol=1e-15, max_nfev=10000)
        for name, value, error in zip(NAMES[case], values, np.sqrt(np.diag(covariance))):
            yield case, name, value, error


def write():
    DATA.mkdir(parents=True, exist_ok=True)
    with (DATA / "readings.csv").open("w", encoding="utf-8") as f:
        f.write("# Made-up readings of springs with normal noise, by .ci/vectors/fit.py; sign is -1 while extending.\n")
        f.write("case,travel_mm,force_N,sign\n")
        for row in readings():
            f.write(",".join(row) + "\n")
    with (DATA / "curve_fit.csv").open("w", encoding="utf-8") as f:
        f.write(f"# What scipy.optimize.curve_fit of scipy {scipy.__version__} (Debian python3-scipy) makes of readings.csv, by\n")
        f.write("# .ci/vectors/fit.py; a parameter on its bound has no standard error that compares.\n")
        f.write("case,parameter,value,standard_error\n")
        for case, name, value, error in fits():
            f.write(f"{case},{name},{value:#.9g},{error:#.6g}\n")


def check():
    for old, new in zip(read("curve_fit.csv"), fits(), strict=True):
        value, error = float(old[2]), float(old[3])
        if tuple(old[:2]) != new[:2] or abs(new[2] - value) > 1e-6 * abs(value) or abs(new[3] - error) > 1e-4 * error:
            yield f"{DATA}/curve_fit.csv: recorded {old}, computed {new}"


def main(args):
    if args == []:
        write()
        return 0
    if args != ["--check"]:
        print(f"usage: {sys.argv[0]} [--check]", file=sys.stderr)
        return 2
    drift = list(check())
    for line in drift:
        print(line, file=sys.stderr)
    return 1 if drift else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
