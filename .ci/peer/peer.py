#!/usr/bin/python3
"""The work of library.go by NumPy and SciPy; peer.py STUDY prints lines as c/peer.h says."""
import json
import math
import sys
import time

import numpy as np
from scipy.integrate import solve_ivp
from scipy.optimize import least_squares

RATE, PRELOAD, END, N, PA = 2500.0, 0.012, 0.3, 1.3, 101325.0
GAS = ((7.5e-4, 0.38, 9e5), (-7.0e-4, 0.08, 7e5), (9.0e-4, 0.45, PA))  # area, length at extension, pressure
STUDY = json.load(open(sys.argv[1]))


def report(work, who, do, units=1, least_time=0.02):
    def spend(n):
        start = time.process_time()
        for _ in range(n):
            answer = do()
        return time.process_time() - start, answer

    n = 1
    while (t := spend(n)[0]) < least_time / 2:
        n *= 2
    n = int(n * least_time / t) + 1
    times = [spend(n) for _ in range(5 if t < 0.5 else 1)]
    print(f"{work}\t{who}\t{min(t for t, _ in times) / n / units:.9g}\t{times[0][1]:.12g}", flush=True)


def force(x):
    f = RATE * (x + PRELOAD)
    for a, l, p in GAS:
        s = -1 if a < 0 else 1
        f = f + a * (p * (l / (l - s * x)) ** N - PA)
    return f


def points(x):
    f, k, e = RATE * (x + PRELOAD), np.full_like(x, RATE), RATE * x * (x / 2 + PRELOAD)
    for a, l, p in GAS:
        s = -1 if a < 0 else 1
        w = l - s * x
        q = p * (l / w) ** N
        f += a * (q - PA)
        k += s * a * N * q / w
        e += s * a * (q * w - p * l) / (N - 1) - a * PA * x
    return f, k, e


def curves():
    x = END * np.arange(1000) / 1000
    report("force", "NumPy", lambda: force(x)[500], 1000)

    def all_three():
        f, _, e = points(x)
        return f[500] + e[500]

    report("points", "NumPy", all_three, 1000)


def match():
    x, area = np.linspace(0, 0.17, 61), 9.6e-4
    low, high = np.array([2.0, 0.0, 175.0]), np.array([12.0, 30.0, 400.0])
    for work, l1, l2, p in (("fit", 0.24, 0.04, 8e5), ("fit on a bound", 0.215, 0.06, 9e5)):
        want = 7.5e-4 * (p * (l1 / (l1 - x)) ** N - PA) - 7.0e-4 * (p * (l2 / (l2 + x)) ** N - PA)

        def residual(t):
            return t[0] * (1e3 * x + t[1]) + area * PA * ((1 - area * 1e6 / t[2] * x) ** -N - 1) - want

        def jacobian(t):
            u = 1 - area * 1e6 / t[2] * x
            q = area * PA * u ** -N
            return np.stack([1e3 * x + t[1], np.full_like(x, t[0]), N * q * (1 - 1 / u) / t[2]], axis=1)

        report(work, "SciPy least_squares", lambda: least_squares(
            residual, [5.0, 10.0, 250.0], jac=jacobian, bounds=(low, high), x_scale=[6.0, 10.0, 250.0]).cost)


def motion():
    waves = [(a, 2 * math.pi * f, p) for a, f, p in zip(
        (0.060, 0.045, 0.040, 0.025, 0.012, 0.007, 0.004, 0.002), (0.5, 1.1, 2.3, 3.7, 5.9, 8.3, 11.1, 14.9),
        (0.1, 1.3, 2.7, 4.1, 5.3, 0.7, 3.3, 2.2))]
    lo, hi = 0.0, END
    for _ in range(80):
        m = (lo + hi) / 2
        lo, hi = (m, hi) if force(m) < 90 * 9.81 else (lo, m)
    sag, rest = lo, (90 + 14) * 9.81 / 150e3

    def damper(v):
        if v >= 0:
            return v * (700 + 500 * v) if v < 0.6 else 0.6 * (700 + 300) + 500 * (v - 0.6)
        v = -v
        return -v * (1300 + 900 * v) if v < 0.5 else -(0.5 * (1300 + 450) + 900 * (v - 0.5))

    def minute(t, y):
        zs, vs, zu, vu = y.tolist()
        v = vu - vs
        f = force(sag + zu - zs) + damper(v) + 40 * math.tanh(v / 0.01)
        road = 0.0
        for a, w, p in waves:
            road += a * math.sin(w * t + p)
        return [vs, f / 90 - 9.81, vu, (150e3 * (rest + road - zu) - f) / 14 - 9.81]

    def orbit(t, y):
        x, u, z, w = y.tolist()
        mu, nu = 0.012277471, 1 - 0.012277471
        a, b = x + mu, x - nu
        p, q = a * a + z * z, b * b + z * z
        p *= math.sqrt(p)
        q *= math.sqrt(q)
        return [u, x + 2 * w - nu * a / p - mu * b / q, w, z - 2 * u - nu * z / p - mu * z / q]

    report("minute of road", "SciPy RK45", lambda: solve_ivp(
        minute, (0, 60), [0.0] * 4, t_eval=[60.0], rtol=1e-6, atol=1e-9).y[0, -1])
    start, period = [0.994, 0.0, 0.0, -2.00158510637908252240537862224], 17.0652165601579625588917206249
    for method in "RK45", "DOP853":
        report("orbit", "SciPy " + method, lambda: solve_ivp(
            orbit, (0, period), start, method=method, rtol=1e-9, atol=1e-9).y[0, -1])


