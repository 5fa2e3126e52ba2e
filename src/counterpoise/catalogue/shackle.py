"""Screw-pin anchor shackles of carbon steel."""

from __future__ import annotations

from counterpoise.catalogue.row import Figure, Row, computed, from_memory

_OF = "working load limit, in line, at design factor 5 (ASME B30.26; the factor from memory)"
_FEDERAL = "RR-C-271, type IVA, grade A, class 2, as copied in a rigging table in short tons of 2,000 lb: {0}"
_OLD = "former 29 CFR 1926.251, table H-19: {0} short tons"
_NOTE = ("In line only. Makers' tables to ASME B30.26: side load at 45 degrees 70 %, at 90 degrees 50 %; two equal "
         "legs in the bow keep all of it up to 120 degrees between them. A pin that stays long is moused. Round-pin "
         "shackles are outside ASME B30.26.")  # fmt: skip
_GERMAN = " Over people in German venues: at most half of it (DGUV V17 section 9, implementing note)."
_SIZES = (  # size [in], short tons as printed, [lb]
    ("3/16", "1/3", "666"),
    ("1/4", "1/2", "1,000"),
    ("5/16", "3/4", "1,500"),
    ("3/8", "1", "2,000"),
    ("7/16", "1-1/2", "3,000"),
    ("1/2", "2", "4,000"),
    ("5/8", "3-1/4", "6,500"),
    ("3/4", "4-3/4", "9,500"),
)
_OLD_TABLE = {"1/2": ("1.4", "2,800"), "5/8": ("2.2", "4,400"), "3/4": ("3.2", "6,400")}


def rows() -> tuple[Row, ...]:
    """All rows, smallest first."""
    return tuple(_row(*one) for one in _SIZES)


def _row(size: str, tons: str, pounds: str) -> Row:
    conflicts: dict[str, tuple[Figure, ...]] = {}
    if size in _OLD_TABLE:
        old, old_pounds = _OLD_TABLE[size]
        of = "working load, pin one size larger than the body"
        figure = from_memory(f"{old_pounds} lb", _OLD.format(old), "high", of=of, by="29 CFR 1926.251, former edition")
        conflicts = {"rating": (figure,)}
    return Row(
        family="shackle",
        name=f"{size} in screw pin anchor",
        others=(f"{size} in", f"{size} in shackle", f"{size} in screw pin", f"{size} in screw pin anchor shackle"),
        values={"rating": computed(f"{pounds} lb", _FEDERAL.format(tons), of=_OF, by="RR-C-271")},
        conflicts=conflicts,
        note=_NOTE + _GERMAN,
    )
