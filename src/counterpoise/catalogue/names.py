"""One form out of the many ways people write the name of a size: case, spaces, inch marks, fractions, schedules."""

from __future__ import annotations

import re
from fractions import Fraction

_MARKS = str.maketrans({"×": "x", "″": " in ", '"': " in ", "”": " in ", "“": " in ", "⁄": "/", "\u2010": "-",
                        "\u2011": "-", "²": "2", "½": " 1/2", "¼": " 1/4", "¾": " 3/4", "⅛": " 1/8", "⅜": " 3/8",
                        "⅝": " 5/8", "⅞": " 7/8"})  # fmt: skip
_PART = re.compile(
    r"""(?P<nominal>\bdn[ ]?[0-9]{1,3}\b)   # a size by its DN is one word: its figure is no diameter
      | (?<!x)(?<!x[ ])(?<![0-9./])   # the 19 of 7x19 1/4 is no whole number of inches
        (?P<whole>[0-9]{1,3}) (?:[ ]+|-) (?P<upper>[0-9]{1,2}) / (?P<lower>[0-9]{1,2}) (?![0-9])
      | (?P<over>[0-9]{1,3}) / (?P<under>[0-9]{1,3})
      | (?P<decimal>[0-9]*\.[0-9]+ | [0-9]+)
      | (?P<word>[^\W\d_]+)
      | (?P<sign>[^\s\w,;.()'"/-] | \d)      # nothing that may mean something is passed over""",
    re.VERBOSE,
)  # fmt: skip
# Words that name nothing by themselves: an inch is what a US size is in, and no millimetre is ever left out.
_SILENT = frozenset({"in", "inch", "inches", "nps", "nominal", "ins", "#"})
_LONGEST = 12  # digits; no size has more
_SAME = {"schedule": "sch", "sched": "sch", "galvanised": "galvanized", "galv": "galvanized", "aluminum": "aluminium",
         "fiber": "fibre", "gr": "grade", "g": "grade", "ounce": "oz", "ounces": "oz", "yard": "yd", "yards": "yd",
         "sq": "square", "standard": "std"}  # fmt: skip


def normal(name: str) -> str:
    """The form under which names are compared; two names of one form are one name.

    Sizes become decimals, so `1-1/2`, `1 1/2`, `1½` and `1.5` are one; inches fall away, millimetres stay.
    """
    text = name.translate(_MARKS).lower().replace("''", " in ")
    return " ".join(part for part in (_part(found) for found in _PART.finditer(text)) if part)


def _part(found: re.Match[str]) -> str:
    if found["nominal"]:
        return found["nominal"].replace(" ", "")
    if found["whole"]:
        return _mixed(found["whole"], found["upper"], found["lower"])
    if found["over"]:
        over, under = int(found["over"]), int(found["under"])
        # 12/3 is a cable of three wires and 4/0 a gauge, not numbers
        return _decimal(Fraction(over, under)) if 0 < over < under else f"{over}/{under}"
    if found["decimal"]:
        few = len(found["decimal"]) <= _LONGEST
        return _decimal(Fraction(found["decimal"])) if few else found["decimal"]
    word = found["word"] or found["sign"]
    return "" if word in _SILENT else _SAME.get(word, word)


def _mixed(whole: str, upper: str, lower: str) -> str:
    if 0 < int(upper) < int(lower):
        return _decimal(int(whole) + Fraction(int(upper), int(lower)))
    return f"{whole} {upper}/{lower}"


def _decimal(value: Fraction) -> str:
    return f"{float(value):.6f}".rstrip("0").rstrip(".")
