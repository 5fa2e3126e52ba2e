"""Forged turnbuckles with open bodies; jaw, eye or stub ends. Hooks are rated lower and are not here."""

from __future__ import annotations

from counterpoise.catalogue.row import Figure, Row, documented, from_memory

_OF = "working load limit, in line, at design factor 5"
_FEDERAL = "FF-T-791b, type I, form 1, as printed in a maintenance guide (also ASTM F1145)"
_MAKERS = "makers' tables for turnbuckles to ASTM F1145"
_SIZES = (  # size [in]; federal and makers' rating [lb]
    ("1/4", "500", "500"),
    ("5/16", "700", "800"),
    ("3/8", "1,040", "1,200"),
    ("1/2", "1,800", "2,200"),
    ("5/8", "", "3,500"),
    ("3/4", "", "5,200"),
)


def rows() -> tuple[Row, ...]:
    """All rows, smallest first."""
    return tuple(_row(*one) for one in _SIZES)


def _row(size: str, federal: str, makers: str) -> Row:
    theirs = from_memory(f"{makers} lb", _MAKERS, "high", of=_OF, by="makers' tables to ASTM F1145")
    conflicts: dict[str, tuple[Figure, ...]] = {}
    rating = theirs
    if federal:
        rating = documented(f"{federal} lb", _FEDERAL, of=_OF, by="FF-T-791b")
        conflicts = {"rating": (theirs,)} if federal != makers else {}
    return Row(
        family="turnbuckle",
        name=f"{size} in jaw or eye",
        others=(f"{size} in", f"{size} in turnbuckle", f"{size} in jaw and jaw", f"{size} in jaw and eye",
                f"{size} in eye and eye"),
        values={"rating": rating},
        conflicts=conflicts,
        note="In line only, ends moused or pinned so that it can not turn loose.",
    )  # fmt: skip
