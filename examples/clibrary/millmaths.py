"""The calculations of millmaths from Python, by its C library.

    library = Library("libmillmaths.so")
    answer = library.calculate("dilution", {"mass-flow": "300 t/h", ...})
    answer["outputs"]["water-flow"]  # {"value": 1200, "unit": "t/h"}
"""

import ctypes
import json
import os


class Refused(ValueError):
    """What a calculation refuses: a stable code, the input, and a text."""

    def __init__(self, error):
        super().__init__(error["text"])
        self.code = error["code"]
        self.input = error.get("input")


class Library:
    """A loaded library. Any number of threads may calculate at once."""

    def __init__(self, path):
        self._c = ctypes.CDLL(os.path.abspath(path))
        # As c_char_p ctypes would copy the text and lose the pointer, so the
        # memory could never be given back.
        self._c.millmaths_calculate.restype = ctypes.c_void_p
        self._c.millmaths_calculate.argtypes = [ctypes.c_char_p]
        self._c.millmaths_free.restype = None
        self._c.millmaths_free.argtypes = [ctypes.c_void_p]

    def ask(self, request):
        """Returns the answer to a request, both as bytes of JSON."""
        answer = self._c.millmaths_calculate(request)
        try:
            return ctypes.string_at(answer)
        finally:
            self._c.millmaths_free(answer)

    def calculate(self, name, inputs):
        """Returns the answer as a dict, or raises Refused."""
        request = json.dumps({"calculation": name, "inputs": inputs})
        answer = json.loads(self.ask(request.encode()))
        if "error" in answer:
            raise Refused(answer["error"])
        return answer
