"""Two records of one shape held against each other, field by field and figure by figure."""

from __future__ import annotations

import dataclasses
import functools
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from typing import Any

from counterpoise.documents.difference import Difference, Form
from counterpoise.documents.fields import word_of
from counterpoise.documents.known import Known, Source
from counterpoise.documents.show import Piece


def records(
    before: Any, after: Any, where: str, within: str, *, leave: Iterable[str], sets: tuple[str, ...] = ()
) -> Iterator[Difference]:  # fmt: skip
    """The differences of two records of one shape, field by field."""
    for one in dataclasses.fields(after):
        if "reader" not in one.metadata or one.name in leave:
            continue
        what = f"{within} {word_of(one.name)}".strip()
        absent = "none" if "none" in one.metadata else ""
        for each in values(getattr(before, one.name), getattr(after, one.name), where, what, absent):
            yield dataclasses.replace(each, sets=sets) if sets and not each.sets else each


def values(before: Any, after: Any, where: str, what: str, absent: str = "") -> Iterator[Difference]:
    """The differences of two values of a field, whatever they are."""
    if isinstance(before, Known) or isinstance(after, Known):
        yield from _known(before, after, where, what, absent)
    elif dataclasses.is_dataclass(before) and type(before) is type(after):
        yield from records(before, after, where, what, leave=())
    elif isinstance(before, Mapping) and isinstance(after, Mapping):
        for name in dict.fromkeys([*before, *after]):
            yield from values(before.get(name), after.get(name), where, f"{what}, {name}".removeprefix(", "))
    elif isinstance(before, tuple) and isinstance(after, tuple):
        yield from _lists(before, after, where, what)
    elif before != after:
        form = Form.CHANGED
        yield Difference(form=form, where=where, what=what, before=_said(before), after=_said(after))


def _known(before: Known | None, after: Known | None, where: str, what: str, absent: str) -> Iterator[Difference]:
    was, now = _words(before, absent), _words(after, absent)
    same = _figures(before) == _figures(after)
    vouched = _source_of(before) == _source_of(after)
    if same and vouched and was == now:
        return
    written = after or before
    path = written.path if written is not None else ""
    make = functools.partial(Difference, where=where, path=path)
    if same and vouched and was and now:
        yield make(form=Form.REWRITTEN, what=what, before=was, after=now)
    elif same and was == now:  # the source of its block is another
        yield make(form=Form.CHANGED, what=f"{what} {was}, source", before=_source_of(before), after=_source_of(after))
    elif not (same and vouched):
        yield make(form=Form.CHANGED, what=what, before=was, after=now)


def _words(one: Known | None, absent: str = "") -> str:
    """Its words; `absent` for a part that there is none of, "" for what nobody has written."""
    if one is None:
        return absent
    return "" if one.is_unknown and one.text == "nothing is written" else one.text


def _figures(one: Known | None) -> tuple[object, ...]:
    return (None,) if one is None else (one.low, one.best, one.high, one.form, bool(_words(one)))


def _source_of(one: Known | None) -> str:
    return one.source.name if one is not None and one.source is not None else ""


def _lists(before: Sequence[Any], after: Sequence[Any], where: str, what: str) -> Iterator[Difference]:
    """Things that bear names by their names, others by their place in the list; words as one list."""
    named = _namer([*before, *after])
    if named is None:
        yield from _unnamed(before, after, where, what)
        return
    old, new = ({named(one): one for one in each} for each in (before, after))
    for name, one in new.items():
        place = (
            f"{where}: {_noun(one, what)} {_shown(one, name)}" if where else f"{_noun(one, what)} {_shown(one, name)}"
        )
        if name not in old:
            yield Difference(form=Form.ADDED, where=place, what="")
        else:
            yield from records(old[name], one, place, "", leave=())
    for name, one in old.items():
        if name not in new:
            place = f"{_noun(one, what)} {_shown(one, name)}"
            yield Difference(form=Form.REMOVED, where=f"{where}: {place}" if where else place, what="")


