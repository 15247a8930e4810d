#!/usr/bin/python3
"""Recompute the recorded vectors of spring/gas and internal/ode that need scipy.

scipy.integrate.solve_ivp (Debian package python3-scipy) integrates the energy
equation of a gas in a cycle, and named test problems of initial value solvers.
With --check the recorded files are compared instead; drift is a failure.
"""
import csv
import math
import pathlib
import sys

import numpy as np
import scipy
from scipy.integrate import solve_ivp

ROOT = pathlib.Path(__file__).resolve().parents[2]
GAMMA = 1.4
RELATIVE = 2e-8  # of the recorded digits, between builds of scipy

HOW = f"""\
# Computed with scipy {scipy.__version__} (Debian python3-scipy) and numpy {np.__version__}.
# Regenerate: python3 .ci/vectors/gas_process.py    Compare: python3 .ci/vectors/gas_process.py --check
"""

# pressure bar, volume mL, wall temperature K, amplitude/volume, frequency Hz, time constant s
CYCLES = [
    (10.6, 300, 293.15, 0.001, 0.05, 2.9),
    (10.6, 300, 293.15, 0.1, 0.02, 2.9),
    (10.6, 300, 293.15, 0.3, 0.046385, 2.9),
    (10.6, 300, 293.15, 0.3, 0.2, 2.9),
    (10.6, 300, 293.15, 0.5, 1.0, 2.9),
    (10.6, 300, 263.15, 0.5, 0.1, 2.9),
    (7.0, 180, 293.15, 0.7, 0.05, 2.5),
    (7.0, 180, 293.15, 0.7, 3.0, 2.5),
    (1.0, 250, 293.15, 0.8, 0.1, 1.7),
    (1.0, 250, 313.15, 0.8, 0.01, 1.0),
]


def cycle(bar, ml, wall, swing, f, tau):
    """Temperature equation in time, from rest, until the start has died away."""
    omega, p0, v0 = 2 * math.pi * f, bar * 1e5, ml * 1e-6

    def slope(t, y):
        v, dv = 1 + swing * math.sin(omega * t), swing * omega * math.cos(omega * t)
        p = p0 * y[0] / wall / v
        return [(wall - y[0]) / tau - (GAMMA - 1) * y[0] * dv / v,
                -p * v0 * dv,
                p / p0 * math.sin(omega * t) * omega / math.pi,
                p / p0 * math.cos(omega * t) * omega / math.pi]

    cycles = max(2, math.ceil(30 * tau * f))
    settings = {"method": "DOP853", "rtol": 1e-12, "atol": 1e-13}
    run = solve_ivp(lambda t, y: slope(t, y)[:1], (0, cycles / f), [wall], **settings)
    quarters = [k / 4 / f for k in range(5)]
    last = solve_ivp(slope, (0, 1 / f), [run.y[0, -1], 0, 0, 0], t_eval=quarters, **settings)
    temperature, (loss, rising, leading) = last.y[0], last.y[1:, -1]
    high, low = temperature[3] / (1 - swing), temperature[1] / (1 + swing)
    exponent = math.log(high / low) / math.log((1 + swing) / (1 - swing))
    return [loss, exponent, leading / rising, *temperature[:4]]


def cycles():
    for c in CYCLES:
        yield ",".join([*map(str, c), *(f"{x:#.10g}" for x in cycle(*c))])


def kepler(_, y):
    r = math.hypot(y[0], y[1])**3
    return [y[2], y[3], -y[0] / r, -y[1] / r]


def predators(_, y):
    return [2 * (y[0] - y[0] * y[1]), -(y[1] - y[0] * y[1])]


def pendulum(mu):
    return lambda _, y: [y[1], mu * (1 - y[0]**2) * y[1] - y[0]]


# name, equation, start, end
PROBLEMS = [
    ("kepler 0.5", kepler, [0.5, 0, 0, math.sqrt(3)], 20),
    ("kepler 0.9", kepler, [0.1, 0, 0, math.sqrt(19)], 20),
    ("predators", predators, [1, 3], 20),
    ("van der pol 1", pendulum(1), [2, 0], 20),
    ("van der pol 10", pendulum(10), [2, 0], 20),
]


def problems():
    for name, f, start, end in PROBLEMS:
        exact = solve_ivp(f, (0, end), start, method="DOP853", rtol=3e-14, atol=1e-15).y[:2, -1]
        row = [name, f"{end}", *(f"{x:.10f}" for x in exact)]
        for rtol, atol in [(1e-6, 1e-9), (1e-9, 1e-12)]:
            run = solve_ivp(f, (0, end), start, method="RK45", rtol=rtol, atol=atol)
            row += [f"{max(abs(run.y[:2, -1] - exact)):.3g}", str(run.nfev)]
        yield ",".join(row)


RECORDS = [
    ("spring/gas/testdata/cycle.csv", """\
# Steady cycle of a gas with first-order heat exchange, sinusoidal volume about the one at rest, gamma = 1.4:
# solve_ivp, DOP853, rtol 1e-12, on temperature against time from rest until the start has died away.
# Loss is the loop area; the exponent is between the ends of the stroke; loss factor of the first harmonic;
# temperatures at rest volume, largest, rest and smallest volume.
""", "bar,mL,wall_K,swing,Hz,tau_s,loss_J,exponent,loss_factor,T0_K,T1_K,T2_K,T3_K", cycles),
    ("internal/ode/testdata/solve_ivp.csv", """\
# Test problems of initial value solvers: first two components at the end by DOP853 at rtol 3e-14, and the
# error and number of evaluations of RK45 (Dormand and Prince) at rtol, atol = 1e-6, 1e-9 and 1e-9, 1e-12.
# Kepler orbits of eccentricity 0.5 and 0.9 (D3 and D5) and predators and prey (B1) of Hull, Enright, Fellen and
# Sedgwick, SIAM J. Numer. Anal. 9 (1972) 603; van der Pol's oscillator from (2, 0).
""", "problem,end,y0,y1,error_6,evaluations_6,error_9,evaluations_9", problems),
]


def drifted(recorded, computed, column):
    if column.startswith(("error", "evaluations")):
        return abs(float(recorded) - float(computed)) > 0.05 * float(computed)
    try:
        a, b = float(recorded), float(computed)
    except ValueError:
        return recorded != computed
    return abs(a - b) > RELATIVE * max(1e-2, abs(b))


def main(args):
    if args not in ([], ["--check"]):
        print(f"usage: {sys.argv[0]} [--check]", file=sys.stderr)
        return 2
    drift = 0
    for name, header, columns, rows in RECORDS:
        path = ROOT / name
        if not args:
            path.parent.mkdir(parents=True, exist_ok=True)
            path.write_text(header + HOW + columns + "\n" + "\n".join(rows()) + "\n", encoding="utf-8")
            continue
        with path.open(encoding="utf-8") as f:
            recorded = list(csv.reader(line for line in f if not line.startswith("#")))
        computed = [columns.split(",")] + [row.split(",") for row in rows()]
        if recorded[0] != computed[0] or len(recorded) != len(computed):
            print(f"{name}: {len(recorded)} lines, computed {len(computed)}", file=sys.stderr)
            drift += 1
        for a, b in zip(recorded[1:], computed[1:]):
            if any(map(drifted, a, b, computed[0])):
                print(f"{name}: recorded {a}, computed {b}", file=sys.stderr)
                drift += 1
    return 1 if drift else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
