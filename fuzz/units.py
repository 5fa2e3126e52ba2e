"""Whatever is written for a figure is read soundly, or refused with a mend; nothing else happens, and it ends soon.

Run: python fuzz/units.py -max_total_time=300 -timeout=2 (README.md beside this file)
"""

import math
import sys

from engine import engine

atheris = engine()
with atheris.instrument_imports(include=["counterpoise.units"]):
    from counterpoise.errors import Unreadable
    from counterpoise.units import Kind, Reading, Style, from_centre, length, place, printed_as, read
    from counterpoise.units.printing import Direction

KINDS = list(Kind)
LONGEST_MESSAGE = 400  # characters


def one_input(data: bytes) -> None:
    """One text, read as one kind or as a place."""
    given = atheris.FuzzedDataProvider(data)
    which, signed = given.ConsumeIntInRange(0, len(KINDS) + 1), given.ConsumeBool()
    as_unicode = given.ConsumeBool()
    text = given.ConsumeUnicode(160) if as_unicode else given.ConsumeBytes(160).decode("latin-1")
    try:
        if which < len(KINDS):
            _sound(read(text, KINDS[which], signed=signed))
        elif which == len(KINDS):
            reading = place(text, length=12.8016)
            _sound(reading)
            if reading.low is not None and reading.high is not None:
                assert 0.0 <= reading.low <= reading.high <= 12.8016
        else:
            _sound(from_centre(text))
    except Unreadable as refusal:
        _told(refusal)


def _told(refusal: Unreadable) -> None:
    assert refusal.why
    assert refusal.mend
    assert len(str(refusal)) <= LONGEST_MESSAGE
    str(refusal).encode()  # a terminal can show it


def _sound(reading: Reading) -> None:
    if reading.best is None:
        assert reading.low is None
        assert reading.high is None
        return
    assert reading.low is not None
    assert reading.high is not None
    assert math.isfinite(reading.low)
    assert math.isfinite(reading.high)
    assert reading.low <= reading.best <= reading.high
    for style in (Style("us"), Style("metric")):
        printed_as(reading.kind, style, Direction.UP).print(reading.best)
        if reading.kind is Kind.LENGTH:
            back = read(length(abs(reading.best), style), Kind.LENGTH).best
            assert back is not None
            assert abs(back - abs(reading.best)) <= (0.0254 / 16 if style.system == "us" else 0.005) * 1.0001


if __name__ == "__main__":
    atheris.Setup(sys.argv, one_input)
    atheris.Fuzz()
