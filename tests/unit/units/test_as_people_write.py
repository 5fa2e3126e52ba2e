"""What riggers, makers' sheets and keyboards put on paper: read as it was meant, or refused with what to write."""

import re

import pytest

from counterpoise.errors import Unreadable
from counterpoise.units import Form, Kind, from_centre, place, read

FT, IN, LB = 0.3048, 0.0254, 0.45359237  # exact by definition; tests/validation holds the sources


def refused(text: str, kind: Kind, *, signed: bool = False) -> Unreadable:
    with pytest.raises(Unreadable) as caught:
        read(text, kind, signed=signed)
    assert caught.value.mend
    return caught.value


# The characters that keyboards, word processors and drawings put for a foot mark, an inch mark and a space.
@pytest.mark.parametrize("foot", ["'", "\u2032", "\u2019", "\u2018", "\u201b", "\u02b9", "\u02bc", "\u00b4", "`"])
@pytest.mark.parametrize(
    "inch", ['"', "''", "\u2033", "\u201d", "\u201c", "\u201f", "\u02ba", "\u02dd", "\u2032\u2032"]
)
def test_every_foot_mark_goes_with_every_inch_mark(foot: str, inch: str) -> None:
    for between in ("", " ", "-", " - "):
        assert read(f"42{foot}{between}6{inch}", Kind.LENGTH).best == 510 * 254 / 10000
    assert read(f"12{foot}", Kind.LENGTH).best == 144 * 254 / 10000
    assert read(f"0{foot}-6{inch}", Kind.LENGTH).best == 6 * 254 / 10000


@pytest.mark.parametrize("space", ["\t", *"\u00a0\u2002\u2003\u2007\u2009\u200a\u202f\u205f\u3000"])
def test_every_kind_of_space_is_a_space(space: str) -> None:
    assert read(f"42{space}ft{space}6{space}in", Kind.LENGTH).best == 12.954
    assert read(f"{space}1{space}1/2{space}in{space}@tape", Kind.LENGTH).best == 0.0381


@pytest.mark.parametrize(
    ("text", "inches"),
    [
        ("42 feet 6 1/2 inches", 510.5),
        ("42 ft, 6 in", 510.0),
        ("42', 6\"", 510.0),
        ("42'-6 1/2\"", 510.5),
        ("42'-6-1/2\"", 510.5),
        ("42' 6½\"", 510.5),
        ("42'-0\"", 504.0),
        ("42' 0 1/4\"", 504.25),
        ("42' 1/4\"", 504.25),
        ("42'-½\"", 504.5),
        ("6⅕ in", 6.2),
        ("6⅚ in", 6 + 5 / 6),
        ("11-1/2 in", 11.5),
        ("15/16 in", 0.9375),
        ("1.900 in", 1.9),
        ("1-29/32 in", 1.90625),
    ],
)
def test_feet_inches_and_fractions_are_read_as_written(text: str, inches: float) -> None:
    assert read(text, Kind.LENGTH).best == pytest.approx(inches * IN, rel=1e-15)


@pytest.mark.parametrize(
    "text", ["~180 lb", "~ 180 lb", "≈180 lb", "about 180 lb", "About 180 lb", "approx 180 lb", "approx. 180 lb",
             "approximately 180 lb", "circa 180 lb", "ca. 180 lb", "ca 180 lb", "about 180 lb @survey"]
)  # fmt: skip
def test_a_word_for_about_is_the_mark_of_an_estimate(text: str) -> None:
    reading = read(text, Kind.MASS)
    assert reading.form is Form.ESTIMATE
    assert reading.best == pytest.approx(180 * LB)


