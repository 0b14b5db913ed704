"""Invents the table of some 300 rows behind the pictures of a summary, on standard output. The
seed is fixed: the same program writes the same table."""
import csv
import random
import sys

chance = random.Random(2026)
out = csv.writer(sys.stdout, lineterminator="\n")
out.writerow("client operation farm county commodity crop_year base_acres payment_yield irrigated_share election_on_record contract producer share choice signed".split())
rows = client = 0
while rows < 300:
    client += 1
    for operation in ["home", "river"][: chance.choice([1, 1, 1, 2])]:
        for farm in range(chance.choice([1, 2, 2, 3, 5])):
            county = chance.choice(["99001", "99001", "99003"])
            people = chance.choice([[("operator", "1")], [("operator", "0.6"), ("landowner", "0.4")], [("operator", "0.5"), ("heir", "0.5")]])
            crops = [("corn", (110, 180)), ("soybeans", (34, 56))] if county == "99001" else [("wheat", (36, 60)), ("corn", (110, 160))]
            for crop, yields in crops:
                acres = "%.2f" % (10 + (2500 if chance.random() < 0.08 else 280) * chance.random())
                if chance.random() < 0.02:
                    acres = "-3"  # refused
                plc_yield = "" if chance.random() < 0.05 else chance.randint(*yields)
                irrigated = "0.35" if county == "99003" and crop == "corn" and chance.random() < 0.8 else ""
                last, choice = chance.choice(["PLC", "ARC-CO", "PLC", "ARC-CO", ""]), chance.choice(["", "", "", "PLC", "ARC-CO"])
                for who, share in people:
                    number = 1000 + client * 20 + farm + (10 if operation == "river" else 0)
                    out.writerow(["client %02d" % client, operation, number, county, crop, 2026, acres, plc_yield, irrigated, last, "open", "%s %02d" % (who, client), share, choice, ""])
                    rows += 1
