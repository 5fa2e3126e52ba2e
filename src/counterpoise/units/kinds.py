"""The kinds of quantity that people write, and the unit spellings each kind knows with their exact SI factors.

Rule 1: a mass never takes newtons. Rule 2: pounds or kilograms given for a force mean the weight of that mass under
standard gravity, as rating plates are meant. Rule 3: a ton is refused, for there are three of them. Rule 4: # behind a
number is a rigger's pound.
"""

import math
import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from enum import Enum
from fractions import Fraction

from counterpoise.units.constants import (
    EXACT_KG_PER_OUNCE,
    EXACT_KG_PER_POUND,
    EXACT_METRES_PER_FOOT,
    EXACT_METRES_PER_INCH,
    EXACT_METRES_PER_YARD,
    EXACT_NEWTONS_PER_POUND_FORCE,
    EXACT_STANDARD_GRAVITY,
)


class Kind(Enum):
    """What a text stands for. The value is the noun a reader knows it by; `si` is the unit inside the program."""

    LENGTH = "length"
    MASS = "weight"
    FORCE = "force"
    LINE_MASS = "weight per length"
    AREA_MASS = "weight per area"
    STRESS = "stress"
    FLOOR_LOAD = "floor load"
    MOMENT = "bending moment"
    SECOND_MOMENT = "second moment of area"
    ANGLE = "angle"
    RATIO = "ratio"
    COUNT = "count"

    @property
    def si(self) -> str:
        """SI unit of a reading of this kind, as in "kg/m"; "" for a ratio and a count."""
        return _SI[self]


@dataclass(frozen=True, slots=True, kw_only=True)
class Pair:
    """Two units that are written one after the other: feet and inches, pounds and ounces."""

    big: tuple[str, ...]  # spellings, longest first
    small: tuple[str, ...]
    parts: int  # small units in one big unit
    names: tuple[str, str]  # how a message writes them
    like: str  # an example to write after "Write it like"


@dataclass(frozen=True, slots=True, kw_only=True)
class Units:
    """How one kind of quantity is written."""

    factors: Mapping[str, Fraction]  # spelling -> SI; a spelling with a capital letter is taken to the letter
    likely: tuple[str, ...]  # what a bare number may have meant
    like: str  # an example to write after "Write it like"
    span: str  # an example of a range
    bounds: tuple[Fraction, Fraction]  # [SI] least above zero and most that can be meant; wide, for slips of the pen
    said: tuple[str, str]  # the bounds as a reader knows them
    pair: Pair | None = None

    def factor(self, spelling: str) -> Fraction | None:
        """SI value of one such unit, or None for a unit that this kind does not know."""
        written = tidy(spelling)
        found = self.factors.get(written)
        if found is None and written.isascii():  # the sign of the kelvin also turns into a k
            # Capitals are forgiven only in units whose own spelling has none: mN and MN are not the same.
            found = self.factors.get(written.lower())
        return found


def tidy(spelling: str) -> str:
    """One spelling out of the many ways to write an area, a "per" and a full stop after a short form."""
    text = spelling.strip(" ").removesuffix(".")
    if len(text) > 2:  # no need to look into "ft" or "in"
        text = text.translate(_POWERS).replace("^", "").replace(" per ", "/")
        text = re.sub(r"\b(?:sq|square)\.? ?([a-z]+)$", r"\g<1>2", text)
        text = re.sub(r"\.? ?/ ?", "/", text)
        text = _SQUARES.sub(lambda found: {"f": "/ft2", "y": "/yd2"}[found[1]], text)
    if "/" in text:
        text = _WORDS.sub(lambda found: _SHORT[found[0]], text)
    return text


def _table(*rows: tuple[str, Fraction]) -> dict[str, Fraction]:
    return {name: factor for names, factor in rows for name in names.split("|")}


def _longest_first(names: Iterable[str]) -> tuple[str, ...]:
    return tuple(sorted(names, key=len, reverse=True))


