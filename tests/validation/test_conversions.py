"""Unit conversions against published factors.

Sources: NIST Special Publication 811 (2008), appendix B.8, "Factors for units listed alphabetically": values from
memory, to the digits printed there. Second witness: scipy.constants (SciPy, BSD), a general-purpose reference library.
"""

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


# Figures that metric and US editions of steel tables print side by side: Fy = 36 ksi is 250 MPa (248.2 rounded to the
# metric grade), E = 29,000 ksi is 200 GPa (199.9); AISC and ASTM A36/A36M, from memory.
def test_steel_grades_agree_with_their_metric_twins() -> None:
    assert best("36 ksi", Kind.STRESS) == pytest.approx(248e6, abs=0.5e6)
    assert best("29,000 ksi", Kind.STRESS) == pytest.approx(best("200 GPa", Kind.STRESS), rel=0.001)
