"""Each set as rigged: where its lines are, what hangs on it, what its arbor holds; and the house they share.

Knows the written documents and the section of a pipe; knows nothing of forces or limits.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from counterpoise.documents import Bay, Brick, Bridge, Hang, House, Hung, Known, LineSet, NotChecked, Piece, Show
from counterpoise.rigging.rules import Rule, read_rules
from counterpoise.statics import Beam, Line, Segment, pipe
from counterpoise.units import Form, place
from counterpoise.units.constants import STANDARD_GRAVITY as GRAVITY


@dataclass(frozen=True, slots=True, kw_only=True)
class Missing:
    """A figure that is not known and without which the set cannot be computed."""

    label: str
    path: str
    what: str
    line: int = 0  # of its document, 0 where nothing is written


@dataclass(frozen=True, slots=True, kw_only=True)
class BrickKind:
    """A kind of brick: mean mass [kg], largest departure from it [kg], thickness [m], stock by place."""

    name: str
    mass: float
    spread: float
    thickness: float
    stock: Mapping[str, int]


@dataclass(frozen=True, slots=True, kw_only=True)
class RiggedBridge:
    """A bridge: floor height, and the heights between which its crew works on the top of a stack [m above stage].

    `most` is the mass its whole floor may carry by its posting [kg], None where that is not known.
    """

    name: str
    floor: float
    reach_low: float
    reach_high: float
    most: float | None
    people: int


@dataclass(frozen=True, slots=True, kw_only=True)
class RiggedPiece:
    """A piece where it hangs: mass [kg] as low, best, high; points (x, share) or an even spread (start, end) [m]."""

    name: str
    mass: tuple[float, float, float]
    points: tuple[tuple[float, float], ...]
    spread: tuple[float, float] | None
    height: float
    off_the_floor: bool
    looks: str
    trims: Mapping[str, float]
    written: Piece
    hung: Hung

    @property
    def is_certain(self) -> bool:
        """True where its weight is one figure, not a range."""
        return self.mass[0] == self.mass[2]

    def share_hanging(self, height: float) -> tuple[float, float]:
        """Least and most share of its weight on the batten when that is at `height` [m].

        Cloth that comes off the floor hangs by its length. A piece that is taller than the batten is high stands on
        the deck and may put anything from nothing to all of itself on the batten.
        """
        if self.off_the_floor:
            share = min(1.0, max(0.0, height / self.height))
            return share, share
        return (1.0, 1.0) if height >= self.height - 1e-9 else (0.0, 1.0)


@dataclass(frozen=True, slots=True, kw_only=True)
class RiggedSet:
    """A set in SI: lengths [m] from the stage-right end or above the stage, masses [kg], forces [N]."""

    key: str
    label: str
    distance: float
    purchase: int
    low: float
    high: float
    loft: float  # height of the loft blocks
    beam: Beam
    lines: tuple[Line, ...]
    line_mass: float  # of one lift line [kg/m]
    batten_mass: float  # pipe alone [kg]
    hardware_mass: float
    nominal_diameter: float
    modulus_judged: float  # elastic section modulus that judges strength [m3]
    arbor_mass: float
    seat_low: float  # bottom of the stack above the stage with the batten at low trim
    usable_height: float
    plate_mass: float
    plate_thickness: float
    plate_every: float
    brick: BrickKind
    pipe_bricks: int
    pieces: tuple[RiggedPiece, ...]
    stated_bricks: int | None
    hand_line_ratio: float  # force in the hand line per force at the batten: 1 or 2
    out_of_service: str
    written: LineSet
    batten_doubt: float = 0.0  # largest departure of pipe and hardware together from their masses [kg]
    arbor_doubt: float = 0.0  # of the arbor without its stack [kg]

    def seat(self, height: float) -> float:
        """Height of the bottom of the stack [m] with the batten at `height`."""
        return self.seat_low - (height - self.low) / self.purchase


@dataclass(frozen=True, slots=True, kw_only=True)
class RiggedHouse:
    """All sets as rigged, those that lack a figure, and what they share."""

    name: str
    show: str
    units: str
    sets: tuple[RiggedSet, ...]
    missing: tuple[Missing, ...]
    bricks: Mapping[str, BrickKind]
    bridges: tuple[RiggedBridge, ...]
    rules: Mapping[str, Rule]
    bays: tuple[Bay, ...]
    not_checked: tuple[NotChecked, ...]
    house: House
    hang: Hang

    def set_called(self, label: str) -> RiggedSet | None:
        """The rigged set of this label, None where there is none or a figure is missing."""
        return next((one for one in self.sets if one.label == label), None)


def rig(house: House, show: Show, hang: Hang) -> RiggedHouse:
    """Every set of the house with the pieces the hang puts on it."""
    rules = read_rules(house.rules)
    bricks = {one.brick: kind for one in house.bricks if (kind := _brick(one, rules)) is not None}
    sets: list[RiggedSet] = []
    missing: list[Missing] = []
    for one in house.sets:
        hung = [(each, piece) for each in hang.hung if each.label == one.label
                if (piece := show.piece_called(each.piece)) is not None]  # fmt: skip
        lacking = _lacking(one, house, hang, bricks, rules, hung)
        if lacking:
            missing.extend(lacking)
        else:
            sets.append(_rigged(one, house, hang, bricks[one.brick], rules, hung))
    bridges = tuple(found for one in house.bridges if (found := _bridge(one, house.bricks)) is not None)
    return RiggedHouse(
        name=house.name, show=show.name, units=house.units, sets=tuple(sets), missing=tuple(missing), bricks=bricks,
        bridges=bridges, rules=rules, bays=house.steel, house=house, hang=hang,
        not_checked=house.not_checked_here + hang.not_checked_here,
    )  # fmt: skip


def _doubt(known: Known, rules: Mapping[str, Rule]) -> float:
    """How far a figure may be from its best: half its range, or what the house allows for an estimate."""
    if known.low is None or known.best is None or known.high is None:
        return 0.0
    if known.form is Form.ESTIMATE:
        return known.best * rules["estimate spread"].value
    return (known.high - known.low) / 2.0


def _brick(one: Brick, rules: Mapping[str, Rule]) -> BrickKind | None:
    if one.weight.best is None or one.thickness.best is None or (one.spread is not None and one.spread.best is None):
        return None
    spread = _doubt(one.weight, rules) + (one.spread.number if one.spread else 0.0)
    stock = {where: round(count.best) for where, count in one.stock.items() if count.best is not None}
    return BrickKind(name=one.brick, mass=one.weight.best, spread=spread, thickness=one.thickness.best, stock=stock)


def _crowd_unknown(one: Bridge, bricks: tuple[Brick, ...]) -> bool:
    """True where its people, its stock or a brick's weight are written unknown: then no floor is judged."""
    people = one.people is not None and one.people.is_unknown
    return people or any(count.is_unknown or each.weight.is_unknown
                         for each in bricks for where, count in each.stock.items() if where == one.bridge)  # fmt: skip


