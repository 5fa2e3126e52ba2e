"""Welded chain by grade, and jack chain. One rating for one purpose: what it is a rating of stands beside it."""

from __future__ import annotations

from counterpoise.catalogue.row import Row, documented, from_memory

_OF = "working load limit, straight pull, at design factor {0} on breaking (the factor from memory)"
_LAW = "49 CFR 393.108, table of working load limits (securing cargo)"
_CHART = "working load limit chart by chain grade, ASTM A413 values"
_NOT_OVERHEAD = ("Not rated for overhead lifting: the welded steel chain specifications of the US chain makers' "
                 "association keep that to grades 80 and 100. As trim chain it is long-standing US practice and "
                 "disputed; ANSI E1.4 (2009, as quoted) asks for chain approved by its maker for the use.")  # fmt: skip
_OVERHEAD = ("Rated for overhead lifting by the welded steel chain specifications of the US chain makers' association. "
             "The figure here is of cargo securing: take the rating on its tag.")  # fmt: skip
_GRADES = (  # grade; marks; factor; size [in] and rating [lb]
    ("30", "4", (("1/4", "1,300"), ("5/16", "1,900"), ("3/8", "2,650"))),
    ("43", "3", (("1/4", "2,600"), ("5/16", "3,900"), ("3/8", "5,400"))),
    ("70", "4", (("1/4", "3,150"), ("5/16", "4,700"), ("3/8", "6,600"))),
    ("80", "4", (("1/4", "3,500"), ("5/16", "4,500"), ("3/8", "7,100"))),
    ("100", "4", (("1/4", "4,300"), ("5/16", "5,700"), ("3/8", "8,800"))),
)
_NAMES = {"30": ("proof coil", "unmarked"), "43": ("high test",), "70": ("transport",), "80": ("alloy",), "100": ()}


def rows() -> tuple[Row, ...]:
    """All rows, lowest grade first; jack chain last."""
    graded = [_graded(grade, factor, size, rating) for grade, factor, sizes in _GRADES for size, rating in sizes]
    return (_smallest(), *graded, _jack())


def _smallest() -> Row:
    of = _OF.format("4")
    return Row(
        family="chain",
        name="3/16 in grade 30",
        others=("3/16 in grade 30 chain", "3/16 in proof coil", "3/16 in unmarked"),
        values={"rating": documented("800 lb", _CHART, of=of, by="ASTM A413")},
        note=_NOT_OVERHEAD,
    )


def _graded(grade: str, factor: str, size: str, rating: str) -> Row:
    note = _OVERHEAD if grade in ("80", "100") else _NOT_OVERHEAD
    if grade == "30":
        note += " 49 CFR 393.108(d) takes unmarked chain for grade 30."
    if size == "1/4" and grade in ("80", "100"):
        note += " Alloy chain sold as 1/4 in is really 9/32 in."
    return Row(
        family="chain",
        name=f"{size} in grade {grade}",
        others=(f"{size} in grade {grade} chain", *(f"{size} in {word}" for word in _NAMES[grade])),
        values={"rating": documented(f"{rating} lb", _LAW, of=_OF.format(factor), by="49 CFR 393.108")},
        note=note,
    )


def _jack() -> Row:
    return Row(
        family="chain",
        name="No. 8 jack chain",
        others=("#8 jack chain", "8 jack chain", "jack chain"),
        values={"weight": from_memory("0.1..0.15 lb/ft", "practice", "low")},
        note="In the pocket along the bottom of a cloth. It has no rating and holds nothing up.",
    )
