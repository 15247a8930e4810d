#!/usr/bin/python3
"""Recompute the recorded vectors of spring/helical.

A finite-element model of the wire as straight Timoshenko beams along the helix
(numpy and scipy, Debian package python3-scipy) writes
spring/helical/testdata/beam.csv; with --check it compares the recorded file
instead and fails on drift.
"""
import csv
import math
import pathlib
import sys

import numpy as np
import scipy
from scipy.sparse import coo_matrix
from scipy.sparse.linalg import spsolve

RECORD = pathlib.Path(__file__).resolve().parents[2] / "spring/helical/testdata/beam.csv"
PER_COIL = 64  # elements in a coil
# The record holds eight digits; sparse solvers agree far better than that.
RELATIVE = 1e-6

# wire mm, mean diameter mm, active coils, pitch mm, shear and elastic modulus MPa
SPRINGS = [
    (5.0, 38.0, 25.0, 18.0, 79500.0, 206000.0),  # full-size off-road fork spring
    (4.0, 24.0, 10.0, 8.0, 81500.0, 206000.0),  # short and stiff
]

HEADER = f"""\
# Rate of two helical springs from a finite-element model of the wire: straight Timoshenko beams along the
# helix, {PER_COIL} to a coil, circular section with Cowper's shear coefficient 6(1+v)/(7+6v), small displacements.
# The foot is built in. The head hangs on a rigid arm to the axis: free = loaded along the axis and free to turn,
# tilt and wander; guided = moving along the axis only.
# Made by .ci/vectors/helical.py with numpy {np.__version__} and scipy {scipy.__version__}.
# Regenerate: python3 .ci/vectors/helical.py    Compare: python3 .ci/vectors/helical.py --check
wire_mm,mean_mm,coils,pitch_mm,shear_MPa,elastic_MPa,per_coil,free_N_per_mm,guided_N_per_mm
"""


def beam(length, d, shear, elastic):
    """Stiffness of a Timoshenko beam along its own x axis, 12 by 12."""
    area, inertia = math.pi * d**2 / 4, math.pi * d**4 / 64
    poisson = elastic / (2 * shear) - 1
    kappa = 6 * (1 + poisson) / (7 + 6 * poisson)
    phi = 12 * elastic * inertia / (kappa * shear * area * length**2)
    b = elastic * inertia / (length**3 * (1 + phi))
    k = np.zeros((12, 12))
    for i, stiffness in ((0, elastic * area / length), (3, shear * 2 * inertia / length)):
        k[i, i] = k[i + 6, i + 6] = stiffness
        k[i, i + 6] = k[i + 6, i] = -stiffness
    for v, r, s in ((1, 5, 1), (2, 4, -1)):
        at = np.ix_([v, r, v + 6, r + 6], [v, r, v + 6, r + 6])
        h = s * 6 * length
        near, far = (4 + phi) * length**2, (2 - phi) * length**2
        k[at] = b * np.array([[12, h, -12, h], [h, near, -h, far], [-12, -h, 12, -h], [h, far, -h, near]])
    return k


def frame(axis):
    """Rotation into a beam along axis; a round section needs no more."""
    x = axis / np.linalg.norm(axis)
    y = np.cross([0.0, 0.0, 1.0], x)
    y /= np.linalg.norm(y)
    return np.array([x, y, np.cross(x, y)])


def rates(d, mean, coils, pitch, shear, elastic):
    n = round(coils * PER_COIL)
    turn = 2 * math.pi * np.arange(n + 1) / PER_COIL
    at = np.column_stack([mean / 2 * np.cos(turn), mean / 2 * np.sin(turn), pitch * turn / (2 * math.pi)])
    rows, columns, values = [], [], []
    for e in range(n):
        axis = at[e + 1] - at[e]
        turned = np.kron(np.eye(4), frame(axis))
        k = turned.T @ beam(np.linalg.norm(axis), d, shear, elastic) @ turned
        where = np.arange(6 * e, 6 * e + 12)
        rows.append(np.repeat(where, 12))
        columns.append(np.tile(where, 12))
        values.append(k.ravel())
    size = 6 * (n + 1)
    k = coo_matrix((np.concatenate(values), (np.concatenate(rows), np.concatenate(columns))), (size, size)).tocsc()
    # The motion of the head is that of a point on the axis, carried by a rigid arm.
    arm = at[-1] - [0, 0, at[-1][2]]
    carry = np.eye(6)
    carry[:3, 3:] = -np.array([[0, -arm[2], arm[1]], [arm[2], 0, -arm[0]], [-arm[1], arm[0], 0]])
    loads = np.zeros((size, 6))
    loads[-6:] = np.linalg.inv(carry).T
    loose = np.arange(6, size)
    moved = np.zeros((size, 6))
    moved[loose] = spsolve(k[loose][:, loose], loads[loose])
    flexibility = np.linalg.inv(carry) @ moved[-6:]
    return 1 / flexibility[2, 2], np.linalg.inv(flexibility)[2, 2]


def computed():
    return [[*spring, float(PER_COIL), *rates(*spring)] for spring in SPRINGS]


def write():
    RECORD.parent.mkdir(parents=True, exist_ok=True)
    with RECORD.open("w", encoding="utf-8") as f:
        f.write(HEADER)
        for row in computed():
            f.write(",".join(f"{x:.8g}" for x in row) + "\n")


def check():
    with RECORD.open(encoding="utf-8") as f:
        recorded = [[float(x) for x in row]
                    for row in csv.reader(line for line in f if not line.startswith("#"))
                    if row and row[0] != "wire_mm"]
    fresh = computed()
    if len(recorded) != len(fresh):
        return [f"{RECORD}: {len(recorded)} springs recorded, {len(fresh)} computed"]
    return [f"{RECORD}: recorded {r}, computed {c}"
            for r, c in zip(recorded, fresh)
            if any(abs(a - b) > RELATIVE * abs(b) for a, b in zip(r, c))]


def main(args):
    if args == []:
        write()
        return 0
    if args == ["--check"]:
        faults = check()
        for fault in faults:
            print(fault, file=sys.stderr)
        return 1 if faults else 0
    print(__doc__, file=sys.stderr)
    return 2


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
