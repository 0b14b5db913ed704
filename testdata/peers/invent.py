#!/usr/bin/env python3
"""Writes a table of invented farms, to try `fencerow batch` on many of them.

    invent.py --farms N --out FOLDER [--seed S] [--broken K] [--shuffle] [--acres A] [--agency]

FOLDER/farms.csv        the table of farms, one row for each base and producer
FOLDER/counties/*.yaml  a county file for each invented county in it
FOLDER/market.yaml      invented prices of 2026 for all its commodities
FOLDER/broken.csv       with --broken: line and kind of each broken row

Nothing in it is real. Which commodities a county has, and in which parts, is taken
from the agency's county base acres in ../shared where they are there, else from a
fixed mix below; counties get new numbers under state code 99, in an order made by
chance. Operations are numbered county by county. The same seed writes the same files.
"""

import argparse
import csv
import gzip
import io
import pathlib
import random

HERE = pathlib.Path(__file__).resolve()
BASE_ACRES = HERE.parents[2].parent / "shared/data/fsa/county_base_acres_2014_2023.csv.gz"
PROGRAM_YEAR = "2023"  # of the base acres whose shape is taken
MOST_COUNTIES = 3000
CROP_YEAR = 2026
AVERAGE_ACRES = 140
MOST_FARMS = 30  # of an operation

# An invented yield per acre and an invented price, each in the commodity's unit.
COMMODITIES = {
    "wheat": (50, 5.60), "oats": (62, 3.40), "barley": (70, 5.20), "corn": (172, 4.30), "grain_sorghum": (70, 3.90),
    "soybeans": (51, 10.60), "flaxseed": (21, 11.5), "long_grain_rice": (7400, 0.135), "medium_grain_rice": (7600, 0.14),
    "temperate_japonica_rice": (8400, 0.19), "sunflower_seed": (1600, 0.22), "rapeseed": (1700, 0.21), "canola": (1800, 0.21),
    "safflower": (1200, 0.25), "mustard_seed": (800, 0.33), "crambe": (1100, 0.25), "sesame_seed": (600, 0.4), "peanuts": (4000, 0.25),
    "dry_peas": (1900, 0.14), "lentils": (1200, 0.28), "small_chickpeas": (1300, 0.25), "large_chickpeas": (1400, 0.3), "seed_cotton": (2300, 0.36),
}

# Parts of the base where the agency's table is absent: three invented kinds of county.
FIXED_MIX = [
    {"corn": 0.55, "soybeans": 0.35, "wheat": 0.10},
    {"wheat": 0.60, "grain_sorghum": 0.25, "barley": 0.10, "sunflower_seed": 0.05},
    {"seed_cotton": 0.45, "peanuts": 0.25, "corn": 0.20, "long_grain_rice": 0.10},
]

COLUMNS = ("client operation farm state county tract physical_county commodity crop_year base_acres payment_yield irrigated_share crp_reduction "
           "election_on_record contract lease stax_bought producer share total_acres cropland unassigned_base_acres idle_2009_2017 merge_with").split()


def agency_mixes():
    """Base acres by commodity for each county of the agency's table, by State and name."""
    counties = {}
    with gzip.open(BASE_ACRES, "rt") as table:
        for row in csv.DictReader(table):
            commodity = commodity_of(row["crop"], row["crop_type"])
            acres = float(row["base_acres"] or 0)
            if row["program_year"] == PROGRAM_YEAR and commodity and acres > 0:
                mix = counties.setdefault((row["state"], row["county"]), {})
                mix[commodity] = mix.get(commodity, 0) + acres
    return counties


def commodity_of(crop, kind):
    """The commodity's key, or None for base that is none of the 23."""
    words = {"sunflowers": "sunflower seed", "mustard": "mustard seed", "sesame": "sesame seed", "sorghum": "grain sorghum", "flax": "flaxseed",
             "peas": "dry peas", "chickpeas": "large chickpeas", "short/medium grain rice": "medium grain rice"}
    name = f"{kind} {crop}".strip()
    key = words.get(name, name).replace(" ", "_")
    return key if key in COMMODITIES else None


