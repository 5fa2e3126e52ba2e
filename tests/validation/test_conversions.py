"""Unit conversions against published factors.

Sources: NIST Special Publication 811 (2008), appendix B.8, "Factors for units listed alphabetically": values from
memory, to the digits printed there. Witnesses: scipy.constants (SciPy, BSD) and pint (BSD), general-purpose libraries.
Pint 0.25 is asked for one number and one unit only: it reads what people write for feet and inches wrongly, see below.
"""

from typing import Any

import pint
import pytest
from scipy import constants

from counterpoise.units import Kind, read


def best(text: str, kind: Kind) -> float:
    value = read(text, kind).best
    assert value is not None
    return value


@pytest.mark.parametrize(
    ("text", "kind", "exact"),
    [
        ("1 ft", Kind.LENGTH, 0.3048),
        ("1 in", Kind.LENGTH, 0.0254),
        ("1 yd", Kind.LENGTH, 0.9144),
        ("1 lb", Kind.MASS, 0.45359237),  # SP 811, appendix B.8, footnote 22: the exact factor
        ("1 kgf", Kind.FORCE, 9.80665),
        ("1 lbf", Kind.FORCE, 4.4482216152605),  # product of the two exact factors above
        ("1 MPa", Kind.STRESS, 1e6),
    ],
)
def test_what_is_exact_by_definition_is_exact_here(text: str, kind: Kind, exact: float) -> None:
    assert best(text, kind) == exact


# SP 811, B.8: factors printed to seven digits, so the tolerance is half a unit in the seventh.
@pytest.mark.parametrize(
    ("text", "kind", "published", "digit"),
    [
        ("1 lb", Kind.MASS, 4.535924e-01, 1e-07),
        ("1 oz", Kind.MASS, 2.834952e-02, 1e-08),
        ("1 lbf", Kind.FORCE, 4.448222e00, 1e-06),
        ("1 kip", Kind.FORCE, 4.448222e03, 1e-03),
        ("1 lb/ft", Kind.LINE_MASS, 1.488164e00, 1e-06),
        ("1 lb/yd", Kind.LINE_MASS, 4.960546e-01, 1e-07),
        ("1 lb/ft2", Kind.AREA_MASS, 4.882428e00, 1e-06),
        ("1 oz/ft2", Kind.AREA_MASS, 3.051517e-01, 1e-07),
        ("1 oz/yd2", Kind.AREA_MASS, 3.390575e-02, 1e-08),
        ("1 psi", Kind.STRESS, 6.894757e03, 1e-03),
        ("1 ksi", Kind.STRESS, 6.894757e06, 1e00),
        ("1 lbf/ft2", Kind.FLOOR_LOAD, 4.788026e01, 1e-05),
        ("1 kgf/m2", Kind.FLOOR_LOAD, 9.80665e00, 1e-05),
        ("1 ozf", Kind.FORCE, 2.780139e-01, 1e-07),
        ("1 daN", Kind.FORCE, 1.0e01, 1e-05),
        ("1 kip/in2", Kind.STRESS, 6.894757e06, 1e00),
        ("1 lbf/in2", Kind.STRESS, 6.894757e03, 1e-03),
        ("1 lbf-ft", Kind.MOMENT, 1.355818e00, 1e-06),
        ("1 lbf-in", Kind.MOMENT, 1.129848e-01, 1e-07),
        ("1 in4", Kind.SECOND_MOMENT, 4.162314e-07, 1e-13),
        ("1 degree", Kind.ANGLE, 1.745329e-02, 1e-08),
    ],
)
def test_a_factor_agrees_with_nist_sp_811(text: str, kind: Kind, published: float, digit: float) -> None:
    assert best(text, kind) == pytest.approx(published, abs=0.5000001 * digit, rel=0.0)


@pytest.mark.parametrize(
    ("text", "kind", "witness"),
    [
        ("1 ft", Kind.LENGTH, constants.foot),
        ("1 in", Kind.LENGTH, constants.inch),
        ("1 yd", Kind.LENGTH, constants.yard),
        ("1 lb", Kind.MASS, constants.pound),
        ("1 oz", Kind.MASS, constants.oz),
        ("1 lb", Kind.FORCE, constants.pound_force),
        ("1 kg", Kind.FORCE, constants.kilogram_force),
        ("1 psi", Kind.STRESS, constants.psi),
        ("1 psf", Kind.FLOOR_LOAD, constants.pound_force / constants.foot**2),
        ("1 oz/yd2", Kind.AREA_MASS, constants.oz / constants.yard**2),
        ("1 plf", Kind.LINE_MASS, constants.pound / constants.foot),
    ],
)
def test_a_factor_agrees_with_scipy(text: str, kind: Kind, witness: float) -> None:
    assert best(text, kind) == pytest.approx(witness, rel=1e-15)


@pytest.fixture(scope="module")
def units() -> "pint.UnitRegistry[float]":
    return pint.UnitRegistry()


