#!/usr/bin/env python3
"""How processor time and memory of `fencerow batch` grow: one thing at a time, three points each.

    testdata/peers/growth.py BINARY [REPEATS]

Invented farms in invented counties: 4,000 farms of 1,000 operations, 100 counties, 2 crops, 2 producers with half of each base, 1,024
scenarios; 500 farms where scenarios grow. Printed are the median seconds of a processor, the exponent from one point to the
next (1: as the thing itself) and the memory at the peak.
"""
import math
import os
import pathlib
import random
import statistics
import subprocess
import sys
import tempfile

import invent

BINARY, REPEATS = os.path.abspath(sys.argv[1]), int(sys.argv[2]) if len(sys.argv) > 2 else 3
USUAL = {"farms": 4000, "counties": 100, "crops": 2, "producers": 2, "draws": 1024}
FARMS_OF_OPERATION = 4
GROWING = [("farms", [{"farms": n} for n in (2000, 4000, 8000, 16000)]), ("scenarios", [{"farms": 500, "draws": n} for n in (1024, 4096, 16384)]),
           ("farms per county", [{"counties": n} for n in (1000, 100, 10)]), ("crops per farm", [{"crops": n} for n in (1, 2, 4, 8)]),
           ("producers per operation", [{"producers": n} for n in (1, 4, 16)])]


def table(folder, farms, counties, crops, producers, draws):
    rng = random.Random(1)
    folder.mkdir()
    (folder / "counties").mkdir()
    grown = ["corn", "soybeans", "wheat", "grain_sorghum", "barley", "oats", "canola", "sunflower_seed"][:crops]
    all_counties = [invent.County("", f"99{i % 999 + 1:03d}" + ("" if i < 999 else "A"), {c: 1.0 for c in grown}, rng) for i in range(counties)]
    for county in all_counties:
        county.write(folder / "counties")
    invent.write_market(folder)
    with open(folder / "farms.csv", "w") as out:
        out.write("operation,farm,county,commodity,crop_year,base_acres,payment_yield,election_on_record,producer,share\n")
        for i in range(farms):
            operation, county = i // FARMS_OF_OPERATION, all_counties[i * counties // farms]
            for c in grown:
                acres, paid = rng.uniform(20, 120), county.yields[c] * 0.8
                for p in range(producers):
                    out.write(f"{operation:07d},{i + 1000},{county.code},{c},2026,{acres:.2f},{paid:.0f},PLC,{operation}-{p},{1 / producers}\n")


def run(folder, draws):
    with tempfile.TemporaryDirectory() as out:
        child = subprocess.Popen([BINARY, "batch", folder / "farms.csv", "--county-folder", folder / "counties", "--market", folder / "market.yaml", "--book", "none",
                                  "--today", "2026-11-25", "--draws", str(draws), "--out", out], stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
        _, status, used = os.wait4(child.pid, 0)
        assert status == 0, folder
        return used.ru_utime + used.ru_stime, used.ru_maxrss / 1024


with tempfile.TemporaryDirectory() as work:
    work = pathlib.Path(work)
    points = []
    for what, values in GROWING:
        for i, changed in enumerate(values):
            asked = USUAL | changed
            folder = work / f"{what.replace(' ', '-')}-{i}"
            table(folder, **asked)
            points.append((what, asked, folder, []))
    for _ in range(REPEATS):
        for what, asked, folder, seen in points:
            seen.append(run(folder, asked["draws"]))
    before = None
    for what, asked, folder, seen in points:
        size = {"farms": asked["farms"], "scenarios": asked["draws"], "farms per county": asked["farms"] // asked["counties"], "crops per farm": asked["crops"],
                "producers per operation": asked["producers"]}[what]
        seconds, memory = statistics.median(s for s, _ in seen), statistics.median(m for _, m in seen)
        exponent = "" if before is None or before[0] != what else f"{math.log(seconds / before[2]) / math.log(size / before[1]):8.2f}"
        print(f"{what:24s} {size:8,d} {seconds:8.2f} s {exponent:>8s} {memory:6.0f} MB")
        before = (what, size, seconds)
