"""Tests of the library as its callers meet it: python3 test_clibrary.py LIBRARY."""

import ctypes
import json
import pathlib
import resource
import sys
import tempfile
import unittest
from concurrent.futures import ThreadPoolExecutor

from checks import Check, main
from millmaths import Library, Refused

DILUTION = {"mass-flow": "300 t/h", "consistency-in": "4.6 %", "consistency-out": "0.92 %"}
PATH = sys.argv.pop(1) if len(sys.argv) > 1 else sys.exit("usage: test_clibrary.py LIBRARY")
LIBRARY = Library(PATH)


def dilute(tonnes):
    request = {"calculation": "dilution", "inputs": {**DILUTION, "mass-flow": f"{tonnes} t/h"}}
    return json.loads(LIBRARY.ask(json.dumps(request).encode()))["outputs"]["water-flow"]["value"]


class TestLibrary(unittest.TestCase):
    def test_answer(self):
        answer = LIBRARY.calculate("dilution", DILUTION)
        self.assertEqual(answer["outputs"]["water-flow"], {"value": 1200, "unit": "t/h"})

    def test_refused(self):
        with self.assertRaises(Refused) as caught:
            LIBRARY.calculate("dilution", {**DILUTION, "mass-flow": "300 m"})
        self.assertEqual(caught.exception.input, "mass-flow")
        self.assertIn("want", str(caught.exception))

    def test_what_is_no_request(self):
        for request in (None, b"", b"\xff\xfe", b"[]", b"{", b'{"calculation":"dilution"}', b"[" * 100_000):
            self.assertIn("error", json.loads(LIBRARY.ask(request)), request)

    def test_free_takes_null(self):
        ctypes.CDLL(PATH).millmaths_free(None)

    def test_threads(self):
        with ThreadPoolExecutor(16) as threads:
            answers = list(threads.map(dilute, range(1, 2001)))
        for tonnes, water in zip(range(1, 2001), answers):
            self.assertAlmostEqual(water, 4 * tonnes, delta=1e-9 * tonnes)

    def test_memory_is_given_back(self):
        def ask(times):
            for _ in range(times):
                LIBRARY.ask(b'{"calculation":"' + b"x" * 20_000 + b'","inputs":{}}')  # the answer tells the name twice
            return resource.getrusage(resource.RUSAGE_SELF).ru_maxrss  # KiB

        before = ask(500)
        self.assertLess(ask(4000) - before, 40_000, "4000 answers took memory that was not given back")


class TestChecks(unittest.TestCase):
    """What the client compares must be able to fail."""

    def row(self, calculation, inputs, expected, tolerance="rel 1e-6"):
        row = {"id": "x", "calculation": calculation, "inputs": inputs, "expected": expected, "tolerance": tolerance}
        return Check(LIBRARY, "x.csv", row).failures()

    def test_rows(self):
        thin = "mass-flow=300 t/h; consistency-in=4.6 %; consistency-out=0.92 %"
        uncertain = thin.replace("300 t/h", "300 +- 3 t/h")
        for right, *row in (
            (True, "dilution", thin, "water-flow=1200 t/h"),
            (True, "dilution", thin, "water-flow=1200000 kg/h"),
            (False, "dilution", thin, "water-flow=1200.1 t/h"),
            (True, "dilution", thin, "water-flow=1200.1 t/h", "abs 0.2"),
            (False, "dilution", thin, "water-flow=1200.1 t/h", "abs 0.05"),
            (False, "dilution", thin, "water-flow=1200.0000001 t/h", "exact"),
            (False, "dilution", thin, "refused"),
            (False, "dilution", thin, "warned"),
            (False, "dilution", thin, "no-such-output=1 t/h"),
            (True, "dilution", thin.replace("4.6", "0.5"), "refused"),
            (False, "dilution", thin.replace("4.6", "0.5"), "water-flow=1 t/h"),
            (False, "no-such-calculation", thin, "refused"),
            (False, "dilution", thin + "; no-such-input=1", "refused"),
            (True, "dilution", uncertain, "u(water-flow)=12 t/h"),
            (False, "dilution", uncertain, "u(water-flow)=13 t/h"),
            (False, "dilution", thin, "u(water-flow)=12 t/h"),
            (True, "dilution", thin.replace("mass-flow=300", "water-flow=1200"), "mass-flow=300 t/h"),
            (False, "dilution", thin.replace("mass-flow=300", "water-flow=1200"), "mass-flow=301 t/h"),
            (True, "round", "value=80.05; figures=3; tie=even", "reported=80.0", "exact"),
            (False, "round", "value=80.05; figures=3; tie=even", "reported=80", "exact"),
        ):
            self.assertEqual(self.row(*row) == [], right, row)

    def test_a_failed_row_is_told(self):
        with tempfile.TemporaryDirectory() as folder:
            table = pathlib.Path(folder, "own.csv")
            table.write_text("id,calculation,inputs,expected,tolerance,kind,source,note\n"
                             "a,convert,value=1 in; to=mm,value=25.5 mm,rel 1e-6,memory,none,\n")
            self.assertEqual(main(PATH, [str(table)]), 1)


if __name__ == "__main__":
    unittest.main()
