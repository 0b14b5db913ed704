#!/usr/bin/python3
"""Workload W3: `fencerow batch` as users run it, beside NumPy on the same farms from the same rates, in one run.

/usr/bin/python3 testdata/peers/w3.py [REPEATS] [NAME=VALUE...] [ANOTHER BINARY...], from the repository. Wants Go and Debian's
python3-numpy. w3.txt has farms, acres, seed and draws; NAME=VALUE replaces one (acres=140: payment limits are reached). Runs
alternate, so that a slow moment of the machine meets all. Printed are medians: farms per second of a processor, by the clock,
memory at the peak, and ratios.

NumPy has the rates of every county and crop given (rates/main.go), and makes the figures of results.csv and farms.csv alone;
both must agree, to the last digit printed but for halves of it. batch draws the rates from counties and prices, refuses bad
rows, applies payment limits to every producer, finds the choices after limits, raises flags, and writes twelve kinds of files.
"""
import csv
import os
import pathlib
import re
import shutil
import statistics
import subprocess
import sys
import tempfile
import time

here = pathlib.Path(__file__).resolve().parent
root = here.parent.parent
set_by = dict(line.split() for line in (here / "w3.txt").read_text().splitlines())
repeats, others = 5, []
for word in sys.argv[1:]:
    if re.fullmatch(r"\d+", word):
        repeats = int(word)
    elif "=" in word:
        name, value = word.split("=")
        set_by[name] = value
    else:
        others.append(os.path.abspath(word))
farms, draws = int(set_by["farms"]), set_by["draws"]


def run(command, threads):
    environment = dict(os.environ, GOMAXPROCS=str(threads), OPENBLAS_NUM_THREADS=str(threads))
    begun = time.monotonic()
    child = subprocess.Popen(command, env=environment, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
    _, status, used = os.wait4(child.pid, 0)
    assert os.waitstatus_to_exitcode(status) in (0, 4), command
    return used.ru_utime + used.ru_stime, time.monotonic() - begun, used.ru_maxrss / 1024


def lines(path, key):
    with open(path) as text:
        return {tuple(row[k] for k in key): row for row in csv.DictReader(text)}


def compare(ours, theirs):
    """The figures of both: how many, and the largest difference in dollars and in chances."""
    checked, most = 0, {"USD": 0.0, "chance": 0.0}
    for name, key in (("results.csv", ("operation", "farm", "commodity")), ("farms.csv", ("operation", "farm"))):
        a, b = lines(ours / name, key), lines(theirs / name, key)
        assert a.keys() == b.keys(), name
        for at, row in b.items():
            for column, value in row.items():
                if column in key or column.startswith("choice") or value == "" or a[at][column] == "":
                    continue
                checked += 1
                unit = "chance" if column.startswith("chance") else "USD"
                most[unit] = max(most[unit], abs(float(value) - float(a[at][column])))
    return checked, most


with tempfile.TemporaryDirectory() as folder:
    folder = pathlib.Path(folder)
    subprocess.run([sys.executable, here / "invent.py", "--farms", str(farms), "--acres", set_by["acres"], "--seed", set_by["seed"], "--out", folder / "in"], check=True)
    for name, package in (("fencerow", "./cmd/fencerow"), ("rates", "./testdata/peers/rates")):
        subprocess.run(["go", "build", "-o", folder / name, package], check=True, cwd=root)
    subprocess.run([folder / "rates", folder / "in", draws, folder / "rates-of"], check=True)
    batch = lambda binary, out: [binary, "batch", folder / "in/farms.csv", "--county-folder", folder / "in/counties", "--market", folder / "in/market.yaml",
                                 "--book", "none", "--builtin", "none", "--today", "2026-11-25", "--seed", "1", "--draws", draws, "--out", out]
    peers = {"NumPy": (["/usr/bin/python3", here / "w3_numpy.py", folder / "in/farms.csv", folder / "rates-of", folder / "numpy"], 2)}
    for threads, words in ((1, "batch, one thread"), (2, "batch, two threads")):
        peers[words] = (batch(folder / "fencerow", folder / "out"), threads)
    for other in others:
        peers[f"{os.path.basename(other)}, two threads"] = (batch(other, folder / "out-other"), 2)
    times = {name: [] for name in peers}
    for i in range(repeats):
        for name, (command, threads) in peers.items():
            for out in ("out", "out-other"):
                if folder / out in command:
                    shutil.rmtree(folder / out, ignore_errors=True)
            times[name].append(run(command, threads))
        print(f"repeat {i + 1}:", ", ".join(f"{name} {farms / t[-1][0]:,.0f}" for name, t in times.items()), "farms per second of a processor", flush=True)
    checked, most = compare(folder / "out", folder / "numpy")
    print(f"same figures: {checked} compared, by {most['USD']:.2f} USD and {most['chance']:.6f} of a chance at most")
    assert most["USD"] < 0.0151 and most["chance"] < 0.0021, most
    first = statistics.median(t[0] for t in times["NumPy"])
    for name, all_of in times.items():
        processor, clock, memory = (statistics.median(t) for t in zip(*all_of))
        ratio = statistics.median(a[0] / b[0] for a, b in zip(times["NumPy"], all_of))
        print(f"{name:24s} {farms / processor:8,.0f} farms per second of a processor {ratio:6.2f} x NumPy; {farms / clock:8,.0f} by the clock; {memory:5.0f} MB")
    print(f"two threads beside one, by the clock: {statistics.median(a[1] / b[1] for a, b in zip(times['batch, one thread'], times['batch, two threads'])):.2f} (medians of {repeats})")
