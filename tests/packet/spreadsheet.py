"""The packet's table files, opened by a spreadsheet program that others wrote: numbers are numbers there, words are words, dates
dates, and nothing is a formula.

  spreadsheet.py FOLDER ...      each a packet's folder; needs ssconvert (Gnumeric)
"""

import csv
import gzip
import re
import subprocess
import sys
import tempfile
import xml.etree.ElementTree as tree
from pathlib import Path

NAMESPACE = "{http://www.gnumeric.org/v10.dtd}"
NUMBER, WORDS, FLAG = "40", "60", "20"
DATE = re.compile(r"\d{4}-\d{2}-\d{2}")


def opened(table: Path, work: Path) -> dict:
    """What the program makes of a table file: (row, column) to type, text, and whether it is a formula."""
    sheet = work / (table.stem + ".gnumeric")
    subprocess.run(["ssconvert", "--import-encoding=utf-8", str(table), str(sheet)], check=True, capture_output=True, timeout=120)
    cells = {}
    for cell in tree.fromstring(gzip.decompress(sheet.read_bytes())).iter(NAMESPACE + "Cell"):
        kind = cell.get("ValueType")
        formula = "ExprID" in cell.attrib or kind is None
        cells[int(cell.get("Row")), int(cell.get("Col"))] = (kind, cell.text or "", formula, cell.get("ValueFormat") or "")
    return cells


def number(text: str):
    try:
        return float(text)
    except ValueError:
        return None


def faults(table: Path, cells: dict) -> list:
    found = []
    with table.open(encoding="utf-8-sig", newline="") as file:
        rows = list(csv.reader(file))
    for row, line in enumerate(rows):
        for column, written in enumerate(line):
            kind, text, formula, form = cells.get((row, column), (WORDS, "", False, ""))
            value, at = number(written), f"{table.parent.parent.name}/{table.name}, row {row + 1}, column {rows[0][column]}"
            if formula:
                found.append(f"{at}: {written!r} is a formula")
            elif value is not None:
                if kind != NUMBER or abs(float(text) - value) > 1e-9 * max(1.0, abs(value)):
                    found.append(f"{at}: {written!r} has become {text!r} of type {kind}")
            elif DATE.fullmatch(written):
                if not (kind == WORDS and text == written) and not (kind == NUMBER and "y" in form):
                    found.append(f"{at}: the day {written!r} has become {text!r}")
            elif kind not in (WORDS, FLAG) or (kind == WORDS and text.lstrip("'") != written.lstrip("'")):
                found.append(f"{at}: {written!r} has become {text!r} of type {kind}")
    # A column with a unit holds numbers where it holds anything that is known.
    units = [index for index, title in enumerate(rows[0]) if title.endswith("]")]
    for row, line in enumerate(rows[1:], start=2):
        for index in units:
            if line[index] and number(line[index]) is None and not line[index][0].isalpha():
                found.append(f"{table.name}, row {row}, column {rows[0][index]}: {line[index]!r} is no number")
    return found


def main(folders: list) -> int:
    tables = [table for folder in folders for table in sorted(Path(folder, "tables").glob("*.csv"))]
    if not tables:
        print("spreadsheet: there are no tables")
        return 1
    found = []
    with tempfile.TemporaryDirectory() as work:
        # It notices: a formula, and a number that is none any more.
        broken = Path(work, "tables", "broken.csv")
        broken.parent.mkdir()
        broken.write_text('name,size [mm]\n=1+1,2\nx,"1,5"\n', encoding="utf-8")
        if len(faults(broken, opened(broken, Path(work)))) < 2:
            print("spreadsheet: a broken table is not noticed")
            return 1
        for table in tables:
            found += faults(table, opened(table, Path(work)))
    print("\n".join(found[:40]))
    print(f"spreadsheet: {len(tables)} tables, {len(found)} faults")
    return 1 if found else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
