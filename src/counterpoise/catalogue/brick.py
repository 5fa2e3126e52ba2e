"""What bricks are made of: weight per plan area, by thickness. A brick is weighed all the same."""

from __future__ import annotations

from counterpoise.catalogue.row import Row, computed

_SOURCE = "density {0} in tables of metals, times the thickness"
_IMPERIAL = (  # material, other names, density; weight for 1 in
    ("steel", (), "490 lb/ft3", "40.8 lb/ft2"),
    ("cast iron", ("iron",), "425 to 487 lb/ft3", "35.4..40.6 lb/ft2"),
    ("lead", (), "708 lb/ft3", "59.0 lb/ft2"),
)
_METRIC = (  # weight for 25 mm
    ("steel", (), "7850 kg/m3", "196 kg/m2"),
    ("cast iron", ("iron",), "6800 to 7800 kg/m3", "170..195 kg/m2"),
    ("lead", (), "11,340 kg/m3", "283.5 kg/m2"),
)


def rows() -> tuple[Row, ...]:
    """All rows, an inch thick and 25 mm thick."""
    return (*_thick("1 in", _IMPERIAL), *_thick("25 mm", _METRIC))


def _thick(thickness: str, table: tuple[tuple[str, tuple[str, ...], str, str], ...]) -> tuple[Row, ...]:
    return tuple(
        Row(
            family="brick",
            name=f"{material}, {thickness} thick",
            others=tuple(f"{word}, {thickness} thick" for word in others)
            + tuple(f"{thickness} {word}" for word in (material, *others)),
            values={"weight": computed(weight, _SOURCE.format(density))},
            conflicts={
                "weight": (computed("165..185 kg/m2" if thickness == "25 mm" else "34.3..38.5 lb/ft2",
                                    "density 6600 to 7400 kg/m3 of grey iron in another table, times the thickness"),)
            }
            if material == "cast iron"
            else {},
            note="Slots for the rods take some of the plan away.",
        )
        for material, others, density, weight in table
    )  # fmt: skip