_POWERS = str.maketrans("²⁴", "24")
_SQUARES = re.compile(r"/s([fy])\Z")  # lb/sf, oz/sy
# Words that may stand on either side of a "per"; the tables below know the short form alone.
_SHORT = {
    word: short
    for short, words in {
        "lb": "lbs pound pounds #", "oz": "ounce ounces", "kg": "kgs kilogram kilograms", "g": "gram grams",
        "ft": "foot feet '", "yd": "yds yard yards", "in": "inch inches", "m": "metre metres meter meters",
        "kip": "kips",
    }.items()
    for word in words.split()
}  # fmt: skip
_WORDS = re.compile("|".join(rf"(?<![a-z]){word}(?![a-z])" for word in sorted(_SHORT, key=len, reverse=True)))
_SI = {
    Kind.LENGTH: "m",
    Kind.MASS: "kg",
    Kind.FORCE: "N",
    Kind.LINE_MASS: "kg/m",
    Kind.AREA_MASS: "kg/m2",
    Kind.STRESS: "Pa",
    Kind.FLOOR_LOAD: "Pa",
    Kind.MOMENT: "N m",
    Kind.SECOND_MOMENT: "m4",
    Kind.ANGLE: "rad",
    Kind.RATIO: "",
    Kind.COUNT: "",
}
_ONE = Fraction(1)
_FT, _IN, _YD = EXACT_METRES_PER_FOOT, EXACT_METRES_PER_INCH, EXACT_METRES_PER_YARD
_LB, _OZ, _LBF, _G = EXACT_KG_PER_POUND, EXACT_KG_PER_OUNCE, EXACT_NEWTONS_PER_POUND_FORCE, EXACT_STANDARD_GRAVITY
_GRAM = Fraction(1, 1000)
_FEET = _longest_first(("'", "ft", "foot", "feet"))
_INCHES = _longest_first(('"', "''", "in", "inch", "inches"))
_POUNDS = _longest_first(("lb", "lbs", "pound", "pounds"))
_OUNCES = _longest_first(("oz", "ounce", "ounces"))
_FEET_AND_INCHES = Pair(big=_FEET, small=_INCHES, parts=12, names=("ft", "in"), like="42 ft 6 in")
_POUNDS_AND_OUNCES = Pair(big=_POUNDS, small=_OUNCES, parts=16, names=("lb", "oz"), like="12 lb 4 oz")

