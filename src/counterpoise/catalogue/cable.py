"""Electric cable, weight per length. All from memory: weigh a length."""

from __future__ import annotations

from counterpoise.catalogue.row import Row, from_memory

_CABLES = (
    ("12/3 SO", ("12/3 SOOW", "12/3 cord", "12/3 SO cord"), "~0.2 lb/ft", "medium"),
    (
        "six-circuit multicable",
        ("14 x 12 AWG multicable", "multicable", "6-circuit multicable"),
        "0.75..0.9 lb/ft",
        "low",
    ),
    ("4/0 single conductor", ("4/0", "4/0 feeder"), "0.8..0.9 lb/ft", "medium"),
)


def rows() -> tuple[Row, ...]:
    """All rows."""
    return tuple(
        Row(family="cable", name=name, others=others, values={"weight": from_memory(weight, "practice", confidence)},
            note="Connectors and break-outs are not in it.")
        for name, others, weight, confidence in _CABLES
    )  # fmt: skip
