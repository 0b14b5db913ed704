#!/usr/bin/python3
"""Workload W2: the kernel of sim/elect against NumPy, in one run.

/usr/bin/python3 testdata/peers/w2.py [REPEATS], from the repository, on a quiet machine. Wants Go and Debian's
python3-numpy (apt-get install python3-numpy). Runs alternate, so that a slow moment of the machine meets
all; both must give the same figures; medians are printed, and their ratios.
"""
import os
import statistics
import subprocess
import sys
import tempfile

import numpy as np

here = os.path.dirname(os.path.abspath(__file__))
root = os.path.dirname(os.path.dirname(here))
facts = os.path.join(here, "w2.txt")
repeats = int(sys.argv[1]) if len(sys.argv) > 1 else 7
with open(facts) as text:
    counties, farms = (int(next(text).split()[-1]) for _ in range(2))
SAME = 1e-6


def run(command, threads):
    environment = dict(os.environ, GOMAXPROCS=str(threads))
    last = subprocess.run(command, check=True, capture_output=True, text=True, env=environment).stdout.splitlines()[-1]  # the runs before warm up
    return [float(seconds) for seconds in last.split()]  # by the clock, and of processors


with tempfile.TemporaryDirectory() as folder:
    ours, theirs = os.path.join(folder, "kernel.figures"), os.path.join(folder, "numpy.figures")
    kernel = os.path.join(folder, "kernel")
    subprocess.run(["go", "build", "-o", kernel, "./testdata/peers/choices"], check=True, cwd=root)
    numpy = ["/usr/bin/python3", os.path.join(here, "w2_numpy.py"), facts, theirs, "1"]
    times = {"NumPy": [], "kernel, one thread": [], "kernel, two threads": []}
    for i in range(repeats):
        for name, command, threads in (("NumPy", numpy, 2), ("kernel, one thread", [kernel, facts, ours, "2"], 1), ("kernel, two threads", [kernel, facts, ours, "3"], 2)):
            times[name].append(run(command, threads))
            if name == "NumPy":
                continue
            a, b = np.fromfile(ours), np.fromfile(theirs)
            figures = counties * farms * 8 * 3
            off = np.abs(a - b)[:figures] / np.maximum(1, np.abs(b[:figures]))
            assert off.max() < SAME, f"{name} and NumPy differ by {off.max()}"
            differ = np.count_nonzero(a[figures:] != b[figures:])
            assert differ == 0, f"{name} and NumPy name another choice for {differ} farms"
        print(f"repeat {i + 1}:", ", ".join(f"{name} {counties * farms / t[-1][0]:,.0f}" for name, t in times.items()),
              "farms per second;", " and ".join(f"{times['NumPy'][-1][0] / times[name][-1][0]:.1f}" for name in list(times)[1:]), "x NumPy", flush=True)
    print(f"same figures: the largest difference is {off.max():.1e} of the figure or of 1 USD")
    median = {name: [statistics.median(seconds) for seconds in zip(*t)] for name, t in times.items()}
    for name, (clock, processors) in median.items():
        print(f"{name:20s} {counties * farms / clock:10,.0f} farms per second   {median['NumPy'][0] / clock:5.1f} x NumPy; "
              f"{counties * farms / processors:10,.0f} per second of a processor   {median['NumPy'][1] / processors:5.1f} x NumPy   (medians of {repeats})")
