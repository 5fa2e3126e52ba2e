"""What must hold on a ladder truss, and how much of a limit a place uses."""

import math
from dataclasses import dataclass

from counterpoise.statics.hung_ladder import HangingLadder
from counterpoise.statics.ladder import Bar
from counterpoise.statics.room import Row, Which


@dataclass(frozen=True, slots=True, kw_only=True)
class LadderLimits:
    """What must hold. A limit left at None is not looked at, which the caller must say to the reader."""

    rows: tuple[Row, ...] = ()
    top_stress: float | None = None  # |N|/A + |M|/S anywhere in the top chord [Pa]
    bottom_stress: float | None = None  # [Pa]
    spacer_stress: float | None = None  # [Pa]
    sag_ratio: float | None = None  # |sag| of each chord in each span between carrying lines / its length


def broken(now: HangingLadder, limits: LadderLimits) -> Which:
    """The first limit that is broken without any extra load; None where all hold."""
    for number, row in enumerate(limits.rows):
        if not row.value(now.tensions) <= row.limit:
            return number
    allowed = {
        "top": ("top chord", limits.top_stress),
        "bottom": ("bottom chord", limits.bottom_stress),
        "spacer": ("spacer", limits.spacer_stress),
    }
    for one in now.members:
        name, limit = allowed[one.part]
        if limit is not None and not one.stress <= limit:
            return name
    ratio = limits.sag_ratio
    if ratio is not None:
        for start, end, sag, _ in (*now.top.largest_sags, *now.bottom.largest_sags):
            if not abs(sag) <= ratio * (end - start):
                return "sag"
    return None


def use_of(
    bar: Bar, allowed: float, axial: tuple[float, float], moments: tuple[float, float], name: str
) -> tuple[float, float, str]:
    """Stress over what is allowed; the same fibre unloaded; whose it is."""
    push, bend_ = axial[1] / bar.section.area, moments[1] / bar.section.elastic_modulus
    standing = math.copysign(1.0, push) * axial[0] / bar.section.area
    standing += math.copysign(1.0, bend_) * moments[0] / bar.section.elastic_modulus
    return (abs(push) + abs(bend_)) / allowed, standing / allowed, name
