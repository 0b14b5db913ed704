#!/usr/bin/env python3
"""How `fencerow compare` grows with what it is asked.

    growth_compare.py PROGRAM [--only farms,bases] [--repeat R] [--old OTHER]

Every kind of question is asked at three sizes, each four times the one before where the
law allows it. Printed are processor time (the least of R runs), peak memory, and the
exponent of the time, fitted through the three points; in brackets that of the time beyond
an almost empty question. With --old both programs take turns, and both are printed.

Nothing in the questions is real: state code 99, invented prices and yields.
"""

import argparse
import math
import os
import pathlib
import random
import tempfile

CROPS = {  # an invented yield per acre and an invented price, each in the crop's unit
    "corn": (170, 4.05), "soybeans": (50, 10.30), "wheat": (50, 5.60), "grain_sorghum": (70, 3.90),
    "oats": (62, 3.00), "barley": (70, 4.60), "canola": (1800, 0.21), "sunflower_seed": (1600, 0.22),
    "flaxseed": (21, 11.5), "safflower": (1200, 0.25), "dry_peas": (1900, 0.13), "lentils": (1200, 0.26),
}
YEARS = range(2026, 2032)


def write_county(folder, number, crops, rng):
    code = f"99{number:03d}"
    lines = ["format: fencerow/county/1", f'code: "{code}"', f"name: County {number}", "yields:"]
    for crop in crops:
        usual = CROPS[crop][0] * rng.uniform(0.8, 1.2)
        adjusted = ", ".join(f"{year}: [{', '.join(f'{usual * rng.uniform(0.85, 1.1):.2f}' for _ in range(5))}]" for year in YEARS[:2])
        history = ", ".join(f"{year}: {usual * rng.uniform(0.7, 1.2):.0f}" for year in range(2006, 2026))
        lines.append(f"  - {{commodity: {crop}, adjusted: {{{adjusted}}}, outlook: {{2026: {{yield: {usual:.2f}, known_from: local_harvest}}}}, history: {{{history}}}}}")
    (folder / f"{code}.yaml").write_text("\n".join(lines) + "\n")
    return code


def write_market(folder):
    prices = [f"  {crop}: {{" + ", ".join(f"{year}: {{price: {price}, volatility: 0.18}}" for year in YEARS) + "}" for crop, (_, price) in CROPS.items()]
    (folder / "market.yaml").write_text("\n".join(["format: fencerow/market/1", "as_of: 2026-11-10", 'source: "invented"', "outlook:"] + prices) + "\n")


def write_operation(folder, years=1, farms=1, crops=2, bases=1, producers=1, members=0, counties=1, acres=120, limit=0):
    """An operation; bases and acres are of each crop on each farm, limit is dollars a person, 0 the law's."""
    rng = random.Random(1)
    grown = list(CROPS)[:max(crops, 3 if farms > 1 else crops)]
    codes = [write_county(folder, k + 1, grown, rng) for k in range(counties)]
    write_market(folder)
    lines = ["format: fencerow/operation/1", f"crop_years: [{', '.join(map(str, YEARS[:years]))}]",
             f"county_files: [{', '.join(code + '.yaml' for code in codes)}]", "market_file: market.yaml"]
    if limit:
        lines.append(f"settings: {{payment_limit: {{{', '.join(f'{year}: {limit}' for year in YEARS)}}}}}")
    lines.append("producers:")
    for p in range(producers):
        lines.append(f"  - {{id: P{p}, kind: {'joint_operation' if members else 'person'}")
        if members:
            share = math.floor(1e6 / members) / 1e6
            lines[-1] += ", members: [" + ", ".join(f"{{id: M{p}-{m}, share: {share}}}" for m in range(members)) + "]"
        lines[-1] += "}"
    lines.append("farms:")
    for f in range(farms):
        mine = grown if farms == 1 else rng.sample(grown, 2)
        sharing = rng.sample(range(producers), min(2, producers)) if farms > 1 else range(producers)
        share = math.floor(1e6 / len(sharing)) / 1e6
        lines += [f'  - farm: "{f + 1}"', f'    county: "{codes[f % counties]}"', "    contract: open",
                  "    shares: {" + ", ".join(f"P{p}: {share}" for p in sharing) + "}", "    bases:"]
        for crop in mine:
            for b in range(bases):
                a, y = acres * rng.uniform(0.5, 1.5), CROPS[crop][0] * rng.uniform(0.7, 0.9)
                lines.append(f'      - {{commodity: {crop}, base_acres: {a:.2f}, payment_yield: {y:.0f}, tract: "{b + 1}"}}')
    (folder / "operation.yaml").write_text("\n".join(lines) + "\n")


