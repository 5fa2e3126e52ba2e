import pytest

from counterpoise.errors import Unreadable
from counterpoise.units import Form, Kind, read

FT, IN, LB, G = 0.3048, 0.0254, 0.45359237, 9.80665  # exact by definition; tests/validation holds the sources


def best(text: str, kind: Kind = Kind.LENGTH, *, signed: bool = False) -> float:
    value = read(text, kind, signed=signed).best
    assert value is not None
    return value


@pytest.mark.parametrize(
    "text",
    [
        "42 ft 6 in",
        "42ft6in",
        "42 ft. 6 in.",
        "42 feet 6 inches",
        "42 FT 6 IN",
        "42'-6\"",
        "42' 6\"",
        "42'6\"",
        "42' - 6\"",
        "42' 6''",
        "42\u2032 6\u2033",
        "42\u2032-6\u2033",
        "42\u20196\u201d",
        "42\u2018 6\u201c",
        "42\u00a0ft 6\u202fin",
        "42 1/2 ft",
        "42-1/2 ft",
        "42½ ft",
        "42.5 ft",
        "510 in",
        "12.954 m",
        "1,295.4 cm",
        "12,954 mm",
    ],
)
def test_forty_two_feet_six_is_read_in_every_spelling(text: str) -> None:
    assert best(text) == 12.954  # 510 x 0.0254, exactly


@pytest.mark.parametrize("text", ["1-1/2 in", "1 1/2 in", '1½"', "1 ½ in", "1-½ in", "1.5 in"])
def test_an_inch_and_a_half_is_read_in_every_spelling(text: str) -> None:
    assert best(text) == 0.0381


@pytest.mark.parametrize(
    ("text", "inches"),
    [
        ("3/8 in", 0.375),
        ("3\u20448 in", 0.375),
        ("⅜ in", 0.375),
        (".5 in", 0.5),
        ("12'-6 1/2\"", 150.5),
        ("12' 6-1/2\"", 150.5),
        ("12' 6½\"", 150.5),
        ("0' 6\"", 6.0),
        ("11/16 in", 0.6875),
        ("2 yd", 72.0),
    ],
)
def test_fractions_of_an_inch_are_read(text: str, inches: float) -> None:
    assert best(text) == pytest.approx(inches * IN, rel=1e-15)


