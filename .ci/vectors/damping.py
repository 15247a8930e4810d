#!/usr/bin/python3
"""Recompute the recorded vectors of damping.

Writes three records under damping/testdata; with --check it compares the
recorded files instead and fails on drift.

plates.csv    ring plates by finite elements in the radius (cubic Hermite
              elements, energy of Kirchhoff's theory), independent of the closed form.
stacks.csv    lift of stacked shims at the seat, the same elements for every shim, contact
              by scipy.optimize.nnls on the nodal forces.
network.csv   flows and pressures of valve networks by scipy.optimize.fsolve on
              all node pressures at once.
"""
import csv
import math
import pathlib
import sys

import numpy as np
import scipy
from scipy.optimize import fsolve, nnls

FOLDER = pathlib.Path(__file__).resolve().parents[2] / "damping/testdata"
TOOLS = f"numpy {np.__version__}, scipy {scipy.__version__} (Debian)"
FOOT = "# Regenerate: python3 .ci/vectors/damping.py    Compare: python3 .ci/vectors/damping.py --check\n"

# --- ring plates -----------------------------------------------------------

POINTS, WEIGHTS = np.polynomial.legendre.leggauss(6)


def hermite(x, h):
    """Values, slopes and curvatures of the four cubics on [0, h]."""
    s = x / h
    n = np.array([1 - 3 * s**2 + 2 * s**3, h * (s - 2 * s**2 + s**3), 3 * s**2 - 2 * s**3, h * (s**3 - s**2)])
    d = np.array([(-6 * s + 6 * s**2) / h, 1 - 4 * s + 3 * s**2, (6 * s - 6 * s**2) / h, 3 * s**2 - 2 * s])
    c = np.array([(-6 + 12 * s) / h**2, (-4 + 6 * s) / h, (6 - 12 * s) / h**2, (6 * s - 2) / h])
    return n, d, c


def assemble(radii, rigidity, nu, pressure):
    """Stiffness and load of a plate on the given nodes; pressure(r) by element."""
    size = 2 * len(radii)
    k, f = np.zeros((size, size)), np.zeros(size)
    for e in range(len(radii) - 1):
        a, h = radii[e], radii[e + 1] - radii[e]
        dofs = slice(2 * e, 2 * e + 4)
        for x, w in zip((POINTS + 1) * h / 2, WEIGHTS * h / 2):
            r = a + x
            n, d, c = hermite(x, h)
            k[dofs, dofs] += 2 * math.pi * r * w * rigidity * (
                np.outer(c, c) + np.outer(d, d) / r**2 + nu / r * (np.outer(c, d) + np.outer(d, c)))
            f[dofs] += 2 * math.pi * r * w * pressure(a + h / 2) * n
    return k, f


FIXES = {"free": [], "supported": [0], "clamped": [0, 1], "guided": [1]}
CASES = [("supported", "free", "inner force"), ("free", "supported", "pressure"), ("supported", "free", "pressure"),
         ("clamped", "free", "inner force"), ("clamped", "free", "pressure"), ("supported", "guided", "pressure"),
         ("free", "clamped", "outer force"), ("clamped", "guided", "inner force"), ("guided", "clamped", "pressure")]
RATIOS = [1.25, 1.5, 2, 3, 4, 5]


def coefficient(outer, inner, load, ratio):
    """k of w = k·q·a⁴/(E·h³) or k·P·a²/(E·h³) at nu = 0.3, for a = E = h = 1."""
    nu = 0.3
    radii = np.geomspace(1 / ratio, 1, 41)
    k, f = assemble(radii, 1 / (12 * (1 - nu**2)), nu, lambda r: float(load == "pressure"))
    last = 2 * (len(radii) - 1)
    if load == "inner force":
        f[0] += 1
    if load == "outer force":
        f[last] += 1
    fixed = FIXES[inner] + [last + i for i in FIXES[outer]]
    free = [i for i in range(len(f)) if i not in fixed]
    w = np.zeros(len(f))
    w[free] = np.linalg.solve(k[np.ix_(free, free)], f[free])
    return w[last] if 0 in fixed else w[0]


def plates():
    for outer, inner, load in CASES:
        for ratio in RATIOS:
            yield [f"outer {outer}, inner {inner}, {load}", ratio, coefficient(outer, inner, load, ratio)]


# --- shim stacks -----------------------------------------------------------

