"""Section properties of a round pipe from its diameter and wall. No material, no strength."""

import math
from dataclasses import dataclass

from counterpoise.errors import within


@dataclass(frozen=True, slots=True, kw_only=True)
class Section:
    """What bending needs to know of a cross-section."""

    area: float  # [m2]
    second_moment: float  # I [m4]
    elastic_modulus: float  # S [m3]
    plastic_modulus: float  # Z [m3]


def pipe(outside_diameter: float, wall: float) -> Section:
    """Properties of a round pipe of outside diameter D and bore d = D - 2 wall.

    A = pi/4 (D2 - d2), I = pi/64 (D4 - d4), S = 2 I / D, Z = (D3 - d3) / 6.

    Args:
        outside_diameter: D [m], above 0.
        wall: thickness of the wall [m], above 0 to D/2 (a solid bar). Nominal or design wall is the caller's
            choice: stiffness goes by the nominal wall, strength by the design wall where the code says so.

    Returns:
        Area [m2], second moment [m4], elastic and plastic modulus [m3].

    Raises:
        OutOfRange: an argument lies outside its range, or is not a number.

    Assumes a round, concentric pipe of one wall, without threads or holes.
    Source: areas and second moments of a ring; any table of sections.
    """
    within("outside diameter", outside_diameter, low=1.0e-6, high=1.0e3, unit="m", mend="Give the diameter in metres.")
    within(
        "wall",
        wall,
        low=1.0e-9,
        high=outside_diameter / 2.0,
        unit="m",
        mend="The wall is more than nothing and at most half the diameter.",
    )
    bore = outside_diameter - 2.0 * wall
    # (D4 - d4) = (D2 - d2)(D2 + d2) and so on: a thin wall would lose digits in plain differences
    squares = 4.0 * wall * (outside_diameter - wall)
    second_moment = math.pi / 64.0 * squares * (outside_diameter**2 + bore**2)
    return Section(
        area=math.pi / 4.0 * squares,
        second_moment=second_moment,
        elastic_modulus=2.0 * second_moment / outside_diameter,
        plastic_modulus=2.0 * wall * (outside_diameter**2 + outside_diameter * bore + bore**2) / 6.0,
    )
