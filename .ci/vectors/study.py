#!/usr/bin/python3
"""Recompute the recorded Monte Carlo studies of spring/setup.

Sag at rest, energy of a full stroke ridden, and change of sag elsewhere, of a coil fork and of an air
fork whose numbers are normal about their own: JCGM 101:2008, with two million samples of each. The forces
are written down here from the gas law. With --check the recorded file is compared instead; drift is a
failure.
"""
import math
import pathlib
import sys

import numpy as np

FILE = pathlib.Path(__file__).resolve().parents[2] / "spring/setup/testdata/study.csv"
HOW = f"""\
# Mean, standard deviation, 2.5 % and 97.5 % quantile (SI) of 2 million random forks, by .ci/vectors/study.py, which has
# the forks and the errors. Computed with numpy {np.__version__}, PCG64, seed 1.
# Regenerate: python3 .ci/vectors/study.py    Compare: python3 .ci/vectors/study.py --check
case,answer,mean,deviation,low,high
"""
HERE, COLD, TRAVEL = 0.985e5, 293.15, 0.305
LEG = math.pi / 4 * (0.048**2 - 0.012**2)
PISTON = math.pi / 4 * 0.034**2
RING = PISTON - math.pi / 4 * 0.012**2
SAMPLES, CHUNK = 2_000_000, 20_000


class Fork:
    """Random forks: the linear part, and chambers of area, volume and pressure extended."""

    def __init__(self, kind, random):
        def normal(mean, deviation):
            return mean + deviation * random.standard_normal(CHUNK)
        self.load = normal(690, 10) + normal(0, 4) + normal(0, 31) + normal(0, 19 / math.sqrt(2))
        self.exponent = np.maximum(1, normal(1.3, 0.05))
        self.there = normal(0.747e5, 750)
        self.warmer = normal(277.15, 2) / COLD
        self.rate, self.preload = 0.0, 0.0
        left = (LEG, normal(155e-6, 2.5e-6) + LEG * TRAVEL, HERE)
        right = (LEG, normal(285e-6, 2.5e-6) + LEG * TRAVEL, HERE)
        self.gases = [left, right]
        if kind == "coil":
            self.rate = 8400 * normal(1, 0.02)
            self.preload = normal(0.004, 0.0005) + normal(0, 0.003)
            return
        main = normal(430e-6, 0.06 * 430e-6) - 10e-6
        negative = normal(60e-6, 0.06 * 60e-6)
        pressure = (normal(9e5, 1e4) + 1e5) * COLD / 299.15
        port = 0.005
        met = pressure * main / (main - PISTON * port)
        self.gases += [(PISTON, main, pressure), (-RING, negative, met * (negative + RING * port) / negative)]

    def force(self, x, rise, outer):
        total = self.rate * (x + self.preload)
        for area, volume, pressure in self.gases:
            total = total + area * (pressure * rise * volume / (volume - area * x) - outer)
        return total

    def rest(self, rise, outer):
        low, high = np.zeros(CHUNK), np.full(CHUNK, TRAVEL)
        for _ in range(46):
            x = (low + high) / 2
            below = self.force(x, rise, outer) < self.load
            low, high = np.where(below, x, low), np.where(below, high, x)
        return (low + high) / 2

    def energy(self):
        n = self.exponent
        m = np.where(n > 1, n - 1, 1e-9)
        total = self.rate * ((TRAVEL + self.preload)**2 - self.preload**2) / 2
        for area, volume, pressure in self.gases:
            ratio = volume / (volume - area * TRAVEL)
            total = total + pressure * volume * np.expm1(m * np.log(ratio)) / m - HERE * area * TRAVEL
        return total


def rows():
    for kind in ("coil", "air"):
        random = np.random.Generator(np.random.PCG64(1))
        chunks = []
        for _ in range(SAMPLES // CHUNK):
            f = Fork(kind, random)
            here = f.rest(1, HERE)
            chunks.append((here, f.energy(), f.rest(f.warmer, f.there) - here))
        for name, part in zip(("sag", "energy", "drift"), zip(*chunks)):
            y = np.concatenate(part)
            yield [kind, name, y.mean(), y.std(ddof=1), *np.quantile(y, [0.025, 0.975])]


def main():
    lines = [",".join(str(c) if isinstance(c, str) else f"{c:.10g}" for c in row) for row in rows()]
    if "--check" not in sys.argv[1:]:
        FILE.write_text(HOW + "\n".join(lines) + "\n", encoding="utf-8")
        return 0
    kept = [line for line in FILE.read_text(encoding="utf-8").splitlines() if not line.startswith(("#", "case"))]
    for old, new in zip(kept, lines, strict=True):
        deviation = float(new.split(",")[3])
        for a, b in zip(old.split(",")[2:], new.split(",")[2:]):
            if not abs(float(a) - float(b)) <= 0.01 * deviation:  # another generator may draw others
                print(f"{FILE.name}: {old} is now {new}")
                return 1
    return 0


if __name__ == "__main__":
    sys.exit(main())
