"""Softwood lumber by nominal size, weight per length."""

from __future__ import annotations

from counterpoise.catalogue.row import Row, from_memory

_SOURCE = "computed: {0} in actual at 28 lb/ft3, pine"
_SIZES = (  # nominal; actual [in]; weight [lb/ft]
    ("1x2", "3/4 x 1-1/2", "0.22"),
    ("1x3", "3/4 x 2-1/2", "0.36"),
    ("1x4", "3/4 x 3-1/2", "0.51"),
    ("1x6", "3/4 x 5-1/2", "0.80"),
    ("2x4", "1-1/2 x 3-1/2", "1.02"),
    ("2x6", "1-1/2 x 5-1/2", "1.60"),
)


def rows() -> tuple[Row, ...]:
    """All rows, smallest first."""
    return tuple(
        Row(
            family="lumber",
            name=f"{nominal} pine",
            others=(nominal, f"{nominal} lumber", f"{nominal} softwood"),
            values={"weight": from_memory(f"{weight} lb/ft", _SOURCE.format(actual), "medium")},
            note="Wet or denser wood weighs up to half as much again.",
        )
        for nominal, actual, weight in _SIZES
    )