@pytest.mark.parametrize(
    ("text", "kind", "value"),
    [
        ("2.72 lb per foot", Kind.LINE_MASS, 2.72 * LB / FT),
        ("2.72 pounds per foot", Kind.LINE_MASS, 2.72 * LB / FT),
        ("2.72 lbs./ft.", Kind.LINE_MASS, 2.72 * LB / FT),
        ("2.72 lb/'", Kind.LINE_MASS, 2.72 * LB / FT),
        ("11 lb/100'", Kind.LINE_MASS, 0.11 * LB / FT),
        ("4 kg per metre", Kind.LINE_MASS, 4.0),
        ("4 kilograms per meter", Kind.LINE_MASS, 4.0),
        ("16 ounces per square yard", Kind.AREA_MASS, LB / 0.9144**2),
        ("16 oz/sq. yd.", Kind.AREA_MASS, LB / 0.9144**2),
        ("500 g per square metre", Kind.AREA_MASS, 0.5),
        ("75 pounds per square foot", Kind.FLOOR_LOAD, 75 * LB * 9.80665 / FT**2),
        ("75 lbs/sqft", Kind.FLOOR_LOAD, 75 * LB * 9.80665 / FT**2),
        ("36,000 lbs/sq in", Kind.STRESS, 36000 * LB * 9.80665 / IN**2),
        ("36 kips/in²", Kind.STRESS, 36000 * LB * 9.80665 / IN**2),
        ("10 kilos", Kind.MASS, 10.0),
        ("10 lbm", Kind.MASS, 10 * LB),
        ("12 in⁴", Kind.SECOND_MOMENT, 12 * IN**4),
        ("12 in^4", Kind.SECOND_MOMENT, 12 * IN**4),
        ("735 ft-lb", Kind.MOMENT, 735 * LB * 9.80665 * FT),
        ("30°", Kind.ANGLE, 0.5235987755982988),
    ],
)
def test_units_in_words_are_the_units_in_letters(text: str, kind: Kind, value: float) -> None:
    assert read(text, kind).best == pytest.approx(value, rel=1e-14)


# A rigger's pound: common practice, no source. A pound is 0.45359237 kg, a pound-force 4.4482216152605 N (NIST SP 811).
@pytest.mark.parametrize(
    ("text", "kind", "value"),
    [
        ("25#", Kind.MASS, 25 * 0.45359237),
        ("25 #", Kind.MASS, 25 * 0.45359237),
        ("~1,000#", Kind.MASS, 1000 * 0.45359237),
        ("500#", Kind.FORCE, 500 * 4.4482216152605),
        ("450..500#", Kind.FORCE, 475 * 4.4482216152605),
        ("2.72 #/ft", Kind.LINE_MASS, 2.72 * 0.45359237 / 0.3048),
        ("1#/sq ft", Kind.AREA_MASS, 0.45359237 / 0.3048**2),
    ],
)
def test_a_hash_behind_a_number_is_pounds_of_what_the_field_asks_for(text: str, kind: Kind, value: float) -> None:
    assert read(text, kind).best == pytest.approx(value, rel=1e-14)