def invented_mixes(rng):
    """Such mixes from the fixed mix and invented sizes."""
    return [{c: part * rng.lognormvariate(11, 1) for c, part in FIXED_MIX[i % len(FIXED_MIX)].items()} for i in range(MOST_COUNTIES)]


def invented_code(index):
    """The code of a county under State 99."""
    letter = index // 999  # 99001 to 99999, then 99001A and so on
    return f"99{index % 999 + 1:03d}" + ("" if letter == 0 else "ABC"[letter - 1])


class County:
    """An invented county: its code, its commodities with their weights, its yields."""

    def __init__(self, state, code, mix, rng):
        self.state, self.code = state, code
        self.acres = sum(mix.values())
        self.commodities = sorted(mix)
        self.weights = [mix[c] for c in self.commodities]
        self.yields = {c: COMMODITIES[c][0] * rng.uniform(0.75, 1.25) for c in self.commodities}
        self.seed = rng.random()
        self.farms = 0  # numbered so far

    def write(self, folder):
        rng = random.Random(self.seed)
        lines = ["# An invented county; 99 is no state.", "format: fencerow/county/1", f'code: "{self.code}"', f"name: County {self.code[2:]}", "yields:"]
        for c, usual in self.yields.items():
            five = ", ".join(f"{usual * rng.uniform(0.85, 1.1):.2f}" for _ in range(5))
            expected, known = usual * rng.uniform(0.8, 1.1), rng.choice(("before_harvest", "state_report", "local_harvest"))
            lines.append(f"  - {{commodity: {c}, adjusted: {{{CROP_YEAR}: [{five}]}}, outlook: {{{CROP_YEAR}: {{yield: {expected:.2f}, known_from: {known}}}}}}}")
        (folder / f"{self.code}.yaml").write_text("\n".join(lines) + "\n")


def rows_of_farm(rng, county, operation, persons, to_break, acres):
    """The rows of one farm, each a list in the order of COLUMNS; two producers where a row is to be broken."""
    county.farms += 1
    number = str(county.farms + 1000)
    wanted = min(rng.choice((1, 2, 2, 2, 3, 3, 4)), len(county.commodities))
    grown = []
    while len(grown) < wanted:
        c = rng.choices(county.commodities, county.weights)[0]
        if c not in grown:
            grown.append(c)
        elif rng.random() < 0.2:
            break  # the others are rare here
    total = min(acres * rng.lognormvariate(-0.4, 0.9), 20000)  # the average of this is close to 1
    parts = [rng.uniform(0.5, 1) / (k + 1) for k in range(len(grown))]
    sum_of_parts = sum(parts)
    producers = [persons[0]]
    if to_break or rng.random() < 0.4:
        producers = rng.sample(persons, 3 if rng.random() < 0.2 and not to_break else 2)
    first_share = rng.choice((0.5, 0.6, 0.67))
    shares = [["1"], [f"{first_share}", f"{1 - first_share:.2f}"], ["0.5", "0.25", "0.25"]][len(producers) - 1]
    lease = rng.choice(("cash", "share") if to_break else ("cash", "share", "", ""))
    individual = rng.random() < 0.01
    farmland, cropland = f"{total * 1.5:.2f}", f"{total * 1.2:.2f}"
    rows = []
    for c, part in zip(grown, parts):
        base = max(0.01, total * part / sum_of_parts)
        payment_yield = county.yields[c] * 0.8 * rng.uniform(0.85, 1.15)
        election = "ARC-IC" if individual else rng.choice(("PLC", "PLC", "ARC-CO"))
        for person, share in zip(producers, shares):
            rows.append(["", operation, number, county.state, county.code, "", "", c, str(CROP_YEAR), f"{base:.2f}", f"{payment_yield:.0f}", "", "",
                         election, "open", lease, "", person, share, farmland, cropland, "", "", ""])
    return rows


def put(**cells):
    """A way to break a row: other text in some of its cells."""
    def change(row):
        for name, text in cells.items():
            row[COLUMNS.index(name)] = text
    return change


def cell(row, name):
    return row[COLUMNS.index(name)]


def other(name, texts):
    """A way to break a row: something else than its farm says elsewhere."""
    return lambda row: put(**{name: next(t for t in texts if t != cell(row, name))})(row)


def under_no_heading(row):
    row.append("7")


