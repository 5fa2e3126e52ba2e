import json
import math

import pytest

from counterpoise.errors import OutOfRange
from counterpoise.units import (
    Direction,
    Format,
    Kind,
    Style,
    force,
    length,
    limit,
    mass,
    mass_down,
    mass_up,
    pair,
    printed_as,
    signed_force,
    small_length,
    stress,
)

US, METRIC = Style("us"), Style("metric")
LB, LBF, G, IN, FT = 0.45359237, 4.4482216152605, 9.80665, 0.0254, 0.3048


def test_forces_print_rounded_up_and_limits_rounded_down() -> None:
    assert force(559.1 * LBF, US) == "560 lb"
    assert limit(500.9 * LBF, US) == "500 lb"
    assert force(100.1 * G, METRIC) == "101 kg"
    assert limit(100.9 * G, METRIC) == "100 kg"


def test_the_last_bits_of_a_float_never_change_a_digit() -> None:
    value = 500 * LBF
    for noisy in (math.nextafter(value, 0.0), value, math.nextafter(value, math.inf)):
        assert force(noisy, US) == "500 lb"
        assert limit(noisy, US) == "500 lb"


def test_thousands_are_set_off_with_commas() -> None:
    assert force(1_234_567 * LBF, US) == "1,234,567 lb"
    assert length(1234.5 * FT, US) == "1,234' 6\""
    assert stress(36000 * LBF / IN**2, US) == "36,000 psi"


def test_a_mass_prints_up_down_or_to_the_nearest() -> None:
    assert (mass_up(9.4, METRIC), mass_down(9.6, METRIC)) == ("10 kg", "9 kg")
    assert (mass(9.4, METRIC), mass(9.5, METRIC), mass(20 * LB, US)) == ("9 kg", "10 kg", "20 lb")


@pytest.mark.parametrize(
    ("pounds", "says"),
    [
        (12.0, "+12 lb"),
        (11.2, "+12 lb"),
        (-30.2, "\u221231 lb"),
        (0.0, "0 lb"),
        (-0.0, "0 lb"),
        (1e-9, "0 lb"),
        (-1e-9, "0 lb"),
        (0.01, "+1 lb"),
    ],
)
def test_a_signed_force_is_rounded_away_from_zero_and_only_noise_prints_as_zero(pounds: float, says: str) -> None:
    assert signed_force(pounds * LBF, US) == says


@pytest.mark.parametrize(
    ("inches", "says"),
    [
        (150.0, "12' 6\""),
        (150.5, "12' 6 1/2\""),
        (144.0, "12' 0\""),
        (144.125, "12' 1/8\""),
        (6.0, '6"'),
        (0.375, '3/8"'),
        (0.0, '0"'),
        (143.99, "12' 0\""),
        (-66.25, "\u22125' 6 1/4\""),
        (-0.01, '0"'),
    ],
)
def test_a_length_prints_in_feet_and_inches_to_an_eighth(inches: float, says: str) -> None:
    assert length(inches * IN, US) == says


def test_a_length_prints_in_hundredths_of_a_metre() -> None:
    assert length(3.81, METRIC) == "3.81 m"
    assert length(3.8149, METRIC, Direction.UP) == "3.82 m"
    assert length(-0.5, METRIC) == "\u22120.50 m"


def test_a_sag_prints_rounded_up() -> None:
    assert small_length(0.0104, US) == "0.41 in"  # 0.0104 m is 0.40945 in
    assert small_length(0.0092, METRIC) == "10 mm"


def test_a_stress_prints_rounded_up() -> None:
    assert stress(248_210_000.0, METRIC) == "248.3 MPa"


def test_a_figure_over_its_limit_prints_beside_it() -> None:
    assert pair(559.2 * LBF, 500 * LBF, US) == ("560", "500 lb")


def test_a_figure_a_hair_over_its_limit_gets_the_digits_that_show_it() -> None:
    assert pair(500.0000005 * LBF, 500 * LBF, US) == ("500.1", "500.0 lb")
    assert pair(math.nextafter(500 * LBF, math.inf), 500 * LBF, US) == ("500.001", "500.000 lb")


def test_a_figure_within_its_limit_never_prints_above_it() -> None:
    assert pair(500.3 * LBF, 500.6 * LBF, US) == ("500.3", "500.6 lb")
    assert pair(500 * LBF, 500 * LBF, US) == ("500", "500 lb")
    assert pair(500.00005 * LBF, 500.00006 * LBF, US) == ("500.000", "500.000 lb")


def test_other_kinds_print_in_pairs_too() -> None:
    assert pair(250e6, 248.2e6, METRIC, Kind.STRESS) == ("250.0", "248.2 MPa")
    assert pair(20.2 * LB, 20 * LB, US, Kind.MASS) == ("21", "20 lb")


@pytest.mark.parametrize("value", [math.nan, math.inf, -math.inf])
def test_what_is_no_number_is_never_printed_as_one(value: float) -> None:
    for printed in (force, limit, signed_force, mass, stress, length, small_length):
        with pytest.raises(OutOfRange):
            printed(value, US)
    with pytest.raises(OutOfRange):
        pair(value, 1.0, US)
    with pytest.raises(OutOfRange):
        pair(1.0, value, US)


def test_a_format_is_plain_data_that_a_page_can_take_and_give_back() -> None:
    sent = json.loads(json.dumps(printed_as(Kind.FORCE, US, Direction.UP).data()))
    back = Format(**(sent | {"direction": Direction(sent["direction"])}))
    assert back == printed_as(Kind.FORCE, US, Direction.UP)
    assert back.print(500 * LBF) == "500 lb"


def test_a_step_may_be_more_than_one_in_the_last_digit() -> None:
    halves = Format(factor=1.0, step=0.5, direction=Direction.NEAREST, digits=1, suffix=" kg")
    assert [halves.print(x) for x in (9.2, 9.25, 9.75, -9.25)] == ["9.0 kg", "9.5 kg", "10.0 kg", "\u22129.5 kg"]
    fives = Format(factor=1.0, step=5.0, direction=Direction.UP, digits=0, suffix="")
    assert fives.print(1231.0) == "1,235"


@pytest.mark.parametrize("kind", Kind)
def test_every_kind_has_a_format_in_both_systems(kind: Kind) -> None:
    for style in (US, METRIC):
        assert printed_as(kind, style, Direction.NEAREST).print(0.0).startswith("0")
