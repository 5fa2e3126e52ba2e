"""What one place of the documents says of another, held against it; every disagreement is a problem at its line."""

from __future__ import annotations

import difflib
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import replace

from counterpoise.documents.battens import check_batten, check_lines
from counterpoise.documents.fields import Desk
from counterpoise.documents.hang import Hang
from counterpoise.documents.house import House
from counterpoise.documents.known import Known
from counterpoise.documents.line_set import COUNTERWEIGHT, LineSet
from counterpoise.documents.notes import LINKS, NotChecked
from counterpoise.documents.show import IN_SECTIONS, Part, Piece, Show, Taken
from counterpoise.documents.text import Fields, Items, Node, Scalar
from counterpoise.errors import Problem

_FEW = 8  # sets named where a fault stands in their kind
_MOST_NAMES = 12  # of what there is, told where a name is none of it
LARGEST_LABEL = 24  # characters of a set's label: it is shouted across a stage


def check_show(show: Show, desk: Desk) -> None:
    """No piece twice, and each hung one way."""
    _twice(((one, one.piece) for one in show.pieces), "piece", desk)
    _twice(((one, one.key or one.piece) for one in show.pieces), "key", desk)
    names = [one.piece for one in show.pieces]
    for one in show.pieces:
        node = desk.node_of(one)
        at = f"{node.path} {one.piece}"
        if one.picks and one.spread_over is not None:
            desk.refuse(node, at, "a piece has either picks or a length it is spread over.",
                        "Write `picks: [6' SR, 6' SL]` or `spread over: 40 ft`.")  # fmt: skip
        if (one.takeoff or one.sections) and "weight" in node.fields:
            desk.refuse(node, at, "its weight stands here twice: as one figure and in parts.",
                        "Keep the one you trust; put the other in its `note`.")  # fmt: skip
        if (one.comes == IN_SECTIONS) != bool(one.sections) and not desk.has_lost(node, "comes", "sections"):
            desk.refuse(node, at, "`comes: in sections` and a list of `sections` go together.",
                        "Write both, or neither.")  # fmt: skip
        for taken in one.takeoff:
            _check_taken(taken, desk)
        _check_balance_height(one, desk)
        for part in one.sections:
            _check_balance_height(part, desk)
        for other in (*one.wishes.upstage_of, *one.wishes.downstage_of, *one.wishes.masks) if one.wishes else ():
            must_be(other, names, "piece", node.fields["wishes"], f"{at} › wishes", "this show has", desk)


def _check_balance_height(one: Piece | Part, desk: Desk) -> None:
    """A centre of gravity lies below the top."""
    known, height = one.balance_height, one.height
    if known.best is not None and height.best is not None and known.best > height.best:
        desk.refuse(desk.node_of(one).fields["balance height"], known.path, f"a centre of gravity {known.text} up lies "
                    f"above the top of {height.text}.", "Give its height above the foot.")  # fmt: skip


def _check_taken(taken: Taken, desk: Desk) -> None:
    """A line of a takeoff is measured in one way: by area, by length, or by count of one weight."""
    node = desk.node_of(taken)
    ways = [name for name, weight in (("per area", taken.per_area), ("per length", taken.per_length),
                                      ("each", taken.each)) if weight is not None]  # fmt: skip
    if desk.has_lost(node, "per area", "per length", "each"):
        return
    if len(ways) != 1:
        desk.refuse(node, node.path, "this line has no weight." if not ways else f"this line has {' and '.join(ways)}.",
                    "Name a row of the catalogue (`cloth`, `board`, `lumber`, `pipe`, `cable`, `fixture`), or write "
                    "one of `per area`, `per length`, `each`.")  # fmt: skip
        return
    needed = {"per area": ("width", "height"), "per length": ("length",), "each": ()}[ways[0]]
    for name in needed:
        if name not in node.fields:
            desk.refuse(
                node, f"{node.path}.{name}", f"{name} is missing.", "Write it; write unknown where it is not known."
            )