@pytest.mark.parametrize(
    ("text", "kind", "value"),
    [
        ("20 lb", Kind.MASS, 20 * LB),
        ("20 lbs", Kind.MASS, 20 * LB),
        ("20 pounds", Kind.MASS, 20 * LB),
        ("1,000 lb", Kind.MASS, 1000 * LB),
        ("12 lb 4 oz", Kind.MASS, 12.25 * LB),
        ("16 oz", Kind.MASS, LB),
        ("9 kg", Kind.MASS, 9.0),
        ("9 KG", Kind.MASS, 9.0),
        ("500 g", Kind.MASS, 0.5),
        ("500 lb", Kind.FORCE, 500 * LB * G),
        ("500 lbf", Kind.FORCE, 500 * LB * G),
        ("2 kip", Kind.FORCE, 2000 * LB * G),
        ("100 kg", Kind.FORCE, 980.665),
        ("100 kgf", Kind.FORCE, 980.665),
        ("250 N", Kind.FORCE, 250.0),
        ("25 daN", Kind.FORCE, 250.0),
        ("2.5 kN", Kind.FORCE, 2500.0),
        ("3 lb/ft", Kind.LINE_MASS, 3 * LB / FT),
        ("3 lb per ft", Kind.LINE_MASS, 3 * LB / FT),
        ("24.3 lb/100 ft", Kind.LINE_MASS, 0.243 * LB / FT),
        ("4 kg/m", Kind.LINE_MASS, 4.0),
        ("36.4 kg/100 m", Kind.LINE_MASS, 0.364),
        ("16 oz/yd2", Kind.AREA_MASS, LB / 0.9144**2),
        ("16 oz/yd²", Kind.AREA_MASS, LB / 0.9144**2),
        ("16 oz/yd^2", Kind.AREA_MASS, LB / 0.9144**2),
        ("16 oz per sq yd", Kind.AREA_MASS, LB / 0.9144**2),
        ("500 g/m2", Kind.AREA_MASS, 0.5),
        ("36 ksi", Kind.STRESS, 36000 * LB * G / IN**2),
        ("36,000 psi", Kind.STRESS, 36000 * LB * G / IN**2),
        ("250 MPa", Kind.STRESS, 250e6),
        ("250 N/mm²", Kind.STRESS, 250e6),
        ("200 GPa", Kind.STRESS, 200e9),
        ("150 psf", Kind.FLOOR_LOAD, 150 * LB * G / FT**2),
        ("150 lb/ft2", Kind.FLOOR_LOAD, 150 * LB * G / FT**2),
        ("150 lb per sq ft", Kind.FLOOR_LOAD, 150 * LB * G / FT**2),
        ("7.5 kN/m2", Kind.FLOOR_LOAD, 7500.0),
        ("500 kg/m2", Kind.FLOOR_LOAD, 4903.325),
        ("20 %", Kind.RATIO, 0.2),
        ("20%", Kind.RATIO, 0.2),
        ("20 percent", Kind.RATIO, 0.2),
        ("1/180", Kind.RATIO, 1 / 180),
        ("0.93", Kind.RATIO, 0.93),
        ("12", Kind.COUNT, 12.0),
        ("1,200", Kind.COUNT, 1200.0),
        ("0", Kind.COUNT, 0.0),
    ],
)
def test_each_kind_is_read_in_its_units(text: str, kind: Kind, value: float) -> None:
    assert best(text, kind) == pytest.approx(value, rel=1e-14)


def test_the_text_is_kept_as_it_was_written() -> None:
    assert read("  42\u2019-6\u201d  @survey ", Kind.LENGTH).text == "  42\u2019-6\u201d  @survey "


def test_a_figure_is_exact_and_its_three_values_agree() -> None:
    reading = read("24 lb @survey", Kind.MASS)
    assert (reading.form, reading.source) == (Form.EXACT, "survey")
    assert reading.low == reading.best == reading.high == pytest.approx(24 * LB, rel=1e-15)


def test_an_estimate_is_not_widened_here() -> None:
    reading = read("~180 lb", Kind.MASS)
    assert reading.form is Form.ESTIMATE
    assert reading.low == reading.best == reading.high == pytest.approx(180 * LB, rel=1e-15)


@pytest.mark.parametrize("text", ["180..220 lb", "180 lb..220 lb", "180 .. 220 lb", "180 lb .. 220 lb @maker"])
def test_a_range_has_its_middle_as_the_best_value(text: str) -> None:
    reading = read(text, Kind.MASS)
    assert reading.form is Form.RANGE
    assert (reading.low, reading.best, reading.high) == pytest.approx((180 * LB, 200 * LB, 220 * LB), rel=1e-14)


def test_a_range_may_mix_feet_and_inches_when_both_ends_have_units() -> None:
    reading = read("5'-6\"..6 ft", Kind.LENGTH)
    assert (reading.low, reading.high) == pytest.approx((66 * IN, 72 * IN), rel=1e-15)


@pytest.mark.parametrize("text", ["unknown", "Unknown", " unknown ", "unknown @nobody"])
def test_unknown_has_no_figures(text: str) -> None:
    reading = read(text, Kind.FORCE)
    assert reading.form is Form.UNKNOWN
    assert reading.low is reading.best is reading.high is None


def test_a_plain_zero_needs_no_unit() -> None:
    assert best("0") == 0.0
    assert read("0..5 lb", Kind.MASS).high == pytest.approx(5 * LB)


