"""What was really done, as written down: one line for each thing done, in the order in which it was done."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from counterpoise.documents import fields as f
from counterpoise.documents.desk import Desk
from counterpoise.documents.house import House
from counterpoise.documents.known import Known
from counterpoise.documents.log_fields import MOST_BRICKS, check_fields
from counterpoise.documents.named import must_be, set_must_be
from counterpoise.documents.numbering import check_numbering
from counterpoise.documents.show import Piece, Show
from counterpoise.documents.text import Fields, Node
from counterpoise.units import Kind

_COUNT = {
    "within": (0.0, MOST_BRICKS, f"No arbor and no bridge holds more than {MOST_BRICKS:,.0f}: write what it was.")
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Done:
    """A thing done. Its number, what was done, to which set, and what goes with it.

    `did` is held against what the replay knows when the log is judged, not here.
    """

    n: Known = f.written(f.quantity(Kind.COUNT, above_zero=True))
    did: str = f.written(f.text)
    set_: str = f.written(f.text, default="")
    piece: str = f.written(f.text, default="")
    bricks: Known | None = f.optional(Kind.COUNT, **_COUNT)
    small: Known | None = f.optional(Kind.COUNT, **_COUNT)
    brick: str = f.written(f.text, default="")
    bridge: str = f.written(f.text, default="")
    height: Known | None = f.optional(Kind.LENGTH)
    hold: str = f.written(f.text, default="")
    who: str = f.written(f.text, default="")
    when: str = f.written(f.text, default="")
    note: str = f.written(f.text, default="")
    line_of: int = 0

    @property
    def label(self) -> str:
        """The set it was done to, "" where it was none."""
        return self.set_


@dataclass(frozen=True, slots=True, kw_only=True)
class Log:
    """A log. Names the house and the show, of a changeover both; `begins` says whether the hang was up by then."""

    counterpoise: str = f.written(f.text)
    house: str = f.written(f.text)
    show: str = f.written(f.text)
    to_show: str = f.written(f.text, default="")
    about: str = f.written(f.text, default="")
    numbering: Known | None = f.optional(Kind.COUNT, above_zero=True)  # of the house, that its labels are of
    begins: str = f.written(f.choice("empty", "hung"), default="empty")
    done: tuple[Done, ...] = f.written(f.items(f.record(Done)))


def check_log(log: Log, house: House, show: Show, desk: Desk, coming: Show | None = None) -> None:
    """The right house and shows; numbers from 1 without a gap or a repeat; and only names that are known."""
    node = desk.node_of(log)
    for word, said, name in (("house", log.house, house.name), ("show", log.show, show.name)):
        if said != name:
            desk.refuse(node.fields[word], word, f"this log is of {said}; the {word} named is {name}.",
                        f"Name the {word} of the log, or mend this line.")  # fmt: skip
    _check_coming(log, coming, node, desk)
    bricks = [one.brick for one in house.bricks]
    pieces = [name for each in (show, coming) if each is not None for one in each.pieces for name in _hung_as(one)]
    places = [*(one.bridge for one in house.bridges), *(one.rail for one in house.rails)]
    _check_labels(log, house, desk)
    labels = (part for one in log.done for part in (one.label, *one.label.split("+")))
    check_numbering(labels, log.numbering, house, node, "log", desk)
    before = 0
    for one in log.done:
        at = desk.node_of(one)
        before = _check_number(one, before, at.fields["n"], desk)
        check_fields(one, desk)
        for word, said, names, has in (("piece", one.piece, pieces, "the show has"),
                                       ("bridge", one.bridge, places, "this house has"),
                                       ("hold", one.hold, [each.hold for each in house.holds], "`holds` has"),
                                       ("brick", one.brick, bricks, "`bricks` has")):  # fmt: skip
            if said:
                must_be(said, names, word, at.fields[word], f"{at.path}.{word}", has, desk)


def _hung_as(piece: Piece) -> Iterator[str]:
    """What a step hangs of a piece: itself, with its first section; each section below and each light by its number."""
    yield piece.piece
    yield from (f"section {number} of {piece.piece}" for number in range(2, len(piece.sections) + 1))
    lights = sum(1 if one.count is None else round(one.count.best or 0.0) for one in piece.takeoff if one.fixture)
    yield from (f"light {number} of {piece.piece}" for number in range(1, lights + 1))
    if lights > 1:
        yield f"rest of {piece.piece}"


def _check_coming(log: Log, coming: Show | None, node: Fields, desk: Desk) -> None:
    """A changeover is judged with what comes as well; a log of one show is not."""
    at = node.fields.get("to show", node)
    if coming is None and log.to_show:
        desk.refuse(at, "to show", f"this log goes on to {log.to_show}, and that is not given.",
                    "Give what is to hang as well: rehearse HOUSE SHOW HANG LOG --to SHOW HANG.")  # fmt: skip
    elif coming is not None and log.to_show != coming.name:
        said = f"goes on to {log.to_show}" if log.to_show else "goes on to no other show"
        desk.refuse(at, "to show", f"this log {said}; the show given as what is to hang is {coming.name}.",
                    f"Write to show: {coming.name}, or leave it away.")  # fmt: skip


def _check_labels(log: Log, house: House, desk: Desk) -> None:
    """A label that no set has is told once, at the first line that names it."""
    named: dict[str, list[Done]] = {}
    for one in log.done:
        if one.label:
            named.setdefault(one.label, []).append(one)
    for label, lines in named.items():
        if _are_married(label.split("+"), house):
            continue
        at = desk.node_of(lines[0])
        set_must_be(label, house, at.fields["set"], f"{at.path}.set", desk, times=len(lines))


def _are_married(labels: Sequence[str], house: House) -> bool:
    """True of sets whose hand lines are married and that are written as one, as in 14+15."""
    sets = [house.set_called(label) for label in labels]
    return len(sets) > 1 and all(sets) and any(one is not None and one.married == "yes" for one in sets)


def _check_number(one: Done, before: int, node: Node, desk: Desk) -> int:
    """The number of this line; a problem where it does not follow on the one before."""
    if one.n.best is None:
        desk.refuse(node, node.path, "is no number.", f"Write {before + 1}.")
        return before + 1
    number = round(one.n.best)
    if number > before + 1:
        missing = f"{before + 1}" if number == before + 2 else f"{before + 1} to {number - 1}"
        desk.refuse(node, node.path, f"follows on {before}: {missing} is missing.",
                    "Write down what was done in between, or count on from there.")  # fmt: skip
    elif number <= before:
        desk.refuse(node, node.path, f"follows on {before}: this number was there before.",
                    "Take the line out if it stands twice, else count on.")  # fmt: skip
    return number
