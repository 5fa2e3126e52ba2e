"""Steel pipe: nominal size and wall after ASME B36.10M, design wall and weight after AISC table 1-14.

Standard weight is schedule 40 and extra strong is schedule 80 in all sizes here.
"""

from __future__ import annotations

from counterpoise.catalogue.row import Figure, Row, documented, from_memory

_SIZE = "ASME B36.10M (pipe to ASTM A53), as listed in AISC shapes database, table 1-14"
_AISC = "AISC shapes database, table 1-14 (Pipe)"
_TABLES = "ASME B36.10M, as printed in other pipe tables"
_AREA = "AISC shapes database: area {0} in2 in an older edition, {1} in2 in a newer; no rule here reads it."
# nominal size; outside diameter, wall, design wall [in]; weight [lb/ft]
_SCHEDULE_40 = (
    ("1/2", "0.840", "0.109", "0.101", "0.85"),
    ("3/4", "1.050", "0.113", "0.105", "1.13"),
    ("1", "1.315", "0.133", "0.124", "1.68"),
    ("1-1/4", "1.660", "0.140", "0.130", "2.27"),
    ("1-1/2", "1.900", "0.145", "0.135", "2.72"),
    ("2", "2.375", "0.154", "0.143", "3.66"),
    ("2-1/2", "2.875", "0.203", "0.189", "5.80"),
    ("3", "3.500", "0.216", "0.201", "7.58"),
    ("3-1/2", "4.000", "0.226", "0.211", "9.12"),
    ("4", "4.500", "0.237", "0.221", "10.8"),
)
_SCHEDULE_80 = (
    ("1/2", "0.840", "0.147", "0.137", "1.09"),
    ("3/4", "1.050", "0.154", "0.143", "1.48"),
    ("1", "1.315", "0.179", "0.166", "2.17"),
    ("1-1/4", "1.660", "0.191", "0.178", "3.00"),
    ("1-1/2", "1.900", "0.200", "0.186", "3.63"),
    ("2", "2.375", "0.218", "0.204", "5.03"),
    ("2-1/2", "2.875", "0.276", "0.257", "7.67"),
    ("3", "3.500", "0.300", "0.280", "10.3"),
    ("3-1/2", "4.000", "0.318", "0.296", "12.5"),
    ("4", "4.500", "0.337", "0.315", "15.0"),
)
# The same sizes by their DN: ASME B36.10M and ISO 6708, from memory; a name and no figure.
_DN = {"1/2": "15", "3/4": "20", "1": "25", "1-1/4": "32", "1-1/2": "40", "2": "50", "2-1/2": "65", "3": "80",
       "3-1/2": "90", "4": "100"}  # fmt: skip
_OTHER_WEIGHTS = {"2 in schedule 40": "3.65 lb/ft", "2-1/2 in schedule 40": "5.79 lb/ft"}
_NOTES = {
    "2 in schedule 40": _AREA.format("1.00", "1.02"),
    "2-1/2 in schedule 40": _AREA.format("1.59", "1.61"),
    "3 in schedule 40": _AREA.format("2.08", "2.07"),
}
_EUROPEAN_E = from_memory("210,000 MPa", "EN 1993-1-1, 3.2.6", "high")


def rows() -> tuple[Row, ...]:
    """All rows, schedule 40 first."""
    return (
        *(_row(one, "40", ("std", "standard weight")) for one in _SCHEDULE_40),
        *(_row(one, "80", ("xs", "extra strong", "extra heavy")) for one in _SCHEDULE_80),
    )


def _row(one: tuple[str, str, str, str, str], schedule: str, words: tuple[str, ...]) -> Row:
    size, diameter, wall, design_wall, weight = one
    name = f"{size} in schedule {schedule}"
    conflicts: dict[str, tuple[Figure, ...]] = {
        "modulus": (_EUROPEAN_E,),
    }
    if name in _OTHER_WEIGHTS:
        conflicts["weight"] = (documented(_OTHER_WEIGHTS[name], _TABLES),)
    return Row(
        family="pipe",
        name=name,
        others=(
            *(f"{size} in {word}" for word in words),
            *(f"DN {_DN[size]} {word}" for word in (f"schedule {schedule}", *words)),
            f"pipe {size} {words[0]}",
            f"{size} in schedule {schedule} pipe",
        ),
        values={
            "outside diameter": documented(f"{diameter} in", _SIZE),
            "wall": documented(f"{wall} in", _SIZE),
            "design wall": documented(f"{design_wall} in", _AISC),
            "weight": documented(f"{weight} lb/ft", _AISC),
            "modulus": documented("29,000 ksi", "AISC 360, modulus of steel"),
        },
        conflicts=conflicts,
        note=_NOTES.get(name, ""),
    )
