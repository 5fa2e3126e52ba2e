"""What each link of a set may carry, joined to what it does carry: every limit row of one set."""

from __future__ import annotations

from counterpoise.balance import Stack, flying_heights
from counterpoise.checks.angle_rows import fleet_rows
from counterpoise.checks.arbor_rows import arbor_rows, balance_rows
from counterpoise.checks.as_found import as_found, not_told_yet
from counterpoise.checks.batten_rows import batten_rows
from counterpoise.checks.hemp_rows import hemp_rows
from counterpoise.checks.inputs import elastic_inputs, load_inputs
from counterpoise.checks.link_rows import link_rows, no_steel_rows
from counterpoise.checks.rows import Check
from counterpoise.checks.zone_rows import zone_rows
from counterpoise.documents import HEMP
from counterpoise.loadpath import Forces, Link
from counterpoise.rigging import RiggedBatten, RiggedHouse, RiggedSet

__all__ = ["flying_heights", "rows_of"]


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
        rows += [*arbor_rows(house, rigged, stack), *balance_rows(house, rigged, stack, loads)]
    if rigged.written.rigged == HEMP:
        rows += hemp_rows(house, rigged, loads)
    return as_found(house, rigged, not_told_yet(rigged, rows))
