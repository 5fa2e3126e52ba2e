"""Round tube: metric sizes of EN 10219-2, EN 10255 and EN 39, round HSS of the AISC database, aluminium."""

from __future__ import annotations

from counterpoise.catalogue.row import Row, computed, documented, from_memory

_NAMED = "the designation itself, diameter x wall in mm ({0})"
_STEEL = "pi wall (diameter - wall) at 7850 kg/m3, the density of steel in tables of metals; {0} not read"
_ALUMINIUM = "pi wall (diameter - wall) at 2700 kg/m3, EN 1999-1-1"
_HSS = "AISC shapes database, round HSS"
_METRIC = (  # diameter and wall [mm], weight, standards
    ("33.7", "3.2", "2.41 kg/m", "EN 10219-2, EN 10255"),
    ("42.4", "3.2", "3.09 kg/m", "EN 10219-2, EN 10255"),
    ("48.3", "3.2", "3.56 kg/m", "EN 10219-2, EN 10255, EN 39"),
    ("48.3", "4.0", "4.37 kg/m", "EN 10219-2, EN 39"),
    ("60.3", "3.2", "4.51 kg/m", "EN 10219-2"),
    ("60.3", "4.0", "5.55 kg/m", "EN 10219-2"),
)
_ALUMINIUM_TUBES = (
    ("48.3", "3.2", "1.22 kg/m"),
    ("48.3", "4.0", "1.50 kg/m"),
    ("50", "4.0", "1.56 kg/m"),
)
# outside diameter, wall, design wall [in]; weight [lb/ft]
_ROUND_HSS = (
    ("1.660", "0.140", "0.130", "2.27"),
    ("1.900", "0.120", "0.111", "2.28"),
    ("1.900", "0.145", "0.135", "2.72"),
    ("1.900", "0.188", "0.174", "3.44"),
    ("2.375", "0.154", "0.143", "3.66"),
)


def rows() -> tuple[Row, ...]:
    """All rows: metric steel, aluminium, round HSS."""
    return (
        *(_steel(*one) for one in _METRIC),
        *(_aluminium(*one) for one in _ALUMINIUM_TUBES),
        *(_hss(*one) for one in _ROUND_HSS),
    )


def _steel(diameter: str, wall: str, weight: str, standards: str) -> Row:
    name = f"{diameter} x {wall}"
    named = _NAMED.format(standards)
    return Row(
        family="tube",
        name=name,
        others=(f"{name} mm", f"{name} steel", f"{name} mm steel", f"{diameter} mm x {wall} mm"),
        values={
            "outside diameter": computed(f"{diameter} mm", named),
            "wall": computed(f"{wall} mm", named),
            "weight": computed(weight, _STEEL.format(standards)),
            "modulus": from_memory("210,000 MPa", "EN 1993-1-1, 3.2.6", "high"),
        },
        conflicts={"modulus": (documented("29,000 ksi", "AISC 360, modulus of steel"),)},
    )


def _aluminium(diameter: str, wall: str, weight: str) -> Row:
    name = f"{diameter} x {wall} aluminium"
    named = _NAMED.format("EN 755")
    return Row(
        family="tube",
        name=name,
        others=(f"{diameter} x {wall} mm aluminium", f"aluminium {diameter} x {wall}"),
        values={
            "outside diameter": computed(f"{diameter} mm", named),
            "wall": computed(f"{wall} mm", named),
            "weight": from_memory(weight, f"computed: {_ALUMINIUM}", "high"),
            "modulus": from_memory("70,000 MPa", "EN 1999-1-1", "high"),
        },
        conflicts={"modulus": (from_memory("10,100 ksi", "Aluminum Design Manual", "high"),)},
        note="A weld takes about half the strength of 6061-T6 beside it (EN 1999-1-1, table 3.2b).",
    )


def _hss(diameter: str, wall: str, design_wall: str, weight: str) -> Row:
    return Row(
        family="tube",
        name=f"HSS {diameter} x {wall}",
        others=(f"{diameter} x {wall} in", f"round HSS {diameter} x {wall}"),
        values={
            "outside diameter": documented(f"{diameter} in", _HSS),
            "wall": documented(f"{wall} in", _HSS),
            "design wall": documented(f"{design_wall} in", _HSS),
            "weight": documented(f"{weight} lb/ft", _HSS),
            "modulus": documented("29,000 ksi", "AISC 360, modulus of steel"),
        },
        conflicts={
            "modulus": (from_memory("210,000 MPa", "EN 1993-1-1, 3.2.6", "high"),),
        },
        note="Yield of ASTM A500 differs by grade and edition: 42 ksi in grade B of older editions.",
    )