UNITS: Mapping[Kind, Units] = {
    Kind.LENGTH: Units(
        factors=_table(
            ("|".join(_FEET), _FT),
            ("|".join(_INCHES), _IN),
            ("yd|yds|yard|yards", _YD),
            ("m|metre|metres|meter|meters", _ONE),
            ("cm|centimetre|centimetres|centimeter|centimeters", Fraction(1, 100)),
            ("mm|millimetre|millimetres|millimeter|millimeters", _GRAM),
        ),
        likely=("ft", "m"),
        like="42 ft 6 in",
        span="5..6 ft",
        bounds=(Fraction(1, 10**6), Fraction(10**4)),
        said=("0.001 mm", "10,000 m"),
        pair=_FEET_AND_INCHES,
    ),
    Kind.MASS: Units(
        factors=_table(
            ("|".join(_POUNDS) + "|lbm|#", _LB),
            ("|".join(_OUNCES), _OZ),
            ("kg|kgs|kilogram|kilograms|kilo|kilos", _ONE),
            ("g|gram|grams", _GRAM),
        ),
        likely=("lb", "kg"),
        like="20 lb or 9 kg",
        span="180..220 lb",
        bounds=(Fraction(1, 10**6), Fraction(10**6)),
        said=("1 mg", "1,000,000 kg"),
        pair=_POUNDS_AND_OUNCES,
    ),
    Kind.FORCE: Units(
        factors=_table(
            ("|".join(_POUNDS) + "|lbf|#", _LBF),
            ("|".join(_OUNCES) + "|ozf", _LBF / 16),
            ("kip|kips", _LBF * 1000),
            ("kg|kgs|kgf|kilogram|kilograms", _G),
            ("N|newton|newtons", _ONE),
            ("daN", Fraction(10)),
            ("kN|kilonewton|kilonewtons", Fraction(1000)),
        ),
        likely=("lb", "kg"),
        like="500 lb or 2.2 kN",
        span="450..500 lb",
        bounds=(Fraction(1, 10**3), Fraction(10**9)),
        said=("0.001 N", "1,000,000 kN"),
        pair=_POUNDS_AND_OUNCES,
    ),
    Kind.LINE_MASS: Units(
        factors=_table(
            ("lb/ft|plf", _LB / _FT),
            ("lb/100ft|lb/100 ft", _LB / _FT / 100),  # as wire rope tables give it
            ("lb/yd", _LB / _YD),
            ("oz/ft", _OZ / _FT),
            ("oz/yd", _OZ / _YD),
            ("kg/m", _ONE),
            ("kg/100m|kg/100 m", Fraction(1, 100)),
            ("g/m", _GRAM),
        ),
        likely=("lb/ft", "kg/m"),
        like="3 lb/ft or 4.5 kg/m",
        span="2..3 lb/ft",
        bounds=(Fraction(1, 10**6), Fraction(10**5)),
        said=("0.001 g/m", "100,000 kg/m"),
    ),
    Kind.AREA_MASS: Units(
        factors=_table(
            ("oz/yd2", _OZ / _YD**2),
            ("oz/ft2", _OZ / _FT**2),
            ("lb/ft2|psf", _LB / _FT**2),
            ("lb/yd2", _LB / _YD**2),
            ("g/m2|gsm", _GRAM),
            ("kg/m2", _ONE),
        ),
        likely=("oz/yd2", "g/m2"),
        like="16 oz/yd2 or 500 g/m2",
        span="14..16 oz/yd2",
        bounds=(Fraction(1, 10**6), Fraction(10**4)),
        said=("0.001 g/m2", "10,000 kg/m2"),
    ),
    Kind.STRESS: Units(
        factors=_table(
            ("psi|lb/in2|lbf/in2", _LBF / _IN**2),
            ("ksi|kip/in2", _LBF * 1000 / _IN**2),
            ("Pa|N/m2", _ONE),
            ("kPa|kN/m2", Fraction(1000)),
            ("MPa|N/mm2|MN/m2", Fraction(10**6)),
            ("GPa|kN/mm2", Fraction(10**9)),
        ),
        likely=("psi", "MPa"),
        like="36 ksi or 250 MPa",
        span="36..42 ksi",
        bounds=(Fraction(1), Fraction(10**12)),
        said=("1 Pa", "1,000 GPa"),
    ),
    Kind.FLOOR_LOAD: Units(
        factors=_table(
            ("psf|lb/ft2|lbf/ft2", _LBF / _FT**2),
            ("kg/m2|kgf/m2", _G),
            ("Pa|N/m2", _ONE),
            ("kPa|kN/m2", Fraction(1000)),
        ),
        likely=("psf", "kN/m2"),
        like="150 psf or 7.5 kN/m2",
        span="100..150 psf",
        bounds=(Fraction(1, 10**2), Fraction(10**8)),
        said=("0.01 Pa", "100,000 kN/m2"),
    ),
    Kind.MOMENT: Units(
        factors=_table(
            ("lb-ft|ft-lb|lbf-ft|ft-lbf|lb ft|lbf ft|ft lb|ft-lbs|ft lbs", _LBF * _FT),
            ("lb-in|in-lb|lbf-in|lb in", _LBF * _IN),
            ("kip-ft|kip-feet|kip ft", _LBF * _FT * 1000),
            ("kip-in|kip in", _LBF * _IN * 1000),
            ("N m|Nm|N-m", _ONE),
            ("kN m|kNm|kN-m", Fraction(1000)),
        ),
        likely=("lb-ft", "kN m"),
        like="735 lb-ft or 1 kN m",
        span="700..735 lb-ft",
        bounds=(Fraction(1, 10**6), Fraction(10**9)),
        said=("0.000001 N m", "1,000,000 kN m"),
    ),
    Kind.SECOND_MOMENT: Units(
        factors=_table(
            ("in4", _IN**4),
            ("m4", _ONE),
            ("cm4", Fraction(1, 10**8)),
            ("mm4", Fraction(1, 10**12)),
        ),
        likely=("in4", "cm4"),
        like="12 in4 or 500 cm4",
        span="11..12 in4",
        bounds=(Fraction(1, 10**15), Fraction(10)),
        said=("0.001 mm4", "10 m4"),
    ),
    Kind.ANGLE: Units(
        factors=_table(
            ("deg|degree|degrees|°", Fraction(math.pi) / 180),
            ("rad|radian|radians", _ONE),
        ),
        likely=("deg",),
        like="30 deg",
        span="25..30 deg",
        bounds=(Fraction(1, 10**6), Fraction(22, 7)),
        said=("0.0001 deg", "180 deg"),
    ),
    Kind.RATIO: Units(
        factors=_table(("%|percent|per cent", Fraction(1, 100))),
        likely=(),
        like="20 %, 1/180 or 0.93",
        span="10..20 %",
        bounds=(Fraction(1, 10**6), Fraction(10**6)),
        said=("one in a million", "a million"),
    ),
    Kind.COUNT: Units(
        factors={},
        likely=(),
        like="12",
        span="10..12",
        bounds=(Fraction(1), Fraction(10**9)),
        said=("1", "1,000,000,000"),
    ),
}
