"""What a reader should look at in a schedule that was read: order, repeats, slips of a unit, a datum, a column lost."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

from counterpoise.exchange.said import CellSaid, ColumnSaid, Remark, ScheduledSet, State
from counterpoise.exchange.service import speaks_of_hanging, speaks_of_service, speaks_of_twins
from counterpoise.exchange.sheet import Sheet
from counterpoise.exchange.tables import Table

_FAR = 40.0  # [m] upstage; no source: deeper than the flown part of a stage is likely to be
_MOST = 10  # told one by one
_NEAR = 0.05  # [m]; two battens closer than this cannot pass each other: battens alone are some 48 mm thick


def remarks_on(
    sheet: Sheet, tables: tuple[Table, ...], columns: list[ColumnSaid], sets: tuple[ScheduledSet, ...],
    cells: tuple[CellSaid, ...],
) -> tuple[Remark, ...]:  # fmt: skip
    """All remarks."""
    return (*_about_words(sets, cells), *_about_sheet(sheet, tables, sets), *_about_columns(columns),
            *_about_distances(sets), *_about_left_out(cells, sets))  # fmt: skip


def _about_words(sets: tuple[ScheduledSet, ...], cells: tuple[CellSaid, ...]) -> Iterator[Remark]:
    """Notes that speak of being out of service, of hemp or of a dead-hung batten, and were not taken at their word."""
    rows = {one.row: one for one in sets}
    for cell in cells:
        one = rows.get(cell.row)
        note = cell.state is State.NOTE
        values = one.values if one is not None else {}
        of = f" beside set {one.label}" if one is not None else ""
        if (note or cell.field == "use") and "out of service" not in values and speaks_of_service(cell.text):
            yield Remark(says=f'{cell.place}{of} says "{cell.text[:80]}". No set is out of service by it.',
                         mend="If one is, write why in the house, under out of service.", place=cell.place)  # fmt: skip
        twins = speaks_of_twins(cell.text) if note and one is not None and "twin of" not in values else ""
        if twins:
            yield Remark(says=f'{cell.place}{of} says "{cell.text[:80]}", and no set is read as a twin by it.',
                         mend="If two are flown as one, write twin of: the other set in the house, and married: yes.",
                         place=cell.place)  # fmt: skip
        hangs = speaks_of_hanging(cell.text) if note else ""
        if hangs and ("rigged" not in values or values["rigged"].words == "counterweight"):
            yield Remark(says=f'{cell.place}{of} says "{hangs}", and no set is read so by it.',
                         mend="If it is so, write rigged: hemp or rigged: dead-hung in the house.",
                         place=cell.place)  # fmt: skip


def _about_sheet(sheet: Sheet, tables: tuple[Table, ...], sets: tuple[ScheduledSet, ...]) -> Iterator[Remark]:
    if sheet.hidden:
        yield Remark(says=f"The sheet {sheet.name} is hidden in its file.", mend="See that it is not an old one.")
    if len(tables) > 1:
        yield Remark(says=f"{len(tables)} tables stand on this sheet, and all of them were read.",
                     mend="See that all of them belong to this house.")  # fmt: skip
    silent = [one.label for one in sets if "distance" not in one.values]
    if silent:
        yield Remark(says=f"No distance for {_some(silent)}.", mend="Measure it, or leave it unknown.")


def _about_columns(columns: list[ColumnSaid]) -> Iterator[Remark]:
    from_setting = [one for one in columns if one.field == "distance" and one.datum == "setting line"]
    if from_setting:
        says = f'"{from_setting[0].heading}" counts from the setting line, and so does the house file.'
        yield Remark(says=says, mend="See that the line is marked on the deck.", place=from_setting[0].letters)
    fields = {one.field for one in columns}
    if columns and "distance" not in fields:
        yield Remark(says="No column holds the distance of a set.", mend="Say which one does, or measure.")


def _about_distances(sets: tuple[ScheduledSet, ...]) -> Iterator[Remark]:
    at = [(metres, one) for one in sets if (metres := _metres(one)) is not None]
    far = [one.label for metres, one in at if metres > _FAR]
    if far:
        yield Remark(says=f"Further than {_FAR:.0f} m upstage: {_some(far)}.",
                     mend="See whether the unit of the column is right.")  # fmt: skip
    told = 0
    for (before, first), (metres, one) in pairwise(at):
        said, last = one.values["distance"], first.values["distance"]
        if metres < before:
            says = f"Set {one.label} at {said.words} comes after set {first.label} at {last.words}: out of order."
        elif metres - before < _NEAR:
            says = f"Sets {first.label} and {one.label} are at {last.words} and {said.words}: too close to pass."
        else:
            continue
        told += 1
        if told <= _MOST:
            yield Remark(says=says, mend="See which of the two is right.", place=said.place)
    if told > _MOST:
        yield Remark(says=f"{told - _MOST} more distances are out of order or too close.", mend="See the column.")


def _metres(one: ScheduledSet) -> float | None:
    return one.values["distance"].si if "distance" in one.values else None


def _about_left_out(cells: tuple[CellSaid, ...], sets: tuple[ScheduledSet, ...]) -> Iterator[Remark]:
    """Rows of which no set was made, though one may have been meant."""
    rows = {one.row for one in sets}
    told: set[int] = set()
    for one in cells:
        if one.field == "set" and one.state is State.NOT_UNDERSTOOD and one.row not in rows | told:
            told.add(one.row)
            yield Remark(says=f"Row {one.row} is left out of the house: {one.text[:40]} in {one.place} {_why(one)}.",
                         mend=one.mend, place=one.place)  # fmt: skip


def _why(one: CellSaid) -> str:
    return "stands twice" if "stands already" in one.why else one.why


def _some(labels: list[str]) -> str:
    shown = ", ".join(labels[:8])
    more = f" and {len(labels) - 8} more" if len(labels) > 8 else ""
    return f"{'set' if len(labels) == 1 else 'sets'} {shown}{more}"