# Each is a slip or may mean two things. What the mend says to write stands beside it.
@pytest.mark.parametrize(
    ("text", "kind", "says"),
    [
        ("42-6", Kind.LENGTH, "Write 42 ft 6 in, or a range like"),
        ("42-6 ft", Kind.LENGTH, "Write 42 ft 6 in, or a range like"),
        ("12-0", Kind.LENGTH, "Write 12 ft 0 in"),
        ("12-6 1/2", Kind.LENGTH, "Write 12 ft 6 1/2 in"),
        ("20-30 ft", Kind.LENGTH, "Write 20..30 ft"),  # 30 in are no inches
        ("180-220 lb", Kind.MASS, "Write 180..220 lb"),
        ("180 - 220 lb", Kind.MASS, "Write 180..220 lb"),
        ("180—220 lb", Kind.MASS, "Write 180..220 lb"),
        ("180 lb - 220 lb", Kind.MASS, "Write 180 lb..220 lb"),
        ("180 to 220 lb", Kind.MASS, "Write 180..220 lb"),
        ("from 180 to 220 lb", Kind.MASS, "Write 180..220 lb"),
        ("between 180 and 220 lb", Kind.MASS, "Write 180..220 lb"),
        ("180-220", Kind.MASS, "Write 180..220 lb or 180..220 kg"),
        ("5 ft to 5 ft 6 in", Kind.LENGTH, "Write 5 ft..5 ft 6 in"),
        ("220-180 lb", Kind.MASS, "two dots, as in 180..220 lb"),
        ("180 ± 20 lb", Kind.MASS, "Write both ends, as in 180..220 lb"),
        ("±180 lb", Kind.MASS, "Write both ends"),
        ("180 lb +/- 20", Kind.MASS, "Write both ends"),
        ("180 lb?", Kind.MASS, "~180 lb. Else write unknown"),
        ("3,5 m", Kind.LENGTH, "Write a decimal point"),
        ("1.000,5 kg", Kind.MASS, "Write numbers like 1,000.5"),
        ("1 000 kg", Kind.MASS, "Write 1,000 or 1000"),
        ("1\u202f000 kg", Kind.MASS, "Write 1,000 or 1000"),
        ("1'000 kg", Kind.MASS, "Write 1,000 or 1000"),
        ("1'000 mm", Kind.LENGTH, "Write 1,000 or 1000"),
        ("1_000 lb", Kind.MASS, "Write 1,000 or 1000"),
        ("0x10", Kind.COUNT, "digits are not plain"),
        ("12E1", Kind.MASS, "Write all its digits"),
        ("1e3 lb", Kind.MASS, "Write all its digits"),
        ("29 x 10^6 psi", Kind.STRESS, "Write all its digits"),
        ("2026-01-01", Kind.LENGTH, "is a day"),
        ("1/1/2026", Kind.LENGTH, "is a day"),
        ("12:30", Kind.LENGTH, "Write it like 42 ft 6 in"),
        ("11/2 in", Kind.LENGTH, "Write 1-1/2, or 5.5"),
        ("13/4 in", Kind.LENGTH, "Write 1-3/4, or 3.25"),
        ("111/16 in", Kind.LENGTH, "Write 1-11/16, or 6.9375"),
        ("12# 4", Kind.MASS, "Write it like 20 lb"),  # ounces are written oz
        ("#12", Kind.MASS, "Write it like 20 lb"),  # the twelfth of something, or a gauge
        ("12#", Kind.LENGTH, "# is a unit of weight"),
        ("12' #3", Kind.LENGTH, "Write it like 42 ft 6 in"),
        ("15'-14\"", Kind.LENGTH, "less than 12 in after it. Did you mean 16 ft 2 in?"),
        ("15' 13 1/2\"", Kind.LENGTH, "Did you mean 16 ft 1-1/2 in?"),
        ("15 ft 24 in", Kind.LENGTH, "Did you mean 17 ft 0 in?"),
        ("15.5 ft 3 in", Kind.LENGTH, "Write it like 42 ft 6 in"),
        ("3 lb 18 oz", Kind.MASS, "Did you mean 4 lb 2 oz?"),
        ("30", Kind.ANGLE, "is an angle without a unit"),
        ("5 k", Kind.FORCE, "Write 5,000 lb or 5 kg"),
        ("1.5 K", Kind.MASS, "Write 1,500 lb or 1.5 kg"),
        ("2 metric tons", Kind.MASS, "write lb or kg"),
        ("2 tf", Kind.FORCE, "write lb or kg"),
        ("16 oz", Kind.AREA_MASS, "54 in wide is 1.5 yd2"),
        ("16 oz/yd", Kind.AREA_MASS, "54 in wide is 1.5 yd2"),
        ("16 oz per running yard", Kind.AREA_MASS, "Write oz/yd2"),
        ("16 oz/linear yard", Kind.AREA_MASS, "Write oz/yd2"),
        ("20 lb/ft", Kind.MASS, "lb/ft is a unit of weight per length"),
        ("5 lb", Kind.LENGTH, "lb is a unit of weight"),
        ("3 min", Kind.LENGTH, "cannot be read as a length"),
        ("1:180", Kind.RATIO, "Write 1/180"),
        ("L/180", Kind.RATIO, "Write 1/180"),
        ("8:1", Kind.RATIO, "Write 8/1"),
        ("8 to 1", Kind.RATIO, "Write 8/1"),
        ("5'--½\"", Kind.LENGTH, "Write it like 42 ft 6 in"),
    ],
)
def test_a_slip_is_refused_with_what_to_write(text: str, kind: Kind, says: str) -> None:
    assert says in str(refused(text, kind))


