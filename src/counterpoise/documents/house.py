"""The house as written: sources, stage, bridges, rails, bricks, holds, rules, steel, and its sets."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from functools import cached_property

from counterpoise.documents import fields as f
from counterpoise.documents.known import Known
from counterpoise.documents.line_set import LineSet
from counterpoise.documents.notes import NotChecked
from counterpoise.units import Kind

_RATING = {"above_zero": True, "ranges": True}
_SIZE = {"above_zero": True}
# Wide bounds that only a slip of the pen passes: a sign or a unit left out, a fraction upside down.
_FACTOR = (1.0, 100.0, "Write the factor itself, like 8.")
_OF_SPAN = (0.0005, 0.1, "Write the share of the span, like 1/180.")
_LOSS = (0.001, 1.0, "Write what a block loses in a quarter turn, like 2 %.")
_SPREAD = (0.01, 1.0, "Write how far an estimate may be out, like 20 %.")
_HOLD = (10.0, 5_000.0, "Write what the rope lock may be asked to hold, like 50 lb.")
_FLEET = (0.003, 0.2, "Write the angle, like 1.5 deg.")
_ROLL = (0.003, 1.5, "Write the angle, like 5 deg.")
_IMPACT = (0.01, 3.0, "Write what is added, like 25 %.")
_PERSON = (30.0, 300.0, "Write the weight of one person, like 200 lb or 90 kg.")
_STRESS = (1e6, 1e9, "Write it like 21,000 psi or 145 MPa.")


@dataclass(frozen=True, slots=True, kw_only=True)
class SourceNote:
    """A source. How it is known, what it is, who and when."""

    how: str = f.written(f.choice("measured", "documented", "assumed"))
    what: str = f.written(f.text)
    who: str = f.written(f.text, default="")
    when: str = f.written(f.text, default="")


@dataclass(frozen=True, slots=True, kw_only=True)
class FireCurtain:
    """A fire curtain. Nothing may hang in its path, from here to there upstage of where distances are measured from."""

    from_: Known = f.figure(Kind.LENGTH, signed=True)
    to: Known = f.figure(Kind.LENGTH, signed=True)


@dataclass(frozen=True, slots=True, kw_only=True)
class Stage:
    """A stage. Heights are above the stage floor, distances upstage of the plaster or setting line."""

    distances_from: str = f.written(f.choice("plaster line", "setting line"), default="plaster line")
    proscenium_height: Known | None = f.optional(Kind.LENGTH, **_SIZE)
    proscenium_width: Known | None = f.optional(Kind.LENGTH, **_SIZE)
    depth: Known | None = f.optional(Kind.LENGTH, **_SIZE)
    grid: Known | None = f.optional(Kind.LENGTH, **_SIZE)
    loft_blocks: Known = f.figure(Kind.LENGTH, **_SIZE)
    fire_curtain: FireCurtain | None = f.written(f.record(FireCurtain), default=None)


@dataclass(frozen=True, slots=True, kw_only=True)
class Brick:
    """A brick. `weight` is the mean as weighed, `spread` the largest departure of one brick from it."""

    brick: str = f.written(f.text)
    weight: Known = f.figure(Kind.MASS, **_RATING)
    spread: Known | None = f.optional(Kind.MASS)
    weighed: Known | None = f.optional(Kind.COUNT)  # how many were weighed for it
    thickness: Known = f.figure(Kind.LENGTH, **_SIZE)
    stock: Mapping[str, Known] = f.written(f.named(f.quantity(Kind.COUNT)), factory=dict)


@dataclass(frozen=True, slots=True, kw_only=True)
class Bridge:
    """A bridge. `reach` is the band, measured from its floor, in which a loader works on the top of the stack."""

    bridge: str = f.written(f.text)
    floor: Known = f.figure(Kind.LENGTH)
    reach_from: Known = f.figure(Kind.LENGTH, signed=True)
    reach_to: Known = f.figure(Kind.LENGTH)
    length: Known | None = f.optional(Kind.LENGTH, **_SIZE)
    width: Known | None = f.optional(Kind.LENGTH, **_SIZE)
    posting: Known | None = f.optional(Kind.FLOOR_LOAD)
    people: Known | None = f.optional(Kind.COUNT)
    heard_from_deck: str = f.written(f.choice("yes", "no"), default="")


@dataclass(frozen=True, slots=True, kw_only=True)
class Rail:
    """A rail. Which side it is on, how high, and whether bricks can be loaded from it."""

    rail: str = f.written(f.text)
    side: str = f.written(f.choice("stage left", "stage right"), default="stage left")
    floor: Known | None = f.optional(Kind.LENGTH)
    reach_from: Known | None = f.optional(Kind.LENGTH, signed=True)
    reach_to: Known | None = f.optional(Kind.LENGTH)
    pins: Known | None = f.optional(Kind.COUNT)
    pin_rating: Known | None = f.optional(Kind.FORCE, **_RATING)
    heard_from_deck: str = f.written(f.choice("yes", "no"), default="")


@dataclass(frozen=True, slots=True, kw_only=True)
class Hold:
    """A hold. What the house owns to hold or haul a set that is out of balance, and what it may be counted on for."""

    hold: str = f.written(f.text)
    does: str = f.written(f.choice("park", "haul"))
    against: str = f.written(f.choice("batten rising", "batten falling", "both"))
    acts_on: str = f.written(f.choice("batten", "arbor", "hand line"))
    anchor: str = f.written(f.text, default="")
    rating: Known = f.figure(Kind.FORCE, **_RATING)
    anchor_rating: Known | None = f.optional(Kind.FORCE, **_RATING)
    count: Known | None = f.optional(Kind.COUNT)


@dataclass(frozen=True, slots=True, kw_only=True)
class Rules:
    """Rules of the house. Adopted by a named person on a date; one left out is a default, not adopted."""

    adopted_by: str = f.written(f.text, default="")
    adopted_on: str = f.written(f.text, default="")
    lock_hold: Known | None = f.optional(Kind.FORCE, **_RATING, within=_HOLD)
    lift_line_factor: Known | None = f.optional(Kind.RATIO, **_RATING, within=_FACTOR)
    batten_stress: Known | None = f.optional(Kind.STRESS, **_RATING, within=_STRESS)
    sag: Known | None = f.optional(Kind.RATIO, **_RATING, within=_OF_SPAN)
    plate_every: Known | None = f.optional(Kind.LENGTH, **_RATING)
    trim_error: Known | None = f.optional(Kind.LENGTH, ranges=True)  # how far a line may be off either way
    estimate_spread: Known | None = f.optional(Kind.RATIO, **_RATING, within=_SPREAD)
    person: Known | None = f.optional(Kind.MASS, ranges=True, within=_PERSON)
    fleet_angle: Known | None = f.optional(Kind.ANGLE, **_RATING, within=_FLEET)
    roll: Known | None = f.optional(Kind.ANGLE, **_RATING, within=_ROLL)
    impact: Known | None = f.optional(Kind.RATIO, **_RATING, within=_IMPACT)
    friction: Known | None = f.optional(Kind.RATIO, **_RATING, within=_LOSS)  # of what hangs, a quarter turn
    open_sets: Known | None = f.optional(Kind.COUNT, above_zero=True)  # at once, while weight moves on one of them


@dataclass(frozen=True, slots=True, kw_only=True)
class Bay:
    """A bay of the loft steel. Allowances are summed over all sets in the bay, vertical but those called sideways.

    There is one loft beam a line.
    """

    bay: str = f.written(f.text)
    sets: tuple[str, ...] = f.written(f.items(f.text))
    loft_beam: Known = f.figure(Kind.FORCE, **_RATING)
    loft_beam_sideways: Known | None = f.optional(Kind.FORCE, **_RATING)
    head_beam: Known = f.figure(Kind.FORCE, **_RATING)
    head_beam_sideways: Known | None = f.optional(Kind.FORCE, **_RATING)
    dead_ends: Known | None = f.optional(Kind.FORCE, **_RATING)  # where those are not made to the head beam
    impact: str = f.written(f.choice("included", "add 25 %", "unknown"), default="unknown")
    lift_lines: str = f.written(f.choice("counted", "not counted"), default="counted")


def numbering_of(known: Known | None) -> int:
    """The numbering that a document says its labels are of, 1 where it says none."""
    return 1 if known is None or known.best is None else round(known.best)


@dataclass(frozen=True, kw_only=True)
class House:
    """A house. Everything written down about it; what depends on it is computed."""

    counterpoise: str = f.written(f.text)
    name: str = f.written(f.text)
    about: str = f.written(f.text, default="")
    numbering: Known | None = f.optional(Kind.COUNT, above_zero=True)  # left out the first
    units: str = f.written(f.choice("us", "metric"))
    words: str = f.written(f.choice("us", "uk"), default="us")
    stage: Stage = f.block(Stage)
    bricks: tuple[Brick, ...] = f.written(f.items(f.record(Brick)), default=())
    bridges: tuple[Bridge, ...] = f.written(f.items(f.record(Bridge)), default=())
    rails: tuple[Rail, ...] = f.written(f.items(f.record(Rail)), default=())
    holds: tuple[Hold, ...] = f.written(f.items(f.record(Hold)), default=())
    rules: Rules = f.written(f.record(Rules), default=Rules())
    steel: tuple[Bay, ...] = f.written(f.items(f.record(Bay)), default=())
    sets: tuple[LineSet, ...] = f.written(f.items(f.record(LineSet)))
    not_checked_here: tuple[NotChecked, ...] = f.written(f.items(f.record(NotChecked)), default=())
    kinds: Mapping[str, LineSet] = field(default_factory=dict)  # laid under its sets; as a set of it alone would be
    own_rows: Mapping[str, Mapping[str, Known]] = field(default_factory=dict)  # of its catalogue

    @property
    def numbered(self) -> int:
        """Which numbering of its sets this is: a label may have been another set's in an earlier one."""
        return numbering_of(self.numbering)

    def set_called(self, label: str) -> LineSet | None:
        """The set with this label, None where there is none."""
        return self._by_label.get(label)

    @cached_property
    def _by_label(self) -> dict[str, LineSet]:
        return {one.label: one for one in reversed(self.sets)}
