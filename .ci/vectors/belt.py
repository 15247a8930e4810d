#!/usr/bin/python3
"""Recompute the recorded stick-slip of internal/ode.

A mass on a spring and on a belt that moves at a steady speed (the numbers are those of
Leine, van Campen, de Kraker and van den Steen, Nonlinear Dynamics 16 (1998) 41, from
memory): it sticks until the spring overcomes the static friction, then slips under a
friction that falls with the speed of slip. scipy.integrate.solve_ivp (Debian package
python3-scipy), DOP853, with terminal events.
With --check the recorded file is compared instead; drift is a failure.
"""
import csv
import pathlib
import sys

import numpy as np
import scipy
from scipy.integrate import solve_ivp

FILE = pathlib.Path(__file__).resolve().parents[2] / "internal/ode/testdata/belt.csv"
HEADER = ["event", "time", "position", "speed"]
HOW = f"""\
# Stick-slip on a belt: mass 1, spring 1, belt 0.2, static friction 1, that of slip 1/(1 + 3 |slip|), from rest on
# the belt at the origin. Where it sticks and slips, by the terminal events of solve_ivp, DOP853, rtol 1e-12.
# Computed with scipy {scipy.__version__} (Debian python3-scipy) and numpy {np.__version__}.
# Regenerate: python3 .ci/vectors/belt.py    Compare: python3 .ci/vectors/belt.py --check
"""
BELT, STATIC, FALL = 0.2, 1.0, 3.0


def stuck(t, y):
    return [BELT, 0.0]


def slipping(t, y):  # always slower than the belt, which pulls it on
    return [y[1], -y[0] + STATIC / (1 + FALL * (BELT - y[1]))]


def rows():
    t, y = 0.0, [0.0, BELT]
    for k in range(12):
        law, event = (stuck, lambda t, y: STATIC - y[0]) if k % 2 == 0 else (slipping, lambda t, y: BELT - y[1])
        event.terminal = True
        settings = dict(method="DOP853", rtol=1e-12, atol=1e-14)
        if law is slipping:  # leave the start, where the slip is 0
            first = solve_ivp(law, (t, t + 1e-3), y, **settings)
            t, y = first.t[-1], first.y[:, -1]
        s = solve_ivp(law, (t, t + 100), y, events=event, max_step=0.05, **settings)
        t, y = s.t[-1], s.y[:, -1]
        yield ["slips" if k % 2 == 0 else "sticks", f"{t:.9f}", f"{y[0]:.9f}", f"{y[1]:.9f}"]


def main():
    made = list(rows())
    if "--check" not in sys.argv:
        with FILE.open("w", newline="") as f:
            f.write(HOW)
            csv.writer(f, lineterminator="\n").writerows([HEADER] + made)
        return
    with FILE.open() as f:
        kept = list(csv.reader(line for line in f if not line.startswith("#")))[1:]
    worst = 0.0
    for a, b in zip(kept, made, strict=True):
        assert a[0] == b[0], (a, b)
        worst = max(worst, *(abs(float(u) - float(v)) for u, v in zip(a[1:], b[1:])))
    print(f"{FILE.name}: largest difference {worst:.1e}")
    if worst > 1e-7:
        sys.exit(1)


main()
