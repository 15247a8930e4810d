#!/usr/bin/python3
"""Recompute the recorded posteriors of spring/bench.

Five sets of readings of one fork, its forces written down here from the gas law and the
lever of the machine alone. The best fork by scipy.optimize.least_squares (Debian package
python3-scipy) with the covariance (1 + JᵀJ)⁻¹, and mean and standard deviation of a plain
Metropolis chain, many of them side by side. With --check the recorded file is compared
instead; drift is a failure.
"""
import csv
import math
import pathlib
import sys

import numpy as np
import scipy
from scipy.optimize import least_squares

FILE = pathlib.Path(__file__).resolve().parents[2] / "spring/bench/testdata/posterior.csv"
HEADER = ["case", "row", "name", "travel_or_load", "gauge_Pa", "read", "sd",
          "best", "best_sd", "mean", "mean_sd"]
HOW = f"""\
# Readings (SI) and what is known after them, from .ci/vectors/bench.py, which has the fork. best, best_sd:
# least_squares and (1 + JᵀJ)⁻¹; mean, mean_sd: a Metropolis chain, seed 7. For an unknown sd is that before.
# Computed with scipy {scipy.__version__} (Debian python3-scipy) and numpy {np.__version__}.
# Regenerate: python3 .ci/vectors/bench.py    Compare: python3 .ci/vectors/bench.py --check
"""
G, AMBIENT, TRAVEL, RAKE = 9.80665, 0.985e5, 0.305, math.radians(27.2)
PISTON = math.pi / 4 * 0.034**2
RING = PISTON - math.pi / 4 * 0.012**2
LEG = math.pi / 4 * (0.048**2 - 0.012**2)
COLUMN = math.pi / 4 * 0.044**2

# Unknowns: value and standard uncertainty before.
PRIOR = {
    "friction": (84, 25), "gauge": (0, 1e4), "left.air.volume": (430e-6, 26e-6),
    "left.air.negative-volume": (70e-6, 10e-6),
    "left.interior": (900e-6, 50e-6), "left.metal": (40e-6, 6e-6), "right.gap": (304e-6, 30e-6),
    "front-share-ridden": (0.47, 0.018), "unsprung-mass": (15.3, 1.2), "damping-ratio": (0.4, 0.12),
    "offset": (0.056, 0.003),
}
SIGNED = {"gauge", "offset"}

# Cases: unknowns, and readings as kind, travel or load, pressure set to, read, standard uncertainty.
CASES = {
    "sag": (["friction", "left.air.volume", "left.air.negative-volume", "front-share-ridden"],
            [("sag-above", 79, 0, 0.066, 0.002), ("sag-below", 79, 0, 0.088, 0.002),
             ("sag-middle", 79, 7e5, 0.121, 0.002)]),
    "scale": (["friction", "gauge", "left.air.volume", "left.air.negative-volume", "right.gap"],
              [("force-in", 0.15, 0, 1400, 10), ("force-out", 0.15, 0, 1210, 10), ("force-in", 0.25, 7e5, 2090, 15),
               ("pressed", 1200, 5e5, 0.197, 0.001), ("breakaway", 0, 0, 110, 8)]),
    "oil": (["left.interior", "left.metal", "damping-ratio", "offset"],
            [("oil-to-mark", 0.16, 0, 690e-6, 4e-6), ("rise", 0, 0, 0.024, 0.0015),
             ("decay", 1, 0, 2.2, 0.15), ("trail", 0, 0, 0.111, 0.004)]),
    "air": (["gauge", "left.air.volume", "left.air.negative-volume", "unsprung-mass"],
            [("shown", 0.25, 3e5, 7.9e5, 1e4), ("pumped-in", 500e-6, 4e5, 1.02e5, 5e3),
             ("wheel-mass", 0, 0, 14.6, 0.3)]),
    "odd": (["friction", "gauge", "left.air.volume", "left.interior", "front-share-ridden", "unsprung-mass"],
            [("sag-above", 79, 0, 0.060, 0.002), ("sag-below", 79, 0, 0.085, 0.002), ("shown", 0.25, 3e5, 9.0e5, 1e4),
             ("oil-to-mark", 0.14, 0, 700e-6, 4e-6), ("wheel-mass", 0, 0, 15.0, 0.1), ("force-in", 0.28, 0, 3300, 15)]),
}


def value(name, z):
    """Of an unknown at z: straight, and bent near 0 where it is above 0."""
    center, sd = PRIOR[name]
    if name in SIGNED:
        return center + sd * z
    bend = max(center / 10, sd / 3)
    at0 = center + bend * np.log(-np.expm1(-center / bend))
    return bend * np.logaddexp(0, (at0 + sd * z) / bend)


def fork(names, z):
    known = {name: np.full(z.shape[1:], float(PRIOR[name][0])) for name in PRIOR}
    known.update({name: value(name, z[i]) for i, name in enumerate(names)})
    return known


def shown(f, x, pressure):
    v = f["left.air.volume"]
    return pressure * v / (v - PISTON * x) - AMBIENT