YOUNG, NU = 206e9, 0.3
# name, shims (diameter, thickness), clamp, port inner and outer, seat; mm
STACKS = [
    ("one shim", [(30, 0.20)], 10, 16, 26, 28),
    ("three equal shims", [(30, 0.15)] * 3, 10, 16, 26, 28),
    ("two shims, the second smaller", [(30, 0.20), (24, 0.20)], 10, 16, 26, 28),
    ("two shims, the second smaller and thick", [(30, 0.15), (18, 0.30)], 10, 16, 26, 28),
    ("taper of five", [(30, 0.15), (28, 0.15), (24, 0.15), (20, 0.15), (16, 0.20)], 10, 16, 26, 28),
    ("face pair on a taper", [(40, 0.15), (40, 0.15), (36, 0.15), (32, 0.15), (28, 0.15), (24, 0.20), (20, 0.25)], 12, 22, 34, 38),
    ("small shim between two large", [(30, 0.15), (18, 0.10), (30, 0.15), (22, 0.20)], 10, 16, 26, 28),
    ("eight of every size", [(30, 0.30), (30, 0.15), (21, 0.10), (11, 0.25), (18, 0.25), (17, 0.15), (17, 0.15), (23, 0.30)], 10, 16, 26, 28),
    ("taper of sixteen", [(30 - i, 0.15) for i in range(16)], 10, 16, 26, 28),
]


def lift(shims, clamp, port_in, port_out, seat):
    """Deflection of the face at the seat under 1 Pa, m."""
    # One mesh in the radius for all shims, with a node at every radius that matters.
    marks = sorted({clamp, port_in, port_out, seat, *(d for d, _ in shims)})
    step = 0.125
    mesh = np.concatenate([np.linspace(a, b, max(2, round((b - a) / 2 / step)) + 1)[:-1]
                           for a, b in zip(marks, marks[1:])] + [[marks[-1]]]) / 2000
    compliances, unloaded, nodes = [], [], []
    for i, (d, h) in enumerate(shims):
        radii = mesh[mesh <= d / 2000 + 1e-12]
        rigidity = YOUNG * (h / 1000)**3 / (12 * (1 - NU**2))
        k, f = assemble(radii, rigidity, NU,
                        lambda r, i=i: float(i == 0 and port_in / 2000 < r < port_out / 2000))
        inverse = np.linalg.inv(k[2:, 2:])  # clamped at the first node
        compliances.append(inverse[::2, ::2])
        unloaded.append(inverse[::2] @ f[2:])
        nodes.append(radii[1:])
    # Nodal forces at each interface, pushing the shim below back and the one above on.
    sizes = [min(len(a), len(b)) for a, b in zip(nodes, nodes[1:])]
    start = np.concatenate([[0], np.cumsum(sizes)]).astype(int)
    total = start[-1]
    a, g = np.zeros((total, total)), np.zeros(total)
    for k, n in enumerate(sizes):
        rows = slice(start[k], start[k] + n)
        a[rows, rows] += compliances[k][:n, :n] + compliances[k + 1][:n, :n]
        g[rows] += unloaded[k + 1][:n] - unloaded[k][:n]
        if k + 1 < len(sizes):
            m = sizes[k + 1]
            below = slice(start[k + 1], start[k + 1] + m)
            a[rows, below] -= compliances[k + 1][:n, :m]
            a[below, rows] -= compliances[k + 1][:m, :n]
    force = np.zeros(total)
    if total:
        # min x·A·x/2 + g·x over x ≥ 0 as least squares on the symmetric root of A.
        values, vectors = np.linalg.eigh(a / np.max(np.abs(a)))
        root = np.sqrt(np.maximum(values, 1e-15))
        scale = np.max(np.abs(g))
        force, _ = nnls((vectors * root).T, -(vectors.T @ (g / scale)) / root, maxiter=100 * total)
        force *= scale / np.max(np.abs(a))
    face = unloaded[0].copy()
    if sizes:
        face -= compliances[0][:, :sizes[0]] @ force[:sizes[0]]
    return face[np.argmin(np.abs(nodes[0] - seat / 2000))]


def stacks():
    for name, *rest in STACKS:
        yield [name, lift(*rest)]


# --- networks --------------------------------------------------------------

RHO, MU = 850.0, 0.0128
CD = 0.62


def orifice(mm2):
    area = mm2 * 1e-6
    d = math.sqrt(4 * area / math.pi)
    a, b = 24 * MU / d**3, RHO / (2 * CD**2 * area**2)
    return lambda p: math.copysign((math.sqrt(a * a + 4 * b * abs(p)) - a) / (2 * b), p)


def pipe(d_mm, l_mm, k):
    d, length = d_mm / 1000, l_mm / 1000
    area = math.pi / 4 * d * d
    a, b = 128 * MU * length / (math.pi * d**4), RHO * k / (2 * area**2)
    return lambda p: math.copysign((math.sqrt(a * a + 4 * b * abs(p)) - a) / (2 * b), p)


