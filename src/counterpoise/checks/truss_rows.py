"""A maker's truss as one beam: moment and shear against what its maker allows the section, or prints in a table."""

from __future__ import annotations

from collections.abc import Iterator

from counterpoise.balance import Span
from counterpoise.checks.rows import Check, Input, Measure
from counterpoise.documents import Truss
from counterpoise.loadpath import Forces
from counterpoise.rigging import RiggedBatten, RiggedHouse, TableSays, least, table_says

BENT_UPWARD = (
    "it is bent upward where it hangs on a line, and its table is for two supports: ask its maker for an `allowed "
    "moment`, or whether it carries as much `both ways`"
)


def truss_rows(house: RiggedHouse, rigged: RiggedBatten, forces: Forces, loads: tuple[Input, ...]) -> Iterator[Check]:
    """Moment, splices and, where it is allowed for, shear. A table serves where no allowed figure is written."""
    truss = rigged.written.batten.truss
    assert truss is not None  # the caller looked
    table = _Table(house, rigged, forces, truss)
    yield _moment(house, rigged, forces, loads, table)
    for number, splice in enumerate(rigged.written.batten.splices, start=1):
        yield Check(key=f"{rigged.key}/splice/{number}", label=rigged.label, link="splice", line=None,
                    measure=Measure.MOMENT, value=Span(0.0, 0.0, 0.0), limit=None, formula="splice",
                    lacks="what a splice of a truss carries is not computed",
                    inputs=(Input.of("strength left at the splice", splice.strength), *loads))  # fmt: skip
    yield from _shear(house, rigged, forces, loads, table)


class _Table:
    """What its maker's table says of a truss as it hangs; `says` None where it says nothing, `lacks` why."""

    def __init__(self, house: RiggedHouse, rigged: RiggedBatten, forces: Forces, truss: Truss) -> None:
        self.truss = truss
        self.says: TableSays | None = None
        self.lacks = ""
        if not truss.table:
            return
        self.says = table_says(truss, house.rules, _longest_span(rigged, forces))
        if self.says is None:
            self.lacks = "its maker's table has no figure for so long a span between lines"
        elif truss.both_ways != "yes" and _is_bent_upward(rigged, forces):
            self.lacks = BENT_UPWARD

    @property
    def inputs(self) -> tuple[Input, ...]:
        """The figures of the table that count."""
        return tuple(Input.of(name, known) for name, known in (self.says.of if self.says else ()))


def _moment(house: RiggedHouse, rigged: RiggedBatten, forces: Forces, loads: tuple[Input, ...], table: _Table) -> Check:
    allowed = table.truss.allowed_moment
    named: tuple[Input, ...] = (Input.of("allowed moment", allowed),)
    limit, lacks, formula = least(allowed, house.rules), "", "truss"
    if allowed.is_unknown and table.truss.table:
        limit, lacks, formula = None if table.says is None else table.says.moment, table.lacks, "truss table"
        named = table.inputs or named
    return Check(key=f"{rigged.key}/batten", label=rigged.label, link="batten", line=None, measure=Measure.MOMENT,
                 value=forces.moment, limit=limit, formula=formula, lacks=forces.unproven or forces.pressed or lacks,
                 inputs=(*named, *loads))  # fmt: skip


def _shear(
    house: RiggedHouse, rigged: RiggedBatten, forces: Forces, loads: tuple[Input, ...], table: _Table
) -> Iterator[Check]:
    """Of a truss whose shear its maker allows for, by itself or by the table."""
    allowed = table.truss.allowed_shear
    limit, lacks, formula = None, "", "truss"
    named: tuple[Input, ...]
    if allowed is not None:
        limit, named = least(allowed, house.rules), (Input.of("allowed shear", allowed),)
    elif table.truss.allowed_moment.is_unknown and table.says is not None:
        limit, lacks, named, formula = table.says.shear, table.lacks, table.inputs, "truss table"
    else:
        return
    yield Check(key=f"{rigged.key}/batten shear", label=rigged.label, link="batten", line=None, measure=Measure.FORCE,
                value=forces.shear, limit=limit, formula=formula, inputs=(*named, *loads),
                lacks=forces.unproven or lacks or worst_of(forces))  # fmt: skip


def _longest_span(rigged: RiggedBatten, forces: Forces) -> float:
    """Between two lines that carry, with none that does between them [m]; where that is not known, all it can be."""
    if forces.sought:
        return rigged.lines[-1].x - rigged.lines[0].x
    return max((end - start for one in (*forces.bests, *forces.corners) for start, end, *_ in one.largest_sags),
               default=rigged.beam.length)  # fmt: skip


def _is_bent_upward(rigged: RiggedBatten, forces: Forces) -> bool:
    """True where it hangs on more than two lines, or reaches past the outer ones."""
    return len(rigged.lines) > 2 or any(one.tips for one in (*forces.bests, *forces.corners))


def worst_of(forces: Forces) -> str:
    """Why a figure that is not sought between corners is not within; "" where the corners are its extremes."""
    return f"worst of {len(forces.corners)}: lines go slack between, or too much is in doubt" if forces.sought else ""
