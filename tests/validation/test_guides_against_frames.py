"""The couple on the guides against a general-purpose frame library that shares nothing with ours.

Pynite (PyNiteFEA, MIT), finite elements by the stiffness method: the arbor as a stiff upright, held up where the lift
lines pull, and sideways by a roller at its upper and one at its lower shoe; load and hand line on stiff arms.
"""

import pytest
from Pynite import FEModel3D

from counterpoise.balance import Span, on_shoe

HANGS = 0.3  # [m]; how far the lift lines are made above the upper shoe


def reactions(load: float, aside: float, hand_line: float, tied: float, apart: float) -> tuple[float, float, float]:
    """Sideways force of upper and lower roller on the arbor, and the pull of its lift lines; up and right positive."""
    arbor = FEModel3D()
    arbor.add_material("stiff", E=2e11, G=8e10, nu=0.3, rho=0.0)
    arbor.add_section("bar", A=0.01, Iy=1e-3, Iz=1e-3, J=1e-3)
    middle = -0.4 * apart  # heights from the upper shoe
    places = {"lines": (0.0, HANGS), "upper": (0.0, 0.0), "middle": (0.0, middle), "lower": (0.0, -apart),
              "load": (aside, middle), "hand line": (tied, HANGS)}  # fmt: skip
    bars = [("lines", "upper"), ("upper", "middle"), ("middle", "lower")]
    bars += [("middle", "load")] if aside else []
    bars += [("lines", "hand line")] if tied else []
    for name in {name for bar in bars for name in bar}:
        arbor.add_node(name, *places[name], 0.0)
    for one, other in bars:
        arbor.add_member(f"{one} to {other}", one, other, "stiff", "bar")
    held = {"lines": (False, True), "upper": (True, False), "lower": (True, False)}
    for name in {name for bar in bars for name in bar}:
        sideways, up = held.get(name, (False, False))
        arbor.def_support(name, sideways, up, True, True, True, False)
    arbor.add_node_load("load" if aside else "middle", "FY", -load)
    arbor.add_node_load("hand line" if tied else "lines", "FY", hand_line)
    arbor.analyze()
    nodes = arbor.nodes
    return (nodes["upper"].RxnFX["Combo 1"], nodes["lower"].RxnFX["Combo 1"],
            nodes["lines"].RxnFY["Combo 1"])  # fmt: skip


def sure(figure: float) -> Span:
    return Span(figure, figure, figure)


# Load, how far aside, hand line (down is minus), how far aside, shoes apart: both couples turn the arbor the same way.
@pytest.mark.parametrize("case", [
    (3000.0, 0.02, 0.0, 0.0, 1.5), (3000.0, 0.02, 220.0, -0.10, 1.5), (5200.0, 0.035, -180.0, 0.12, 2.1),
    (900.0, 0.0, 220.0, -0.15, 1.2), (8000.0, -0.05, 220.0, 0.08, 2.4),
])  # fmt: skip
def test_each_shoe_bears_what_a_frame_library_finds(case: tuple[float, float, float, float, float]) -> None:
    load, aside, hand_line, tied, apart = case
    upper, lower, lines = reactions(*case)
    ours = on_shoe(sure(load), sure(abs(aside)), sure(abs(hand_line)), sure(abs(tied)), sure(apart)).best
    assert abs(upper) == pytest.approx(ours, rel=1e-6)
    assert upper == pytest.approx(-lower, rel=1e-6)  # equal and opposite
    assert lines == pytest.approx(load - hand_line, rel=1e-9)  # whatever is aside


def test_the_guide_pushes_the_upper_shoe_back_from_the_side_that_the_load_is_on() -> None:
    upper, lower, _ = reactions(3000.0, 0.02, 0.0, 0.0, 1.5)
    assert upper < 0.0 < lower


def test_on_the_other_side_of_the_lines_the_hand_line_takes_from_it_and_ours_is_no_less() -> None:
    upper, _, _ = reactions(3000.0, 0.02, 220.0, 0.10, 1.5)
    ours = on_shoe(sure(3000.0), sure(0.02), sure(220.0), sure(0.10), sure(1.5)).best
    assert abs(upper) == pytest.approx((3000.0 * 0.02 - 220.0 * 0.10) / 1.5, rel=1e-6)
    assert abs(upper) < ours