def valve(mm2, crack, full):
    def flow(p):
        opening = min(max((p - crack) / (full - crack), 0), 1)
        return CD * mm2 * 1e-6 * opening * math.sqrt(2 * max(p, 0) / RHO)
    return flow


# Branches between nodes: node 0 is the inlet, the last node the outlet at 0.
NETWORKS = {
    "two orifices in series": ([(0, 1, orifice(3)), (1, 2, orifice(2))], 3),
    "bleed beside a blow-off": ([(0, 1, pipe(2, 12, 2.3)), (0, 1, valve(20, 4e5, 12e5))], 2),
    "port before bleed and check": ([(0, 1, orifice(12)), (1, 2, orifice(1.5)), (1, 2, valve(15, 1e5, 6e5))], 3),
    "two chains side by side": ([(0, 1, orifice(4)), (1, 3, pipe(1.5, 20, 2.3)),
                                 (0, 2, valve(8, 0.5e5, 3e5)), (2, 3, orifice(6))], 4),
    "chain of three in parallel with a pipe, behind a port": (
        [(0, 1, orifice(15)), (1, 2, orifice(5)), (2, 3, orifice(4)), (3, 4, valve(10, 1e5, 8e5)), (1, 4, pipe(1.2, 15, 2.3))], 5),
}
FLOWS = [1e-6, 1e-5, 5e-5, 2e-4, 5e-4]  # m³/s


def pressure(branches, nodes, flow):
    """Inlet pressure that drives a flow through a network."""
    def balance(p):
        p = np.append(p, 0.0) * 1e5
        net = np.zeros(nodes)
        net[0] = flow
        for a, b, element in branches:
            q = element(p[a] - p[b])
            net[a] -= q
            net[b] += q
        return net[:-1] / flow

    best = None
    for guess in (1.0, 3.0, 10.0, 30.0, 100.0, 300.0):  # bar
        p, info, _, _ = fsolve(balance, guess * np.linspace(1, 0, nodes)[:-1], xtol=1e-13, maxfev=20000, full_output=True)
        error = np.max(np.abs(info["fvec"]))
        if best is None or error < best[0]:
            best = error, p[0] * 1e5
    if best[0] > 1e-9:
        raise SystemExit(f"fsolve leaves {best[0]:g} of the flow {flow:g} unbalanced")
    return best[1]


def networks():
    for name, (branches, nodes) in NETWORKS.items():
        for flow in FLOWS:
            yield [name, flow, pressure(branches, nodes, flow)]


# --- records ---------------------------------------------------------------

# name: contents, columns, rows, relative agreement. Ten digits are recorded; what an
# iteration stops at may differ between versions.
RECORDS = {
    "plates.csv": ("Ring plates at nu = 0.3: k of w = k q a^4/(E h^3) or k P a^2/(E h^3), finite elements.",
                   "case,a_over_b,k", plates, 1e-7),
    "stacks.csv": ("Lift of a shim stack at its seat per pressure, finite elements with contact by nnls; E = 206 GPa, nu = 0.3.",
                   "stack,lift_m_per_Pa", stacks, 1e-6),
    "network.csv": ("Pressure that drives a flow through a network of valves, fsolve; oil 850 kg/m3, 12.8 mPa s.",
                    "network,flow_m3_per_s,pressure_Pa", networks, 1e-8),
}


def cell(x):
    return x if isinstance(x, str) else f"{x:.10g}"


def main(args):
    if args not in ([], ["--check"]):
        print(f"usage: {sys.argv[0]} [--check]", file=sys.stderr)
        return 2
    drift = []
    for name, (title, columns, rows, relative) in RECORDS.items():
        computed = list(rows())
        path = FOLDER / name
        if args == []:
            FOLDER.mkdir(parents=True, exist_ok=True)
            with path.open("w", encoding="utf-8", newline="") as f:
                f.write(f"# {title}\n# Computed with {TOOLS}.\n{FOOT}{columns}\n")
                writer = csv.writer(f, lineterminator="\n")
                writer.writerows([cell(x) for x in row] for row in computed)
            continue
        with path.open(encoding="utf-8", newline="") as f:
            recorded = list(csv.reader(line for line in f if not line.startswith("#")))[1:]
        if len(recorded) != len(computed):
            drift.append(f"{path}: {len(recorded)} rows recorded, {len(computed)} computed")
        for r, c in zip(recorded, computed):
            for x, y in zip(r, c):
                if x != y if isinstance(y, str) else abs(float(x) - y) > relative * abs(y):
                    drift.append(f"{path}: recorded {r}, computed {c}")
                    break
    for line in drift:
        print(line, file=sys.stderr)
    return 1 if drift else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
