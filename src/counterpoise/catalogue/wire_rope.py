"""Wire rope. Stiffness is one figure with its source: never an area out of one table and a modulus out of another."""

from __future__ import annotations

from counterpoise.catalogue.row import Figure, Row, computed, documented, from_memory

_FAA = "FAA AC 43.13-1B, table 7-3 (MIL-W-83420, composition A, carbon steel, zinc coated)"
_MIL = "MIL-DTL-83420 and RR-W-410"
_STRENGTH = "minimum breaking strength, new rope, straight pull"
_G = "100 D2 / G with G {0}, elastic stretch in a maker's table for MIL-DTL-83420 type rope; D in inches"
_GUIDE = ("a general wire-rope guide (unsourced, low weight): metallic area 0.39 to 0.44 D2, modulus 9 to 12 million "
          "psi")  # fmt: skip
_HANDBOOK = "wire-rope handbook figures: area 0.47 to 0.48 D2, modulus 13.5 to 15 million psi"
_STRETCH = ("New rope also stretches for good as it beds in: under 1 % of its length, 1.0 to 1.75 % in another guide. "
            "Diameter may be over nominal, never under.")  # fmt: skip
# size; breaking strength [lb] and whether AC 43.13-1B was read for it; weight [lb/ft]; stiffness [lb] by G, guide, book
_7X19 = (
    ("1/8", "2,000", True, "0.029", "112,000", "54,800..82,500", "99,100..112,500"),
    ("5/32", "2,800", False, "0.045", "174,000", "85,700..129,000", "155,000..176,000"),
    ("3/16", "4,200", True, "0.065", "251,000", "123,000..186,000", "223,000..253,000"),
    ("1/4", "7,000", True, "0.110", "446,000", "219,000..330,000", "397,000..450,000"),
    ("5/16", "9,800", False, "0.173", "698,000", "343,000..516,000", "620,000..703,000"),
    ("3/8", "14,400", True, "0.243", "1,004,000", "494,000..743,000", "892,000..1,013,000"),
)
# size; breaking strength [lb], weight [lb/ft], confidence in it, stiffness [lb]
_7X7 = (
    ("1/8", "1,700", "0.028", "146,000"),
    ("3/16", "3,700", "0.062", "329,000"),
    ("1/4", "6,100", "0.106", "584,000"),
    ("5/16", "9,200", "0.167", "913,000"),
    ("3/8", "13,100", "0.236", "1,314,000"),
)
_6X19 = (("1/4", "5,480", "0.11"), ("5/16", "8,520", "0.16"), ("3/8", "12,200", "0.24"))
# diameter [mm]; minimum breaking force [kN], weight [kg/m]
_METRIC = (("5", "15.8", "0.100"), ("6", "22.7", "0.144"), ("8", "40.3", "0.256"), ("10", "63.0", "0.400"))


def rows() -> tuple[Row, ...]:
    """All rows: 7x19, 7x7, older 6x19, metric 6x19."""
    return (
        *(_aircraft(*one) for one in _7X19),
        *(_seven_by_seven(*one) for one in _7X7),
        *(_fibre_core(*one) for one in _6X19),
        *(_metric(*one) for one in _METRIC),
    )


def _aircraft(size: str, strength: str, was_read: bool, weight: str, by_g: str, guide: str, book: str) -> Row:
    breaking = f"{strength} lb"
    return Row(
        family="wire rope",
        name=f"{size} in 7x19 galvanized",
        others=(f"{size} in 7x19", f"7x19 {size} in", f"{size} in galvanized 7x19", f"{size} in aircraft cable",
                f"{size} in 7x19 aircraft cable", f"{size} in GAC"),
        values={
            "diameter": _named(size),
            "weight": from_memory(f"{weight} lb/ft", _MIL, "high"),
            "breaking strength": documented(breaking, _FAA, of=_STRENGTH, by="FAA AC 43.13-1B")
            if was_read
            else from_memory(breaking, "MIL-DTL-83420", "high", of=_STRENGTH, by="MIL-DTL-83420"),
            "stiffness": computed(f"{by_g} lb", _G.format("1.40e-5")),
        },
        conflicts={"stiffness": (computed(f"{guide} lb", _GUIDE), from_memory(f"{book} lb", _HANDBOOK, "low"))},
        note=_STRETCH,
    )  # fmt: skip


def _seven_by_seven(size: str, strength: str, weight: str, by_g: str) -> Row:
    return Row(
        family="wire rope",
        name=f"{size} in 7x7 galvanized",
        others=(f"{size} in 7x7", f"7x7 {size} in", f"{size} in galvanized 7x7"),
        values={
            "diameter": _named(size),
            "weight": from_memory(f"{weight} lb/ft", _MIL, "medium"),
            "breaking strength": from_memory(f"{strength} lb", _MIL, "medium", of=_STRENGTH, by="MIL-DTL-83420"),
            "stiffness": computed(f"{by_g} lb", _G.format("1.07e-5")),
        },
        note=_STRETCH,
    )


def _fibre_core(size: str, strength: str, weight: str) -> Row:
    table = "RR-W-410, class 2, as printed in an engineering table"
    return Row(
        family="wire rope",
        name=f"{size} in 6x19 IPS fibre core",
        others=(f"{size} in 6x19 IPS FC", f"{size} in 6x19 fibre core", f"6x19 {size} in fibre core"),
        values={
            "diameter": _named(size),
            "weight": documented(f"{weight} lb/ft", table),
            "breaking strength": documented(f"{strength} lb", table, of=_STRENGTH, by="RR-W-410, class 2"),
        },
        note="Found on older houses and hand winches. Its stiffness was not found: a fibre core gives more than steel.",
    )


def _metric(size: str, strength: str, weight: str) -> Row:
    table = "EN 12385-4, class 6x19, grade 1770: {0}"
    return Row(
        family="wire rope",
        name=f"{size} mm 6x19 1770 steel core",
        others=(f"{size} mm 6x19 IWRC 1770", f"{size} mm 6x19 IWRC"),
        values={
            "diameter": computed(f"{size} mm", "the nominal size itself"),
            "weight": from_memory(f"{weight} kg/m", table.format("0.400 kg per 100 m for each mm2 of diameter squared"),
                                  "medium"),
            "breaking strength": from_memory(
                f"{strength} kN", table.format("0.356 d2 R"), "medium", of=_STRENGTH, by="EN 12385-4"
            ),
        },
        note="Its stiffness was not found: ask its maker.",
    )  # fmt: skip


def _named(size: str) -> Figure:
    return computed(f"{size} in", "the nominal size itself")
