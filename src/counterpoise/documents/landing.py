"""Where a piece lands, against how far it reaches down from its batten."""

from __future__ import annotations

from counterpoise.documents.desk import Desk
from counterpoise.documents.show import Piece

_ROUNDING = 1e-6  # [m]


def check_lands(one: Piece, desk: Desk) -> None:
    """It lands on the deck or on something higher, so no lower than it reaches: a figure below that would be idle."""
    heights = [part.height for part in one.sections] or [one.height]
    reaches = [*heights, *([one.ties] if one.ties is not None else [])]
    known = [each.best for each in reaches if each.best is not None]
    lands = one.lands
    if lands is None or lands.best is None or len(known) < len(reaches) or lands.best >= sum(known) - _ROUNDING:
        return
    said = " and ".join(height.text for height in heights)
    said += f" and its ties of {one.ties.text}" if one.ties is not None and one.ties.best else ""
    desk.refuse(desk.node_of(one).fields["lands"], lands.path, f"is lower than it reaches: of a height of {said} it "
                "stands on the deck before that.", "Leave `lands` out where it lands on the deck; else write how high "
                "the batten is when it touches.")  # fmt: skip
