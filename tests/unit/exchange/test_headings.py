"""Words of headings on either side of the ocean. Common practice, no source, but where one is named."""

import pytest

from counterpoise.exchange.headings import heading

SET, AWAY, RIGGED, USE = "set", "distance", "purchase", "use"
LENGTH, COUNT, LOAD, LOW, HIGH, NOTE = "batten length", "line count", "posted", "low trim", "high trim", "note"
PIPE = "batten pipe"


@pytest.mark.parametrize(
    ("words", "field", "unit"),
    [
        ("Line", SET, ""), ("Line #", SET, ""), ("L/S", SET, ""), ("Set", SET, ""), ("No.", SET, ""), ("Bar", SET, ""),
        ("Flybar", SET, ""), ("Lineset", SET, ""), ("LINE SET #", SET, ""), ("Bar No.", SET, ""), ("#", SET, ""),
        ("Distance", AWAY, ""), ("Dist from PL", AWAY, ""), ("From plaster line", AWAY, ""),
        ("Dist. from P.L. (ft-in)", AWAY, "ft-in"), ("Setting line", AWAY, ""), ("US of PL", AWAY, ""),
        ("Distance U/S of Setting Line", AWAY, ""), ("Dist (ft)", AWAY, "ft"), ("Distance, mm", AWAY, "mm"),
        ("Distance in feet", AWAY, "ft"), ("Distance [m]", AWAY, "m"), ("Dist (in)", AWAY, "in"),
        ("Type", RIGGED, ""), ("SP/DP", RIGGED, ""), ("Purchase", RIGGED, ""),
        ("Use", USE, ""), ("Description", USE, ""), ("Permanent use", USE, ""),
        ("Batten length", LENGTH, ""), ("Pipe length", LENGTH, ""), ("Bar Length (m)", LENGTH, "m"),
        ("# lines", COUNT, ""), ("Lift lines", COUNT, ""), ("No. of lines", COUNT, ""), ("Lines", COUNT, ""),
        ("Capacity", LOAD, ""), ("Max load", LOAD, ""), ("SWL (kg)", LOAD, "kg"), ("SWL kg", LOAD, "kg"),
        ("Max. Load (lbs)", LOAD, "lb"), ("WLL", LOAD, ""),
        ("In trim", LOW, ""), ("Low trim", LOW, ""), ("In", LOW, ""), ("Trim Low", LOW, ""), ("Trim In", LOW, ""),
        ("Pipe", PIPE, ""), ("Pipe size", PIPE, ""), ("Batten", PIPE, ""), ("Batten pipe", PIPE, ""),
        ("Lines at", "lines at", ""), ("Pick positions", "lines at", ""), ("Brick", "brick", ""),
        ("Arbor usable height (ft)", "arbor usable height", "ft"), ("Pipe weight (bricks)", "pipe weight", ""),
        ("High trim", HIGH, ""), ("Out", HIGH, ""), ("Out trim (ft)", HIGH, "ft"), ("Max trim", HIGH, ""),
    ],
)  # fmt: skip
def test_a_heading_says_its_field_and_its_unit(words: str, field: str, unit: str) -> None:
    said = heading(words)
    assert (said.field, said.unit) == (field, unit)
    assert words in said.why


@pytest.mark.parametrize(
    ("words", "because"),
    [
        ("Spacing", "spacing"), ("Distance from previous", "spacing"), ("Arbor", "arbor"), ("Arbor capacity", "arbor"),
        ("Point load (kg)", "one point"), ("Trim", "lowest or the highest"), ("Position", "several"),
        ("Pipe weight", "on the set"), ("Spare", "not a word"), ("Notes", "word for notes"), ("Remarks", "for notes"),
    ],
)  # fmt: skip
def test_what_resembles_a_field_and_is_none_is_kept_as_a_note_and_says_why(words: str, because: str) -> None:
    said = heading(words)
    assert said.field == NOTE
    assert because in said.why


@pytest.mark.parametrize(
    ("words", "counts"),
    [("Net load", "what is hung"), ("Live load", "what is hung"), ("Gross load", "batten and all"), ("SWL", "unknown")],
)
def test_a_posted_load_is_a_capacity_of_what_its_heading_says_and_no_more(words: str, counts: str) -> None:
    assert heading(words).counts == counts


def test_a_unit_that_the_field_cannot_have_is_not_taken() -> None:
    assert heading("SWL (m)").unit == ""