def _namer(items: Sequence[Any]) -> Callable[[Any], str] | None:
    """How the things of a list are told apart; None where two on one side might be alike, or they bear no names."""
    if not items or not dataclasses.is_dataclass(items[0]):
        return None
    if isinstance(items[0], Piece):
        return lambda one: one.key or one.piece
    first = next((one.name for one in dataclasses.fields(items[0]) if "reader" in one.metadata), "")
    named = first if first in _NAMES else ""
    return (lambda one: str(getattr(one, named))) if named else None


_NAMES = frozenset({"brick", "bridge", "rail", "hold", "bay", "attachment", "cue", "set_"})


def _noun(one: Any, what: str) -> str:
    first = next(field.name for field in dataclasses.fields(one) if "reader" in field.metadata)
    return word_of(first) if first in _NAMES or first == "piece" else what


def _shown(one: Any, name: str) -> str:
    return one.piece if isinstance(one, Piece) else name


def _unnamed(before: Sequence[Any], after: Sequence[Any], where: str, what: str) -> Iterator[Difference]:
    if len(before) == len(after) and after and (isinstance(after[0], Known) or dataclasses.is_dataclass(after[0])):
        for number, (was, now) in enumerate(zip(before, after, strict=True), 1):
            yield from values(was, now, where, f"{what} {number}")
    elif [_plain(one) for one in before] != [_plain(one) for one in after]:
        was, now = (", ".join(_item(one) for one in each) for each in (before, after))
        yield Difference(form=Form.CHANGED, where=where, what=what, before=was or "none", after=now or "none")


def _plain(one: Any) -> object:
    if isinstance(one, Known):
        return (one.text, _figures(one), _source_of(one))
    if dataclasses.is_dataclass(one) and not isinstance(one, type):
        return tuple(_plain(getattr(one, each.name)) for each in dataclasses.fields(one) if "reader" in each.metadata)
    return [_plain(each) for each in one] if isinstance(one, tuple) else one


def _item(one: Any) -> str:
    """A thing of a list by the first words in it."""
    if isinstance(one, Known):
        return one.text
    if dataclasses.is_dataclass(one):
        values = [getattr(one, each.name) for each in dataclasses.fields(one) if "reader" in each.metadata]
        return next((said for said in map(_said, values) if said), type(one).__name__)
    return str(one)


def _said(value: Any) -> str:
    """A value in a few words; "" for one that is not written."""
    if isinstance(value, Known):
        return _words(value)
    if dataclasses.is_dataclass(value) and not isinstance(value, type):
        told = [f"{word_of(one.name)} {said}" for one in dataclasses.fields(value)
                if "reader" in one.metadata and (said := _said(getattr(value, one.name)))]  # fmt: skip
        return ", ".join(told)
    if isinstance(value, tuple):
        return ", ".join(_said(one) for one in value)
    return "" if value is None else str(value)


def sources_of(before: Any, after: Any) -> Iterator[Difference]:
    """Sources that both sides point at by one name and that say something else now."""
    old, new = _named_sources(before), _named_sources(after)
    for name, one in new.items():
        was = old.get(name)
        for word in ("how", "what", "who", "when") if was is not None and was != one else ():
            yield from values(_text_of(was, word), _text_of(one, word), f"source {name}", word)


def _text_of(one: Source | None, word: str) -> str:
    value = getattr(one, word)
    return str(getattr(value, "value", value))


def _named_sources(value: Any) -> dict[str, Source]:
    found: dict[str, Source] = {}
    pending = [value]
    seen: set[int] = set()
    while pending:
        one = pending.pop()
        if isinstance(one, Known):
            if one.source is not None and not one.source.name.startswith("catalogue/"):
                found.setdefault(one.source.name, one.source)
        elif isinstance(one, tuple):
            pending += one
        elif isinstance(one, Mapping):
            pending += one.values()
        elif dataclasses.is_dataclass(one) and not isinstance(one, type) and id(one) not in seen:
            seen.add(id(one))
            pending += [getattr(one, each.name) for each in dataclasses.fields(one)]
    return dict(sorted(found.items()))
