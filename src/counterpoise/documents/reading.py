"""Text in, a checked document out; kinds are merged on the way."""

from __future__ import annotations

from dataclasses import replace
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
from counterpoise.documents.log_cut import LogSoFar, before_the_line, before_the_problem, things_done
from counterpoise.documents.show import Show
from counterpoise.documents.text import Fields, Node, Scalar, examine
from counterpoise.documents.unused import read_kinds, read_rows, unused_kinds
from counterpoise.errors import BadDocument
from counterpoise.units.notation import NAME_OF_SOURCE, names_a_source


def read_house(text: str, file: str = "house.yaml") -> House:
    """A house from its text. Raises BadDocument with every problem found."""
    tree, desk = _open(text, file, "house")
    rows = read_rows(tree, desk)
    whole, nodes = merge_kinds(tree, desk)
    kinds, _kept = read_kinds(nodes, desk)
    house: House = _decode(House, whole, desk)
    check_house(house, desk, unused_kinds(kinds, tree.fields.get("sets")))
    _done(desk)
    return replace(house, kinds=kinds, own_rows=rows)


def read_show(text: str, file: str = "show.yaml") -> Show:
    """A show from its text. Raises BadDocument with every problem found."""
    tree, desk = _open(text, file, "show")
    rows = read_rows(tree, desk)
    tree = expand_pieces(tree, desk)
    show: Show = _decode(Show, tree, desk)
    check_show(show, desk)
    _done(desk)
    return replace(show, own_rows=rows)


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


def read_log_so_far(
    text: str, house: House, show: Show, file: str = "log.yaml", *, coming: Show | None = None
) -> LogSoFar:
    """As `read_log`, up to the first line that can not be read or does not follow on the one before.

    Raises BadDocument where that is the head of the log, or the text is JSON that is cut off: then nothing is kept.
    """
    whole, broken = text, BadDocument(())
    while True:
        try:
            tree, desk = _open(text, file, "log")
            break
        except BadDocument as bad:
            broken = BadDocument((*bad.problems, *broken.problems))
            text = before_the_line(text, min((one.line for one in bad.problems), default=0))
            if not text:
                raise broken from None
    log: Log = _decode(Log, tree, desk)
    check_log(log, house, show, desk, coming)
    of = max(len(log.done), things_done(whole))
    if not desk.problems:
        return LogSoFar(log=log, of=of, problems=broken.problems, line=len(text.splitlines()) + 1)
    found = _all_of(desk)
    kept = before_the_problem(log, tree, desk)
    problems = (*found.problems, *broken.problems)
    if kept is None:
        raise BadDocument(problems)
    return LogSoFar(log=kept, of=of, problems=problems, line=problems[0].line)


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
    tree, problems = examine(text, file, what)
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
            _add_source(name, node, named.keys[name], desk)
    elif named is not None:
        desk.refuse(
            named, "sources", "this must be a map of `name: {how, what, who, when}`.", "Indent the lines below."
        )
    return Fields({k: v for k, v in tree.fields.items() if k != "sources"}, tree.keys, "", 1, 1), desk


def _add_source(name: str, node: Node, key: Scalar, desk: Desk) -> None:
    if not names_a_source(name):
        desk.refuse(key, f"sources.{name}", "no figure can point at a source of this name with an @.", NAME_OF_SOURCE)
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
