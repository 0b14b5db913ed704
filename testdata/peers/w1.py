#!/usr/bin/python3
"""Workload W1: the kernel of sim/paths against its peers, in one run.

/usr/bin/python3 testdata/peers/w1.py [REPEATS], from the repository, on a quiet machine. Wants Go, a C
compiler and Debian's python3-numpy (apt-get install gcc python3-numpy). Runs alternate, so that a slow
moment of the machine meets all; medians are printed, and their ratios.
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
DRAWS = 131072  # 16 replicates of 8,192: the first number of draws of the kernel above 100,000
NEAR = 0.005


def run(command, threads=None):
    environment = dict(os.environ)
    if threads:
        environment["GOMAXPROCS"] = str(threads)
    lines = subprocess.run(command, check=True, capture_output=True, text=True, env=environment).stdout.splitlines()
    return [[float(x) for x in line.split()] for line in lines]


with tempfile.TemporaryDirectory() as bin:
    for name in ("kernel", "plain"):
        subprocess.run(["go", "build", "-o", f"{bin}/{name}", f"./testdata/peers/{name}"], check=True, cwd=root)
    subprocess.run(["gcc", "-O3", "-march=native", "-ffast-math", f"{here}/w1.c", "-o", f"{bin}/c", "-lm"], check=True)
    numpy = ["/usr/bin/python3", f"{here}/w1_numpy.py"]
    kernel = lambda n, times=3, seed=1: [f"{bin}/kernel", str(n), str(times), str(seed), facts]

    times = {"NumPy": [], "plain Go": [], "kernel, one thread": [], "kernel, two threads": [], "C, one thread": []}
    means = {}
    for _ in range(repeats):
        for name, command, threads in (
            ("NumPy", numpy + [str(DRAWS), "2"], None), ("plain Go", [f"{bin}/plain", str(DRAWS), "1", facts], None),
            ("kernel, one thread", kernel(DRAWS), 1), ("kernel, two threads", kernel(DRAWS), 2), ("C, one thread", [f"{bin}/c", str(DRAWS), "3", facts], None)):
            last = run(command, threads)[-1]  # the others warm up
            times[name].append(last[0])
            means[name] = last[2:] if name.startswith("kernel") else last[1:]
    median = {name: statistics.median(t) for name, t in times.items()}
    long_run = run(kernel(1 << 22, 1, 99))[0][2:]
    for name, m in means.items():
        worst = max(abs(a / b - 1) for a, b in zip(m, long_run))
        print(f"{name:22s} {1000 * median[name]:8.1f} ms   {median['NumPy'] / median[name]:6.2f} x NumPy   means within {100 * worst:.2f} percent of 4 million draws")
        assert worst < 0.03, f"{name} computes something else"
    print(f"kernel on one thread takes {median['kernel, one thread'] / median['C, one thread']:.2f} x C on one thread")

    def until(make, skip, sizes, seeds):
        """The first number of draws at which 9 of 10 seeds have every mean near enough, and the median time there."""
        for n in sizes:
            rows = make(n, seeds)
            good = sum(max(abs(a / b - 1) for a, b in zip(r[skip:], long_run)) < NEAR for r in rows)
            if good >= 0.9 * len(rows):
                return n, statistics.median(r[0] for r in rows[1:])
        return None

    sizes = [1 << k for k in range(13, 23)]
    ours = until(lambda n, seeds: run(kernel(n, seeds)), 2, sizes, 20)
    theirs = until(lambda n, seeds: run(numpy + [str(n), str(seeds)]), 1, sizes, 10)
    print(f"every one of the 36 means within {100 * NEAR} percent: kernel {ours[0]} draws, {1000 * ours[1]:.1f} ms; NumPy {theirs[0]} draws, {1000 * theirs[1]:.0f} ms; {theirs[1] / ours[1]:.1f} x")

    few, many = run(kernel(100_000, 2))[-1][1], run(kernel(10_000_000, 2))[-1][1]
    print(f"heap in use after 100,000 draws {few:.1f} MB, after 10 million {many:.1f} MB")
