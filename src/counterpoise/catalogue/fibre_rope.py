"""Fibre rope: hand lines and hemp."""

from __future__ import annotations

from counterpoise.catalogue.row import Row, computed, documented

_CI = "table of Cordage Institute minimum strengths, as printed by a distributor"
_CI_1308 = "CI 1308-96, natural fibre rope (design factor 5 to 12)"
_STRENGTH = "minimum breaking strength, new rope, without knots"
_APPROXIMATE = "breaking strength, approximate, without knots"
_COMPARED = "comparison table of ropes, approximate"
_MANILA = (  # size [in]; strength, working load [lb]; weight, weight in CI 1308-96 [lb/100 ft]
    ("5/8", "3,960", "496", "13.3", "12.7"),
    ("3/4", "4,860", "695", "16.7", "15.9"),
)
_SYNTHETIC = (("1/2", "blend", "4,500"), ("5/8", "blend", "6,400"), ("1/2", "polyester", "6,400"),
              ("5/8", "polyester", "10,000"))  # fmt: skip


def rows() -> tuple[Row, ...]:
    """All rows: manila, then blend and polyester."""
    return (*(_manila(*one) for one in _MANILA), *(_synthetic(*one) for one in _SYNTHETIC))


def _manila(size: str, strength: str, load: str, weight: str, other: str) -> Row:
    return Row(
        family="fibre rope",
        name=f"{size} in manila",
        others=(f"{size} in manila 3-strand", f"{size} in hemp", f"manila {size} in"),
        values={
            "diameter": computed(f"{size} in", "the nominal size itself"),
            "weight": documented(f"{weight} lb/100 ft", _CI),
            "breaking strength": documented(f"{strength} lb", _CI, of=_STRENGTH, by="Cordage Institute"),
            "rating": documented(f"{load} lb", _CI, of="working load in the same table", by="Cordage Institute"),
        },
        conflicts={"weight": (documented(f"{other} lb/100 ft", _CI_1308),)},
        note="Strength falls with age, wet and dry heat. A knot leaves about half.",
    )


def _synthetic(size: str, fibre: str, strength: str) -> Row:
    return Row(
        family="fibre rope",
        name=f"{size} in {fibre}",
        others=(f"{size} in {fibre} rope", f"{fibre} {size} in"),
        values={
            "diameter": computed(f"{size} in", "the nominal size itself"),
            "breaking strength": documented(f"~{strength} lb", _COMPARED, of=_APPROXIMATE, by="a comparison table"),
        },
        note="Weight and working load differ by maker: take them from its sheet.",
    )
