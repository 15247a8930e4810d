#!/usr/bin/python3
"""Recompute the open data that the reference dataset cites.

data/testdata/open holds the numbers of two open data sets, with their licenses and without makers and models:
rows.csv, one bicycle each, the middle frame size of each model; and measured.csv, bicycles that somebody measured.
From them come the records data/testdata/front_geometry.csv and measured_bicycles.csv; with --check the recorded
files are compared instead and drift fails.

Checkouts of both, named in the environment, give those numbers, or with --check are compared with them:

    BICYCLE_GEOMETRY      github.com/dorianprill/dataset-bicycle-geometry at fba16d6, MIT license
    BICYCLE_PARAMETERS    github.com/moorepants/BicycleParameters at e061bc9, BSD 2-Clause license
"""
import csv
import io
import math
import os
import pathlib
import re
import subprocess
import sys

TESTDATA = pathlib.Path(__file__).resolve().parents[2] / "data/testdata"
OPEN = TESTDATA / "open"

# Single entries are wrong; what no bicycle has is left out, and groups below eight.
QUANTITIES = [
    ("rake_deg", "Head Tube Angle", 58, 76),
    ("offset_mm", "Fork Offset", 25, 65),
    ("trail_mm", "Fork Trail", 60, 170),
    ("wheelbase_mm", "Wheelbase", 900, 1400),
    ("axle_to_crown_mm", "Fork Installation Height", 380, 640),
]
TRAVELS = [100, 110, 120, 130, 140, 150, 160, 170, 180, 200]

KEYS = ["nF", "gamma", "f", "dF", "w", "mF", "mH"]  # turns of the wheel, head angle, offset, roll-out, wheelbase, masses

BLOBS = {
    "bicycle-01": "c3b799d73f", "bicycle-02": "23608d46fc", "bicycle-03": "f8a14c37fd", "bicycle-04": "c0dfddf993",
    "bicycle-05": "9557237aea", "bicycle-06": "69d19470ea", "bicycle-07": "857893cc08",
}


def git(checkout, *args):
    return subprocess.run(["git", "-C", checkout, *args], check=True, capture_output=True, text=True).stdout


def number(text):
    try:
        return float(re.sub(r"[^0-9.]", "", text or ""))
    except ValueError:
        return None


def quantile(ordered, q):
    at = q * (len(ordered) - 1)
    low = math.floor(at)
    high = min(low + 1, len(ordered) - 1)
    return ordered[low] + (at - low) * (ordered[high] - ordered[low])


def head(quantity):
    """The column of a quantity: rakes come from head angles."""
    return "head_angle_deg" if quantity == "rake_deg" else quantity


def rows(checkout):
    """The numbers of the middle frame size of each bicycle."""
    path = next(n for n in git(checkout, "ls-tree", "-r", "--name-only", "HEAD", "data").split() if n.endswith(".csv"))
    models = {}
    for row in csv.DictReader(io.StringIO(git(checkout, "show", f"HEAD:{path}")), delimiter=";"):
        models.setdefault(row["URL"], []).append(row)
    columns = [column for _, column, _, _ in QUANTITIES]
    yield ",".join(["travel", "electric"] + [head(quantity) for quantity, _, _, _ in QUANTITIES])
    for members in models.values():
        row = members[len(members) // 2]
        numbers = [number(row[c]) for c in ["Suspension Travel (front)"] + columns]
        text = ["" if v is None else f"{v:g}" for v in numbers]
        yield ",".join([text[0], "1" if row["Motorized"] == "true" else "0"] + text[1:])


def values(checkout):
    """The values of each measured bicycle with one standard deviation, in the units of its file."""
    yield "id,blob," + ",".join(f"{k},{k}_sd" for k in KEYS)
    for name, blob in BLOBS.items():
        at = {}
        for line in git(checkout, "cat-file", "blob", blob).splitlines():
            m = re.match(r"(\w+)\s*=\s*([-0-9.e]+)\s*(?:\+/-\s*([-0-9.e]+))?$", line)
            if m:
                at[m[1]] = m[2], m[3] or "0"
        yield f"{name},{blob}," + ",".join(f"{at[k][0]},{at[k][1]}" for k in KEYS)


def table(name):
    with open(OPEN / name, encoding="utf-8") as f:
        return list(csv.DictReader(line for line in f if not line.startswith("#")))


def geometry():
    """Quantiles between bicycles, by travel of the fork."""
    chosen = table("rows.csv")
    yield f"# {len(chosen)} bicycles of github.com/dorianprill/dataset-bicycle-geometry at fba16d6, MIT license:"
    yield "# makers' published geometry as users collected it. Spread is that between models, no error of measurement."
    yield "class,travel_mm,quantity,n,p05,p50,p95"
    electric = [r for r in chosen if r["electric"] == "1"]
    groups = (("bicycle", chosen), ("e-bicycle", electric))
    for name, members, travel in [(n, m, t) for n, m in groups for t in TRAVELS]:
        members = [r for r in members if number(r["travel"]) == travel]
        for quantity, _, least, most in QUANTITIES:
            found = sorted(v for v in (number(r[head(quantity)]) for r in members) if v is not None and least <= v <= most)
            if quantity == "rake_deg":
                found = sorted(90 - v for v in found)
            if len(found) >= 8:
                quantiles = ",".join(f"{quantile(found, q):.1f}" for q in (0.05, 0.5, 0.95))
                yield f"{name}-{travel},{travel},{quantity},{len(found)},{quantiles}"


def measured():
    """The measured bicycles with one standard deviation of each value."""
    yield "# Measured bicycles of github.com/moorepants/BicycleParameters at e061bc9, BSD 2-Clause license; method in"
    yield ("# J. K. Moore, Human Control of a Bicycle, dissertation, UC Davis 2012. Each is named by the hash of its "
           "file.")
    yield ("id,blob,rake_deg,rake_sd,offset_mm,offset_sd,radius_mm,radius_sd,wheelbase_mm,wheelbase_sd,"
           "wheel_kg,wheel_sd,steered_kg,steered_sd")
    for row in table("measured.csv"):
        turns = 2 * math.pi * float(row["nF"])
        columns = [90 - float(row["gamma"]), float(row["gamma_sd"])]
        for key, scale in (("f", 1000), ("dF", 1000 / turns), ("w", 1000), ("mF", 1), ("mH", 1)):
            columns += [float(row[key]) * scale, float(row[key + "_sd"]) * scale]
        yield f"{row['id']},{row['blob']}," + ",".join(f"{c:.4g}" if abs(c) < 1000 else f"{c:.0f}" for c in columns)


def hold(path, lines):
    """Write a record, or compare it; True is drift."""
    text = "\n".join(lines) + "\n"
    if "--check" not in sys.argv:
        path.parent.mkdir(exist_ok=True)
        path.write_text(text, encoding="utf-8")
    elif path.read_text(encoding="utf-8") != text:
        print(f"{path.name} differs")
        return True
    return False


def main():
    drift = False
    for name, numbers, record in (("BICYCLE_GEOMETRY", rows, "rows.csv"), ("BICYCLE_PARAMETERS", values, "measured.csv")):
        if os.environ.get(name):
            drift |= hold(OPEN / record, numbers(os.environ[name]))
    drift |= hold(TESTDATA / "front_geometry.csv", geometry())
    drift |= hold(TESTDATA / "measured_bicycles.csv", measured())
    sys.exit(1 if drift else 0)


main()
