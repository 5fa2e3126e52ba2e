"""Plywood and board, weight per area."""

from __future__ import annotations

from counterpoise.catalogue.row import Figure, Row, computed, from_memory

_RULE = "3 lb/ft2 for each inch of thickness, APA guide as quoted by plywood weight guides"
_SHEET = "40.6 lb for a sheet of 4 x 8 ft, printed in a guide that quotes the same rule, which gives 48 lb"
_PLYWOOD = (("1/4", "0.75"), ("3/8", "1.125"), ("1/2", "1.5"), ("5/8", "1.875"), ("3/4", "2.25"))
_REMEMBERED = (
    ("1/4 in lauan", ("lauan", "1/4 in lauan plywood"), "0.6..0.75 lb/ft2", "practice"),
    ("1/8 in hardboard", ("1/8 in tempered hardboard",), "0.6..0.7 lb/ft2", "practice"),
    ("1/4 in hardboard", ("1/4 in tempered hardboard",), "1.2..1.4 lb/ft2", "practice"),
    ("3/4 in MDF", ("18 mm MDF",), "2.8..3.1 lb/ft2", "practice"),
)


def rows() -> tuple[Row, ...]:
    """All rows: softwood plywood, then boards."""
    remembered = (Row(family="board", name=name, others=others,
                      values={"weight": from_memory(weight, source, "low")})
                  for name, others, weight, source in _REMEMBERED)  # fmt: skip
    return (*(_plywood(*one) for one in _PLYWOOD), *remembered)


def _plywood(thickness: str, weight: str) -> Row:
    conflicts: dict[str, tuple[Figure, ...]] = {}
    if thickness == "1/2":
        conflicts = {"weight": (computed("1.27 lb/ft2", _SHEET),)}
    return Row(
        family="board",
        name=f"{thickness} in softwood plywood",
        others=(f"{thickness} in plywood", f"{thickness} in ply"),
        values={"weight": computed(f"{weight} lb/ft2", _RULE)},
        conflicts=conflicts,
        note="Sheets differ by species and wet: weigh one." if not conflicts else
             "Published weights of one sheet are 18 % apart: weigh one.",
    )  # fmt: skip
