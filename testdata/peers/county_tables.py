"""Compares the built-in county tables with the agencies' files: ten counties of each agency;
and the built-in table of past crop years, whole.

A second program: Python's standard library alone, none of the readers of this
repository. Usage: python3 testdata/peers/county_tables.py ../shared/data [how many counties]
Prints the counts; exit code 1 where a figure differs or is missing on one side.
"""

import csv
import gzip
import io
import random
import sys
import zlib

TABLES = "io/read/builtin/counties.csv.gz"
PAST = "io/read/builtin/past.csv.gz"
SEED = 20261125
NEWEST = 2025  # program year of which the five adjusted yields are built in

# Crop names as the files print them -> the program's keys.
FSA_CROPS = {
    "corn": "corn", "wheat": "wheat", "soybeans": "soybeans", "oats": "oats", "grain sorghum": "grain_sorghum", "barley": "barley",
    "sunflower seed": "sunflower_seed", "sunflower": "sunflower_seed", "seed cotton": "seed_cotton", "cotton": "seed_cotton", "canola": "canola",
    "dry peas": "dry_peas", "peanuts": "peanuts", "flaxseed": "flaxseed", "safflower": "safflower", "lentils": "lentils",
    "rice_long grain": "long_grain_rice", "rice_med/short grain": "medium_grain_rice", "rice_temperate japonica": "temperate_japonica_rice",
    "chickpeas_large": "large_chickpeas", "chickpeas_small": "small_chickpeas", "mustard seed": "mustard_seed", "mustard": "mustard_seed",
    "sesame seed": "sesame_seed", "sesame": "sesame_seed", "rapeseed": "rapeseed", "crambe": "crambe",
}
NASS_CROPS = {
    "CORN, GRAIN": ("corn", "nass", "BU"), "SOYBEANS": ("soybeans", "nass", "BU"), "SORGHUM, GRAIN": ("grain_sorghum", "nass", "BU"),
    "BARLEY": ("barley", "nass", "BU"), "OATS": ("oats", "nass", "BU"), "WHEAT": ("wheat", "nass", "BU"),
    "WHEAT, WINTER": ("wheat", "nass_winter", "BU"), "WHEAT, SPRING, (EXCL DURUM)": ("wheat", "nass_spring", "BU"),
    "WHEAT, SPRING, DURUM": ("wheat", "nass_durum", "BU"), "PEANUTS": ("peanuts", "nass", "LB"), "SUNFLOWER": ("sunflower_seed", "nass", "LB"),
    "CANOLA": ("canola", "nass", "LB"), "FLAXSEED": ("flaxseed", "nass", "BU"), "SAFFLOWER": ("safflower", "nass", "LB"),
    "LENTILS": ("lentils", "nass", "LB"), "PEAS, DRY EDIBLE": ("dry_peas", "nass", "LB"), "MUSTARD, SEED": ("mustard_seed", "nass", "LB"),
    "RAPESEED": ("rapeseed", "nass", "LB"), "RICE, LONG GRAIN": ("long_grain_rice", "nass", "LB"), "RICE, MEDIUM GRAIN": ("medium_grain_rice", "nass", "LB"),
}


def rows(path):
    with gzip.open(path, "rt", encoding="utf-8", newline="") as f:
        yield from csv.DictReader(f, skipinitialspace=True)


def fsa(folder):
    """FSA's figures: (county, crop, practice, kind, year) -> value."""
    found = {}
    for name, crop in (("arcco_county_py2014_2018.csv.gz", "crop"), ("arcco_county_py2019_2025.csv.gz", "crop_name")):
        for r in rows(f"{folder}/fsa/{name}"):
            key = (r["st_cty"] + r.get("sub_county", ""), FSA_CROPS[r[crop].lower()], r["yield_designation"].lower())
            year = int(r["program_year"])
            for kind, column in (("actual", "actual_yield"), ("benchmark", "benchmark_yield")):
                if r[column]:
                    found[key + (kind, year)] = float(r[column])
            five = [r.get(f"yield_lag{lag}", "") for lag in (6, 5, 4, 3, 2)]
            if year == NEWEST and all(five):
                for i, value in enumerate(five):
                    found[key + ("adjusted_five", year - 6 + i)] = float(value)
    return found