def check_hang(hang: Hang, house: House, show: Show, tree: Fields, desk: Desk) -> None:
    """Sets, pieces and names are those of its house and show, pieces fit the pipe, trims the travel."""
    labels, pieces = [one.label for one in house.sets], [one.piece for one in show.pieces]
    for one in hang.hung:
        node = desk.node_of(one)
        set_must_be(one.label, house, node.fields["set"], f"{node.path}.set", desk)
        must_be(one.piece, pieces, "piece", node.fields["piece"], f"{node.path}.piece", f"{show.name} has", desk)
    for field, counts in (("stated bricks", hang.stated_bricks), ("stated small bricks", hang.stated_small_bricks)):
        stated = tree.fields.get(field)
        for label in counts:
            node_of_label = stated.keys[label] if isinstance(stated, Fields) else None
            set_must_be(label, house, node_of_label, field, desk)
    _small_with_the_rest(hang, house, tree, desk)
    _check_notes(hang.not_checked_here, labels, f"{house.name} has", desk)
    _twice(((one, f"{one.piece} on set {one.label}") for one in hang.hung), "piece", desk)
    _names_match(hang, house, show, tree, desk)
    _on_the_pipe(hang, house, show, desk)
    _within_travel(hang, house, desk)


def _small_with_the_rest(hang: Hang, house: House, tree: Fields, desk: Desk) -> None:
    """Small bricks are stated of a set that takes them, and together with its others."""
    stated = tree.fields.get("stated small bricks")
    takes = {one.label for one in house.sets if one.small_brick}
    for label in hang.stated_small_bricks:
        node = stated.keys[label] if isinstance(stated, Fields) else None
        if label not in takes:
            desk.refuse(node, "stated small bricks", f"set {label} takes no small brick.",
                        "Write its `small brick` in the house, or take the count out.")  # fmt: skip
        elif label not in hang.stated_bricks:
            desk.refuse(node, "stated small bricks", f"of set {label} only the small ones are stated.",
                        "State its others too, under `stated bricks`.")  # fmt: skip


def _twice(named: Iterable[tuple[object, str]], what: str, desk: Desk) -> None:
    seen: set[str] = set()
    for one, name in named:
        if name in seen:
            node = desk.node_of(one)
            desk.refuse(node, node.path, f"{what} {name} stands twice.", "Give each its own name.")
        seen.add(name)


def must_be(said: str, names: Iterable[str], what: str, node: Node | None, path: str, has: str, desk: Desk) -> None:
    """Note a problem where a name is none of those known, with the near one."""
    names = names if isinstance(names, Mapping) else list(names)
    if said in names:
        return
    names = list(names)
    # a wrong set that is named as near is worse than none: labels are short, and 99 is not 9
    near = [] if what == "set" else difflib.get_close_matches(said, names, n=1)
    listed = ", ".join(names[:_MOST_NAMES]) + (" and more" if len(names) > _MOST_NAMES else "")
    mend = f"Did you mean {near[0]}?" if near else f"{has[0].upper()}{has[1:]}: {listed or 'none'}."
    desk.refuse(node, path, f"there is no {what} {said}.", mend)


def set_must_be(said: str, house: House, node: Node | None, path: str, desk: Desk, *, times: int = 1) -> None:
    """Note a problem where no set has this label, with the new label of a set that was renumbered.

    `times` is how many lines of the document name it, where it is told once for all.
    """
    if house.set_called(said) is not None:
        return
    lines = f" ({times} lines name it)" if times > 1 else ""
    now = next((one.label for one in house.sets if one.key == said), "")
    if now:
        whole = f"counterpoise renumber HOUSE {desk.file} {said}={now} --write"
        desk.refuse(node, path, f"set {said} is called {now} now{lines}.", f"Write {now}; for the whole file: {whole}")
        return
    labels = [one.label for one in house.sets]
    few = ", ".join(labels[:_MOST_NAMES]) + (" and more" if len(labels) > _MOST_NAMES else "")
    desk.refuse(node, path, f"there is no set {said}{lines}.", f"This house has: {few or 'none'}.")


def check_house(house: House, desk: Desk) -> None:
    """No name twice, every name known, heights, pipes and lines that can be."""
    _twice(((one, one.label) for one in house.sets), "set", desk)
    first = {one.label: one for one in reversed(house.sets)}  # a label that stands twice is told as that alone
    _twice(((one, one.permanent) for one in house.sets if one.key or first[one.label] is one), "key", desk)
    _twice(((one, one.brick) for one in house.bricks), "brick", desk)
    _twice(((one, one.bridge) for one in house.bridges), "bridge", desk)
    _twice(((one, one.rail) for one in house.rails), "rail", desk)
    _twice(((one, one.hold) for one in house.holds), "hold", desk)
    _twice(((one, one.bay) for one in house.steel), "bay", desk)
    _twice(((bay, label) for bay in house.steel for label in bay.sets), "in the loft steel, set", desk)
    labels = dict.fromkeys(_labels_written(house, desk))
    _check_bays(house, labels, desk)
    _check_notes(house.not_checked_here, labels, "this house has", desk)
    _check_sets(house, labels, desk)


