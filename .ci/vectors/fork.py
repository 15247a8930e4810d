#!/usr/bin/python3
"""Recompute the recorded forks of spring/setup and the oil levels of oil.

Statics and the laws of Boyle and of a polytrope, written down apart from the library: gas spaces of area A, volume
V0 and pressure p0 at full extension give A (p0 (V0/(V0 - A x))^n - pa). The forks are generic, typical values from
memory. With --check the recorded files are compared instead; drift is a failure.
"""
import csv
import math
import pathlib
import sys

ROOT = pathlib.Path(__file__).resolve().parents[2]
PA, T0 = 101325.0, 293.15  # the room
HOW = """\
# {}
# Computed by .ci/vectors/fork.py, which has the formulas and the forks.
# Regenerate: python3 .ci/vectors/fork.py    Compare: python3 .ci/vectors/fork.py --check
"""


def circle(mm):
    return math.pi / 4 * (mm * 1e-3) ** 2


def standard(z):
    """Pressure of the U.S. Standard Atmosphere, 1976, at a geometric altitude."""
    h = 6356766 * z / (6356766 + z)
    return 101325 * (1 - 0.0065 * h / 288.15) ** (9.80665 * 0.0289644 / (8.31432 * 0.0065))


class Fork:
    """Springs as (rate, preload), top-out springs as (rate, length), gas as (area, volume, pressure, trapped)."""

    def __init__(self, travel, springs=(), tops=(), gas=(), linked=None):
        self.travel, self.springs, self.tops, self.gas, self.linked = travel, springs, tops, list(gas), linked

    def force(self, x, n, settled=0.0, ratio=1.0, ambient=PA, vented=False):
        f = sum(k * (x + x0) for k, x0 in self.springs) - sum(k * max(0, l - x) for k, l in self.tops)
        for i, (a, v, p, trapped) in enumerate(self.gas):
            p *= ratio
            if trapped and vented:
                p = ambient
            at_rest = v + (self.linked if i == 0 and self.linked else 0)  # an orifice is open at rest
            held = p * at_rest / (at_rest - a * settled)
            v -= a * settled
            if n == 1 and i == 0 and self.linked:
                v = at_rest - a * settled
            f += a * (held * (v / (v - a * (x - settled))) ** n - ambient)
        return f

    def sag(self, load, **state):
        lo, hi = 0.0, self.travel
        if self.force(lo, 1, **state) >= load:
            return lo
        for _ in range(200):
            m = (lo + hi) / 2
            lo, hi = (m, hi) if self.force(m, 1, **state) < load else (lo, m)
        return lo


def gap(travel, stanchion, rod, share):
    a = circle(stanchion) - circle(rod)
    return (a, a * travel * (1 + share), PA, True)


def air(travel, stanchion, gap_rod, share, bore, rod, volume, negative, gauge, linked=None):
    p, a = gauge * 1e5 + PA, circle(bore)
    g = gap(travel, stanchion, gap_rod, share)
    return Fork(travel, gas=[(a, volume * 1e-6, p, False), (circle(rod) - a, negative * 1e-6, p, False), g, g],
                linked=linked and linked * 1e-6)


def coil(travel, stanchion, rod, share, rate, preload, springs):
    g = gap(travel, stanchion, rod, share)
    return Fork(travel, springs=[(rate * 1e3, preload * 1e-3)] * springs, gas=[g, g])


def road():
    a = circle(43)
    v = (circle(39.5) + circle(48) - circle(43)) * 0.100 - 80e-6 + a * 0.120
    return Fork(0.120, springs=[(9500, 0.015)] * 2, gas=[(a, v, PA, True)] * 2)


def whole_leg():
    return Fork(0.305, tops=[(4000, 0.095)] * 2, gas=[(circle(47.3), 770e-6, 2.2e5 + PA, False)] * 2)


