"""Laws of reading and printing quantities, searched with inputs chosen to break them."""

import math
from collections.abc import Callable
from fractions import Fraction

from hypothesis import assume, example, given
from hypothesis.strategies import booleans, floats, integers, lists, sampled_from, text

from counterpoise.errors import OutOfRange, Unreadable
from counterpoise.units import (
    Direction,
    Kind,
    Reading,
    Style,
    force,
    from_centre,
    length,
    limit,
    mass,
    pair,
    place,
    printed_as,
    read,
    signed_force,
)
from counterpoise.units.kinds import UNITS

NASTY = [
    *"0123456789.,/-+~?@%'\" \t\neExXNn_:",
    *"½⅓⅛⁄′″’”‘“²−–…٣３K\u00a0\u202f\u0000\ud800",
    *("ft", "in", "lb", "lbs", "oz", "kg", "N", "kN", "m", "mm", "lb/ft", "lb/100 ft", "oz/yd2", "psf", "ksi", "t"),
    *(
        " to ",
        " and ",
        "between ",
        "about ",
        "approx. ",
        "ca.",
        "≈",
        "±",
        "+/-",
        "#",
        "k",
        "tbd",
        "none",
        " of CL",
        "C/L",
    ),
    *("deg", "in4", "lb-ft", "N m", "pounds", "feet", "per square foot", "\u212ag", "м", "\u200b", "°", "⁴", "⅚", "^"),
    *("..", "...", "@a", "unknown", "nan", "inf", "CL", "SL", "SR", " from ", "SR end", "sq ", " per ", "1 1/2", "4/0"),
]
nasty = lists(sampled_from(NASTY), max_size=14).map("".join)
styles = sampled_from([Style("us"), Style("metric")])
newtons = floats(-1e7, 1e7)


def sound(reading: Reading) -> bool:
    """A reading that may be used: all figures finite and in order, or none at all."""
    if reading.best is None:
        return reading.low is None and reading.high is None
    assert reading.low is not None
    assert reading.high is not None
    return math.isfinite(reading.low) and math.isfinite(reading.high) and reading.low <= reading.best <= reading.high


def outcome(reader: Callable[[], Reading]) -> Reading | None:
    """The reading, sound; or None for a refusal with a mend. Whatever else is raised goes through."""
    try:
        reading = reader()
    except Unreadable as refusal:
        if not refusal.mend:
            raise AssertionError(str(refusal)) from refusal
        return None
    assert sound(reading)
    return reading


@given(said=nasty, kind=sampled_from(Kind), signed=booleans())
@example(said="4/0", kind=Kind.RATIO, signed=False)
@example(said="9" * 400, kind=Kind.COUNT, signed=False)
def test_a_text_is_read_soundly_or_refused_with_a_mend_and_nothing_else_happens(
    said: str, kind: Kind, signed: bool
) -> None:
    reading = outcome(lambda: read(said, kind, signed=signed))
    if reading is not None:
        assert reading.text == said
        assert signed or reading.low is None or reading.low >= 0.0


@given(said=text(max_size=60), kind=sampled_from(Kind))
def test_any_text_at_all_is_read_or_refused(said: str, kind: Kind) -> None:
    outcome(lambda: read(said, kind))


@given(said=nasty, batten=floats(0.5, 60.0))
def test_a_place_lies_on_the_batten_or_is_refused(said: str, batten: float) -> None:
    reading = outcome(lambda: place(said, length=batten))
    if reading is not None and reading.low is not None and reading.high is not None:
        assert 0.0 <= reading.low <= reading.high <= batten


@given(said=nasty)
def test_a_distance_from_the_centre_line_is_read_or_refused(said: str) -> None:
    outcome(lambda: from_centre(said))


@given(inches=integers(0, 252), side=sampled_from(["SL", "SR"]))
def test_the_two_sides_of_the_centre_line_mirror_each_other(inches: int, side: str) -> None:
    other = {"SL": "SR", "SR": "SL"}[side]
    batten = 12.8016  # 504 in
    here, there = (place(f"{inches} in {way}", length=batten).best for way in (side, other))
    assert here is not None
    assert there is not None
    assert math.isclose(here + there, batten, abs_tol=1e-12)


@given(feet=integers(0, 200), eighths=integers(0, 95))
def test_feet_and_inches_survive_being_printed_and_read_again(feet: int, eighths: int) -> None:
    metres = float((feet * 12 + Fraction(eighths, 8)) * Fraction("0.0254"))
    assert read(length(metres, Style("us")), Kind.LENGTH).best == metres


@given(value=floats(-300.0, 300.0), style=styles)
def test_a_printed_length_is_read_within_half_its_step(value: float, style: Style) -> None:
    step = 0.0254 / 8 if style.system == "us" else 0.01
    back = read(length(value, style), Kind.LENGTH, signed=True).best
    assert back is not None
    assert abs(back - value) <= step * 0.50001


@given(pounds=integers(0, 10**6))
def test_whole_pounds_survive_being_read_and_printed_again(pounds: int) -> None:
    said = f"{pounds:,} lb"
    rating, weight = read(said, Kind.FORCE).best, read(said, Kind.MASS).best
    assert rating is not None
    assert weight is not None
    assert force(rating, Style("us")) == limit(rating, Style("us")) == mass(weight, Style("us")) == said


