#!/usr/bin/python3
"""Workload W1, prices and yields of six crop years in one county: what a fast form has to beat, in one run.

/usr/bin/python3 testdata/peers/w1.py [REPEATS], from the repository, on a quiet machine. Wants Go, a C
compiler and Debian's python3-numpy (apt-get install gcc python3-numpy). Runs alternate, so that a slow
moment of the machine meets all; medians are printed, and their ratios. The 36 means of each are held against
those of four million draws in C.
"""
import os
import statistics
import subprocess
import sys
import tempfile

here = os.path.dirname(os.path.abspath(__file__))
root = os.path.dirname(os.path.dirname(here))
facts = os.path.join(here, "w1.txt")
repeats = int(sys.argv[1]) if len(sys.argv) > 1 else 7
DRAWS = 131072


def run(command):
    lines = subprocess.run(command, check=True, capture_output=True, text=True).stdout.splitlines()
    return [[float(x) for x in line.split()] for line in lines]


with tempfile.TemporaryDirectory() as bin:
    subprocess.run(["go", "build", "-o", f"{bin}/plain", "./testdata/peers/plain"], check=True, cwd=root)
    subprocess.run(["gcc", "-O3", "-march=native", "-ffast-math", f"{here}/w1.c", "-o", f"{bin}/c", "-lm"], check=True)
    peers = {
        "NumPy": [sys.executable, f"{here}/w1_numpy.py", str(DRAWS), "2"],
        "plain Go": [f"{bin}/plain", str(DRAWS), "1", facts],
        "C, one thread": [f"{bin}/c", str(DRAWS), "3", facts],
    }
    times = {name: [] for name in peers}
    means = {}
    for _ in range(repeats):
        for name, command in peers.items():
            took, *means[name] = run(command)[-1]  # the others warm up
            times[name].append(took)
    median = {name: statistics.median(t) for name, t in times.items()}
    long_run = run([f"{bin}/c", str(1 << 22), "1", facts])[0][1:]
    for name, m in means.items():
        worst = max(abs(a / b - 1) for a, b in zip(m, long_run))
        print(f"{name:15s} {1000 * median[name]:8.1f} ms   {median['NumPy'] / median[name]:6.2f} x NumPy   means within {100 * worst:.2f} percent of 4 million draws")
        assert worst < 0.03, f"{name} computes something else"