@pytest.mark.parametrize(
    ("text", "kind"),
    [
        ("180-220 lb", Kind.MASS),
        ("180 to 220 lb", Kind.MASS),
        ("180 lb - 220 lb", Kind.MASS),
        ("1,000-1,500 lb", Kind.FORCE),
        ("180-220", Kind.MASS),
        ("2.5-3 lb/ft", Kind.LINE_MASS),
        ("10-20 %", Kind.RATIO),
        ("10 to 12", Kind.COUNT),
        ("5 ft to 5 ft 6 in", Kind.LENGTH),
        ("42-6", Kind.LENGTH),
        ("12-6 1/2", Kind.LENGTH),
        ("12'6", Kind.LENGTH),
        ("12 lb 4", Kind.MASS),
        ("1.5 k", Kind.FORCE),
        ("5 kn", Kind.FORCE),
        ("5 mpa", Kind.STRESS),
        ("500", Kind.FORCE),
        ("½", Kind.LENGTH),
        ("1:180", Kind.RATIO),
    ],
)
def test_what_a_mend_says_to_write_can_be_read(text: str, kind: Kind) -> None:
    told = re.search(r"[Ww]rite (.+?)(?:, or .*| or .*)?\.(?: |$)", refused(text, kind).mend)
    assert told is not None
    assert read(told[1], kind).best is not None


@pytest.mark.parametrize(
    "text", ["?", "TBD", "tbd", "n/a", "N/A", "-", "–", "—", "null", "unk", "not known", "~?", "~TBD"]
)
def test_what_says_nothing_is_not_taken_for_a_figure_nor_for_unknown(text: str) -> None:
    assert "write unknown" in str(refused(text, Kind.MASS))


def test_none_may_be_nothing_or_not_known() -> None:
    assert "If it is nothing, write 0. If it is not known, write unknown." in str(refused("none", Kind.MASS))


# U+043C CYRILLIC SMALL LETTER EM and its like look as the letters of a unit do; The Unicode Standard names them.
@pytest.mark.parametrize(
    ("text", "kind", "named"),
    [
        ("42 \u043c", Kind.LENGTH, "U+043C, cyrillic small letter em"),
        ("5 \u0441m", Kind.LENGTH, "U+0441, cyrillic small letter es"),
        ("20 \u043ag", Kind.MASS, "U+043A"),
        ("20 l\u042c", Kind.MASS, "U+042C"),
        ("20 \u212ag", Kind.MASS, "U+212A, kelvin sign"),
        ("3 \u339c", Kind.LENGTH, "U+339C, square mm"),
        ("\u0663 ft", Kind.LENGTH, "U+0663"),
        ("\u0967\u0968 ft", Kind.LENGTH, "U+0967"),
        ("\uff11\uff12 ft", Kind.LENGTH, "U+FF11"),
        ("\U0001d7d8 ft", Kind.LENGTH, "U+1D7D8"),
        ("12\u200b ft", Kind.LENGTH, "U+200B, zero width space"),
        ("\ufeff12 ft", Kind.LENGTH, "U+FEFF"),
        ("12\u202e ft", Kind.LENGTH, "U+202E"),
        ("12 f\u0301t", Kind.LENGTH, "U+0301"),
        ("12\x00 ft", Kind.LENGTH, "U+0000, a character that does not show"),
        ("12\x1b[31m ft", Kind.LENGTH, "U+001B"),
        ("\ud800 ft", Kind.LENGTH, "U+D800"),
        ("8×", Kind.RATIO, "U+00D7, multiplication sign"),
    ],
)
def test_a_character_that_only_looks_right_is_named(text: str, kind: Kind, named: str) -> None:
    error = refused(text, kind)
    assert named in error.why
    assert error.mend.startswith("Type it anew with plain letters and digits.")


@pytest.mark.parametrize("text", ["12 lb\n13 lb", "12\r\nlb", "12\u2028lb"])
def test_a_figure_stands_on_one_line(text: str) -> None:
    assert "Write it on one line" in str(refused(text, Kind.MASS))


