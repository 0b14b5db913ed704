#!/usr/bin/env python3
"""Writes the agencies' county tables in ../shared in the layouts that `county import` reads.

    agency_book.py FOLDER [YEAR...]

FOLDER/qs.crops_20260627.txt   NASS's county yields in its bulk layout
FOLDER/county-YEAR.csv         FSA's county table of each program year (default 2023 2024 2025), to be made a
                               workbook by testdata/peers/tables; its sheet is named "ARCCO YEAR (2026-02-03)"
"""

import csv
import gzip
import pathlib
import sys

SHARED = pathlib.Path(__file__).resolve().parents[2].parent / "shared/data"
HEADINGS = ("SOURCE_DESC SECTOR_DESC GROUP_DESC COMMODITY_DESC CLASS_DESC PRODN_PRACTICE_DESC UTIL_PRACTICE_DESC STATISTICCAT_DESC UNIT_DESC SHORT_DESC "
            "DOMAIN_DESC DOMAINCAT_DESC AGG_LEVEL_DESC STATE_ANSI STATE_FIPS_CODE STATE_ALPHA STATE_NAME ASD_CODE ASD_DESC COUNTY_ANSI COUNTY_CODE COUNTY_NAME "
            "REGION_DESC ZIP_5 WATERSHED_CODE WATERSHED_DESC CONGR_DISTRICT_CODE COUNTRY_CODE COUNTRY_NAME LOCATION_DESC YEAR FREQ_DESC BEGIN_CODE END_CODE "
            "REFERENCE_PERIOD_DESC WEEK_ENDING LOAD_TIME VALUE CV_%").split()
FIGURES = ("benchmark_yield benchmark_price benchmark_revenue guarantee_revenue max_payment_rate actual_yield national_price actual_revenue "
           "formula_payment_rate payment_rate").split()


def rows(path):
    with gzip.open(SHARED / path, "rt") as table:
        yield from csv.DictReader(table)


def write_yields(folder):
    with open(folder / "qs.crops_20260627.txt", "w") as out:
        out.write("\t".join(HEADINGS) + "\n")
        for r in rows("nass/county_yields_1980_2025.csv.gz"):
            crop = r["short_desc"].partition(" - ")[0]
            out.write("\t".join(["SURVEY", "CROPS", "FIELD CROPS", crop, "ALL CLASSES", "ALL PRODUCTION PRACTICES", "ALL UTILIZATION PRACTICES", "YIELD", "BU / ACRE",
                                 r["short_desc"], "TOTAL", "NOT SPECIFIED", "COUNTY", r["state_ansi"], r["state_ansi"], r["state_alpha"], "", "10", "NORTH", r["county_code"],
                                 r["county_code"], r["county_name"], "", "", "00000000", "", "", "9000", "UNITED STATES", f'{r["state_alpha"]}, {r["county_name"]}', r["year"],
                                 "ANNUAL", "00", "00", "YEAR", "", "2026-06-26 15:00:00", r["value"], r["cv_pct"]]) + "\n")


def write_table(folder, year):
    span = f"({year - 6}-{(year - 2) % 100:02d} olympic avg)"
    heading = ["ST_Cty", "State Name", "County Name", "Sub County", "Crop Name", "Unit", "ARC-CO Yield Designation"]
    heading += [f"{year - lag} trend adjusted (county yield or 80% of T)" for lag in range(6, 1, -1)]
    heading += ["", f"{year} Bench Mark {span}", f"{year} Bench Mark Price {span}"]
    heading += [f"{year} {words}" for words in ("Benchmark Revenue", "Guarantee Revenue", "Maximum Payment Rate", "Actual Yield", "National Price", "Actual Revenue",
                                                "Formula Payment Rate", "ARC-CO Payment Rate")]
    with open(folder / f"county-{year}.csv", "w") as out:
        table = csv.writer(out, lineterminator="\n")
        table.writerow([f"ARC-CO TREND ADJUSTED YIELDS, BENCHMARK YIELDS AND GUARANTEE REVENUES FOR PROGRAM YEAR {year}"])
        table.writerows([["", ""], ["", ""], heading])
        for r in rows("fsa/arcco_county_py2019_2025.csv.gz"):
            if r["program_year"] == str(year):
                names = [r[c] for c in ("st_cty", "state_name", "county_name", "sub_county", "crop_name", "unit", "yield_designation")]
                table.writerow(names + [r[f"yield_lag{lag}"] for lag in range(6, 1, -1)] + [""] + [r[c] for c in FIGURES])


if __name__ == "__main__":
    where = pathlib.Path(sys.argv[1])
    where.mkdir(parents=True, exist_ok=True)
    write_yields(where)
    for program_year in [int(y) for y in sys.argv[2:]] or [2023, 2024, 2025]:
        write_table(where, program_year)
