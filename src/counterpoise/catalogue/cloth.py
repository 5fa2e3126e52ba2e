"""Cloth, weight of the flat cloth. Fullness is added by who reckons a drape: 50 % fullness is 1.5 times the cloth."""

from __future__ import annotations

from counterpoise.catalogue.row import Row, computed, documented, from_memory

_TRAP = ("Ounces of stage velour are often those of a running yard of cloth 54 in wide, which is 1.5 square yards; a "
         "bare `25 oz` does not say which. Ask, or weigh a yard.")  # fmt: skip
_RUNNING = "{0} oz for a running yard of 54 in, over 1.5 yd2"
_SQUARE = "{0} oz taken for a square yard"
_VELOURS = (("13", "8.67"), ("16", "10.7"), ("20", "13.3"), ("21", "14.0"), ("25", "16.7"))
_REMEMBERED = (
    ("heavyweight muslin", ("muslin",), "5..6 oz/yd2"),
    ("sharkstooth scrim", ("scrim", "sharktooth scrim"), "5..6 oz/yd2"),
    ("duvetyne", ("commando cloth",), "8..16 oz/yd2"),
)


def rows() -> tuple[Row, ...]:
    """All rows: velour by the running and by the square yard, drapery velvet, light cloth."""
    velours = [row for ounces, per_square in _VELOURS for row in _velour(ounces, per_square)]
    drapery = Row(
        family="cloth",
        name="drapery velvet",
        others=("velvet", "drapery velour"),
        values={"weight": documented("14..18 oz/yd2", "drapery weight guide, velvets and velours")},
    )
    remembered = (Row(family="cloth", name=name, others=others,
                      values={"weight": from_memory(weight, "practice", "medium")})
                  for name, others, weight in _REMEMBERED)  # fmt: skip
    return (*velours, drapery, *remembered)


def _velour(ounces: str, per_square: str) -> tuple[Row, Row]:
    running = computed(f"{per_square} oz/yd2", _RUNNING.format(ounces))
    square = computed(f"{ounces} oz/yd2", _SQUARE.format(ounces))
    return (
        Row(
            family="cloth",
            name=f"velour, {ounces} oz per running yard of 54 in",
            others=(f"stage velour, {ounces} oz per running yard of 54 in", f"velour {ounces} oz per running yard",
                    f"{ounces} oz velour per running yard"),
            values={"weight": running},
            conflicts={"weight": (square,)},
            note=_TRAP,
        ),
        Row(
            family="cloth",
            name=f"velour, {ounces} oz per square yard",
            others=(f"stage velour, {ounces} oz per square yard", f"velour {ounces} oz/yd2",
                    f"{ounces} oz velour per square yard"),
            values={"weight": square},
            conflicts={"weight": (running,)},
            note=_TRAP,
        ),
    )  # fmt: skip