@pytest.mark.parametrize("text", ["\ud800\udfff ft", "12\x1b[31m ft", "x\n\n\ny", "\x00" * 39, " " * 10_000 + "5"])
def test_a_message_fits_a_terminal_whatever_was_written(text: str) -> None:
    message = str(refused(text, Kind.LENGTH))
    assert message.encode()
    assert message.isprintable()
    assert len(message) < 300


@pytest.mark.parametrize(
    ("text", "kind", "bound"),
    [
        ("10,001 m", Kind.LENGTH, "more than 10,000 m"),
        ("999,999,999 ft", Kind.LENGTH, "more than 10,000 m"),
        ("0.0001 mm", Kind.LENGTH, "less than 0.001 mm"),
        ("999,999,999,999 lb", Kind.MASS, "more than 1,000,000 kg"),
        ("999,999,999,999 lb", Kind.FORCE, "more than 1,000,000 kN"),
        ("29,000,000 ksi", Kind.STRESS, "more than 1,000 GPa"),
        ("0.1 Pa", Kind.STRESS, "less than 1 Pa"),
        ("100,000,000 lb/ft", Kind.LINE_MASS, "more than 100,000 kg/m"),
        ("100,000 lb/ft2", Kind.AREA_MASS, "more than 10,000 kg/m2"),
        ("10,000,000 psf", Kind.FLOOR_LOAD, "more than 100,000 kN/m2"),
        ("181 deg", Kind.ANGLE, "more than 180 deg"),
        ("10,000,000", Kind.RATIO, "more than a million"),
        ("999,999,999,999", Kind.COUNT, "more than 1,000,000,000"),
        ("5 lb..999,999,999,999 lb", Kind.MASS, "more than 1,000,000 kg"),
    ],
)
def test_a_figure_that_can_hardly_be_meant_is_refused(text: str, kind: Kind, bound: str) -> None:
    error = refused(text, kind)
    assert bound in error.why
    assert "unit" in error.mend


@pytest.mark.parametrize("kind", [Kind.MASS, Kind.FORCE, Kind.LENGTH, Kind.RATIO])
def test_nothing_at_all_is_within_the_bounds(kind: Kind) -> None:
    assert read("0", kind).best == 0.0


@pytest.mark.parametrize("sign", ["-", "\u2212", "\u2010", "\u2011"])
def test_a_length_is_less_than_zero_only_where_that_means_something(sign: str) -> None:
    assert "Write it without a sign" in str(refused(f"{sign}3 ft", Kind.LENGTH))
    assert read(f"{sign}3 ft", Kind.LENGTH, signed=True).best == pytest.approx(-3 * FT)
    assert read(f"{sign}3' 6\"", Kind.LENGTH, signed=True).best == pytest.approx(-42 * IN)
    assert "cannot be read" in str(refused(f"{sign}{sign}3 ft", Kind.LENGTH, signed=True))


@pytest.mark.parametrize("text", ["6' SL of CL", "6 ft SL of centre", "6 ft stage left of the center line", "6' SL"])
def test_a_side_may_name_the_line_it_counts_from(text: str) -> None:
    assert from_centre(text).best == pytest.approx(6 * FT)
    assert place(text, length=42 * FT).best == pytest.approx(27 * FT)


@pytest.mark.parametrize("text", ["CL", "C/L", "centre", "center", "℄", "~CL"])
def test_the_centre_line_has_many_names(text: str) -> None:
    assert from_centre(text).best == 0.0


@pytest.mark.parametrize(
    "text", ["6' L", "6' left", "6' house left", "6' DS", "6' SR end", "6' from CL", "6' from end", "SL 6'"]
)
def test_a_place_that_counts_from_nowhere_known_is_told_how_to_write_one(text: str) -> None:
    with pytest.raises(Unreadable) as caught:
        place(text, length=42 * FT)
    assert "6' SL" in caught.value.mend
    with pytest.raises(Unreadable) as caught:
        from_centre(text)
    assert "6' SL" in caught.value.mend


