#!/usr/bin/python3
"""Recompute the recorded motions of damping/ride.

scipy.integrate.solve_ivp (Debian package python3-scipy), DOP853, with events where
friction sticks and slips, for three vehicles written down here from the equations of
motion: a landing on a coil and trapped gas, a fork with dry friction over sine waves, and
a strut of gas and a square-law orifice dropped on its tire, with the gas next to
isothermal and next to adiabatic. With --check the recorded file is compared instead;
drift is a failure.
"""
import csv
import math
import pathlib
import sys

import numpy as np
import scipy
from scipy.integrate import solve_ivp

FILE = pathlib.Path(__file__).resolve().parents[2] / "damping/ride/testdata/motion.csv"
HEADER = ["case", "time_s", "travel_m", "velocity_m_s", "tire_N", "gas_K"]
HOW = f"""\
# Motions of body, wheel and gas: solve_ivp, DOP853, rtol 1e-12, steps of at most 0.5 ms, from .ci/vectors/ride.py,
# which has the vehicles. Friction by events: stuck while the force that would hold the fork is below it.
# Computed with scipy {scipy.__version__} (Debian python3-scipy) and numpy {np.__version__}.
# Regenerate: python3 .ci/vectors/ride.py    Compare: python3 .ci/vectors/ride.py --check
"""
G, AMBIENT, AIR = 9.80665, 101325.0, 293.15
BODY, BODY_V, WHEEL, WHEEL_V, GAS = range(5)


class Vehicle:
    sprung, unsprung, rake = 60.0, 12.0, math.radians(25)
    tire, tire_damping = 120e3, 100.0
    top_out, bottom = 300e3, 1000e3
    travel = 0.2
    rate, preload = 0.0, 0.0
    area, volume, pressure, tau = 0.0, 1.0, AMBIENT, 3.0
    friction = 0.0

    def damper(self, v):
        return 600 * v

    def road(self, t):
        return 0.0, 0.0

    def x(self, y):
        c = math.cos(self.rake)
        return (y[WHEEL] - y[BODY]) / c, (y[WHEEL_V] - y[BODY_V]) / c

    def still(self, x, kelvin):
        inside = min(max(x, 0), self.travel)
        f = self.rate * (inside + self.preload) if self.rate else 0.0
        f += self.area * (self.pressure * self.volume / AIR * kelvin / (self.volume - self.area * x) - AMBIENT)
        if x < 0:
            f += self.top_out * x
        if x > self.travel:
            f += self.bottom * (x - self.travel)
        return f

    def on_ground(self, t, y):
        h, v = self.road(t)
        sink = h - y[WHEEL]
        return max(0.0, self.tire * sink + self.tire_damping * (v - y[WHEEL_V])) if sink > 0 else 0.0

    def hold(self, t, y):
        """The axial friction that keeps the fork from moving."""
        x, v = self.x(y)
        c = math.cos(self.rake)
        free = self.still(x, y[GAS]) + self.damper(v)
        wheel = (self.on_ground(t, y) - free / c) / self.unsprung
        return (wheel - free / c / self.sprung) * c / (1 / self.sprung + 1 / self.unsprung)

    def slope(self, mode):
        c = math.cos(self.rake)

        def f(t, y):
            x, v = self.x(y)
            axial = self.still(x, y[GAS]) + self.damper(v)
            axial += self.hold(t, y) if mode == 0 else mode * self.friction
            volume = self.volume - self.area * x
            return [y[BODY_V], axial / c / self.sprung - G,
                    y[WHEEL_V], (self.on_ground(t, y) - axial / c) / self.unsprung - G,
                    (AIR - y[GAS]) / self.tau + 0.4 * y[GAS] * self.area * v / volume]
        return f

    def rest(self):
        """On the ground, at the travel that carries the body."""
        load = self.sprung * G * math.cos(self.rake)
        lo, hi = 0.0, self.travel
        for _ in range(200):
            mid = (lo + hi) / 2
            lo, hi = (mid, hi) if self.still(mid, AIR) < load else (lo, mid)
        wheel = -(self.sprung + self.unsprung) * G / self.tire
        return [wheel - lo * math.cos(self.rake), 0.0, wheel, 0.0, AIR]

    def falling(self, height):
        """In the air, the fork stretched against its top-out stop."""
        x = 0.0
        for _ in range(100):
            x -= self.still(x, AIR) / self.top_out
        return [height - x * math.cos(self.rake), 0.0, height, 0.0, AIR]

    def run(self, y, times):
        settings = dict(method="DOP853", rtol=1e-12, atol=1e-13, max_step=5e-4)
        out, t, end, mode = {}, 0.0, times[-1], None
        while t < end:
            if mode is None:
                v, held = self.x(y)[1], self.hold(t, y)
                if self.friction == 0:
                    mode = 1
                elif abs(v) > 1e-10:
                    mode = math.copysign(1, v)
                else:
                    mode = 0 if abs(held) < self.friction else math.copysign(1, held)
            events = []
            if self.friction and mode == 0:
                events = [lambda t, y: self.friction - self.hold(t, y), lambda t, y: self.friction + self.hold(t, y)]
            elif self.friction:
                events = [lambda t, y: y[WHEEL_V] - y[BODY_V]]
                if abs(events[0](t, y)) < 1e-10:  # leave the start, where the speed is 0
                    first = solve_ivp(self.slope(mode), (t, t + 1e-7), y, **settings)
                    t, y = first.t[-1], list(first.y[:, -1])
            for e in events:
                e.terminal = True
            s = solve_ivp(self.slope(mode), (t, end), y, events=events, dense_output=True, **settings)
            for k in times:
                if t <= k <= s.t[-1] and k not in out:
                    out[k] = s.sol(k)
            t, y, last = s.t[-1], list(s.y[:, -1]), mode
            mode = None
            if s.status == 1 and last != 0:
                y[WHEEL_V] = y[BODY_V]
            elif s.status == 1:
                mode = math.copysign(1, self.hold(t, y))
        return [(k, *self.x(out[k]), self.on_ground(k, out[k]), out[k][GAS]) for k in times]