# Each spelling of ours beside the one unit that pint knows it by.
@pytest.mark.parametrize(
    ("unit", "kind", "known_as"),
    [
        ("ft", Kind.LENGTH, "foot"),
        ("in", Kind.LENGTH, "inch"),
        ("yd", Kind.LENGTH, "yard"),
        ("mm", Kind.LENGTH, "millimeter"),
        ("cm", Kind.LENGTH, "centimeter"),
        ("lb", Kind.MASS, "pound"),
        ("oz", Kind.MASS, "ounce"),
        ("g", Kind.MASS, "gram"),
        ("lb", Kind.FORCE, "force_pound"),
        ("oz", Kind.FORCE, "force_ounce"),
        ("kip", Kind.FORCE, "kip"),
        ("kg", Kind.FORCE, "force_kilogram"),
        ("kN", Kind.FORCE, "kilonewton"),
        ("daN", Kind.FORCE, "decanewton"),
        ("lb/ft", Kind.LINE_MASS, "pound / foot"),
        ("lb/100 ft", Kind.LINE_MASS, "pound / (100 foot)"),
        ("lb/yd", Kind.LINE_MASS, "pound / yard"),
        ("oz/ft", Kind.LINE_MASS, "ounce / foot"),
        ("oz/yd", Kind.LINE_MASS, "ounce / yard"),
        ("g/m", Kind.LINE_MASS, "gram / meter"),
        ("kg/100 m", Kind.LINE_MASS, "kilogram / (100 meter)"),
        ("oz/yd2", Kind.AREA_MASS, "ounce / yard**2"),
        ("oz/ft2", Kind.AREA_MASS, "ounce / foot**2"),
        ("lb/ft2", Kind.AREA_MASS, "pound / foot**2"),
        ("lb/yd2", Kind.AREA_MASS, "pound / yard**2"),
        ("gsm", Kind.AREA_MASS, "gram / meter**2"),
        ("psi", Kind.STRESS, "psi"),
        ("ksi", Kind.STRESS, "ksi"),
        ("kPa", Kind.STRESS, "kilopascal"),
        ("N/mm2", Kind.STRESS, "newton / millimeter**2"),
        ("MN/m2", Kind.STRESS, "meganewton / meter**2"),
        ("kN/mm2", Kind.STRESS, "kilonewton / millimeter**2"),
        ("psf", Kind.FLOOR_LOAD, "force_pound / foot**2"),
        ("kg/m2", Kind.FLOOR_LOAD, "force_kilogram / meter**2"),
        ("kN/m2", Kind.FLOOR_LOAD, "kilonewton / meter**2"),
        ("lb-ft", Kind.MOMENT, "force_pound * foot"),
        ("lb-in", Kind.MOMENT, "force_pound * inch"),
        ("kip-ft", Kind.MOMENT, "kip * foot"),
        ("kip-in", Kind.MOMENT, "kip * inch"),
        ("kN m", Kind.MOMENT, "kilonewton * meter"),
        ("in4", Kind.SECOND_MOMENT, "inch**4"),
        ("cm4", Kind.SECOND_MOMENT, "centimeter**4"),
        ("mm4", Kind.SECOND_MOMENT, "millimeter**4"),
        ("deg", Kind.ANGLE, "degree"),
        ("%", Kind.RATIO, "percent"),
    ],
)
def test_a_figure_with_one_unit_agrees_with_pint(
    unit: str, kind: Kind, known_as: str, units: "pint.UnitRegistry[float]"
) -> None:
    si = {Kind.RATIO: "dimensionless", Kind.SECOND_MOMENT: "m**4", Kind.AREA_MASS: "kg/m**2", Kind.MOMENT: "N*m"}
    for number, said in ((1.0, "1"), (0.375, "3/8"), (12.5, "12.5"), (150.25, "150.25")):
        witness = (number * units.parse_expression(known_as)).to(si.get(kind, kind.si)).magnitude
        assert best(f"{said} {unit}", kind) == pytest.approx(float(witness), rel=1e-14)


# So that nobody takes it for a witness there: 42 ft 6 in is 12.954 m (42.5 x 0.3048), 3-1/2 in is 0.0889 m.
@pytest.mark.parametrize(
    ("text", "metres"), [("42 ft 6 in", 12.954), ("3 1/2 in", 0.0889), ("12'-6\"", 3.81), ("42'", 12.8016)]
)
def test_pint_does_not_read_feet_and_inches_and_is_not_asked(
    text: str, metres: float, units: "pint.UnitRegistry[float]"
) -> None:
    assert best(text, Kind.LENGTH) == pytest.approx(metres, rel=1e-15)
    astray: Any = units.Quantity(text)
    assert not astray.is_compatible_with("m") or astray.to("m").magnitude != pytest.approx(metres)


# Figures that metric and US editions of steel tables print side by side: Fy = 36 ksi is 250 MPa (248.2 rounded to the
# metric grade), E = 29,000 ksi is 200 GPa (199.9); AISC and ASTM A36/A36M, from memory.
def test_steel_grades_agree_with_their_metric_twins() -> None:
    assert best("36 ksi", Kind.STRESS) == pytest.approx(248e6, abs=0.5e6)
    assert best("29,000 ksi", Kind.STRESS) == pytest.approx(best("200 GPa", Kind.STRESS), rel=0.001)
