"""The same work in Python's csv and sqlite3, to measure the county book against:
one program year of the county table, and NASS's county yields, into a database
with the same tables. Usage: python3 import_county.py ARCCO.csv.gz NASS.txt"""
import csv, gzip, os, re, sqlite3, sys, tempfile, time

SCHEMA = """
CREATE TABLE series (id INTEGER PRIMARY KEY, county TEXT, agency TEXT, commodity TEXT, practice TEXT, kind TEXT, UNIQUE (county, agency, commodity, practice, kind));
CREATE TABLE value (series INTEGER, crop_year INTEGER, slot INTEGER, number REAL, file INTEGER, line INTEGER, PRIMARY KEY (series, crop_year, slot)) WITHOUT ROWID;
CREATE INDEX value_of_file ON value (file);
"""


def database():
    db = sqlite3.connect(os.path.join(tempfile.mkdtemp(), "peer.db"))
    db.executescript(SCHEMA)
    return db, {}


def series(db, known, key):
    if key not in known:
        known[key] = db.execute("INSERT INTO series (county, agency, commodity, practice, kind) VALUES (?,?,?,?,?)", key).lastrowid
    return known[key]


def put(db, rows):
    db.executemany("INSERT OR REPLACE INTO value VALUES (?,?,?,?,?,?)", rows)


def county(path):
    db, known = database()

    def rows():
        for line, r in enumerate(csv.DictReader(gzip.open(path, "rt"))):
            if r["program_year"] != "2023":
                continue
            for slot in range(5):
                if r["yield_lag%d" % (6 - slot)]:
                    yield series(db, known, (r["st_cty"], "FSA", r["crop_name"], r["yield_designation"], "adjusted")), 2023, slot, float(r["yield_lag%d" % (6 - slot)]), 1, line
            for kind, column in (("benchmark_yield", "benchmark_yield"), ("actual", "actual_yield")):
                if r[column]:
                    yield series(db, known, (r["st_cty"], "FSA", r["crop_name"], r["yield_designation"], kind)), 2023, 0, float(r[column]), 1, line

    put(db, rows())
    db.commit()


def nass(path):
    db, known = database()

    def rows():
        for line, r in enumerate(csv.DictReader(open(path), delimiter="\t")):
            item = r["SHORT_DESC"]
            if r["AGG_LEVEL_DESC"] != "COUNTY" or r["COUNTY_CODE"] == "998" or not item.endswith("MEASURED IN BU / ACRE") or r["VALUE"].startswith("("):
                continue
            yield series(db, known, (r["STATE_ANSI"] + r["COUNTY_CODE"], "NASS", item, "", "yield")), int(r["YEAR"]), 0, float(r["VALUE"].replace(",", "")), 1, line

    put(db, rows())
    db.commit()


for name, work, path in (("county table", county, sys.argv[1]), ("NASS", nass, sys.argv[2])):
    start = time.perf_counter()
    work(path)
    print("%s: %.2f s, %d MB" % (name, time.perf_counter() - start, int(re.search(r"VmHWM:\s+(\d+)", open("/proc/self/status").read())[1]) // 1024))
