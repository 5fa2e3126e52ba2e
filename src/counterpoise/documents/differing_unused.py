"""What changed in kinds of which no set is, and in rows of the own catalogue that no figure comes from."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from counterpoise.documents.comparing import records, values
from counterpoise.documents.difference import Difference, Form
from counterpoise.documents.house import House
from counterpoise.documents.show import Show


def unused_differences(before: House | Show, after: House | Show, told: Iterable[Difference]) -> Iterator[Difference]:
    """What changed in kinds of which no set is, and in rows of which no figure that was told of is."""
    paths = {one.path for one in told}
    old, new = before.own_rows, after.own_rows
    for name in dict.fromkeys([*old, *new]):
        where = f"catalogue, {name}"
        if name not in old or name not in new:
            yield Difference(form=Form.ADDED if name in new else Form.REMOVED, where=where, what="")
        else:
            yield from (one for one in values(old[name], new[name], where, "") if one.path not in paths)
    if isinstance(before, House) and isinstance(after, House):
        yield from _of_kinds(before, after)


def _of_kinds(before: House, after: House) -> Iterator[Difference]:
    old, new = before.kinds, after.kinds
    unused = [name for name in new if name in old and not _is_used(name, before) and not _is_used(name, after)]
    for name in unused:
        yield from records(old[name], new[name], f"kind {name}", "", leave=("set_",))
    for name in dict.fromkeys([*old, *new]):
        if name not in new and not _is_used(name, before):
            yield Difference(form=Form.REMOVED, where=f"kind {name}", what="")
        elif name not in old and not _is_used(name, after):
            yield Difference(form=Form.ADDED, where=f"kind {name}", what="")


def _is_used(name: str, house: House) -> bool:
    return any(one.home == f"kinds.{name}" for one in house.sets)
