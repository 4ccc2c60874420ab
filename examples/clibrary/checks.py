"""Runs check tables through the C library.

    python3 checks.py libmillmaths.so testdata/checks/*.csv

An input goes to the library as the text that stands in the table. What comes
back is compared here, in Python: a second opinion on the comparison that
`millmaths verify` makes. Numbers are brought to the unit of the table by the
library's own `convert`.
"""

import csv
import math
import pathlib
import re
import sys
from concurrent.futures import ThreadPoolExecutor

from millmaths import Library, Refused


def pairs(text):
    """Reads "name=value unit; name=value unit"; a bare word has no value."""
    found = {}
    for part in text.split(";"):
        name, equals, value = part.partition("=")
        if name.strip():
            found[name.strip()] = value.strip() if equals else None
    return found


def from_file(text, folder):
    """Replaces @FILE by the numbers after the last line of ---."""
    if not text.startswith("@"):
        return text
    lines = (folder / text[1:]).read_text().splitlines()
    rules = [i for i, line in enumerate(lines) if line.startswith("---")]
    return "[" + " ".join(lines[rules[-1] + 1 if rules else 0:]) + "]"


def numbers(text):
    """Parts "[1 2] kg" into its numbers and its unit."""
    m = re.fullmatch(r"\[([^\]]*)\]\s*(.*)", text) or re.fullmatch(r"(\S+)\s*(.*)", text)
    return [float(x) for x in m[1].replace("−", "-").split()], m[2]


def as_list(value):
    return value if isinstance(value, list) else [value]


class Check:
    """One row of a table."""

    def __init__(self, library, table, row):
        self.library, self.row = library, row
        self.name = f"{table}: {row['id']} {row['calculation']}"
        self.folder = pathlib.Path(table).parent
        self.expected = pairs(row["expected"])
        self.refused = "refused" in self.expected
        self.warned = "warned" in self.expected

    def failures(self):
        """Lists what was not as expected."""
        inputs = {n: from_file(v, self.folder) for n, v in pairs(self.row["inputs"]).items()}
        try:
            answer = self.library.calculate(self.row["calculation"], inputs)
        except Refused as e:
            if self.refused and e.code != "name" and not str(e).startswith("unknown calculation"):
                return []
            return [f"refused: {e}"]
        if self.refused:
            return ["computed, want a refusal"]
        self.choose(answer, inputs)
        wrong = []
        if self.warned and not answer.get("warnings"):
            wrong.append("no warning, want one")
        for name, want in self.expected.items():
            if want is not None and (problem := self.differs(answer, name, want)):
                wrong.append(f"{name}: {problem}")
        return wrong

    def choose(self, answer, inputs):
        """Asks for the results of the value that the row expects of an input solved for,
        where there are several: the answer has those of the first."""
        roots, solved = answer.get("roots", []), answer.get("solved")
        if len(roots) < 2 or solved not in self.expected:
            return
        for root in roots:
            if "value" in root and not self.root_far(root, self.expected[solved]):
                forward = {n: v for n, v in inputs.items() if n in answer["inputs"]}
                forward[solved] = f"{root['value']!r} {root.get('unit', '')}"
                answer["outputs"] = self.library.calculate(self.row["calculation"], forward)["outputs"]
                return

    def differs(self, answer, name, want):
        """Says how an output, or an input that was solved for, is not as wanted."""
        inner = re.fullmatch(r"u\((.*)\)", name)
        if inner and name not in answer["outputs"]:  # a tool has outputs of that name
            cell = answer["outputs"].get(inner[1]) or answer["inputs"].get(inner[1], {})
            return self.far(cell.get("u"), cell.get("unit", ""), want, spread=True)
        if name in answer["outputs"]:
            cell = answer["outputs"][name]
            if isinstance(cell, str):
                return self.text_differs(cell, want)
            if "value" not in cell:
                return "" if cell["reported"] == want else f"{cell['reported']!r}, want {want!r}"
            return self.far(cell["value"], cell.get("unit", ""), want)
        if want == "[]":
            return ""
        if answer.get("solved") != name:
            return f"absent, want {want}"
        roots = answer.get("roots") or [answer["inputs"][name]]
        problems = [self.root_far(r, want) for r in roots]
        return "" if "" in problems else problems[0]

    def text_differs(self, got, want):
        return "" if got == want else f"{got!r}, want {want!r}"

    def root_far(self, root, want):
        """A root is a number, or an interval that holds what is wanted."""
        unit = root.get("unit", "")
        if "value" in root:
            return self.far(root["value"], unit, want)
        (low,), (high,) = (self.converted([root[k]], unit, numbers(want)[1]) for k in ("from", "to"))
        (x,) = numbers(want)[0]
        if low <= x <= high:
            return ""
        return self.far(root["from"], unit, want) and self.far(root["to"], unit, want)

    def far(self, got, unit, want, spread=False):
        """Compares in the unit of the table, member by member."""
        if got is None:
            return f"absent, want {want}"
        wanted, wanted_unit = numbers(want)
        values = self.converted(as_list(got), unit, wanted_unit, spread)
        if len(values) != len(wanted):
            return f"{len(values)} values, want {want}"
        for g, w in zip(values, wanted):
            if not self.close(g, w):
                return f"{g!r} {wanted_unit}, want {want}"
        return ""

    def converted(self, values, unit, to, spread=False):
        if spread and unit == "degC":
            unit = "K"  # an uncertainty is a difference
        if unit == to:
            return values
        answers = (self.library.calculate("convert", {"value": f"{v!r} {unit}", "to": to}) for v in values)
        return [a["outputs"]["value"]["value"] for a in answers]

    def close(self, got, want):
        kind, _, number = self.row["tolerance"].partition(" ")
        if kind == "exact":
            return got == want
        if kind == "abs":
            return abs(got - want) <= float(number)
        return abs(got - want) <= (float(number) * abs(want) if want else 1e-15) and math.isfinite(got)


def main(library, tables):
    loaded = Library(library)
    checks = []
    for table in tables:
        with open(table, encoding="utf-8-sig", newline="") as f:
            checks += [Check(loaded, table, row) for row in csv.DictReader(f)]
    if not checks:
        sys.exit("nothing was checked")
    # ctypes lets other threads run during a call: the library is asked by
    # eight at once.
    with ThreadPoolExecutor(8) as threads:
        results = list(threads.map(Check.failures, checks))
    for check, wrong in zip(checks, results):
        for text in wrong:
            print(f"{check.name}: {text}")
    failed = sum(map(bool, results))
    print(f"{len(checks)} rows, {failed} failed")
    return 1 if failed else 0


if __name__ == "__main__":
    if len(sys.argv) < 3:
        sys.exit("usage: checks.py LIBRARY TABLE...")
    sys.exit(main(sys.argv[1], sys.argv[2:]))
