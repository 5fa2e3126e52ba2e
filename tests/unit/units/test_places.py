import math

import pytest

from counterpoise.errors import OutOfRange, Unreadable
from counterpoise.units import Form, Kind, from_centre, place, read

FT = 0.3048
BATTEN = 42 * FT  # the centre line is at 21 ft


@pytest.mark.parametrize(
    ("text", "feet"),
    [
        ("CL", 21.0),
        ("cl", 21.0),
        ("centre line", 21.0),
        ("center line", 21.0),
        ("6' SL", 27.0),
        ("6'SL", 27.0),
        ("6 ft sl", 27.0),
        ("6 ft stage left", 27.0),
        ("12 ft SR", 9.0),
        ("12'-6\" SR", 8.5),
        ("12\u2032 6\u2033 stage right", 8.5),
        ("3 ft from SR end", 3.0),
        ("3 ft from the SR end", 3.0),
        ("3 ft from SL end", 39.0),
        ("3 ft from stage left end", 39.0),
        ("5 ft", 5.0),
        ("0", 0.0),
        ("0 SL", 21.0),
        ("21 ft SL", 42.0),
        ("21 ft SR", 0.0),
        ("42 ft", 42.0),
        ("~6' SL @survey", 27.0),
    ],
)
def test_a_place_is_counted_from_the_stage_right_end(text: str, feet: float) -> None:
    assert place(text, length=BATTEN).best == pytest.approx(feet * FT, abs=1e-12)


@pytest.mark.parametrize(
    ("text", "low", "high"),
    [
        ("6..8 ft SL", 27.0, 29.0),
        ("6..8 ft SR", 13.0, 15.0),
        ("6 ft..8 ft SR", 13.0, 15.0),
        ("6 ft SR..8 ft SR", 13.0, 15.0),
        ("2' SR..2' SL", 19.0, 23.0),
        ("2' SL..2' SR", 19.0, 23.0),
        ("CL..2' SL", 21.0, 23.0),
        ("2' SR..CL", 19.0, 21.0),
        ("1..3 ft from SL end", 39.0, 41.0),
        ("5..6 ft", 5.0, 6.0),
    ],
)
def test_a_range_of_places_runs_from_stage_right_to_stage_left(text: str, low: float, high: float) -> None:
    reading = place(text, length=BATTEN)
    assert reading.form is Form.RANGE
    assert (reading.low, reading.high) == pytest.approx((low * FT, high * FT), abs=1e-12)
    assert reading.best == pytest.approx((low + high) / 2 * FT, abs=1e-12)


def test_an_unknown_place_is_unknown() -> None:
    assert place("unknown", length=BATTEN).best is None


@pytest.mark.parametrize("text", ["22 ft SL", "21' 1\" SR", "43 ft", "43 ft from SL end", "20..22 ft SL"])
def test_a_place_off_the_batten_is_refused_with_the_length_of_the_batten(text: str) -> None:
    with pytest.raises(Unreadable) as caught:
        place(text, length=BATTEN)
    assert "42' 0\" (12.80 m) long" in str(caught.value)


def test_a_place_at_the_very_end_survives_the_last_bits_of_the_length() -> None:
    for length in (math.nextafter(BATTEN, 0.0), BATTEN - 0.9e-9):
        assert place("42 ft", length=length).best == length
        assert place("21 ft SR", length=length).best == 0.0
    with pytest.raises(Unreadable, match="off the batten"):
        place("42 ft", length=BATTEN - 2e-9)


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("6", "6 ft from SR end or 6 m from SR end"),
        ("6 SL", "6 ft SL or 6 m SL"),
        ("6 from SL end", "6 ft from SL end or 6 m from SL end"),
        ("SL", "cannot be read as a place"),
        ("", "unknown"),
        ("?", "unknown"),
        ("-1 ft SL", "without a sign"),
        ("8..6 ft SL", "backwards"),
        ("2' SR..3 ft", "counts from nowhere"),
        ("5 ft..CL", "counts from nowhere"),
        ("CL SL", "cannot be read as a place"),
        ("6 lb SL", "cannot be read"),
        ("4/0 in SL", "divides by zero"),
        ("6 ft SL SR", "cannot be read"),
        ("~CL..2' SL", "both an estimate and a range"),
    ],
)
def test_what_is_no_place_is_refused_with_a_mend(text: str, says: str) -> None:
    with pytest.raises(Unreadable) as caught:
        place(text, length=BATTEN)
    assert says in str(caught.value)
    assert caught.value.mend


@pytest.mark.parametrize("length", [0.0, -1.0, math.nan, math.inf])
def test_a_batten_without_a_length_has_no_places(length: float) -> None:
    with pytest.raises(OutOfRange):
        place("CL", length=length)


@pytest.mark.parametrize(
    ("text", "feet"), [("CL", 0.0), ("6' SL", 6.0), ("12' SR", -12.0), ("~6' SL", 6.0), ("300 ft SL", 300.0)]
)
def test_from_the_centre_line_stage_left_counts_up(text: str, feet: float) -> None:
    assert from_centre(text).best == pytest.approx(feet * FT, abs=1e-12)


def test_a_range_from_the_centre_line_runs_from_stage_right_to_stage_left() -> None:
    reading = from_centre("6..8 ft SR")
    assert (reading.low, reading.high) == pytest.approx((-8 * FT, -6 * FT))
    assert from_centre("unknown").best is None


@pytest.mark.parametrize("text", ["6 ft", "0", "3 ft from SR end", "5 ft..CL", "6' SL..3 ft", "6 SL", "4/0 in SL"])
def test_a_distance_from_an_end_or_from_nowhere_is_none_from_the_centre_line(text: str) -> None:
    with pytest.raises(Unreadable):
        from_centre(text)


# Found by fuzzing: a batten of 0.7 mm could be read and then ended the reading of its house.
@pytest.mark.parametrize("said", ["0.001 mm", "0.7 mm", "1/64 in", "10,000 m"])
def test_every_batten_whose_length_can_be_read_has_its_centre_line(said: str) -> None:
    length = read(said, Kind.LENGTH).best
    assert length is not None
    assert place("CL", length=length).best == pytest.approx(length / 2)


@pytest.mark.parametrize(
    ("text", "meant"),
    [
        ("12-14 ft SL", "12..14 ft SL"),
        ("6 to 8 ft SR", "6..8 ft SR"),
        ("15-20 SL", "15..20 ft SL"),
        ("13-14 ft from SL end", "13..14 ft from SL end"),
    ],
)
def test_a_range_of_places_with_a_dash_is_told_with_what_it_counts_from(text: str, meant: str) -> None:
    with pytest.raises(Unreadable) as caught:
        place(text, length=BATTEN)
    assert caught.value.mend.startswith(f"Write {meant}")
    assert place(meant, length=BATTEN).form is Form.RANGE


@pytest.mark.parametrize(
    ("text", "mend"),
    [
        ("C", "Write CL."),
        ("10' L", "Write 10' SL if stage left is meant."),
        ("10 ft r", "Write 10 ft SR if stage right is meant."),
        ("10 L", "Write CL, 6' SL"),  # it has no unit either
    ],
)
def test_a_side_without_whose_it_is_is_asked_back(text: str, mend: str) -> None:
    for reader in (from_centre, lambda said: place(said, length=12.0)):
        with pytest.raises(Unreadable) as refused:
            reader(text)
        assert mend in refused.value.mend or "distance from the centre line" in refused.value.why