@pytest.mark.parametrize(
    ("text", "value"),
    [("-3 ft", -3 * FT), ("\u22123 ft", -3 * FT), ("+3 ft", 3 * FT), ("-5' 6\"", -66 * IN), ("3 ft", 3 * FT)],
)
def test_a_sign_is_read_where_it_is_asked_for_and_holds_for_feet_and_inches_together(text: str, value: float) -> None:
    assert best(text, signed=True) == pytest.approx(value, rel=1e-15)


def test_a_signed_range_runs_upwards_through_zero() -> None:
    reading = read("-1..2 ft", Kind.LENGTH, signed=True)
    assert (reading.low, reading.high) == pytest.approx((-FT, 2 * FT), rel=1e-15)
    with pytest.raises(Unreadable, match="backwards"):
        read("-1..-2 ft", Kind.LENGTH, signed=True)


@pytest.mark.parametrize(
    ("text", "kind", "says"),
    [
        ("", Kind.LENGTH, "write unknown"),
        ("   ", Kind.LENGTH, "write unknown"),
        ("?", Kind.MASS, "write unknown"),
        ("???", Kind.MASS, "write unknown"),
        ("500", Kind.FORCE, "Write 500 lb or 500 kg"),
        ("42", Kind.LENGTH, "Write 42 ft or 42 m"),
        ("36", Kind.STRESS, "Write 36 psi or 36 MPa"),
        ("150", Kind.FLOOR_LOAD, "Write 150 psf or 150 kN/m2"),
        ("3", Kind.LINE_MASS, "Write 3 lb/ft or 3 kg/m"),
        ("180 lb..220", Kind.MASS, "Write 220 lb or 220 kg"),
        ("4..5' 2\"", Kind.LENGTH, "Write 4 ft or 4 m"),  # 4 ft or 4 in: the house must say
        ("42' 6", Kind.LENGTH, "Write 42 ft 6 in"),
        ("12 lb 4", Kind.MASS, "Write 12 lb 4 oz"),
        ("2 t", Kind.MASS, "tonne 1,000 kg: write lb or kg"),
        ("2 ton", Kind.FORCE, "short ton is 2,000 lb"),
        ("2 tons", Kind.MASS, "long ton 2,240 lb"),
        ("500 N", Kind.MASS, "is a force"),
        ("5 kN", Kind.MASS, "is a force"),
        ("16 oz", Kind.AREA_MASS, "Write oz/yd2"),
        ("5 mpa", Kind.STRESS, "Write 5 MPa"),
        ("5 mPa", Kind.STRESS, "Write 5 MPa"),
        ("5 kn", Kind.FORCE, "Write 5 kN"),
        ("12x ft", Kind.LENGTH, "cannot be read as a length. Write it like 42 ft 6 in"),
        ("12E1", Kind.LENGTH, "cannot be read as a length"),
        ("12e1 ft", Kind.LENGTH, "cannot be read as a length"),
        ("0x10 ft", Kind.LENGTH, "cannot be read as a length"),
        ("1_000 ft", Kind.LENGTH, "cannot be read as a length"),
        ("010 ft", Kind.LENGTH, "begins with 0"),
        ("00 ft", Kind.LENGTH, "begins with 0"),
        ("1 03/8 in", Kind.LENGTH, "begins with 0"),
        ("NaN", Kind.LENGTH, "is not a number"),
        ("nan", Kind.COUNT, "is not a number"),
        ("inf", Kind.LENGTH, "is not a number"),
        ("-inf", Kind.LENGTH, "without a sign"),
        ("-3 ft", Kind.LENGTH, "minus sign"),
        ("\u22123 ft", Kind.LENGTH, "minus sign"),
        ("-3", Kind.COUNT, "minus sign"),
        ("\u0663 ft", Kind.LENGTH, "U+0663, arabic-indic digit three. Type it anew"),
        ("\uff13 ft", Kind.LENGTH, "U+FF13, fullwidth digit three. Type it anew"),
        ("5 \u212ag", Kind.MASS, "U+212A, kelvin sign. Type it anew"),  # it lower-cases to k
        ("4/0 in", Kind.LENGTH, "divides by zero"),
        ("1 4/0 in", Kind.LENGTH, "divides by zero"),
        ("1 3/2 in", Kind.LENGTH, "fraction of one or more"),
        ("1/2/3 in", Kind.LENGTH, "does not end properly"),
        ("1.2.3 ft", Kind.LENGTH, "does not end properly"),
        ("5. ft", Kind.LENGTH, "does not end properly"),
        ("1,00 lb", Kind.MASS, "groups of three"),
        ("1,0000 lb", Kind.MASS, "groups of three"),
        ("12,5 kg", Kind.MASS, "Write a decimal point"),
        ("0,500 kg", Kind.MASS, "Write a decimal point"),
        ("1234,567 kg", Kind.MASS, "Write a decimal point"),
        ("1 000 kg", Kind.MASS, "cannot be read"),
        ("9" * 13 + " lb", Kind.MASS, "too many digits"),
        ("9" * 400, Kind.MASS, "longer than 40"),
        ("x" * 41, Kind.LENGTH, "longer than 40"),
        ("5' 13\"", Kind.LENGTH, "less than 12 in"),
        ("5.5' 6\"", Kind.LENGTH, "whole number of ft"),
        ("12 lb 16 oz", Kind.MASS, "less than 16 oz"),
        ("6 in 5 ft", Kind.LENGTH, "cannot be read"),
        ("3 m 20 cm", Kind.LENGTH, "cannot be read"),
        ("5 ft 20 cm", Kind.LENGTH, "cannot be read"),
        ("5 ft 6 in 2 in", Kind.LENGTH, "cannot be read"),
        ("ft", Kind.LENGTH, "cannot be read"),
        ("5 lb", Kind.LENGTH, "cannot be read as a length"),
        ("5 ft", Kind.MASS, "cannot be read as a weight"),
        ("6-7 in", Kind.LENGTH, "Write 6 ft 7 in, or a range like 5..6 ft"),
        ("180\u2013220 lb", Kind.MASS, "Write 180..220 lb"),
        ("180...220 lb", Kind.MASS, "two dots"),
        ("180\u2026220 lb", Kind.MASS, "two dots"),
        ("1..2..3 lb", Kind.MASS, "two dots"),
        ("180.. lb", Kind.MASS, "Write 180 lb"),
        ("180 lb..", Kind.MASS, "one end missing"),
        ("..180 lb", Kind.MASS, "one end missing"),
        ("220..180 lb", Kind.MASS, "backwards"),
        ("~180..220 lb", Kind.MASS, "both an estimate and a range"),
        ("~", Kind.MASS, "no figure after it. Write the figure too"),
        ("~unknown", Kind.MASS, "cannot be read"),
        ("24 lb @", Kind.MASS, "name of a source"),
        ("24 lb @2 words", Kind.MASS, "name of a source"),
        ("24 lb @a@b", Kind.MASS, "name of a source"),
        ("24 lb @7", Kind.MASS, "name of a source"),
        ("@survey", Kind.MASS, "says nothing"),
        ("1.5", Kind.COUNT, "whole number"),
        ("1/2", Kind.COUNT, "whole number"),
        ("12 bricks", Kind.COUNT, "whole number"),
        ("20 ft", Kind.RATIO, "cannot be read as a ratio"),
        ("1:180", Kind.RATIO, "cannot be read as a ratio"),
    ],
)
def test_what_is_no_quantity_or_may_mean_two_is_refused_with_a_mend(text: str, kind: Kind, says: str) -> None:
    with pytest.raises(Unreadable) as caught:
        read(text, kind)
    assert says in str(caught.value)
    assert caught.value.mend


def test_a_long_text_is_not_echoed_in_full() -> None:
    with pytest.raises(Unreadable) as caught:
        read("9" * 100_000, Kind.MASS)
    assert len(str(caught.value)) < 200