def _labels_written(house: House, desk: Desk) -> Iterator[str]:
    """Also of sets that could not be read: each is told of once, at its own line."""
    written = desk.node_of(house).fields.get("sets")
    for one in written.items if isinstance(written, Items) else ():
        if isinstance(one, Fields) and isinstance(said := one.fields.get("set"), Scalar):
            yield said.text


def _check_sets(house: House, labels: Mapping[str, object], desk: Desk) -> None:
    """Each set against its house; a fault that stands in a kind is told once, where it stands, with its sets."""
    before, told = list(desk.problems), dict[Problem, list[str]]()
    parts: dict[tuple[int, int], list[Problem]] = {}  # sets of a kind share what they do not write themselves
    for one in house.sets:
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
            told.setdefault(problem, []).append(one.label)
    desk.problems[:] = [*before, *(_of_sets(problem, having) for problem, having in told.items())]


def _of_sets(problem: Problem, labels: list[str]) -> Problem:
    """A problem with the sets that have it, where it stands in their kind."""
    if not problem.path.startswith("kinds."):
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
        desk.refuse(node.fields["purchase"], _where(one, "purchase", desk), f"a {one.rigged} set has no purchase.",
                    "Take the line out, or write `rigged: counterweight`.")  # fmt: skip
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


def _check_notes(notes: Iterable[NotChecked], labels: Iterable[str], has: str, desk: Desk) -> None:
    for one in notes:
        node = desk.node_of(one)
        for label in one.sets:
            must_be(label, labels, "set", node.fields["sets"], f"{node.path}.sets", has, desk)


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


def _names_match(hang: Hang, house: House, show: Show, tree: Fields, desk: Desk) -> None:
    for field, said, name in (("house", hang.house, house.name), ("show", hang.show, show.name)):
        if said != name:
            desk.refuse(tree.fields[field], field, f"the hang is for {said}, but the {field} given is {name}.",
                        f"Give the {field} file it was made for, or change the line.")  # fmt: skip


def _on_the_pipe(hang: Hang, house: House, show: Show, desk: Desk) -> None:
    for one in hang.hung:
        line_set, piece = house.set_called(one.label), show.piece_called(one.piece)
        if line_set is None or piece is None or one.centre.best is None or line_set.batten.length.best is None:
            continue
        half = line_set.batten.length.best / 2
        reach = [pick.number for pick in piece.picks if pick.best is not None]
        if piece.spread_over is not None and piece.spread_over.best is not None:
            reach = [-piece.spread_over.best / 2, piece.spread_over.best / 2]
        reach += [cable.at.best for cable in piece.cables if cable.at is not None and cable.at.best is not None]
        if any(abs(one.centre.best + at) > half + 1e-6 for at in reach):
            node = desk.node_of(one)
            mend = "Move its centre." if piece.spread_over else "Move its centre, or its picks."
            desk.refuse(node.fields["centre"], f"{node.path}.centre",
                        f"{one.piece} centred at {one.centre.text} reaches past the end of set {one.label}'s batten "
                        f"({line_set.batten.length.text}).", mend)  # fmt: skip


def _within_travel(hang: Hang, house: House, desk: Desk) -> None:
    """A trim that the set can not reach would else be left out of what is judged."""
    for one in hang.hung:
        line_set = house.set_called(one.label)
        if line_set is None or line_set.low_trim.best is None or line_set.high_trim.best is None:
            continue
        bottom, top = line_set.low_trim.best - 1e-6, line_set.high_trim.best + 1e-6
        for name, at in one.trims.items():
            if at.low is not None and at.high is not None and not bottom <= at.low <= at.high <= top:
                desk.refuse(desk.node_of(one), at.path, f"trim {name} at {at.text} is outside the travel of set "
                            f"{one.label}, {line_set.low_trim.text} to {line_set.high_trim.text}.",
                            "Give the height of the batten above the stage floor.")  # fmt: skip
