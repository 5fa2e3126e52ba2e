"""Which fields belong to what was done. One that does not is refused: it would else be left out in silence."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Protocol

from counterpoise.documents.desk import Desk
from counterpoise.documents.known import Known

MOST_BRICKS = 10_000.0  # at once: no arbor and no bridge holds so many
_OF_ANY = ("n", "did", "who", "when", "note", "source")
_BRICKS = ("set", "bricks", "small", "bridge")
_CARRIED = ("bricks", "brick", "bridge")
BELONGS: Mapping[str, tuple[str, ...]] = {
    **dict.fromkeys(("hold on", "hold off", "collars up", "collars down", "lock open", "feel", "lock on",
                     "left off", "close", "lock out", "release", "note"), ("set",)),
    **dict.fromkeys(("hang", "strike"), ("set", "piece")),
    **dict.fromkeys(("bricks on", "bricks off"), _BRICKS),
    "count": (*_BRICKS, "brick"),
    "move": ("set", "height"),
    **dict.fromkeys(("rated hold on", "rated hold off"), ("set", "hold")),
    **dict.fromkeys(("bring", "send"), _CARRIED),
}  # fmt: skip
"""By what was done, the fields that go with it beside those that go with anything."""


class Line(Protocol):
    """What is looked at of a line of a log."""

    @property
    def did(self) -> str: ...  # noqa: D102
    @property
    def set_(self) -> str: ...  # noqa: D102
    @property
    def bricks(self) -> Known | None: ...  # noqa: D102
    @property
    def small(self) -> Known | None: ...  # noqa: D102


def check_fields(one: Line, desk: Desk) -> None:
    """Only fields that belong to what was done, and bricks that are moved are more than none."""
    belongs = BELONGS.get(one.did)
    if belongs is None:  # told when the log is judged
        return
    if one.did == "count":  # on an arbor, or of what lies loose
        belongs = _BRICKS if one.set_ else _CARRIED
    node = desk.node_of(one)
    for name, key in node.keys.items():
        if name not in belongs and name not in _OF_ANY:
            desk.refuse(key, f"{node.path}.{name}", f"does not belong to {one.did}, which takes {', '.join(belongs)}.",
                        "Take it out, or give what it is for a line of its own.")  # fmt: skip
    if one.did in ("bricks on", "bricks off", "bring", "send") and _is_none(one):
        at = node.fields.get("bricks", node)
        desk.refuse(at, f"{node.path}.bricks", f"{one.did} moves no brick.", "Write how many, or take the line out.")


def _is_none(one: Line) -> bool:
    """True where counts are written and all of them are 0."""
    counts = [count.best for count in (one.bricks, one.small) if count is not None]
    return bool(counts) and all(count == 0.0 for count in counts)
