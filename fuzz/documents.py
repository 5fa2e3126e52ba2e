"""Whatever stands in a file is a document, or a BadDocument whose every problem has a mend; and it ends soon.

Run: python fuzz/documents.py -max_total_time=300 -timeout=5 (README.md beside this file)
"""

import sys
from pathlib import Path

from engine import engine

atheris = engine()
with atheris.instrument_imports(include=["counterpoise.units", "counterpoise.documents"]):
    from counterpoise.documents import read_house, read_show
    from counterpoise.errors import BadDocument

HOUSE = (Path(__file__).parent / "seed_house.yaml").read_text(encoding="utf-8")
FIELDS = "counterpoise: show 1\nname: Gala\npieces:\n  - piece: a\n    spread over: 9 m\n    height: 1 m\n    weight: "
BRACES = "counterpoise: show 1\nname: Gala\npieces:\n  - {piece: a, spread over: 9 m, height: 1 m, weight: "
SHOW = f"{FIELDS}~180 lb\n  - {{piece: b, picks: [6' SR, 6' SL], weight: 20..25 lb, height: 5' 6\"}}\n"


def one_input(data: bytes) -> None:
    """A file out of nothing, a value within one, or a small document with a piece of it written over."""
    given = atheris.FuzzedDataProvider(data)
    way = given.ConsumeIntInRange(0, 63)  # a whole house seldom: it takes long
    at, over = given.ConsumeIntInRange(0, 20_000), given.ConsumeIntInRange(0, 60)
    text = given.ConsumeUnicode(400) if given.ConsumeBool() else given.ConsumeBytes(400).decode("latin-1")
    try:
        if way < 24:  # what is short, and all the data has run out for, comes here
            read_show(f"{FIELDS}{text}\n")
        elif way < 44:
            read_show(f"{BRACES}{text}}}\n")
        elif way < 54:
            read_show(text)
        elif way < 61:
            read_house(text)
        elif way < 63:
            read_show(_written_over(SHOW, at, over, text))
        else:
            read_house(_written_over(HOUSE, at, over, text))
    except BadDocument as bad:
        _told(bad)


def _told(bad: BadDocument) -> None:
    assert bad.problems
    for problem in bad.problems:
        assert problem.says
        assert problem.mend
        assert problem.line >= 1
        assert problem.column >= 1


def _written_over(whole: str, at: int, over: int, text: str) -> str:
    at %= len(whole)
    return whole[:at] + text + whole[at + over :]


if __name__ == "__main__":
    atheris.Setup(sys.argv, one_input)
    atheris.Fuzz()