def rma(folder):
    found = {}
    practices = {"002": "irrigated", "003": "nonirrigated", "997": "all"}
    for r in rows(f"{folder}/rma/RMACountyYieldsReport_corn_soybeans_nonirrigated_2010_2024.csv.gz"):
        crop = {"Corn": "corn", "Soybeans": "soybeans"}[r["Commodity Name"].strip()]
        key = (r["State Code"].strip() + r["County Code"].strip(), crop, practices[r["Irrigation Practice Code"].strip()], "rma", int(r["Yield Year"]))
        found[key] = float(r["Yield Amount"])
    return found


def nass(folder):
    found = {}
    for r in rows(f"{folder}/nass/county_yields_1980_2025.csv.gz"):
        what, sep, unit = r["short_desc"].partition(" - YIELD, MEASURED IN ")
        practice = "all"
        if what.endswith(", NON-IRRIGATED"):
            what, practice = what[: -len(", NON-IRRIGATED")], "nonirrigated"
        elif what.endswith(", IRRIGATED"):
            what, practice = what[: -len(", IRRIGATED")], "irrigated"
        if not sep or what not in NASS_CROPS or r["county_code"] in ("", "998"):
            continue
        crop, kind, mass = NASS_CROPS[what]
        if unit == mass + " / ACRE":
            found[(r["state_ansi"] + r["county_code"], crop, practice, kind, int(r["year"]))] = float(r["value"])
    return found


def builtin():
    """The built-in figures, member by member of the file."""
    packed, text, members = open(TABLES, "rb").read(), [], 0
    while packed:
        d = zlib.decompressobj(wbits=31)
        text.append(d.decompress(packed).decode())
        packed, members = d.unused_data, members + 1
    found = {}
    for line in csv.reader(io.StringIO("".join(text))):
        county, crop, practice, kind, first, *values = line
        if kind in ("state", "name", "kind"):
            continue
        for i, value in enumerate(values):
            if value:
                found[(county, crop, practice, kind, int(first) + i)] = float(value)
    return found, members


SCORED = ("corn", "grain_sorghum", "soybeans", "wheat")


def past_of_agencies(folder):
    """What the table of past crop years should hold: (kind, crop, practice, year) -> values."""
    listed, forecasts, enrolled, five = {}, {}, {}, {}
    for name, crop in (("arcco_county_py2014_2018.csv.gz", "crop"), ("arcco_county_py2019_2025.csv.gz", "crop_name")):
        for r in rows(f"{folder}/fsa/{name}"):
            c, code, year, practice = FSA_CROPS[r[crop].lower()], r["st_cty"] + r.get("sub_county", ""), int(r["program_year"]), r["yield_designation"].lower()
            if c not in SCORED or not r["actual_yield"]:
                continue
            listed.setdefault(c, {})[code] = ("", "")
            if year >= 2019:
                cents = [round(100 * float(r[f"yield_lag{lag}"])) for lag in (6, 5, 4, 3, 2)]
                five.setdefault((c, practice, year), {})[code] = str(sum(cents) - 5 * round(100 * float(r["benchmark_yield"])))
    newest = {}
    for r in rows(f"{folder}/fsa/county_base_acres_2014_2023.csv.gz"):
        c, code, year = (FSA_CROPS | {"sorghum": "grain_sorghum"}).get(r["crop"].lower()), r["state_fips"] + r["county_fips"], int(r["program_year"])
        if c in SCORED and r["county_fips"] and r["base_acres"] and code in listed[c] and year >= newest.get((c, code), 0):
            newest[c, code] = year
            listed[c][code] = (r["base_acres"], r["avg_plc_yield"])
    want = {}
    for c in SCORED:
        want["base_acres", c, "", ""] = [listed[c][code][0] for code in sorted(listed[c])]
        want["payment_yield", c, "", ""] = [listed[c][code][1] for code in sorted(listed[c])]
    for (c, practice, year), of in five.items():
        want["five_less_benchmark", c, practice, str(year)] = [of[code] for code in sorted(of)]
    with open(f"{folder}/fsa/enrolled_base_acres_py2015_2024.csv", newline="") as f:
        for r in csv.DictReader(f):
            if (c := FSA_CROPS.get(r["commodity"].lower())) in SCORED:
                want["enrolled", c, "", r["program_year"]] = [r["plc_acres"], r["arcco_total_acres"]]
    names = {"Corn": "corn", "Sorghum": "grain_sorghum", "Soybeans": "soybeans", "Wheat": "wheat"}
    with open(f"{folder}/wasde/us_season_average_price_2010_2025.csv", newline="") as f:
        for r in csv.DictReader(f):
            year, day = r["market_year"][:4], r["report_date"]
            if r["commodity"] in names and r["status"] == "Proj." and r["column"] != "previous" and r["low"] and day[:4] == year >= "2014" and day[5:7] in ("05", "11"):
                want["forecast", names[r["commodity"]], "", year, day] = [(float(r["low"]) + float(r["high"])) / 2]
    return want