class Landing(Vehicle):
    rate, preload = 6000.0, 0.01
    area, volume = 18e-4, 250e-6 + 18e-4 * 0.2


class Waves(Vehicle):
    rate, preload, friction = 9000.0, 0.005, 70.0
    amplitude, frequency = 0.02, 2.5

    def road(self, t):
        w = 2 * math.pi * self.frequency
        phase = w * t
        if phase >= 2 * math.pi:
            return self.amplitude * math.sin(phase), self.amplitude * w * math.cos(phase)
        weight = math.sin(phase / 4) ** 2
        rise = math.sin(phase / 4) * math.cos(phase / 4) / 2 * w
        return (self.amplitude * weight * math.sin(phase),
                self.amplitude * (weight * w * math.cos(phase) + rise * math.sin(phase)))


class Strut(Vehicle):
    rake = 0.0
    area, volume, pressure = math.pi / 4 * 0.04 ** 2, 330e-6, 5e5 + AMBIENT

    def damper(self, v):
        return 900 * v * abs(v)


class SlowStrut(Strut):
    tau = 0.01


class FastStrut(Strut):
    tau = 3600.0


def rows():
    times = [0.05 * k for k in range(1, 25)]
    landing, waves = Landing(), Waves()
    cases = [("landing", landing, landing.falling(0.5)), ("waves", waves, waves.rest())]
    for name, strut in (("strut, isothermal", SlowStrut()), ("strut, adiabatic", FastStrut())):
        cases.append((name, strut, strut.falling(0.3)))
    for name, vehicle, start in cases:
        for row in vehicle.run(start, times):
            yield [name, *row]


def main():
    made = [[r[0], f"{r[1]:.2f}"] + [f"{v:.8e}" for v in r[2:]] for r in rows()]
    if "--check" not in sys.argv:
        with FILE.open("w", newline="") as f:
            f.write(HOW)
            csv.writer(f, lineterminator="\n").writerows([HEADER] + made)
        return
    with FILE.open() as f:
        kept = list(csv.reader(line for line in f if not line.startswith("#")))[1:]
    worst = 0.0
    for a, b in zip(kept, made, strict=True):
        assert a[:2] == b[:2], (a, b)
        for u, v, scale in zip(a[2:], b[2:], (1e-3, 0.1, 1000, 300)):
            worst = max(worst, abs(float(u) - float(v)) / max(abs(float(u)), scale))
    print(f"{FILE.name}: largest difference {worst:.1e}")
    if worst > 1e-6:
        sys.exit(1)


main()
