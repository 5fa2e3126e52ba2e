"""What one place of a house says of another: names, heights, pipes and lines; a fault of a kind is told once."""

from __future__ import annotations

import difflib
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import replace

from counterpoise.documents.battens import check_batten, check_lines
from counterpoise.documents.desk import Desk
from counterpoise.documents.house import Bridge, House, Rail
from counterpoise.documents.known import Known
from counterpoise.documents.line_set import COUNTERWEIGHT, LineSet
from counterpoise.documents.named import check_notes, must_be, twice
from counterpoise.documents.notes import LINKS
from counterpoise.documents.text import Fields, Items, Node, Scalar
from counterpoise.errors import Problem

_SLIP = 0.85  # how like two names are that differ by a letter or two
_FEW = 8  # sets named where a fault stands in their kind
LARGEST_LABEL = 24  # characters of a set's label: it is shouted across a stage


def check_house(house: House, desk: Desk, unused: Sequence[LineSet] = ()) -> None:
    """No name twice, every name known, heights, pipes and lines that can be; also of kinds that no set is of."""
    twice(((one, one.label) for one in house.sets), "set", desk)
    first = {one.label: one for one in reversed(house.sets)}  # a label that stands twice is told as that alone
    twice(((one, one.permanent) for one in house.sets if one.key or first[one.label] is one), "key", desk)
    twice(((one, one.brick) for one in house.bricks), "brick", desk)
    twice(((one, one.bridge) for one in house.bridges), "bridge", desk)
    twice(((one, one.rail) for one in house.rails), "rail", desk)
    twice(((one, one.hold) for one in house.holds), "hold", desk)
    twice(((one, one.bay) for one in house.steel), "bay", desk)
    twice(((bay, label) for bay in house.steel for label in bay.sets), "in the loft steel, set", desk)
    labels = dict.fromkeys(_labels_written(house, desk))
    _check_places(house, desk)
    _check_bays(house, labels, desk)
    check_notes(house.not_checked_here, labels, "this house has", desk)
    _check_sets(house, unused, labels, desk)


def _check_places(house: House, desk: Desk) -> None:
    """Bands that run up, a curtain's path that runs upstage, and stock at no place that is almost one of the house."""
    bands: tuple[Bridge | Rail, ...] = (*house.bridges, *house.rails)
    for one in bands:
        _runs_up(one, one.reach_from, one.reach_to, "reach from", "a band in which nothing can be reached", desk)
    curtain = house.stage.fire_curtain
    if curtain is not None:
        _runs_up(curtain, curtain.from_, curtain.to, "from", "a path that ends before it begins", desk)
    places = [*(one.bridge for one in house.bridges), *(one.rail for one in house.rails)]
    for brick in house.bricks:
        stock = desk.node_of(brick).fields.get("stock")
        for place in brick.stock:
            key = stock.keys[place] if isinstance(stock, Fields) else None
            near = difflib.get_close_matches(place, places, n=1, cutoff=_SLIP)
            if near and place not in places:  # a trap room is a place too, and a slip of the pen is none
                desk.refuse(key, f"{brick.brick} › stock", f"there is no bridge or rail {place}.", f"Did you mean "
                            f"{near[0]}? Another place may have any name that is not so near to it.")  # fmt: skip


def _runs_up(one: object, low: Known | None, high: Known | None, word: str, what: str, desk: Desk) -> None:
    if low is None or high is None or low.best is None or high.best is None or low.best <= high.best:
        return
    desk.refuse(desk.node_of(one).fields[word], low.path, f"from {low.text} to {high.text} is {what}.",
                "Write the smaller figure first.")  # fmt: skip


def _labels_written(house: House, desk: Desk) -> Iterator[str]:
    """Also of sets that could not be read: each is told of once, at its own line."""
    written = desk.node_of(house).fields.get("sets")
    for one in written.items if isinstance(written, Items) else ():
        if isinstance(one, Fields) and isinstance(said := one.fields.get("set"), Scalar):
            yield said.text


def _check_sets(house: House, unused: Sequence[LineSet], labels: Mapping[str, object], desk: Desk) -> None:
    """Each set against its house; a fault that stands in a kind is told once, where it stands, with its sets."""
    before, told = list(desk.problems), dict[Problem, list[str]]()
    parts: dict[tuple[int, int], list[Problem]] = {}  # sets of a kind share what they do not write themselves
    ids = {id(one) for one in unused}
    for one in (*house.sets, *unused):
        desk.problems.clear()
        _check_names(one, house, labels, desk)
        _check_heights(one, house, desk.node_of(one), desk)
        key = (id(one.batten), id(one.lines))
        if key not in parts:
            names = list(desk.problems)
            desk.problems.clear()
            check_batten(one, desk)
            check_lines(one, desk)
            parts[key] = list(desk.problems)
            desk.problems[:] = names
        for problem in dict.fromkeys([*desk.problems, *parts[key]]):
            told.setdefault(problem, []).extend([one.label] * (id(one) not in ids))
    desk.problems[:] = [*before, *(_of_sets(problem, having) for problem, having in told.items())]