def _bridge(one: Bridge, bricks: tuple[Brick, ...]) -> RiggedBridge | None:
    if one.floor.best is None or one.reach_from.best is None or one.reach_to.best is None:
        return None
    parts = (one.length, one.width, one.posting)
    known = [part.best for part in parts if part is not None and part.best is not None]
    most = known[0] * known[1] * known[2] / GRAVITY if len(known) == 3 and not _crowd_unknown(one, bricks) else None
    people = round(one.people.best) if one.people and one.people.best is not None else 0
    return RiggedBridge(name=one.bridge, floor=one.floor.best, reach_low=one.floor.best + one.reach_from.best,
                        reach_high=one.floor.best + one.reach_to.best, most=most, people=people)  # fmt: skip


def _lacking(
    one: LineSet, house: House, hang: Hang, bricks: Mapping[str, BrickKind], rules: Mapping[str, Rule],
    hung: list[tuple[Hung, Piece]],
) -> list[Missing]:  # fmt: skip
    batten, lines, arbor = one.batten, one.lines, one.arbor
    asked: list[tuple[str, Known | None]] = [
        ("distance", one.distance), ("low trim", one.low_trim), ("high trim", one.high_trim),
        ("batten length", batten.length), ("batten diameter", batten.outside_diameter), ("batten wall", batten.wall),
        ("batten weight", batten.weight), ("batten modulus", batten.modulus), ("batten hardware", batten.hardware),
        ("lift-line weight", lines.weight), ("lift-line stiffness", lines.stiffness),
        ("head block place", lines.head_block_from_end), ("arbor weight", arbor.weight),
        ("arbor seat", arbor.seat_at_low_trim), ("usable height", arbor.usable_height),
        ("plate weight", arbor.plate_weight), ("plate thickness", arbor.plate_thickness),
        ("pipe weight", one.pipe_weight), ("height of the loft blocks", house.stage.loft_blocks),
    ]  # fmt: skip
    for each, piece in hung:
        asked += [
            (f"weight of {piece.piece}", piece.weight), (f"height of {piece.piece}", piece.height),
            (f"centre of {piece.piece}", each.centre), (f"spread of {piece.piece}", piece.spread_over),
        ]  # fmt: skip
        asked += [(f"a pick of {piece.piece}", pick) for pick in piece.picks]
        asked += [(f"trim {name} of {piece.piece}", at) for name, at in each.trims.items()]
    asked.append(("count of bricks on the arbor", hang.stated_bricks.get(one.label)))
    found = [Missing(label=one.label, path=known.path, line=known.line, what=what) for what, known in asked
             if known is not None and known.best is None]  # fmt: skip
    if one.brick not in bricks:
        found.append(Missing(label=one.label, path="bricks",
                             what=f"weight, spread or thickness of the {one.brick} brick"))  # fmt: skip
    if batten.length.best is not None:
        found += [Missing(label=one.label, path=f"sets {one.label} › lines › at", what="the place of a line")
                  for said in lines.at if place(said, length=batten.length.best).best is None]  # fmt: skip
    return found + _lacking_rules(one, house, rules, [known for _, known in asked if known is not None])


