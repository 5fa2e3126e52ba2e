"""Stage lights, typical weights with clamp and tether. All from memory: the sheet or a scale comes first."""

from __future__ import annotations

from counterpoise.catalogue.row import Row, from_memory

_FIXTURES = (
    ("profile spot", ("ellipsoidal", "conventional profile spot"), "15..20 lb", "medium"),
    ("6 in fresnel", ("fresnel",), "8..12 lb", "low"),
    ("PAR 64", ("par can", "PAR 64 can"), "7..11 lb", "low"),
    ("LED wash, small", ("LED par",), "7..15 lb", "low"),
    ("cyc light, three-cell", ("cyc light",), "20..35 lb", "low"),
    ("moving light, mid-size", ("automated fixture, mid-size", "mid-size moving light"), "50..80 lb", "medium"),
    ("C-clamp", ("pipe clamp",), "2..3 lb", "low"),
)


def rows() -> tuple[Row, ...]:
    """All rows."""
    note = "Its cable is not in it."
    return tuple(
        Row(family="fixture", name=name, others=others, note="" if name == "C-clamp" else note,
            values={"weight": from_memory(weight, "practice", confidence)})
        for name, others, weight, confidence in _FIXTURES
    )  # fmt: skip