# What is done to the last row of a farm of two producers, so that this row alone is
# refused. The last kind stands twice and is copied, not changed.
WAYS_TO_BREAK = {
    "negative acres": put(base_acres="-20"), "no acres": put(base_acres="0"), "acres in words": put(base_acres="forty"), "acres blank": put(base_acres=""),
    "decimal comma": put(base_acres="120,5"), "spreadsheet error": put(base_acres="#REF!"), "too many acres": put(base_acres="999999999"),
    "too many digits": put(base_acres="1" * 40), "unknown commodity": put(commodity="turnips"), "commodity blank": put(commodity=""),
    "farm blank": put(farm=""), "county blank": put(county=""), "county that none has": put(county="99000"), "county without state": put(county="17"),
    "county in words without state": put(county="Nowhere"), "unknown state": put(state="Nowhere"), "state of another county": put(state="19"),
    "crop year in words": put(crop_year="this"), "crop year of two digits": put(crop_year="26"), "crop year before the law": put(crop_year="1926"),
    "negative yield": put(payment_yield="-30"), "yield in words": put(payment_yield="good"), "impossible yield": put(payment_yield="1000000"),
    "share above one": put(share="1.5"), "negative share": put(share="-0.1"), "share in words": put(share="half"), "irrigated share above one": put(irrigated_share="1.2"),
    "negative crp reduction": put(crp_reduction="-1"), "arc alone": put(election_on_record="ARC"), "unknown contract": put(contract="perhaps"),
    "unknown lease": put(lease="barter"), "neither yes nor no": put(stax_bought="perhaps"), "negative cropland": put(cropland="-5"),
    "land in words": put(total_acres="all of it"), "negative unassigned base": put(unassigned_base_acres="-3"),
    "line break in a cell": put(lease="ca\nsh"), "too long a text": put(producer="9" * 200), "value under no heading": under_no_heading,
    "merged with itself": lambda row: put(merge_with=cell(row, "farm"))(row),
    "contradicting acres": put(base_acres="77.77"), "contradicting yield": lambda row: put(payment_yield=str(int(cell(row, "payment_yield")) + 7))(row),
    "contradicting contract": put(contract="signed"), "contradicting lease": other("lease", ("cash", "flex")),
    "contradicting election": other("election_on_record", ("PLC", "ARC-CO")), "contradicting land": put(total_acres="19999"),
    "shares above one together": put(share="1"), "no producer": put(producer=""), "no share": put(share=""), "duplicate base": None,
}


def operations(rng, counties, farms):
    """Yields home county, number and count of farms of each operation, county by county."""
    sizes = []
    left = farms
    size_weights = [size ** -1.5 for size in range(1, MOST_FARMS + 1)]
    while left > 0:
        for size in rng.choices(range(1, MOST_FARMS + 1), size_weights, k=1000):
            size = min(size, left)
            if size == 0:
                break
            sizes.append(size)
            left -= size
    homes = sorted(rng.choices(range(len(counties)), [c.acres for c in counties], k=len(sizes)))
    for at, (home, size) in enumerate(zip(homes, sizes), 1):
        yield home, f"{at:07d}", size


def farms_of(rng, counties, farms, broken, acres):
    """Yields the rows of each farm, with the way in which the last is to be broken."""
    kinds = list(WAYS_TO_BREAK)
    to_break = {farm: kinds[i % len(kinds)] for i, farm in enumerate(rng.sample(range(farms), broken))}
    done = 0
    for home, operation, size in operations(rng, counties, farms):
        first = int(operation) * 10
        persons = [str(first + k) for k in range(max(3, min(8, size)))]
        for _ in range(size):
            away = rng.random() < 0.15 and len(counties) > 1
            county = counties[home - 1 if away else home]  # 0 - 1 is the last
            kind = to_break.get(done)
            yield rows_of_farm(rng, county, operation, persons, kind, acres), kind
            done += 1


def break_last(rows, kind):
    if kind == "duplicate base":
        rows.append(list(rows[-1]))
    else:
        WAYS_TO_BREAK[kind](rows[-1])


def quoted(row):
    """A row with what a cell may need in quotation marks."""
    text = io.StringIO()
    csv.writer(text, lineterminator="\n").writerow(row)
    return text.getvalue()


