"""Rules of the house as numbers: adopted by a person, or a default that nobody has adopted."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass

from counterpoise.documents import How, Known, Rules
from counterpoise.units import Form, constants

PSI = constants.NEWTONS_PER_POUND_FORCE / constants.METRES_PER_INCH**2  # [Pa]


@dataclass(frozen=True, slots=True, kw_only=True)
class Rule:
    """A rule: its SI value, and the written words it rests on (None for a default, with what the default is).

    Of a range the stricter end is taken, and an estimate counts as far to that side as estimates may be out. A rule
    written as unknown is not the default: it has no value to judge by (`is_unknown`), and `value` is then the
    strictest there is, so that nothing passes by it in silence.
    """

    name: str
    value: float
    written: Known | None
    default: str
    adopted: str  # by whom and when, "" where nobody has

    @property
    def how(self) -> How:
        """How well it is known; a default is never more than that."""
        return self.written.how if self.written else How.DEFAULT

    @property
    def is_unknown(self) -> bool:
        """True where the house wrote that the rule is not known."""
        return self.written is not None and self.written.is_unknown

    @property
    def words(self) -> str:
        """As it was written, or what the default is."""
        return self.written.text if self.written else f"{self.default} (default, not adopted)"

    @property
    def source(self) -> str:
        """Where it is from, in words."""
        if self.written is None:
            return "a default that nobody has adopted"
        own = f"{self.written.source}; " if self.written.source else ""
        return own + (f"rule of the house, adopted by {self.adopted}" if self.adopted else "written, not adopted")


# name: SI value, what it says of itself. Sources: lock 50 lb, plates 24 in: published crew-training pages, common
# practice; 8: common practice for running lines over people; 21,000 psi: 0.6 of A53 grade B yield (ASTM A53, 35 ksi);
# 1/180 from memory of the US standard for manual rigging, to be verified; 20 % and 200 lb: assumed here. 2 %: a sheave
# with ball bearings loses 2-4 % over half a turn, less over less (handbooks, from memory, low confidence); one with
# roller bearings 3.8 %, a plain one 8.3 % (Pipeline Rules of Thumb Handbook, p. 6).
# 1.5 degrees: of smooth drums, a wire rope users' manual; of blocks of a stage from memory, to be verified.
DEFAULTS: Mapping[str, tuple[float, str]] = {
    "lock hold": (50.0 * constants.NEWTONS_PER_POUND_FORCE, "50 lb, common practice"),
    "lift line factor": (8.0, "8, common practice"),
    "batten stress": (21_000.0 * PSI, "21,000 psi, 0.6 of A53 grade B yield"),
    "sag": (1.0 / 180.0, "1/180, from memory"),
    "plate every": (24.0 * constants.METRES_PER_INCH, "24 in, common practice"),
    "estimate spread": (0.20, "20 %, assumed"),
    "person": (200.0 * constants.KG_PER_POUND, "200 lb, assumed"),
    "fleet angle": (math.radians(1.5), "1.5 deg, from a rule for drums"),
    "open sets": (1.0, "1, common practice"),
    "friction": (0.02, "2 % a quarter turn, from memory"),
}


# Rules where more is stricter; of all others the low end is. What an unknown one is taken as: it holds nothing.
MORE_IS_STRICTER = frozenset({"lift line factor", "estimate spread", "person", "friction"})
STRICTEST: Mapping[str, float] = {
    "lift line factor": 1e9,
    "estimate spread": 1.0,
    "person": 1e6,
    "plate every": 1e-3,
    "friction": 1.0,
    "open sets": 0.0,
}


def read_rules(rules: Rules) -> dict[str, Rule]:
    """Every rule by its name in the document."""
    found: dict[str, Rule] = {}
    spread = _spread_of(rules.estimate_spread)
    adopted = f"{rules.adopted_by}, {rules.adopted_on}".strip(", ") if rules.adopted_by else ""
    for name, (value, default) in DEFAULTS.items():
        written: Known | None = getattr(rules, name.replace(" ", "_"))
        if written is not None:
            end = written.high if name in MORE_IS_STRICTER else written.low
            if name == "estimate spread":
                end = spread
            elif end is not None and written.form is Form.ESTIMATE:
                end *= 1.0 + spread if name in MORE_IS_STRICTER else 1.0 - spread
            value = STRICTEST.get(name, 0.0) if end is None else end
        found[name] = Rule(name=name, value=value, written=written, default=default, adopted=adopted)
    return found


def _spread_of(written: Known | None) -> float:
    """How far an estimate may be out, as a share; of a spread that is one itself by as much more."""
    if written is None:
        return DEFAULTS["estimate spread"][0]
    if written.high is None:
        return STRICTEST["estimate spread"]
    return written.high * (1.0 + written.high) if written.form is Form.ESTIMATE else written.high


def most(known: Known, rules: Mapping[str, Rule]) -> float | None:
    """What must be reckoned with of a figure of which more is the worse, as `least` is of one of which less is."""
    spread = rules["estimate spread"]
    if known.high is None or known.form is not Form.ESTIMATE:
        return known.high
    return None if spread.is_unknown else known.high * (1.0 + spread.value)


def least(known: Known, rules: Mapping[str, Rule]) -> float | None:
    """What may be counted on of a rating: the low end of its range, an estimate less what estimates may be out.

    None where it is unknown, or an estimate and the house does not know how far its estimates may be out.
    """
    spread = rules["estimate spread"]
    if known.low is None or known.form is not Form.ESTIMATE:
        return known.low
    return None if spread.is_unknown else known.low * (1.0 - spread.value)


def is_guess(known: Known) -> bool:
    """True of an estimate, and of one figure from memory, which is no better; a range says itself how far it may be."""
    return known.form is Form.ESTIMATE or (known.form is Form.EXACT and known.how in (How.ESTIMATE, How.DEFAULT))


def doubt(known: Known, rules: Mapping[str, Rule]) -> float:
    """How far a figure may be from its best: half its range, or what the house allows for an estimate."""
    if known.low is None or known.best is None or known.high is None:
        return 0.0
    if is_guess(known):
        return abs(known.best) * rules["estimate spread"].value
    return (known.high - known.low) / 2.0
