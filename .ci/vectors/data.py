#!/usr/bin/python3
"""Recompute the open data that the reference dataset cites.

Checkouts of two open data sets, named in the environment, give the records
data/testdata/front_geometry.csv and data/testdata/measured_bicycles.csv; with --check
the recorded files are compared instead and drift fails. Without the checkouts the
script says so and exits 77, "skipped".

    BICYCLE_GEOMETRY      github.com/dorianprill/dataset-bicycle-geometry, MIT license
    BICYCLE_PARAMETERS    github.com/moorepants/BicycleParameters, BSD 2-Clause license

Makers and models stay in the checkouts: quantiles are over models, and the measured
bicycles are read by the hash of their file.
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

# Single entries are wrong; what no bicycle has is left out, and groups below eight.
QUANTITIES = [
    ("rake_deg", "Head Tube Angle", 58, 76),
    ("offset_mm", "Fork Offset", 25, 65),
    ("trail_mm", "Fork Trail", 60, 170),
    ("wheelbase_mm", "Wheelbase", 900, 1400),
    ("axle_to_crown_mm", "Fork Installation Height", 380, 640),
]
TRAVELS = [100, 110, 120, 130, 140, 150, 160, 170, 180, 200]

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


def geometry(checkout):
    """Quantiles between bicycles, the middle frame size of each, by travel of the fork."""
    path = next(n for n in git(checkout, "ls-tree", "-r", "--name-only", "HEAD", "data").split() if n.endswith(".csv"))
    models = {}
    for row in csv.DictReader(io.StringIO(git(checkout, "show", f"HEAD:{path}")), delimiter=";"):
        models.setdefault(row["URL"], []).append(row)
    chosen = [rows[len(rows) // 2] for rows in models.values()]
    commit = git(checkout, "rev-parse", "--short", "HEAD").strip()
    yield f"# {len(chosen)} bicycles of github.com/dorianprill/dataset-bicycle-geometry at {commit}, MIT license:"
    yield "# makers' published geometry as users collected it. Spread is that between models, no error of measurement."
    yield "class,travel_mm,quantity,n,p05,p50,p95"
    electric = [r for r in chosen if r["Motorized"] == "true"]
    groups = (("bicycle", chosen), ("e-bicycle", electric))
    for name, members, travel in [(n, m, t) for n, m in groups for t in TRAVELS]:
        rows = [r for r in members if number(r["Suspension Travel (front)"]) == travel]
        for quantity, column, least, most in QUANTITIES:
            values = sorted(v for v in (number(r[column]) for r in rows) if v is not None and least <= v <= most)
            if quantity == "rake_deg":
                values = sorted(90 - v for v in values)
            if len(values) >= 8:
                quantiles = ",".join(f"{quantile(values, q):.1f}" for q in (0.05, 0.5, 0.95))
                yield f"{name}-{travel},{travel},{quantity},{len(values)},{quantiles}"


def measured(checkout):
    """The measured bicycles with one standard deviation of each value."""
    commit = git(checkout, "rev-parse", "--short", "HEAD").strip()
    yield f"# Measured bicycles of github.com/moorepants/BicycleParameters at {commit}, BSD 2-Clause license; method in"
    yield ("# J. K. Moore, Human Control of a Bicycle, dissertation, UC Davis 2012. Each is named by the hash of its "
           "file.")
    yield ("id,blob,rake_deg,rake_sd,offset_mm,offset_sd,radius_mm,radius_sd,wheelbase_mm,wheelbase_sd,"
           "wheel_kg,wheel_sd,steered_kg,steered_sd")
    for name, blob in BLOBS.items():
        at = {}
        for line in git(checkout, "cat-file", "blob", blob).splitlines():
            m = re.match(r"(\w+)\s*=\s*([-0-9.e]+)\s*(?:\+/-\s*([-0-9.e]+))?$", line)
            if m:
                at[m[1]] = float(m[2]), float(m[3] or 0)
        turns = 2 * math.pi * at["nF"][0]
        columns = [90 - at["gamma"][0], at["gamma"][1]]
        for key, scale in (("f", 1000), ("dF", 1000 / turns), ("w", 1000), ("mF", 1), ("mH", 1)):
            columns += [at[key][0] * scale, at[key][1] * scale]
        yield f"{name},{blob}," + ",".join(f"{c:.4g}" if abs(c) < 1000 else f"{c:.0f}" for c in columns)


def main():
    wanted = [("BICYCLE_GEOMETRY", geometry, "front_geometry.csv"),
              ("BICYCLE_PARAMETERS", measured, "measured_bicycles.csv")]
    if not all(os.environ.get(name) for name, _, _ in wanted):
        print(f"{sys.argv[0]}: no checkouts: nothing checked; see the text at the head of this script")
        sys.exit(77)
    drift = False
    for name, aggregate, record in wanted:
        text = "\n".join(aggregate(os.environ[name])) + "\n"
        path = TESTDATA / record
        if "--check" not in sys.argv:
            path.parent.mkdir(exist_ok=True)
            path.write_text(text, encoding="utf-8")
        elif path.read_text(encoding="utf-8") != text:
            print(f"{record} differs from what the open data gives")
            drift = True
    sys.exit(1 if drift else 0)


main()