MOTOCROSS = (0.305, 48, 0, 0.55, 34, 12, 430, 70)
ENDURO = (0.170, 36, 10, 1, 33.2, 10, 258, 80)
FORKS = {
    "motocross air": (air(*MOTOCROSS, 9.6), 682), "motocross coil": (coil(0.305, 48, 12.5, 0.3, 4.9, 6, 2), 689),
    "enduro bicycle air": (air(*ENDURO, 6.0), 319), "enduro bicycle coil": (coil(0.170, 36, 10, 1, 8.3, 3, 1), 319),
    "downhill bicycle air": (air(0.200, 40, 10, 1, 36.8, 10, 370, 150, 4.7), 336),
    "motocross whole-leg air": (whole_leg(), 649), "road sport coil": (road(), 1101),
    "cross-country bicycle": (air(0.100, 32, 9, 1, 29, 9, 128, 24, 7.3), 271),
    "linked auxiliary volume": (air(*MOTOCROSS, 9.6, linked=120), 682),
    "motocross air, 5 % less": (air(*MOTOCROSS, 0.95 * 9.6), 682),
    "enduro bicycle air, 5 % less": (air(*ENDURO, 0.95 * 6.0), 319),
    "enduro bicycle air, 10 mL reducer": (air(*ENDURO[:6], 248, 80, 6.0), 319),
}


def forks():
    for name, (f, load) in FORKS.items():
        for share in (0, 0.1, 0.25, 0.5, 0.75, 0.9, 1):
            x = share * f.travel
            for n in (1, 1.3):
                yield [name, f"force n={n}", f"{x * 1e3:.6g}", f.force(x, n)]
            yield [name, "force n=1.4 about 40 mm", f"{x * 1e3:.6g}", f.force(x, 1.4, settled=0.040)]
        for kelvin in (-30, -20, 0, 20, 40):
            yield [name, "sag", f"{load} N {kelvin} K", 1e3 * f.sag(load, ratio=(T0 + kelvin) / T0)]
        for z in (1000, 3000):
            away = standard(z)
            yield [name, "sag", f"{load} N {z} m", 1e3 * f.sag(load, ambient=away)]
            yield [name, "sag vented", f"{load} N {z} m", 1e3 * f.sag(load, ambient=away, vented=True)]


def levels():
    """Two oil legs with coils: gap by level, 75 mL of metal in the oil, closed at the room's pressure, n = 1.3."""
    inverted = (0.300, circle(48), circle(44) + circle(54) - circle(48), 8800, 0.008, range(140, 50, -10))
    upright = (0.125, circle(41), circle(37.5), 17000, 0.018, (160, 140, 130, 120, 110, 100, 90, 80, 70))
    for name, (travel, area, column, rate, preload, list_) in (("inverted", inverted), ("upright", upright)):
        for level in list_:
            residual = level * 1e-3 * column - 75e-6
            v = residual + area * travel

            def force(x):
                return rate * (x + preload) + 2 * area * PA * ((v / (v - area * x)) ** 1.3 - 1)

            yield [name, level, v / residual, force(0.66 * travel), force(travel),
                   PA * ((v / residual) ** 1.3 - 1) / 1e5]


FILES = {
    "spring/setup/testdata/fork.csv": (
        "Forks in N and mm: force along the stroke, sag under a load after soaking, and aloft.",
        ["fork", "what", "at", "value"], forks),
    "oil/testdata/level.csv": (
        "Oil level in mm: compression ratio, force of the whole fork at 66 % and the end of travel, gap in bar.",
        ["fork", "level_mm", "ratio", "force66_N", "force_N", "gap_bar"], levels),
}


def main():
    for name, (title, header, rows) in FILES.items():
        made = [[f"{v:.12g}" if isinstance(v, float) else str(v) for v in row] for row in rows()]
        path = ROOT / name
        if "--check" not in sys.argv:
            with path.open("w", newline="") as f:
                f.write(HOW.format(title))
                csv.writer(f, lineterminator="\n").writerows([header] + made)
            continue
        with path.open() as f:
            kept = list(csv.reader(line for line in f if not line.startswith("#")))[1:]
        if len(kept) != len(made):
            sys.exit(f"{name}: {len(kept)} rows, {len(made)} computed")
        for a, b in zip(kept, made):
            for x, y in zip(a, b):
                if x != y and abs(float(x) - float(y)) > 1e-10 * max(1, abs(float(y))):
                    sys.exit(f"{name}: {a} is recorded, {b} computed")
        print(f"{name}: {len(made)} rows agree")


main()
