"""What was really done, as written down: one line for each thing done, in the order in which it was done."""

from __future__ import annotations

from dataclasses import dataclass

from counterpoise.documents import fields as f
from counterpoise.documents.agreement import must_be
from counterpoise.documents.fields import Desk
from counterpoise.documents.house import House
from counterpoise.documents.known import Known
from counterpoise.documents.show import Show
from counterpoise.documents.text import Node
from counterpoise.units import Kind


@dataclass(frozen=True, slots=True, kw_only=True)
class Done:
    """A thing done. Its number, what was done, to which set, and what goes with it.

    `did` is held against what the replay knows when the log is judged, not here.
    """

    n: Known = f.written(f.quantity(Kind.COUNT, above_zero=True))
    did: str = f.written(f.text)
    set_: str = f.written(f.text, default="")
    piece: str = f.written(f.text, default="")
    bricks: Known | None = f.optional(Kind.COUNT)
    small: Known | None = f.optional(Kind.COUNT)
    brick: str = f.written(f.text, default="")
    bridge: str = f.written(f.text, default="")
    height: Known | None = f.optional(Kind.LENGTH)
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
    """A log. Names the house and the show; `begins` says whether the hang was up when it begins."""

    counterpoise: str = f.written(f.text)
    house: str = f.written(f.text)
    show: str = f.written(f.text)
    about: str = f.written(f.text, default="")
    begins: str = f.written(f.choice("empty", "hung"), default="empty")
    done: tuple[Done, ...] = f.written(f.items(f.record(Done)))


def check_log(log: Log, house: House, show: Show, desk: Desk) -> None:
    """The right house and show; numbers from 1 without a gap or a repeat; and only names that are known."""
    node = desk.node_of(log)
    for word, said, name in (("house", log.house, house.name), ("show", log.show, show.name)):
        if said != name:
            desk.refuse(node.fields[word], word, f"this log is of {said}; the {word} named is {name}.",
                        f"Name the {word} of the log, or mend this line.")  # fmt: skip
    labels, pieces = [one.label for one in house.sets], [one.piece for one in show.pieces]
    bridges, bricks = [one.bridge for one in house.bridges], [one.brick for one in house.bricks]
    before = 0
    for one in log.done:
        at = desk.node_of(one)
        before = _check_number(one, before, at.fields["n"], desk)
        for word, said, names, has in (("set", one.label, labels, "this house has"),
                                       ("piece", one.piece, pieces, "the show has"),
                                       ("bridge", one.bridge, bridges, "`bridges` has"),
                                       ("brick", one.brick, bricks, "`bricks` has")):  # fmt: skip
            if said:
                must_be(said, names, word, at.fields[word], f"{at.path}.{word}", has, desk)


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