def _lacking_rules(one: LineSet, house: House, rules: Mapping[str, Rule], figures: list[Known]) -> list[Missing]:
    """Rules that are needed to compute, not only to judge, and are written as unknown."""
    brick = next((each.weight for each in house.bricks if each.brick == one.brick), None)
    guessed = any(known.form is Form.ESTIMATE for known in (*figures, brick) if known is not None)
    needed = ["plate every", *(["estimate spread"] if guessed else [])]
    return [Missing(label=one.label, path=f"rules.{name}", what=f"the rule `{name}`")
            for name in needed if rules[name].is_unknown]  # fmt: skip


def _rigged(
    one: LineSet, house: House, hang: Hang, brick: BrickKind, rules: Mapping[str, Rule], hung: list[tuple[Hung, Piece]]
) -> RiggedSet:
    batten, arbor = one.batten, one.arbor
    length, diameter = batten.length.number, batten.outside_diameter.number
    nominal = pipe(diameter, batten.wall.number)
    design = batten.design_wall
    judged = pipe(diameter, design.best) if design is not None and design.best is not None else nominal
    stated = hang.stated_bricks.get(one.label)
    pipe_doubt = _doubt(batten.weight, rules) * length
    return RiggedSet(
        key=one.permanent, label=one.label, distance=one.distance.number, purchase=2 if one.purchase == "double" else 1,
        low=one.low_trim.number, high=one.high_trim.number, loft=house.stage.loft_blocks.number,
        beam=Beam(length=length, segments=(
            Segment(start=0.0, end=length, stiffness=batten.modulus.number * nominal.second_moment),)),
        lines=_lines(one, house), line_mass=one.lines.weight.number, batten_mass=batten.weight.number * length,
        hardware_mass=batten.hardware.number, nominal_diameter=diameter, modulus_judged=judged.elastic_modulus,
        arbor_mass=arbor.weight.number, seat_low=arbor.seat_at_low_trim.number,
        usable_height=arbor.usable_height.number, plate_mass=arbor.plate_weight.number,
        plate_thickness=arbor.plate_thickness.number, plate_every=rules["plate every"].value, brick=brick,
        pipe_bricks=round(one.pipe_weight.number),
        pieces=tuple(_piece(each, piece, length, rules) for each, piece in hung),
        stated_bricks=round(stated.best) if stated is not None and stated.best is not None else None,
        hand_line_ratio=2.0 if one.purchase == "double" and one.hand_line == "with the arbor" else 1.0,
        out_of_service=one.out_of_service, written=one, batten_doubt=pipe_doubt + _doubt(batten.hardware, rules),
        arbor_doubt=_doubt(arbor.weight, rules),
    )  # fmt: skip


def _lines(one: LineSet, house: House) -> tuple[Line, ...]:
    """Lines as springs L/EA, L the whole rope: batten side, across the loft, and the arbor side r times over.

    The arbor side is the arbor travel; the length that stays above the arbor at its top stop is neglected (short).
    """
    length, loft = one.batten.length.number, house.stage.loft_blocks.number
    fall = loft - one.low_trim.number  # batten side + arbor side: what one loses over the travel the other gains
    head = length + one.lines.head_block_from_end.number
    found = []
    for said in one.lines.at:
        x = place(said, length=length).best
        assert x is not None  # a set with a line at an unknown place is not rigged
        found.append(Line(x=x, flexibility=(fall + abs(head - x)) / one.lines.stiffness.number, offset=0.0))
    return tuple(found)


def _piece(hung: Hung, piece: Piece, length: float, rules: Mapping[str, Rule]) -> RiggedPiece:
    centre = length / 2 + hung.centre.number
    best, doubt = piece.weight.number, _doubt(piece.weight, rules)
    low, high = max(0.0, best - doubt), best + doubt
    even = piece.spread_over
    reach = (centre - even.number / 2, centre + even.number / 2) if even is not None and even.best is not None else None
    if reach is not None:
        reach = (max(0.0, reach[0]), min(length, reach[1]))
    points = tuple((min(length, max(0.0, centre + pick.number)), 1.0 / len(piece.picks)) for pick in piece.picks)
    return RiggedPiece(
        name=piece.piece, mass=(low, best, high), points=points, spread=reach, height=piece.height.number,
        off_the_floor=piece.comes == "off the floor", looks=piece.looks,
        trims={name: at.number for name, at in hung.trims.items() if at.best is not None}, written=piece, hung=hung,
    )  # fmt: skip
