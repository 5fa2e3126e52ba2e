"""Number to text, for computed figures. What a person wrote is shown as they wrote it and does not pass here.

Rule 1: forces print rounded up and limits rounded down. Rule 2: rounding never turns an over into a within, nor
noise in the last bits into another digit. Rule 3: a format is data, so that a page can print as paper does.
"""

import math
from collections.abc import Mapping
from dataclasses import dataclass
from enum import Enum
from typing import Literal

from counterpoise.errors import within
from counterpoise.units.constants import (
    KG_PER_OUNCE,
    KG_PER_POUND,
    METRES_PER_FOOT,
    METRES_PER_INCH,
    NEWTONS_PER_POUND_FORCE,
    STANDARD_GRAVITY,
)
from counterpoise.units.kinds import Kind

MINUS = "\u2212"
NUDGE = 1e-6  # of a printed step: a thousand times float noise, and nothing a scale could show
_LARGEST = 2.0**53  # counts of steps above this are no longer whole floats, in Python and in JavaScript


class Direction(Enum):
    """Which way a figure is rounded."""

    UP = "up"  # towards more
    DOWN = "down"  # towards less
    NEAREST = "nearest"  # halves away from zero
    AWAY = "away"  # away from zero


@dataclass(frozen=True, slots=True)
class Style:
    """The units of a reader: US customary, or metric with forces in kilograms as riggers speak of them."""

    system: Literal["us", "metric"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Format:
    """How one kind of figure is printed, as data.

    With a = |value * factor / step| and v its signed form, the count of printed steps n is
        up       ceil(v - 1e-6)
        down     floor(v + 1e-6)
        nearest  sign(v) * floor(a + 0.5 + 1e-6)
        away     sign(v) * ceil(a - 1e-6)
    and -0 is 0. Then q = n * round(step * 10^digits) is a whole number. The text is |q| in decimal digits, filled
    with zeros on the left to digits + 1 places, the last `digits` of them after a point, a comma before every third
    place to the left of the point; in front "−" (U+2212) if n < 0, "+" if n > 0 and `signed`; the suffix behind.
    No float is ever formatted, so a page that does the same in JavaScript prints the same characters. Both work in
    IEEE doubles; value * factor is computed first, then divided by step.
    """

    factor: float  # printed units in one SI unit
    step: float  # smallest printed step, in printed units: a whole multiple of 10^-digits
    direction: Direction
    digits: int  # after the point
    suffix: str
    signed: bool = False  # whether a plus is printed

    def steps(self, value: float) -> int:
        """The count of printed steps.

        Args:
            value: in SI; any size up to 2^53 steps.

        Raises:
            OutOfRange: the value is no finite number that can be printed.
        """
        v = value * self.factor / self.step
        within("the figure to print", v, low=-_LARGEST, high=_LARGEST, mend="This figure could not be computed.")
        match self.direction:
            case Direction.UP:
                return math.ceil(v - NUDGE)
            case Direction.DOWN:
                return math.floor(v + NUDGE)
            case Direction.NEAREST:
                size = math.floor(abs(v) + 0.5 + NUDGE)
            case Direction.AWAY:
                size = math.ceil(abs(v) - NUDGE)
        return -size if v < 0 else size

    def print(self, value: float) -> str:
        """The figure as text, with its suffix; `value` in SI."""
        return self.print_steps(self.steps(value))

    def print_steps(self, n: int) -> str:
        """A count of printed steps as text, with its suffix."""
        whole, fraction = divmod(abs(n) * round(self.step * 10**self.digits), 10**self.digits)
        point = f".{fraction:0{self.digits}d}" if self.digits else ""
        sign = MINUS if n < 0 else "+" if n > 0 and self.signed else ""
        return f"{sign}{whole:,}{point}{self.suffix}"

    def finer(self, digits: int) -> "Format":
        """The same format with more digits after the point."""
        return Format(
            factor=self.factor,
            step=10.0**-digits,
            direction=self.direction,
            digits=digits,
            suffix=self.suffix,
            signed=self.signed,
        )

    def data(self) -> dict[str, float | int | str | bool]:
        """The format as plain data for a page: factor, step, direction, digits, suffix, signed."""
        return {
            "factor": self.factor,
            "step": self.step,
            "direction": self.direction.value,
            "digits": self.digits,
            "suffix": self.suffix,
            "signed": self.signed,
        }


# Kind -> system -> printed units in one SI unit, digits after the point, suffix.
_FORMATS: Mapping[Kind, Mapping[str, tuple[float, int, str]]] = {
    Kind.LENGTH: {"us": (1 / METRES_PER_INCH, 2, " in"), "metric": (1000.0, 0, " mm")},
    Kind.MASS: {"us": (1 / KG_PER_POUND, 0, " lb"), "metric": (1.0, 0, " kg")},
    Kind.FORCE: {"us": (1 / NEWTONS_PER_POUND_FORCE, 0, " lb"), "metric": (1 / STANDARD_GRAVITY, 0, " kg")},
    Kind.LINE_MASS: {"us": (METRES_PER_FOOT / KG_PER_POUND, 2, " lb/ft"), "metric": (1.0, 2, " kg/m")},
    Kind.AREA_MASS: {"us": ((3 * METRES_PER_FOOT) ** 2 / KG_PER_OUNCE, 1, " oz/yd2"), "metric": (1000.0, 0, " g/m2")},
    Kind.STRESS: {"us": (METRES_PER_INCH**2 / NEWTONS_PER_POUND_FORCE, 0, " psi"), "metric": (1e-6, 1, " MPa")},
    Kind.FLOOR_LOAD: {"us": (METRES_PER_FOOT**2 / NEWTONS_PER_POUND_FORCE, 0, " psf"), "metric": (1e-3, 2, " kN/m2")},
    Kind.MOMENT: {
        "us": (1 / (NEWTONS_PER_POUND_FORCE * METRES_PER_FOOT), 0, " lb-ft"),
        "metric": (1e-3, 2, " kN m"),
    },
    Kind.SECOND_MOMENT: {"us": (METRES_PER_INCH**-4, 3, " in4"), "metric": (1e8, 2, " cm4")},
    Kind.ANGLE: {"us": (180 / math.pi, 1, " deg"), "metric": (180 / math.pi, 1, " deg")},
    Kind.RATIO: {"us": (100.0, 0, " %"), "metric": (100.0, 0, " %")},
    Kind.COUNT: {"us": (1.0, 0, ""), "metric": (1.0, 0, "")},
}


def printed_as(kind: Kind, style: Style, direction: Direction, *, signed: bool = False) -> Format:
    """The format of a kind of figure for a reader. A length is taken as a small one: inches and millimetres."""
    factor, digits, suffix = _FORMATS[kind][style.system]
    return Format(factor=factor, step=10.0**-digits, direction=direction, digits=digits, suffix=suffix, signed=signed)


def force(value: float, style: Style) -> str:
    """A computed force [N], rounded up: whole pounds, or the whole kilograms that weigh as much."""
    return printed_as(Kind.FORCE, style, Direction.UP).print(value)


def limit(value: float, style: Style) -> str:
    """A force that must not be exceeded [N], rounded down."""
    return printed_as(Kind.FORCE, style, Direction.DOWN).print(value)


def signed_force(value: float, style: Style) -> str:
    """A force with its sign [N], rounded away from zero, so that only noise prints as 0: "+12 lb", "−31 lb"."""
    return printed_as(Kind.FORCE, style, Direction.AWAY, signed=True).print(value)


def mass(value: float, style: Style) -> str:
    """A computed mass [kg], to the nearest pound or kilogram."""
    return printed_as(Kind.MASS, style, Direction.NEAREST).print(value)


def mass_up(value: float, style: Style) -> str:
    """A computed mass [kg], rounded up."""
    return printed_as(Kind.MASS, style, Direction.UP).print(value)


def mass_down(value: float, style: Style) -> str:
    """A computed mass [kg], rounded down."""
    return printed_as(Kind.MASS, style, Direction.DOWN).print(value)


def stress(value: float, style: Style) -> str:
    """A computed stress [Pa], rounded up: whole psi, or tenths of MPa."""
    return printed_as(Kind.STRESS, style, Direction.UP).print(value)


def small_length(value: float, style: Style) -> str:
    """A small computed length [m] such as a sag, rounded up: hundredths of an inch, or millimetres."""
    return printed_as(Kind.LENGTH, style, Direction.UP).print(value)


_EIGHTHS = ("", " 1/8", " 1/4", " 3/8", " 1/2", " 5/8", " 3/4", " 7/8")


def length(value: float, style: Style, direction: Direction = Direction.NEAREST) -> str:
    """A computed length or place [m]: feet and inches to an eighth (12' 6 1/2"), or hundredths of a metre (3.81 m).

    The count of eighths is found as in `Format`, with factor 1 / 0.0254 and step 1/8.
    """
    if style.system == "metric":
        return Format(factor=1.0, step=0.01, direction=direction, digits=2, suffix=" m").print(value)
    eighths = Format(factor=1 / METRES_PER_INCH, step=0.125, direction=direction, digits=3, suffix="").steps(value)
    inches, over = divmod(abs(eighths), 8)
    feet, inches = divmod(inches, 12)
    sign = MINUS if eighths < 0 else ""
    if inches == 0 and over:
        small = f'{_EIGHTHS[over].strip()}"'
    else:
        small = f'{inches}{_EIGHTHS[over]}"'
    return f"{sign}{feet:,}' {small}" if feet else f"{sign}{small}"


def pair(value: float, bound: float, style: Style, kind: Kind = Kind.FORCE) -> tuple[str, str]:
    """A figure beside the limit it must not exceed, printed so that the eye sees what the check found.

    Args:
        value: the computed figure, in the SI unit of `kind`; printed rounded up, without its unit.
        bound: the limit, in the same unit; printed rounded down, with its unit.
        style: of the reader.
        kind: what both are.

    Returns:
        For example ("560", "500 lb"). Where whole steps would tell the wrong story (500.3 against 500.6, or 500.0004
        against 500) both get up to three more digits. If that is not enough either, the figure is put on the side of
        the limit where it belongs: one step above it, or level with it. A value above its limit always prints above.

    Raises:
        OutOfRange: one of them is no finite number. An unknown is not printed as a figure.
    """
    base = printed_as(kind, style, Direction.DOWN)
    is_over = value > bound
    for digits in range(base.digits, base.digits + 4):
        under = base if digits == base.digits else base.finer(digits)
        over = Format(factor=under.factor, step=under.step, direction=Direction.UP, digits=under.digits, suffix="")
        most = under.steps(bound)
        figure = over.steps(value)
        if (figure > most) == is_over:
            return over.print_steps(figure), under.print_steps(most)
    figure = most + 1 if is_over else most
    return over.print_steps(figure), under.print_steps(most)
