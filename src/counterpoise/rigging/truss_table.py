"""What the table that a truss's maker prints for two supports lets its section carry."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from counterpoise.documents import Known, Truss, TrussSpan
from counterpoise.rigging.rules import Rule, least

_SAME_SPAN = 1e-6  # [m]; a row of 10 ft serves lines 10 ft apart


@dataclass(frozen=True, slots=True, kw_only=True)
class TableSays:
    """The largest moment [N m] and shear [N] that its maker's figures let a truss carry, and those figures."""

    moment: float
    shear: float
    of: tuple[tuple[str, Known], ...]


def table_says(truss: Truss, rules: Mapping[str, Rule], span: float) -> TableSays | None:
    """What a maker's table lets the section carry between supports `span` apart [m]; None where it has no row for it.

    A load that is printed for a span shows the section to carry its moment and its shear there. Rows of spans as long
    or longer count: on a shorter one a truss is held nearer against falling over sideways. The truss's own weight is
    taken as counted in the figures, which allows the less. Of a range or an estimate, what may be counted on.
    """
    from counterpoise.statics import LoadTable, TableRow

    found: list[tuple[float, float, str, Known]] = []
    for row in truss.table:
        if row.span.low is None or row.span.low < span - _SAME_SPAN:
            continue
        long, figures = row.span.low, _figures(row)
        loads = {kind: least(known, rules) for kind, (known, _) in figures.items()}
        each = {kind: None if load is None else load / (long if kind == "uniform" else figures[kind][1])
                for kind, load in loads.items()}  # fmt: skip
        one = TableRow(span=long, uniform=each.get("uniform"), centre=each.get("centre"),
                       third_points=each.get("third points"))  # fmt: skip
        for _, kind, moment, shear in LoadTable(rows=(one,), source="").section_forces():
            found.append((moment, shear, f"{kind} load of the table on {row.span.text}", figures[kind][0]))
    if not found:
        return None
    bent, sheared = max(found, key=lambda one: one[0]), max(found, key=lambda one: one[1])
    of = tuple(dict.fromkeys((name, known) for _, _, name, known in (bent, sheared)))
    return TableSays(moment=bent[0], shear=sheared[1], of=of)


def _figures(row: TrussSpan) -> dict[str, tuple[Known, float]]:
    """The loads of a row by kind, and how many of the load that a beam's formula takes stand in each."""
    written = (("uniform", row.evenly, 1.0), ("centre", row.at_centre, 1.0), ("third points", row.at_thirds, 2.0))
    return {kind: (known, parts) for kind, known, parts in written if known is not None}