# What grows: the three sizes, and for a size what is written and the scenarios asked for.
KINDS = {
    "scenarios": ((16384, 65536, 262144), lambda n: (dict(years=6, crops=3), n)),
    "years": ((1, 2, 6), lambda n: (dict(years=n, crops=3), 16384)),
    "crops under a limit": ((3, 6, 12), lambda n: (dict(crops=n, acres=9000 / n), 16384)),
    "farms": ((50, 200, 800), lambda n: (dict(farms=n, crops=6, counties=10, producers=n // 5, acres=60), 4096)),
    "farms under a limit": ((50, 200, 800), lambda n: (dict(farms=n, crops=6, counties=10, producers=n // 10, acres=600), 4096)),
    "producers": ((16, 64, 256), lambda n: (dict(producers=n, acres=20 * n), 4096)),
    "producers under a limit": ((16, 64, 256), lambda n: (dict(producers=n, acres=400 * n, limit=15000), 4096)),
    "members": ((60, 240, 960), lambda n: (dict(members=n, acres=20 * n), 4096)),
    "members under a limit": ((60, 240, 960), lambda n: (dict(members=n, acres=400 * n, limit=15000), 4096)),
    "bases": ((600, 2400, 9600), lambda n: (dict(bases=n // 2, acres=3), 4096)),
    "bases under a limit": ((600, 2400, 9600), lambda n: (dict(bases=n // 2, acres=30000 / n), 4096)),
}


def run(program, folder, draws):
    """Processor seconds and peak megabytes of one answer."""
    command = [program, "compare", str(folder / "operation.yaml"), "--today", "2026-11-25", "--book", "none", "--draws", str(draws), "--json"]
    nowhere = [(os.POSIX_SPAWN_OPEN, 1, os.devnull, os.O_WRONLY, 0)]
    _, status, used = os.wait4(os.posix_spawn(program, command, os.environ, file_actions=nowhere), 0)
    if status != 0:
        raise SystemExit("refused: " + " ".join(command))
    return used.ru_utime + used.ru_stime, used.ru_maxrss / 1024


def least(programs, folder, draws, repeat):
    """For each program the least time and the greatest memory; they take turns."""
    rounds = [[run(p, folder, draws) for p in programs] for _ in range(repeat)]
    return [(min(r[k][0] for r in rounds), max(r[k][1] for r in rounds)) for k in range(len(programs))]


def exponent(sizes, times):
    """The slope of log time over log size, least squares; nan where a time is not above 0."""
    if min(times) <= 0:
        return math.nan
    x, y = [math.log(n) for n in sizes], [math.log(t) for t in times]
    mx, my = sum(x) / len(x), sum(y) / len(y)
    return sum((a - mx) * (b - my) for a, b in zip(x, y)) / sum((a - mx) ** 2 for a in x)


def main():
    ask = argparse.ArgumentParser(description="How compare grows with what it is asked.")
    ask.add_argument("program")
    ask.add_argument("--old")
    ask.add_argument("--only", default="")
    ask.add_argument("--repeat", type=int, default=3)
    asked = ask.parse_args()
    programs = [os.path.abspath(p) for p in (asked.program, asked.old) if p]
    with tempfile.TemporaryDirectory() as name:
        folder = pathlib.Path(name)
        write_operation(folder, crops=1)
        empty = least(programs, folder, 16, 5)
        print("an almost empty question: " + ", ".join(f"{t:.3f} s {mb:.0f} MB" for t, mb in empty))
        for kind, (sizes, question) in KINDS.items():
            if asked.only and not any(word in kind for word in asked.only.split(",")):
                continue
            points = []
            for n in sizes:
                what, draws = question(n)
                write_operation(folder, **what)
                points.append(least(programs, folder, draws, asked.repeat))
            for k, program in enumerate(programs):
                times = [p[k][0] for p in points]
                beyond = exponent(sizes, [t - empty[k][0] for t in times])
                line = f"{kind:24} exponent {exponent(sizes, times):5.2f} ({beyond:.2f})  " + "  ".join(f"{n}: {t:.2f} s {p[k][1]:.0f} MB" for n, t, p in zip(sizes, times, points))
                if k == 1:
                    line = "  old: " + line
                print(line, flush=True)


if __name__ == "__main__":
    main()