def _of_sets(problem: Problem, labels: list[str]) -> Problem:
    """A problem with the sets that have it, where it stands in their kind."""
    if not problem.path.startswith("kinds.") or not labels:
        return problem
    labels = list(dict.fromkeys(labels))
    few = ", ".join(labels[:_FEW]) + (f" and {len(labels) - _FEW} more" if len(labels) > _FEW else "")
    return replace(problem, path=f"{problem.path} (set{'s' if len(labels) > 1 else ''} {few})")


def _check_names(one: LineSet, house: House, labels: Mapping[str, object], desk: Desk) -> None:
    """What a set names besides its kind: a brick, a rail, the set it is twin of, the part that a condition is of."""
    bricks, rails = [each.brick for each in house.bricks], [each.rail for each in house.rails]
    node = desk.node_of(one)
    for word, said, names, has in (("brick", one.brick, bricks, "`bricks` has"),
                                   ("small brick", one.small_brick, bricks, "`bricks` has"),
                                   ("rail", one.rail, rails, "`rails` has"),
                                   ("twin of", one.twin_of, labels, "this house has")):  # fmt: skip
        if said and not desk.has_lost(desk.node_of(house), f"{word.split()[-1]}s"):
            must_be(said, names, word.removesuffix(" of"), node.fields[word], _where(one, word, desk), has, desk)
    if len(one.label) > LARGEST_LABEL:
        desk.refuse(node, f"sets {one.label}", f"the label has {len(one.label)} characters.",
                    f"Use at most {LARGEST_LABEL}.")  # fmt: skip
    if one.small_brick and one.small_brick == one.brick:
        desk.refuse(node.fields["small brick"], _where(one, "small brick", desk), "it is the set's brick as well.",
                    "Name the smaller one, or take the line out.")  # fmt: skip
    if one.twin_of == one.label:
        desk.refuse(node.fields["twin of"], _where(one, "twin of", desk), "a set is not its own twin.",
                    "Name the other set of the pair.")  # fmt: skip
    if one.rigged != COUNTERWEIGHT and one.purchase != "unknown":
        where = _where(one, "purchase", desk)
        mend = "Write `purchase: none` in the set" if where.startswith("kinds.") else "Take the line out"
        desk.refuse(node.fields["purchase"], where, f"a {one.rigged} set has no purchase.",
                    f"{mend}, or write `rigged: counterweight`.")  # fmt: skip
    if one.batten.ladder is not None and one.batten.truss is not None:
        desk.refuse(node.fields["batten"], _where(one, "batten", desk), "it is a ladder and a maker's truss at once.",
                    "Keep one of the two.")  # fmt: skip
    for condition in one.condition:
        said_of = desk.node_of(condition).fields["part"]
        must_be(condition.part, LINKS, "part", said_of, said_of.path, "parts are", desk)


def _where(one: LineSet, word: str, desk: Desk) -> str:
    """Where a field stands: in the kind of the set, or in the set itself."""
    path = desk.node_of(one).fields[word].path
    return path if path.startswith("kinds.") else f"sets {one.label} › {word}"


def _check_bays(house: House, labels: Iterable[str], desk: Desk) -> None:
    for bay in house.steel:
        node = desk.node_of(bay)
        for label in bay.sets:
            must_be(label, labels, "set", node.fields["sets"], f"steel {bay.bay} › sets", "this house has", desk)


def _check_heights(one: LineSet, house: House, node: Node, desk: Desk) -> None:
    """Told at the figure itself, so that one in a kind is told once for all its sets."""
    low, high, loft = one.low_trim, one.high_trim, house.stage.loft_blocks
    mend = "Give both heights above the stage floor."
    if low.best is not None and high.best is not None and low.best >= high.best:
        _refuse_at(high, f"high trim {high.text} is not above low trim {low.text}.", mend, node, desk)
    if loft.best is None:
        return
    for name, height in (("low", low), ("high", high)):
        if height.best is not None and height.best >= loft.best:
            says = f"{name} trim {height.text} is not below the loft blocks, {loft.text}."
            _refuse_at(height, says, mend, node, desk)
            return


def _refuse_at(known: Known, says: str, mend: str, node: Node, desk: Desk) -> None:
    """A problem at a figure where it stands; the same one is told once however many sets share it."""
    problem = Problem(file=desk.file, line=known.line or node.line, column=1, path=known.path, value=known.text,
                      says=says, mend=mend)  # fmt: skip
    if problem not in desk.problems:
        desk.problems.append(problem)