@given(kind=sampled_from(list(Kind)), style=styles, steps=integers(0, 10**7), direction=sampled_from(Direction))
def test_a_printed_figure_is_read_as_itself(kind: Kind, style: Style, steps: int, direction: Direction) -> None:
    form = printed_as(kind, style, direction)
    assume(steps * form.step / form.factor <= float(UNITS[kind].bounds[1]))
    said = form.print_steps(steps)
    back = read(said, kind).best
    assert back is not None
    assert form.print(back) == said


@given(
    kind=sampled_from([kind for kind in Kind if kind is not Kind.COUNT]),
    style=styles,
    share=floats(-1.0, 1.0),
    decades=floats(0.0, 9.0),
    direction=sampled_from(Direction),
    digits=integers(0, 3),
)
def test_what_is_printed_is_read_within_a_step_of_itself_and_on_its_side(
    kind: Kind, style: Style, share: float, decades: float, direction: Direction, digits: int
) -> None:
    form = printed_as(kind, style, direction)
    form = form if digits == 0 else form.finer(form.digits + digits)
    value = share * 10.0**decades * form.step / form.factor
    assume(abs(value) <= 0.999 * float(UNITS[kind].bounds[1]))
    least = float(UNITS[kind].bounds[0])
    assume(abs(form.steps(value)) * form.step / form.factor >= least or form.steps(value) == 0)
    back = read(form.print(value), kind, signed=True).best
    assert back is not None
    steps = (back - value) * form.factor / form.step
    noise = 1.1e-6 + 1e-15 * 10.0**decades
    low, high = {
        Direction.UP: (-noise, 1.0),
        Direction.DOWN: (-1.0, noise),
        Direction.NEAREST: (-0.5 - noise, 0.5 + noise),
        Direction.AWAY: (-noise, 1.0) if value >= 0 else (-1.0, noise),
    }[direction]
    assert low - noise <= steps <= high + noise


@given(said=nasty)
def test_a_figure_that_was_read_is_within_what_can_be_meant(said: str) -> None:
    for kind in Kind:
        reading = outcome(lambda kind=kind: read(said, kind))  # type: ignore[misc]
        least, most = (float(bound) for bound in UNITS[kind].bounds)
        if reading is not None and reading.low is not None and reading.high is not None:
            assert reading.high <= most * (1 + 1e-12)
            assert reading.low == 0.0 or reading.low >= least * (1 - 1e-12)


@given(value=floats(allow_nan=True, allow_infinity=True), style=styles, kind=sampled_from(Kind))
def test_any_number_is_printed_or_refused_as_out_of_range(value: float, style: Style, kind: Kind) -> None:
    try:
        printed = printed_as(kind, style, Direction.UP).print(value)
    except OutOfRange:
        return
    assert "e" not in printed.removesuffix(printed_as(kind, style, Direction.UP).suffix)


@given(low=integers(1, 900), more=integers(1, 99), between=sampled_from(["-", " - ", "–", " to ", "—"]))
def test_a_range_with_a_dash_is_told_how_to_be_written_and_is_then_read(low: int, more: int, between: str) -> None:
    try:
        read(f"{low}{between}{low + more} lb", Kind.MASS)
    except Unreadable as refusal:
        reading = read(refusal.mend.removeprefix("Write ").removesuffix("."), Kind.MASS)
        assert reading.low == float(low * Fraction("0.45359237"))
        assert reading.high == float((low + more) * Fraction("0.45359237"))
    else:
        raise AssertionError("a dash was read")


@given(value=newtons, style=styles)
def test_a_force_never_prints_below_itself_nor_a_limit_above(value: float, style: Style) -> None:
    unit = 4.4482216152605 if style.system == "us" else 9.80665
    up, down = (printed_as(Kind.FORCE, style, way).steps(value) for way in (Direction.UP, Direction.DOWN))
    noise = 1.1e-6
    assert value / unit - noise <= up < value / unit + 1.0
    assert value / unit - 1.0 < down <= value / unit + noise


@given(value=newtons, style=styles)
def test_a_signed_force_keeps_its_sign_and_mirrors(value: float, style: Style) -> None:
    here, there = signed_force(value, style), signed_force(-value, style)
    assert here.lstrip("+\u2212") == there.lstrip("+\u2212")
    if here[0] != "0":
        assert {here[0], there[0]} == {"+", "\u2212"}
        assert (here[0] == "+") == (value > 0)


def figure_of(printed: str) -> Fraction:
    return Fraction(printed.split(" ", maxsplit=1)[0].replace(",", "").replace("\u2212", "-"))


@given(
    bound=floats(0.0, 1e6),
    apart=sampled_from([0.0, 1e-12, 1e-9, 1e-7, 1e-6, 1e-4, 1e-3, 0.1, 0.9, 1.0, 50.0]),
    is_over=booleans(),
    style=styles,
    kind=sampled_from(Kind),
)
def test_what_is_over_prints_over_and_what_is_within_prints_within(
    bound: float, apart: float, is_over: bool, style: Style, kind: Kind
) -> None:
    bound = bound if kind in (Kind.FORCE, Kind.MASS, Kind.STRESS, Kind.COUNT) else bound / 1e4
    value = bound + apart if is_over else bound - apart
    said, most = pair(value, bound, style, kind)
    assert (figure_of(said) > figure_of(most)) == (value > bound)


@given(bound=floats(1e-3, 1e8), style=styles)
def test_the_next_float_over_a_limit_still_prints_over_it(bound: float, style: Style) -> None:
    said, most = pair(math.nextafter(bound, math.inf), bound, style)
    assert figure_of(said) > figure_of(most)