# Past about a second a regular expression has blown up: each of these takes well under a millisecond.
@pytest.mark.parametrize(
    "text",
    ["1-" * 20, "1 to " * 8, "9" * 10**6, "," * 10**6, " " * 10**6, "1," * 20, "½" * 40, "1 1 1 1 " * 5, "@" * 10**6,
     "~" * 40, "?" * 10**6, "from the " * 4, "lb/" * 13, "1/1/1/1/1/1/1/1/1/1/", "between " * 5, ":" * 10**5],
)  # fmt: skip
def test_no_text_takes_long(text: str) -> None:
    for kind in Kind:
        with pytest.raises(Unreadable):
            read(text, kind)
    with pytest.raises(Unreadable):
        place(text, length=1.0)


@pytest.mark.parametrize(
    ("text", "kind", "mend"),
    [
        ("250/300 kg", Kind.FORCE, "250..300 kg"),
        ("500/750 lb", Kind.FORCE, "500..750 lb"),
        ("300/250 kg", Kind.FORCE, "250..300 kg"),
        ("250/300", Kind.FORCE, "250..300 lb or 250..300 kg"),
        ("4/5 ft", Kind.LENGTH, "4..5 ft"),
        ("8/3 m", Kind.LENGTH, "3..8 m"),
        ("5 ft 7/9 in", Kind.LENGTH, "7..9 in"),
    ],
)
def test_two_figures_with_a_slash_are_no_fraction(text: str, kind: Kind, mend: str) -> None:
    error = refused(text, kind)
    assert "two figures with a slash between" in error.why
    assert f"Write {mend} if it may be either" in error.mend


@pytest.mark.parametrize(
    ("text", "kind", "si"),
    # common practice, no source: a rule is divided into 2, 4 up to 64, a yard of cloth into 3
    [("3/4 in", Kind.LENGTH, 0.75 * IN), ("63/64 in", Kind.LENGTH, 63 / 64 * IN), ("1/3 ft", Kind.LENGTH, 4 * IN),
     ("1/2 lb", Kind.MASS, 0.5 * LB), ("2-4/5 ft", Kind.LENGTH, 2.8 * FT), ("1/180", Kind.RATIO, 1 / 180)],
)  # fmt: skip
def test_fractions_of_a_rule_and_of_a_yard_stay_fractions(text: str, kind: Kind, si: float) -> None:
    assert read(text, kind).best == pytest.approx(si, rel=1e-15)


@pytest.mark.parametrize("text", ["12'.5\"", "12 ft.5 in", "12'.5 in", "0'.5\""])
def test_a_point_stuck_between_feet_and_inches_is_never_five_inches(text: str) -> None:
    error = refused(text, Kind.LENGTH)
    feet = text[: text.index("'" if "'" in text else " ")]
    assert error.mend == f"Write {feet} ft 0.5 in or {feet} ft 5 in."
    assert read("12' .5\"", Kind.LENGTH).best == pytest.approx(144.5 * IN, rel=1e-15)
    with pytest.raises(Unreadable, match="has a point between"):
        from_centre("6'.5\" SL")


@pytest.mark.parametrize(
    ("text", "kind", "si"),
    [
        ("1 kN·m", Kind.MOMENT, 1000.0),
        ("735 lb·ft", Kind.MOMENT, 735 * LB * 9.80665 * FT),
        ("5 millimetres", Kind.LENGTH, 0.005),
        ("5 centimeters", Kind.LENGTH, 0.05),
        ("2 kilonewtons", Kind.FORCE, 2000.0),
        ("75 lb/sf", Kind.FLOOR_LOAD, 75 * LB * 9.80665 / FT**2),
        ("16 oz/sy", Kind.AREA_MASS, LB / (3 * FT) ** 2),
        ("42 feet and 6 inches", Kind.LENGTH, 510 * IN),
    ],
)
def test_units_in_full_words_and_with_a_raised_dot_are_read(text: str, kind: Kind, si: float) -> None:
    assert read(text, kind).best == pytest.approx(si, rel=1e-14)


def test_a_raised_dot_between_digits_is_not_read_for_it_was_once_a_decimal_point() -> None:
    assert "middle dot" in refused("12·5 m", Kind.LENGTH).why


def test_a_source_may_have_more_than_one_word() -> None:
    assert read("180 lb @Survey 2026", Kind.MASS).source == "Survey 2026"
    assert "A name begins with a letter" in refused("180 lb @2026", Kind.MASS).mend