def samples():
    """Sag, energy and drift of 100 000 forks, each off by what setup.Usual says."""
    n = 100_000
    event, home = STUDY["Event"], (PA, 293.15)

    def solve(k, x0, load, gas, ratio, ambient):
        x = np.full_like(k, 0.07)
        while True:
            f, d = k * (x + x0) - load, k.copy()
            for a, v, p in gas:
                w = v - a * x
                q = p * ratio * v / w
                f += a * (q - ambient)
                d += q * a * a / w
            step = f / d
            x -= step
            if np.max(np.abs(step)) < 1e-9:
                return x

    def run():
        r, sags = np.random.Generator(np.random.PCG64(1)), []
        out = np.empty((3, n))
        for i in range(0, n, 16384):
            m = min(16384, n - i)
            z = r.standard_normal((8, m))
            k, x0, gauge = RATE * (1 + 0.02 * z[0]), PRELOAD + 5e-4 * z[1], 1e4 * z[2]
            gas = [[a, abs(a) * l, p] for a, l, p in GAS]
            gas[0][2], gas[1][2] = GAS[0][2] + gauge, GAS[1][2] + gauge
            gas[2][1] = gas[2][1] + 2.5e-6 * z[3]
            load, exponent = 880 + 10 * z[4], N + 0.05 * z[5]
            here = solve(k, x0, load, gas, 1.0, PA)
            there = solve(k, x0, load, gas, (event[1] + 2 * z[6]) / home[1], event[0] + 750 * z[7])
            energy = k / 2 * END * (END + 2 * x0)
            for a, v, p in gas:
                energy = energy + p * v * ((1 - a * END / v) ** (1 - exponent) - 1) / (exponent - 1) - PA * a * END
            out[:, i:i + m] = here, energy, there - here
        np.percentile(out, [2.5, 97.5], axis=1)
        return out.mean(axis=1)[0]

    report("samples", "NumPy", run, n)


def study():
    home, air = STUDY["Home"], np.array(STUDY["Air"])
    ambient, ratio = air[:, 0], air[:, 1] / home[1]

    def force(f, x):
        s, d = np.zeros_like(x), np.zeros_like(x)
        for k, x0 in f["Coils"] or ():
            y = x + x0
            s += k * np.maximum(0, y)
            d += np.where(y >= 0, k, 0)
        for k, l in f["TopOuts"] or ():
            s -= k * np.maximum(0, l - x)
            d += np.where(x < l, k, 0)
        for a, v, p in f["Gas"] or ():
            w = v - a * x
            q = p * ratio * v / w
            s += a * (q - ambient)
            d += q * a * a / w
        for a, v, p, v2, p2 in f["Pistons"] or ():
            w = v - a * x
            q = p * v / w
            joined = q > p2
            w = np.where(joined, w + v2, w)
            q = np.where(joined, (p * v + p2 * v2) / w, q) * ratio
            s += a * (q - ambient)
            d += q * a * a / w
        return s, d

    def run():
        total = 0.0
        for f in STUDY["Forks"]:
            loads = np.array(f["Loads"])[:, None]
            load = np.broadcast_to(np.stack([loads, loads - f["Friction"], loads + f["Friction"]]),
                                   (3, len(f["Loads"]), len(air))).copy()
            end = f["Stroke"]
            x, lo, hi = np.full_like(load, end / 4), np.zeros_like(load), np.full_like(load, end)
            for _ in range(60):
                s, d = force(f, x)
                s -= load
                up = s > 0
                hi, lo = np.where(up, x, hi), np.where(up, lo, x)
                y = x - s / d
                y = np.where((y >= lo) & (y <= hi), y, (lo + hi) / 2)
                step = np.max(np.abs(y - x))
                x = y
                if step < 1e-8:
                    break
            least, most = (force(f, np.full((1, len(air)), at))[0] for at in (0.0, end))
            total += np.where(least >= load, 0, np.where(load > most, end, x)).sum()
        return total / (3 * count)

    count = sum(len(f["Loads"]) for f in STUDY["Forks"]) * len(air)
    report("study", "NumPy Newton", run, count)


curves()
match()
samples()
study()
motion()
