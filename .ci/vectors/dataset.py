#!/usr/bin/python3
"""Recompute the recorded forks of data: sag and forces of the dataset's records as they stand in data/forks.

Reads the tables themselves and writes the statics down apart from the library, as fork.py does; forks with other
springs than coils and air are left out. With --check the recorded file is compared instead; drift is a failure.
"""
import csv
import math
import pathlib
import sys
import tomllib

ROOT = pathlib.Path(__file__).resolve().parents[2]
FILE = ROOT / "data/testdata/forks.csv"
HEADER = ["id", "sag_mm", "extended_N", "end_N", "ridden_N"]
HOW = """\
# Forks of the dataset at 20 °C and 1.01325 bar: sag of the typical rider, force extended, at the end of the stroke at
# rest, and there ridden with n = 1.3.
# Computed by .ci/vectors/dataset.py from data/forks.
# Regenerate: python3 .ci/vectors/dataset.py    Compare: python3 .ci/vectors/dataset.py --check
"""
PA, G = 101325.0, 9.80665
UNITS = {"mm": 1e-3, "mL": 1e-6, "L": 1e-3, "bar": 1e5, "N/mm": 1e3, "N": 1, "kg": 1, "deg": math.pi / 180, "%": 0.01}


def si(v):
    if isinstance(v, dict):
        v = v["value"]
    if not isinstance(v, str):
        return float(v)
    number, unit = v.split()
    return float(number) * UNITS[unit]


def get(table, key, default=0.0):
    return si(table[key]) if key in table else default


def circle(d):
    return math.pi / 4 * d * d


def load(f, classes):
    c = f["chassis"]
    rake = si(c["rake"] if "rake" in c else classes[f["class"]]["chassis"]["rake"])
    mass = si(c["mass"]) + si(f["rider"]["mass"])
    return (mass * si(c["front-share-ridden"]) - si(c["unsprung-mass"])) * G * math.cos(rake)


def spaces(f, legs):
    """Area, volume and pressure at full extension of every gas space, behind its port, and the floating piston."""
    travel, out, piston = si(f["travel"]), [], None
    for side, leg in legs:
        if "air" in leg:
            a = leg["air"]
            area, p = circle(si(a["bore"])), si(a["pressure"]) + PA
            v, port = si(a["volume"]) - get(a, "reducers") + get(a, "linked"), get(a, "port")
            if "second-volume" in a:
                piston = (area, v, p, si(a["second-volume"]), (p - PA) * si(a["second-ratio"]) + PA)
            else:
                out.append((area, v, p))
            if "negative-volume" in a:
                annulus, vn = area - circle(get(a, "rod")), si(a["negative-volume"])
                pn = p * v / (v - area * port) * (1 + annulus * port / vn)
                if "negative-ratio" in a:
                    pn = (p - PA) * si(a["negative-ratio"]) + PA
                out.append((-annulus, vn, pn))
        if "gap" in f and leg.get("role") != "none":
            g = f["gap"]
            area = circle(si(f["stanchion"])) - circle(get(g, "rod"))
            charged = g.get("charged", side) == side
            out.append((area, si(g["residual"]) + area * travel, PA + (get(g, "precharge") if charged else 0)))
    return out, piston


def row(name, f, classes):
    left = f["left"]
    right = f.get("right", {})
    legs = [("left", left), ("right", left if right.get("like") == "left" else right)]
    coils = [(si(l["coil"]["rate"]), si(l["coil"]["preload"])) for _, l in legs if "coil" in l]
    tops = [(si(l["air"]["balance-rate"]), si(l["air"]["balance-length"])) for _, l in legs
            if "balance-rate" in l.get("air", {})]
    gas, piston = spaces(f, legs)
    travel = si(f["travel"])

    def force(x, n):
        s = sum(k * (x + x0) for k, x0 in coils) - sum(k * max(0, l - x) for k, l in tops)
        for a, v, p in gas:
            s += a * (p * (v / (v - a * x)) ** n - PA)
        if piston:
            a, v, p, v2, p2 = piston
            q = p * (v / (v - a * x)) ** n
            if q > p2:  # both at one pressure: v (p/q)^(1/n) + v2 (p2/q)^(1/n) is the room left
                q = ((v * p ** (1 / n) + v2 * p2 ** (1 / n)) / (v + v2 - a * x)) ** n
            s += a * (q - PA)
        return s

    lo, hi, want = 0.0, travel, load(f, classes)
    for _ in range(200):
        m = (lo + hi) / 2
        lo, hi = (m, hi) if force(m, 1) < want else (lo, m)
    return [name] + [f"{v:.12g}" for v in (lo * 1e3, force(0, 1), force(travel, 1), force(travel, 1.3))]


def tables(folder, kind):
    all_ = {}
    for path in sorted((ROOT / "data" / folder).glob("*.toml")):
        with path.open("rb") as f:
            all_ |= tomllib.load(f).get(kind, {})
    return all_


def rows():
    forks, classes = tables("forks", "fork"), tables("evidence", "class")
    for name, f in sorted(forks.items()):
        left = f.get("left", {})
        if "based-on" not in f and "chassis" in f and not {"compound", "reservoir"} & left.keys():
            yield row(name, f, classes)


def main():
    made = list(rows())
    if "--check" not in sys.argv:
        with FILE.open("w", newline="") as f:
            f.write(HOW)
            csv.writer(f, lineterminator="\n").writerows([HEADER] + made)
        return
    with FILE.open() as f:
        kept = list(csv.reader(line for line in f if not line.startswith("#")))[1:]
    for a, b in zip(kept, made, strict=True):
        if a[0] != b[0] or any(abs(float(x) - float(y)) > 1e-9 * max(1, abs(float(y))) for x, y in zip(a[1:], b[1:])):
            sys.exit(f"{a} is recorded, {b} computed")
    print(f"{len(made)} forks agree")


main()
