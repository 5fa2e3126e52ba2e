"""What each link of a set may carry, joined to what it does carry: every limit row of one set."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from counterpoise.balance import Stack, best_stack, flying_heights, stated_stack
from counterpoise.checks.angle_rows import fleet_rows
from counterpoise.checks.arbor_rows import arbor_rows, balance_rows
from counterpoise.checks.as_found import as_found, not_told_yet
from counterpoise.checks.batten_rows import batten_rows
from counterpoise.checks.guide_rows import guide_rows
from counterpoise.checks.hemp_rows import hemp_rows
from counterpoise.checks.inputs import elastic_inputs, load_inputs
from counterpoise.checks.link_rows import link_rows, no_steel_rows
from counterpoise.checks.rows import Check, Verdict
from counterpoise.checks.zone_rows import zone_rows
from counterpoise.documents import HEMP
from counterpoise.loadpath import Forces, Link, SteelPulls, links_of
from counterpoise.rigging import RiggedBatten, RiggedHouse, RiggedSet

__all__ = ["carries_something", "flying_heights", "rows_asked", "rows_of", "stack_of", "verdict_of"]


BATTEN, LINES, BALANCE = "batten", "lines", "balance"  # parts of a set, and the formulas of their rows
PARTS = {
    BATTEN: ("bending", "ladder", "truss", "splice", "sag", "overhang", "posted", "clamp"),
    LINES: ("pull", "block", "sheave", "shaft and base", "pin"),
    BALANCE: ("arbor", "guides", "stack", "lock", "hand line", "tension block", "stop", "bags", "crew"),
}
NOTHING = 1e-6  # [N]
OF_PARTS = ("pull", "tension block", "stop")  # of these a part may carry nothing at all


def rows_of(
    house: RiggedHouse, rigged: RiggedBatten, stack: Stack | None, forces: Forces, links: list[Link]
) -> list[Check]:
    """Every limit row of one set, from the batten to the steel, and on a counterweight set to the arbor.

    `stack` is None where the balance can not be computed, or there is none.
    """
    loads = load_inputs(rigged)
    rows: list[Check] = [*batten_rows(house, rigged, forces, loads)]
    rows += link_rows(house, rigged, forces, links, stack, (*loads, *elastic_inputs(rigged)))
    rows += [*fleet_rows(house, rigged), *zone_rows(house, rigged)]
    if house.bay_of(rigged.label) is None:
        rows += no_steel_rows(rigged)
    if isinstance(rigged, RiggedSet) and stack is not None:
        rows += [*arbor_rows(house, rigged, stack), *guide_rows(house, rigged, stack, loads),
                 *balance_rows(house, rigged, stack, loads)]  # fmt: skip
    if rigged.written.rigged == HEMP:
        rows += hemp_rows(house, rigged, loads)
    return [row for row in as_found(house, rigged, not_told_yet(rigged, rows)) if carries_something(row)]


def rows_of_part(
    house: RiggedHouse, rigged: RiggedBatten, stack: Stack | None, forces: Forces | None, part: str
) -> list[Check]:
    """The rows of one part of a set and no others, for one who asks many times; without shared steel."""
    loads, rows = load_inputs(rigged), list[Check]()
    if part == BATTEN and forces is not None:
        rows += batten_rows(house, rigged, forces, loads)
    if part == LINES and forces is not None:
        links = links_of(rigged, None, {}, forces)
        rows += link_rows(house, rigged, forces, links, stack, (*loads, *elastic_inputs(rigged)))
    if part == BALANCE and isinstance(rigged, RiggedSet) and stack is not None:
        rows += [*arbor_rows(house, rigged, stack), *guide_rows(house, rigged, stack, loads),
                 *balance_rows(house, rigged, stack, loads)]  # fmt: skip
    if part == BALANCE and rigged.written.rigged == HEMP:
        rows += hemp_rows(house, rigged, loads)
    return as_found(house, rigged, not_told_yet(rigged, rows))


def carries_something(row: Check) -> bool:
    """False of a part without a rating that carries nothing: whatever it may carry, it is within."""
    is_idle = row.formula in OF_PARTS and row.limit is None and row.value.high < NOTHING and not row.lacks
    return not is_idle or any(one.name.startswith("found on") for one in row.inputs)


def stack_of(rigged: RiggedSet) -> tuple[Stack, str]:
    """The stack a set is judged with: stated in the hang, else the count that balances it best."""
    stated = stated_stack(rigged)
    if stated is not None:
        return stated, "stated"
    return best_stack(rigged), "proposed"


def rows_asked(
    house: RiggedHouse, rigged: RiggedBatten, stack: Stack | None, forces: Forces, pulls: Mapping[str, SteelPulls]
) -> tuple[Check, ...]:
    """The limit rows of one set, less what a person says is not checked here.

    What is found to be over can not be signed away. `pulls` are what sets put on the steel they share, by label.
    """
    bay = house.bay_of(rigged.label)
    others = {label: pulls.get(label) for label in (bay.sets if bay else ()) if label != rigged.label}
    rows = rows_of(house, rigged, stack, forces, links_of(rigged, bay, others, forces))
    return tuple(row for row in rows if row.verdict is Verdict.OVER
                 or not any(one.covers(row.link, row.label) for one in house.not_checked))  # fmt: skip


def verdict_of(rigged: RiggedBatten, rows: Sequence[Check]) -> Verdict:
    """The worst of its rows; over where a piece hangs on a set that is out of service; unknown without any row."""
    if rigged.out_of_service and rigged.pieces:
        return Verdict.OVER
    said = {row.verdict for row in rows}
    for worse in (Verdict.OVER, Verdict.UNKNOWN):
        if worse in said:
            return worse
    return Verdict.WITHIN if said else Verdict.UNKNOWN
