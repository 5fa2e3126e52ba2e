"""House, show and hang joined: each set in SI, or the figures that are missing, by name and by what waits for them.

Knows the written documents and the section of a pipe; knows nothing of forces or limits.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from functools import cached_property

from counterpoise.documents import COUNTERWEIGHT, Bay, Hang, House, Hung, Known, LineSet, NotChecked, Piece, Show
from counterpoise.rigging.arbor import arbor_of, lacks_of_arbor
from counterpoise.rigging.bricks import BrickKind, RiggedBridge, brick_kind, rigged_bridge
from counterpoise.rigging.build import batten_of, lacks_of_batten
from counterpoise.rigging.married import Married, married_sets
from counterpoise.rigging.missing import BALANCE, PULLS, Missing
from counterpoise.rigging.rules import Rule, is_guess, read_rules
from counterpoise.rigging.sets import RiggedBatten, RiggedSet
from counterpoise.rigging.takeoff import weighed_by
from counterpoise.rigging.twins import HungPieces, Shared, as_twin, shared_with_twins, twins_of
from counterpoise.rigging.whole import whole_batten


@dataclass(frozen=True, kw_only=True)
class RiggedHouse:
    """All sets as rigged, those that lack a figure, and what they share.

    `battens` are all whose lines can be computed; `sets` those of them that are counterweight sets and whose balance
    can be as well. `wholes` are battens that are in neither, as it is not known how their lines share: of these only
    sums over all lines are to be told.
    """

    name: str
    show: str
    units: str
    battens: tuple[RiggedBatten, ...]
    missing: tuple[Missing, ...]
    bricks: Mapping[str, BrickKind]
    bridges: tuple[RiggedBridge, ...]
    rules: Mapping[str, Rule]
    not_checked: tuple[NotChecked, ...]
    house: House
    hang: Hang
    married: tuple[Married, ...] = ()
    wholes: tuple[RiggedBatten, ...] = ()

    @cached_property
    def sets(self) -> tuple[RiggedSet, ...]:
        """The counterweight sets that can be computed whole."""
        return tuple(one for one in self.battens if isinstance(one, RiggedSet))

    def set_called(self, label: str) -> RiggedSet | None:
        """The rigged set of this label, None where there is none or a figure is missing."""
        found = self.batten_called(label)
        return found if isinstance(found, RiggedSet) else None

    def batten_called(self, label: str) -> RiggedBatten | None:
        """The batten of this set, None where a figure is missing without which no pull can be computed."""
        return self._by_label.get(label)

    def bay_of(self, label: str) -> Bay | None:
        """The bay of the loft steel that carries this set, None where none is written."""
        return self._bays.get(label)

    def missing_of(self, label: str) -> tuple[Missing, ...]:
        """What this set lacks."""
        return tuple(self._lacking.get(label, ()))

    @cached_property
    def as_one(self) -> RiggedHouse:
        """The same house with sets whose hand lines are married as one: what steps are planned and judged for."""
        pairs = [(each, each.one) for each in self.married if each.one is not None]
        if not pairs:
            return self
        names = {label: each.label for each, _ in pairs for label in each.labels}
        others = {label for each, _ in pairs for label in each.labels[1:]}
        battens = (*(one for one in self.battens if one.label not in names), *(one for _, one in pairs))
        sets = tuple(replace(one, set_=names.get(one.label, one.label)) for one in self.house.sets
                     if one.label not in others)  # fmt: skip
        hung = tuple(replace(one, set_=names.get(one.label, one.label)) for one in self.hang.hung)
        return replace(self, battens=battens, house=replace(self.house, sets=sets), married=(),
                       hang=replace(self.hang, hung=hung),
                       missing=tuple(one for one in self.missing if one.label not in names))  # fmt: skip

    def label_of(self, label: str) -> str:
        """What a set is called where sets whose hand lines are married are one."""
        return next((one.label for one in self.married if one.one is not None and label in one.labels), label)

    @cached_property
    def _by_label(self) -> dict[str, RiggedBatten]:
        return {one.label: one for one in self.battens}

    @cached_property
    def _bays(self) -> dict[str, Bay]:
        return {label: bay for bay in reversed(self.house.steel) for label in bay.sets}

    @cached_property
    def _lacking(self) -> dict[str, list[Missing]]:
        found: dict[str, list[Missing]] = {}
        for one in self.missing:
            found.setdefault(one.label, []).append(one)
        return found


def rig(house: House, show: Show, hang: Hang) -> RiggedHouse:
    """Every set of the house with the pieces the hang puts on it."""
    rules = read_rules(house.rules)
    bricks = {one.brick: kind for one in house.bricks if (kind := brick_kind(one, rules)) is not None}
    hung: dict[str, list[tuple[Hung, Piece]]] = {}
    pieces = {one.piece: one for one in show.pieces}
    for each in hang.hung:
        if each.piece in pieces:
            hung.setdefault(each.label, []).append((each, pieces[each.piece]))
    battens: list[RiggedBatten] = []
    missing: list[Missing] = []
    wholes: list[RiggedBatten] = []
    twins = twins_of(house)
    for one in (_as_stated(each, hang) for each in house.sets):
        shared = shared_with_twins(one, house, twins.get(one.label, ()), hung)
        rigged, lacking = _rig_one(one, house, hang, bricks, rules, shared)
        missing += lacking
        if rigged is not None:
            battens.append(rigged)
        else:
            wholes += _whole(one, house, rules, shared)
    bridges = tuple(found for one in house.bridges if (found := rigged_bridge(one, house.bricks)) is not None)
    married = tuple(_married(house, hang, bricks, rules, twins, hung, missing))
    return RiggedHouse(
        name=house.name, show=show.name, units=house.units, battens=tuple(battens), missing=tuple(missing),
        bricks=bricks, bridges=bridges, rules=rules, house=house, hang=hang,
        not_checked=house.not_checked_here + hang.not_checked_here, married=married, wholes=tuple(wholes),
    )  # fmt: skip


def _married(
    house: House, hang: Hang, bricks: Mapping[str, BrickKind], rules: Mapping[str, Rule],
    twins: Mapping[str, tuple[str, ...]], hung: Mapping[str, HungPieces], missing: Sequence[Missing],
) -> Iterator[Married]:  # fmt: skip
    """Twins that say their hand lines are married, that carry something, and of which no figure else is lacking."""
    lacks = {one.label for one in missing if not one.path.endswith(".twin of")}
    for label, others in twins.items():
        labels = [one.label for one in house.sets if one.label in {label, *others}]
        sets = [found for each in labels if (found := house.set_called(each)) is not None]
        if label != labels[0] or not any(one.married == "yes" for one in sets) or lacks & set(labels):
            continue
        if not any(hung.get(each) for each in labels) or any(one.rigged != COUNTERWEIGHT for one in sets):
            continue
        pieces = shared_with_twins(sets[0], house, [each for each in labels if each != label], hung).hung
        yield married_sets(sets, house, hang, bricks, rules, pieces)


def _rig_one(
    one: LineSet, house: House, hang: Hang, bricks: Mapping[str, BrickKind], rules: Mapping[str, Rule],
    shared: Shared,
) -> tuple[RiggedBatten | None, list[Missing]]:  # fmt: skip
    hung = shared.hung
    lacking = [*lacks_of_batten(one, house, rules, hung), *(each for each in shared.lacks if each.waits == PULLS)]
    lacking += _guesses(one, house, rules, hung, PULLS)
    batten = None if lacking else as_twin(batten_of(one, house, rules, hung), shared.others)
    waits = [each for each in shared.lacks if each.waits == BALANCE]
    if one.rigged != COUNTERWEIGHT:
        return batten, lacking + waits
    waits += lacks_of_arbor(one, house, hang, bricks)
    waits += _guesses(one, house, rules, hung, BALANCE) if not lacking else []
    if batten is not None and not waits:
        return arbor_of(batten, one, house, hang, bricks, rules), []
    return batten, lacking + waits


def _as_stated(one: LineSet, hang: Hang) -> LineSet:
    """The set with the bags that the hang states, which come before those of the house."""
    stated = hang.stated_bags.get(one.label)
    return one if stated is None or one.bags is None else replace(one, bags=replace(one.bags, weight=stated))


def _whole(one: LineSet, house: House, rules: Mapping[str, Rule], shared: Shared) -> Iterator[RiggedBatten]:
    """Its batten where just what its lines share by is missing."""
    if any(each.waits == PULLS for each in shared.lacks) or any(_guesses(one, house, rules, shared.hung, PULLS)):
        return
    found = whole_batten(one, house, rules, shared.hung)
    if found is not None:
        yield as_twin(found, shared.others)


def _guesses(
    one: LineSet, house: House, rules: Mapping[str, Rule], hung: Sequence[tuple[Hung, Piece]], stage: str
) -> Iterator[Missing]:
    """Rules that are needed to compute, not only to judge, and are written as unknown."""
    figures: list[Known] = [one.batten.weight, one.batten.hardware, *(each.weight for each in one.batten.attachments)]
    figures += [each.weight for each in one.batten.lengths]
    figures += [each.trim_error for each in one.lines.at if each.trim_error is not None]
    figures += [house.rules.trim_error] if house.rules.trim_error is not None else []
    for _, piece in hung:
        figures += [*weighed_by(piece), *(cable.weight for cable in piece.cables)]
    if one.rigged == COUNTERWEIGHT:
        figures += [one.arbor.weight, *(each.weight for each in house.bricks)]
    if one.bags is not None:
        figures.append(one.bags.weight)
    guessed = any(is_guess(known) for known in figures)
    needed = (["estimate spread"] if guessed else []) + (["plate every"] if stage == BALANCE else [])
    for name in needed:
        if rules[name].is_unknown:
            yield Missing(label=one.label, path=f"rules.{name}", what=f"the rule `{name}`", waits=stage)
