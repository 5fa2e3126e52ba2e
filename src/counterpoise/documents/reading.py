"""Text in, a checked document out; kinds are merged on the way."""

from __future__ import annotations

from typing import Any

from counterpoise.documents.agreement import check_hang, check_show
from counterpoise.documents.desk import Desk, Skip
from counterpoise.documents.fields import record
from counterpoise.documents.hang import Hang
from counterpoise.documents.house import House, SourceNote
from counterpoise.documents.house_agreement import check_house
from counterpoise.documents.kinds import expand_pieces, merge_kinds
from counterpoise.documents.known import How, Source
from counterpoise.documents.log import Log, check_log
from counterpoise.documents.show import Show
from counterpoise.documents.text import Fields, Node, Scalar, examine
from counterpoise.errors import BadDocument


def read_house(text: str, file: str = "house.yaml") -> House:
    """A house from its text. Raises BadDocument with every problem found."""
    tree, desk = _open(text, file, "house")
    tree = merge_kinds(tree, desk)
    house: House = _decode(House, tree, desk)
    check_house(house, desk)
    _done(desk)
    return house


def read_show(text: str, file: str = "show.yaml") -> Show:
    """A show from its text. Raises BadDocument with every problem found."""
    tree, desk = _open(text, file, "show")
    tree = expand_pieces(tree, desk)
    show: Show = _decode(Show, tree, desk)
    check_show(show, desk)
    _done(desk)
    return show


def read_hang(text: str, house: House, show: Show, file: str = "hang.yaml") -> Hang:
    """A hang from its text, held against its house and its show. Raises BadDocument with every problem found."""
    tree, desk = _open(text, file, "hang")
    hang: Hang = _decode(Hang, tree, desk)
    check_hang(hang, house, show, tree, desk)
    _done(desk)
    return hang


def read_hang_alone(text: str, file: str = "hang.yaml") -> Hang:
    """A hang from its text by itself, not held against a house and a show. Raises BadDocument as `read_hang` does."""
    tree, desk = _open(text, file, "hang")
    hang: Hang = _decode(Hang, tree, desk)
    _done(desk)
    return hang


def read_log(text: str, house: House, show: Show, file: str = "log.yaml", *, coming: Show | None = None) -> Log:
    """A log from its text, held against its house and its show, of a changeover also against the show that comes.

    Raises BadDocument with every problem found.
    """
    tree, desk = _open(text, file, "log")
    log: Log = _decode(Log, tree, desk)
    check_log(log, house, show, desk, coming)
    _done(desk)
    return log


def kind_of(text: str, file: str) -> str:
    """What a document says it is: house, show or hang. Raises BadDocument where it says none of them."""
    tree, problems = examine(text, file)
    said = tree.fields.get("counterpoise")
    if isinstance(said, Scalar) and said.text in ("house 1", "show 1", "hang 1"):
        return said.text.split()[0]
    desk = Desk(file=file, sources={}, problems=problems)
    desk.refuse(said or tree, "counterpoise", "this is no house, show or hang.",
                "Begin the file with `counterpoise: house 1`, `show 1` or `hang 1`.")  # fmt: skip
    raise _all_of(desk)


def _open(text: str, file: str, what: str) -> tuple[Fields, Desk]:
    tree, problems = examine(text, file)
    desk = Desk(file=file, sources={}, problems=problems)
    said = tree.fields.get("counterpoise")
    if not isinstance(said, Scalar) or said.text != f"{what} 1":
        value = f"it says {said.text}" if isinstance(said, Scalar) else "it does not say what it is"
        other = isinstance(said, Scalar) and said.text in ("house 1", "show 1", "hang 1")
        mend = "Name the files in this order: HOUSE SHOW HANG." if other else \
            f"Begin the file with `counterpoise: {what} 1`."  # fmt: skip
        desk.refuse(said or tree, "counterpoise", f"this is to be a {what} document, but {value}.", mend)
        raise BadDocument(tuple(desk.problems))
    named = tree.fields.get("sources")
    if isinstance(named, Fields):
        for name, node in named.fields.items():
            _add_source(name, node, desk)
    elif named is not None:
        desk.refuse(
            named, "sources", "this must be a map of `name: {how, what, who, when}`.", "Indent the lines below."
        )
    return Fields({k: v for k, v in tree.fields.items() if k != "sources"}, tree.keys, "", 1, 1), desk


def _add_source(name: str, node: Node, desk: Desk) -> None:
    try:
        note: SourceNote = record(SourceNote)(node, desk)
    except Skip:
        return
    desk.sources[name] = Source(name=name, how=How(note.how), what=note.what, who=note.who, when=note.when)


def _decode(shape: type[Any], tree: Fields, desk: Desk) -> Any:
    try:
        return record(shape)(tree, desk)
    except Skip:
        raise _all_of(desk) from None


def _done(desk: Desk) -> None:
    if desk.problems:
        raise _all_of(desk)


def _all_of(desk: Desk) -> BadDocument:
    """Every problem once, in the order of the file; where the text itself is at fault nothing more is said of it."""
    told = {(one.line, one.column) for one in desk.problems[: desk.of_text]}
    rest = (one for one in desk.problems[desk.of_text :] if (one.line, one.column) not in told)
    found = dict.fromkeys([*desk.problems[: desk.of_text], *rest])
    return BadDocument(sorted(found, key=lambda one: (one.line, one.column)))
