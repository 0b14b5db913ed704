"""Opens a workbook with openpyxl and says what it finds. Run with -W error."""
import sys

import openpyxl

book = openpyxl.load_workbook(sys.argv[1])
values = openpyxl.load_workbook(sys.argv[1], data_only=True)
front = book["Front"]
hidden = [s.title for s in book.worksheets if s.sheet_state != "visible"]
checks = front.data_validations.dataValidation
lists = [v.formula1 for v in checks if v.type == "list"]
place = book.defined_names["price_typed"].attr_text.split("!")[1].replace("$", "")
price = [v for v in checks if place in v.sqref][0]
sheet, cell = book.defined_names["all_checks"].attr_text.split("!")
equal = values[sheet.strip("'")][cell.replace("$", "")].value
print(
    f"opens on {book.active.title}; hidden: {', '.join(hidden)}; lists: {', '.join(lists)}; "
    f"price of plausible size: {price.formula1} to {price.formula2}; all checks: {equal}"
)