def force(f, x, pressure):
    n = f["left.air.negative-volume"]
    total = PISTON * shown(f, x, pressure) - RING * (pressure * n / (n + RING * x) - AMBIENT)
    for residual in (f["left.interior"] - f["left.metal"] - 556e-6, f["right.gap"]):
        closed = residual + LEG * TRAVEL
        total = total + LEG * AMBIENT * (closed / (closed - LEG * x) - 1)
    return total


def rest(f, load, pressure):
    low, high = np.zeros_like(load), np.full_like(load, TRAVEL)
    for _ in range(44):
        x = (low + high) / 2
        below = force(f, x, pressure) < load
        low, high = np.where(below, x, low), np.where(below, high, x)
    return (low + high) / 2


def model(f, kind, at, gauge):
    pressure = AMBIENT + (gauge or 9e5) - f["gauge"]
    ridden = (f["front-share-ridden"] * (111 + 79) - f["unsprung-mass"]) * G * math.cos(RAKE)
    zeta = f["damping-ratio"]
    match kind:
        case "sag-above":
            return rest(f, ridden - f["friction"], pressure)
        case "sag-below":
            return rest(f, ridden + f["friction"], pressure)
        case "sag-middle":
            return rest(f, ridden, pressure)
        case "pressed":
            return rest(f, np.full_like(f["friction"], at), pressure)
        case "force-in" | "breakaway":
            return force(f, at, pressure) + f["friction"]
        case "force-out":
            return force(f, at, pressure) - f["friction"]
        case "shown":
            return shown(f, at, pressure) + f["gauge"]
        case "pumped-in":
            return AMBIENT * at / (f["left.air.volume"] + f["left.air.negative-volume"])
        case "oil-to-mark":
            return f["left.interior"] - COLUMN * at
        case "rise":
            return f["left.metal"] / COLUMN
        case "decay":
            return 2 * math.pi * zeta / np.sqrt(1 - zeta**2) * at
        case "trail":
            return (0.345 * math.sin(RAKE) - f["offset"]) / math.cos(RAKE)
        case "wheel-mass":
            return f["unsprung-mass"]
    raise ValueError(kind)


def rows():
    for case, (names, readings) in CASES.items():
        n = len(names)

        def misses(z):
            f = fork(names, z)
            read = [(model(f, kind, at, gauge) - y) / sd for kind, at, gauge, y, sd in readings]
            return np.array(read + [z[i] for i in range(n)])

        best = least_squares(misses, np.zeros(n), jac="3-point", xtol=1e-14, ftol=1e-14, gtol=1e-14, x_scale=1.0).x
        h = 1e-4
        jac = np.column_stack([(misses(best + h * e) - misses(best - h * e)) / (2 * h) for e in np.eye(n)])
        covariance = np.linalg.inv(jac.T @ jac)
        r = np.random.default_rng(7)
        root = np.linalg.cholesky(covariance)
        z = best[:, None] + root @ r.standard_normal((n, 400))
        square, kept = (misses(z)**2).sum(axis=0), []
        for i in range(1500):
            trial = z + 2.38 / math.sqrt(n) * root @ r.standard_normal(z.shape)
            there = (misses(trial)**2).sum(axis=0)
            accept = np.log(r.random(400)) < (square - there) / 2
            z, square = np.where(accept, trial, z), np.where(accept, there, square)
            if i >= 300:
                kept.append(fork(names, z))
        for kind, at, gauge, y, sd in readings:
            yield [case, "reading", kind, at, gauge, y, sd, "", "", "", ""]
        for i, name in enumerate(names):
            chain = np.array([f[name] for f in kept])
            slope = (value(name, best[i] + h) - value(name, best[i] - h)) / (2 * h)
            yield [case, "unknown", name, "", "", "", PRIOR[name][1], value(name, best[i]),
                   slope * math.sqrt(covariance[i, i]), chain.mean(), chain.std()]


def text(cell):
    return f"{cell:.9g}" if isinstance(cell, (int, float)) else cell


def main():
    new = [[text(cell) for cell in row] for row in rows()]
    if sys.argv[1:] != ["--check"]:
        with open(FILE, "w", newline="") as f:
            f.write(HOW)
            w = csv.writer(f, lineterminator="\n")
            w.writerow(HEADER)
            w.writerows(new)
        return
    old = list(csv.reader(line for line in open(FILE) if not line.startswith("#")))
    assert old[0] == HEADER and len(old) == len(new) + 1, "other rows"
    for a, b in zip(old[1:], new):
        assert a[:7] == b[:7], f"recorded {a}, computed {b}"
        if a[1] == "unknown":
            best, sd, mean, width = map(float, a[7:])
            other = [float(cell) for cell in b[7:]]
            drift = [abs(other[0] - best) / sd * 1e5, abs(other[1] / sd - 1) * 1e5,
                     abs(other[2] - mean) / width * 50, abs(other[3] / width - 1) * 50]
            assert max(drift) < 1, f"recorded {a}, computed {b}"
    print(len(new), "rows agree")


main()