def farm_texts(rng, counties, farms, broken, acres):
    """Yields the lines of each farm and the kind of its last."""
    for rows, kind in farms_of(rng, counties, farms, broken, acres):
        if kind:
            break_last(rows, kind)
            yield [quoted(row) for row in rows], kind
        else:
            yield [",".join(row) + "\n" for row in rows], None


def shuffled(rng, texts):
    """All lines in an order made by chance. Those of a farm with a broken row keep
    their order among themselves, for it is the later of two that is refused."""
    lines = [(text, farm, kind if text is own[-1] else None) for farm, (own, kind) in enumerate(texts) for text in own]
    rng.shuffle(lines)
    broken_farms = {farm for _, farm, kind in lines if kind}
    places = {}
    for at, line in enumerate(lines):
        if line[1] in broken_farms:
            places.setdefault(line[1], []).append(at)
    for farm, at in places.items():
        last = next(lines[i] for i in at if lines[i][2])
        others = [lines[i] for i in at if not lines[i][2]]
        for i, line in zip(at, others + [last]):
            lines[i] = line
    for text, _, kind in lines:
        yield [text], kind


def write_table(out, texts):
    """Writes farms.csv; returns line and kind of each broken row."""
    found, line = [], 2  # the first holds the headings
    with open(out / "farms.csv", "w") as table:
        table.write(",".join(COLUMNS) + "\n")
        for lines, kind in texts:
            if kind:
                found.append((line + sum(text.count("\n") for text in lines[:-1]), kind))
                line += sum(text.count("\n") for text in lines)
            else:
                line += len(lines)
            table.writelines(lines)
    return found


def write_market(out):
    prices = [f"  {c}: {{{CROP_YEAR}: {{price: {price}, volatility: 0.18}}}}" for c, (_, price) in COMMODITIES.items()]
    (out / "market.yaml").write_text("\n".join(
        ["# Invented prices.", "format: fencerow/market/1", "as_of: 2026-11-10", 'source: "invented"', "outlook:"] + prices) + "\n")


def main():
    ask = argparse.ArgumentParser(description="Writes a table of invented farms, county files and prices.")
    ask.add_argument("--farms", type=int, required=True)
    ask.add_argument("--out", type=pathlib.Path, required=True)
    ask.add_argument("--seed", type=int, default=1)
    ask.add_argument("--broken", type=int, default=0, help="rows to break, each on a farm of its own")
    ask.add_argument("--shuffle", action="store_true", help="rows in an order made by chance")
    ask.add_argument("--acres", type=float, default=AVERAGE_ACRES, help="base acres of a farm on average: with 14 hardly a payment limit is reached")
    ask.add_argument("--agency", action="store_true", help="farms in the agency's counties, without county files")
    asked = ask.parse_args()
    if not 0 <= asked.broken <= asked.farms:
        ask.error("--broken is more than --farms")
    if asked.agency and not BASE_ACRES.exists():
        ask.error(f"--agency needs {BASE_ACRES}")
    rng = random.Random(asked.seed)
    by_name = agency_mixes() if BASE_ACRES.exists() else {("", i): mix for i, mix in enumerate(invented_mixes(rng))}
    largest = sorted(by_name.items(), key=lambda county: -sum(county[1].values()))[:MOST_COUNTIES]
    rng.shuffle(largest)
    counties = [County(*(name if asked.agency else ("", invented_code(i))), mix, rng) for i, (name, mix) in enumerate(largest)]
    (asked.out / "counties").mkdir(parents=True, exist_ok=True)
    texts = farm_texts(rng, counties, asked.farms, asked.broken, asked.acres)
    found = write_table(asked.out, shuffled(rng, texts) if asked.shuffle else texts)
    used = [c for c in counties if c.farms > 0]
    for county in used:
        if not asked.agency:
            county.write(asked.out / "counties")
    write_market(asked.out)
    if asked.broken:
        with open(asked.out / "broken.csv", "w") as table:
            csv.writer(table, lineterminator="\n").writerows([("line", "kind")] + found)
    print(f"{asked.farms} farms in {len(used)} counties, {len(found)} rows broken in {len({kind for _, kind in found})} ways")


if __name__ == "__main__":
    main()
