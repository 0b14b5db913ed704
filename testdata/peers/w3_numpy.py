"""Workload W3 in NumPy: the farms of a table of invent.py from the rates that `batch` draws (rates/main.go).

/usr/bin/python3 w3_numpy.py FARMS.csv RATES OUT

Reads the table, and writes OUT/results.csv (a line for each farm and crop: average, 10th and 90th percentile of PLC and of
ARC-CO per base acre, average difference and its standard error, the chances that neither or one of both pays more to the
cent) and OUT/farms.csv (the choice of the highest average and the one on record with average, 5th and 95th percentile of the
whole farm), in the columns of the same names of batch. The farms of a county are one block: averages by weights from those
of the rates, scenarios by broadcasting, percentiles by partition in place.
"""
import csv
import itertools
import os
import sys

import numpy as np

LIFT = 1 + 1e-12
REPLICATES = 16
table, rates, out = sys.argv[1:4]
os.makedirs(out, exist_ok=True)
with open(os.path.join(rates, "facts.csv")) as text:
    SHARE = float(text.read().split(",")[1])
with open(os.path.join(rates, "index.csv")) as text:
    place = {tuple(row): i for i, row in enumerate(csv.reader(text))}
series = np.fromfile(os.path.join(rates, "rates")).reshape(len(place), -1)
draws = series.shape[1]
means = series.mean(axis=1)
replicates = series.reshape(len(place), REPLICATES, -1).mean(axis=2)


def rounded(x, scale=100):
    y = x * (scale * LIFT)
    return np.sign(y) * np.floor(np.abs(y) + 0.5) / scale


def percentiles(block, percents):
    """Type 7 of each row, which is reordered."""
    at = [(draws - 1) * p / 100 for p in percents]
    places = sorted({int(a) for a in at} | {min(int(a) + 1, draws - 1) for a in at})
    block.partition(places, axis=1)
    return [block[:, int(a)] + (a - int(a)) * (block[:, min(int(a) + 1, draws - 1)] - block[:, int(a)]) for a in at]


tenths = dict(zip((10, 90), percentiles(series.copy(), (10, 90))))

# the farms of each county: key, and of each crop acres, payment yield and the program on record
farms = {}
with open(table) as text:
    rows = csv.reader(text)
    heads = next(rows)
    at = {name: heads.index(name) for name in ("operation", "farm", "county", "commodity", "base_acres", "payment_yield", "election_on_record")}
    operation, farm, county, commodity, acres, paid, record = (at[name] for name in at)
    for row in rows:
        key = (row[operation], row[county], row[farm])
        farms.setdefault(key, {})[row[commodity]] = (float(row[acres]), float(row[paid]), row[record])
blocks = {}  # farms of a county with the same crops
for key, crops in farms.items():
    blocks.setdefault((key[1], tuple(sorted(crops))), []).append(key)

found, whole = {}, {}
for (code, crops), keys in blocks.items():
    acres = np.array([[farms[key][c][0] for c in crops] for key in keys])
    paid = np.array([[farms[key][c][1] for c in crops] for key in keys])
    plc = [place["PLC", c, ""] for c in crops]
    arc = [place["ARC-CO", c, code] for c in crops]
    per_acre = paid * SHARE  # PLC per base acre and unit of its rate; of ARC-CO it is SHARE
    for k, c in enumerate(crops):
        weight = per_acre[:, k : k + 1]
        difference = SHARE * replicates[arc[k]] - weight * replicates[plc[k]]
        p, a = weight * series[plc[k]], SHARE * series[arc[k]]
        p_cents, a_cents = rounded(p), rounded(a)
        figures = np.column_stack([
            weight[:, 0] * means[plc[k]], weight[:, 0] * tenths[10][plc[k]], weight[:, 0] * tenths[90][plc[k]],
            np.full(len(keys), SHARE * means[arc[k]]), np.full(len(keys), SHARE * tenths[10][arc[k]]), np.full(len(keys), SHARE * tenths[90][arc[k]]),
            difference.mean(axis=1), difference.std(axis=1, ddof=1) / REPLICATES**0.5,
            ((p == 0) & (a == 0)).mean(axis=1) + ((p_cents == 0) & (a_cents == 0) & ((p != 0) | (a != 0))).mean(axis=1),
            (a_cents > p_cents).mean(axis=1), (p_cents > a_cents).mean(axis=1)])
        for key, line in zip(keys, figures):
            found[key + (c,)] = line
    # whole farms
    both = np.stack([per_acre * acres * means[plc], SHARE * acres * means[arc]], axis=2)  # farm, crop, program
    choices = np.array(list(itertools.product((0, 1), repeat=len(crops))))
    highest = choices[both[:, np.arange(len(crops)), choices].sum(axis=2).argmax(axis=1)]
    recorded = np.array([[farms[key][c][2] == "ARC-CO" for c in crops] for key in keys], dtype=int)
    known = np.array([all(farms[key][c][2] in ("PLC", "ARC-CO") for c in crops) for key in keys])

    def figures_of(choice):
        total = np.zeros((len(keys), draws))
        for k in range(len(crops)):
            total += np.where(choice[:, k] == 0, per_acre[:, k] * acres[:, k], 0)[:, None] * series[plc[k]]
            total += np.where(choice[:, k] == 1, SHARE * acres[:, k], 0)[:, None] * series[arc[k]]
        mean = both[np.arange(len(keys))[:, None], np.arange(len(crops)), choice].sum(axis=1)
        return np.column_stack([mean] + percentiles(total, (5, 95)))

    first, second = figures_of(highest), figures_of(recorded)
    for i, key in enumerate(keys):
        whole[key] = [highest[i], first[i], recorded[i], second[i]] if known[i] else None

with open(os.path.join(out, "results.csv"), "w") as text:
    text.write("operation,farm,commodity,plc_mean,plc_p10,plc_p90,arc_co_mean,arc_co_p10,arc_co_p90,difference_mean,difference_standard_error,chance_neither_pays,chance_arc_co_more,chance_plc_more\n")
    for (operation, county, farm, commodity), line in found.items():
        text.write("%s,%s-%s,%s,%.2f,%.2f,%.2f,%.2f,%.2f,%.2f,%.2f,%.2f,%.6f,%.6f,%.6f\n" % (operation, county, farm, commodity, *(line + 1e-9)))
with open(os.path.join(out, "farms.csv"), "w") as text:
    text.write("operation,farm,choice_highest,mean,p5,p95,choice_on_record,mean_on_record,p5_on_record,p95_on_record\n")
    for (operation, county, farm), line in whole.items():
        if line is None:
            text.write("%s,%s-%s,,,,,,,,\n" % (operation, county, farm))
            continue
        words = [" ".join("ARC-CO" if bit else "PLC" for bit in choice) for choice in (line[0], line[2])]
        text.write("%s,%s-%s,%s,%.2f,%.2f,%.2f,%s,%.2f,%.2f,%.2f\n" % (operation, county, farm, words[0], *(line[1] + 1e-9), words[1], *(line[3] + 1e-9)))