def past_built_in():
    found = {}
    with gzip.open(PAST, "rt", newline="") as f:
        for kind, *key, values in (line[:4] + [line[4:]] for line in list(csv.reader(f))[1:]):
            key = (kind, *key)
            found[key + (values[0],) if kind == "forecast" else key] = values[1:] if kind == "forecast" else values
    return found


def compare_past(folder):
    """Prints how many figures agree, returns how many do not."""
    want, got = past_of_agencies(folder), past_built_in()
    wrong, figures = [k for k in want.keys() ^ got.keys()], 0
    for k in want.keys() & got.keys():
        figures += len(got[k])
        number = lambda x: float(x) if x else 0.0
        if len(want[k]) != len(got[k]) or any(abs(number(a) - number(b)) > 1e-9 for a, b in zip(want[k], got[k])):
            wrong.append(k)
    print(f"past crop years: {len(got)} lines, {figures} figures, {len(wrong)} lines differ or are missing")
    for k in wrong[:5]:
        print("  ", k, str(want.get(k))[:80], str(got.get(k))[:80])
    return len(wrong)


def agency_of(kind):
    return "NASS" if kind.startswith("nass") else "RMA" if kind == "rma" else "FSA"


def main():
    folder = sys.argv[1]
    many = int(sys.argv[2]) if len(sys.argv) > 2 else 10
    ours, members = builtin()
    print(f"built in: {len(ours)} figures in {members} members")
    wrong = 0
    for agency, read in (("FSA", fsa), ("RMA", rma), ("NASS", nass)):
        theirs = read(folder)
        counties = sorted({key[0] for key in theirs})
        chosen = set(random.Random(SEED).sample(counties, min(many, len(counties))))
        there = {k: v for k, v in theirs.items() if k[0] in chosen}
        here = {k: v for k, v in ours.items() if k[0] in chosen and agency_of(k[3]) == agency}
        differ = [k for k in there.keys() & here.keys() if abs(there[k] - here[k]) > 0.005 + 1e-9]
        exact = sum(there[k] == here[k] for k in there.keys() & here.keys())
        missing, extra = there.keys() - here.keys(), here.keys() - there.keys()
        wrong += len(differ) + len(missing) + len(extra)
        print(f"{agency}: {len(chosen)} of {len(counties)} counties, {len(there)} figures: {exact} the same, {len(differ)} differ, "
              f"{len(there) - exact - len(differ) - len(missing)} differ by less than the second decimal, {len(missing)} missing, {len(extra)} too many")
        for k in (differ + sorted(missing) + sorted(extra))[:5]:
            print("  ", k, there.get(k), here.get(k))
    wrong += compare_past(folder)
    return 1 if wrong else 0


if __name__ == "__main__":
    sys.exit(main())
