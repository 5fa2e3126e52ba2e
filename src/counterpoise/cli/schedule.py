"""`schedule`: a line schedule in, what was understood and what was not on the console, a house file out."""

from __future__ import annotations

import argparse
import json
from collections.abc import Iterable, Iterator, Sequence
from datetime import datetime
from pathlib import Path
from typing import TYPE_CHECKING, Any

from counterpoise.cli.answer import Answer, Exit
from counterpoise.errors import Misuse

if TYPE_CHECKING:
    from counterpoise.app.line_schedule import ReadSchedule
    from counterpoise.exchange import Lost, Understood

NEXT = "counterpoise serve {house}"  # draws a house
_FEW = 3  # cells of a row that are shown
_MOST = 40  # cells and rows not understood that are told one by one; --json tells all


def schedule(asked: argparse.Namespace) -> Answer:
    """Read a line schedule and write the house it states."""
    from counterpoise.app.line_schedule import Told, house_from_schedule, keep_new_house, read_schedule_file

    told = Told(sheet=asked.sheet, columns=_pairs(asked.column, "--column"), units=_pairs(asked.units, "--units"),
                every=_pairs(asked.every, "--every"), words=_pairs(asked.word, "--word"))  # fmt: skip
    found = read_schedule_file(asked.file, told)
    out = Path(asked.out)
    open_questions = [one for one in found.understood.questions if one.must]
    written = ""
    if found.understood.sets and not open_questions:
        name = asked.name or Path(asked.file).stem
        today = datetime.now().astimezone().date().isoformat()
        keep_new_house(out, house_from_schedule(found.understood, name, read_on=today))
        written = str(out)
    code = _code(found.understood, written)
    return Answer(_as_json(found, written) if asked.json else _told(found, written), code)


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """The words of the command."""
    parser.add_argument("file", metavar="FILE", help="xlsx, xls, xlsb, ods, CSV or tab-separated text")
    parser.add_argument("--sheet", default="", metavar="NAME", help="of the file; else the visible one with most sets")
    parser.add_argument("--column", action="append", default=[], metavar="COLUMN=FIELD",
                        help='what a column holds: "Dist=distance", "C=note", "D=ignore"')  # fmt: skip
    parser.add_argument("--units", action="append", default=[], metavar="FIELD=UNIT",
                        help='of bare numbers: "distance=ft", "posted=kg"')  # fmt: skip
    parser.add_argument("--every", action="append", default=[], metavar="FIELD=VALUE",
                        help='for each set whose cell is empty: "purchase=single"')  # fmt: skip
    parser.add_argument("--word", action="append", default=[], metavar="FIELD:WORD=VALUE",
                        help='what a word of cells means: "purchase: 2P=double"')  # fmt: skip
    parser.add_argument("--name", default="", help="of the house; else the name of the file")
    parser.add_argument(
        "--out",
        default="house.yaml",
        metavar="FILE",
        help="house to write; left out, house.yaml. Never over one that is there",
    )
    parser.add_argument("--json", action="store_true", help="print data instead (see: counterpoise schema schedule)")


def _pairs(words: Iterable[str], option: str) -> dict[str, str]:
    found = {}
    for one in words:
        left, between, right = one.rpartition("=")
        if not between or not left.strip() or not right.strip():
            mend = f'Write it like {option} "Dist=distance".'
            raise Misuse(f'{option} "{one}" has no = with words on both sides.', mend)
        found[left.strip()] = right.strip()
    return found


def _code(understood: Understood, written: str) -> Exit:
    from counterpoise.exchange import State

    if not written:
        return Exit.UNKNOWN if understood.questions else Exit.BAD_INPUT
    return Exit.UNKNOWN if understood.of(State.NOT_UNDERSTOOD) else Exit.WITHIN


def _told(found: ReadSchedule, written: str) -> str:
    blocks = (_head(found), _columns(found.understood), _notes(found.understood), _lost(found.understood),
              [f"Look at: {one.says} {one.mend}" for one in found.understood.remarks],
              _questions(found.understood), _end(found.understood, written))  # fmt: skip
    return "\n\n".join("\n".join(lines) for block in blocks if (lines := list(block)))


def _head(found: ReadSchedule) -> Iterator[str]:
    one = found.understood
    where = f"{one.file}, sheet {one.sheet}" if one.sheet else one.file
    yield f"{where}: {len(one.sets)} set{'s' if len(one.sets) != 1 else ''} understood."
    for told in one.told:
        yield f"Read so: {told}."
    if found.others:
        yield f"More sets stand on {', '.join(found.others)}: read one with --sheet NAME."


def _columns(one: Understood) -> list[str]:
    rows = [("column", "heading", "holds", "why, or its first cells")]
    for each in one.columns:
        holds = each.field or "?"
        why = each.why if each.heading else f"{each.why}: {', '.join(each.first) or 'blank'}"
        rows.append((each.letters, each.heading or "-", holds, why))
    return _aligned(rows)


def _notes(one: Understood) -> Iterator[str]:
    from counterpoise.exchange import State

    notes = one.of(State.NOTE)
    loose = [each for each in notes if not each.field]
    if notes:
        yield f"Kept as notes: {_cells(len(notes))}, {len(loose)} of them with no set."
    for each in loose[:_MOST]:
        yield f"    {each.place}: {_short(each.text)} ({each.why})"


def _lost(one: Understood) -> Iterator[str]:
    from counterpoise.exchange import State

    lost = one.lost
    if not lost:
        yield "Not understood: nothing."
        return
    yield f"Not understood: {_cells(len(one.of(State.NOT_UNDERSTOOD)))}."
    yield from (f"    {line}" for line in _aligned([_line(each) for each in lost[:_MOST]]))
    if len(lost) > _MOST:
        yield f"    and {len(lost) - _MOST} more; --json tells all of them."


def _line(one: Lost) -> tuple[str, ...]:
    some = ", ".join(f'"{_short(text)}"' for text in one.texts[:_FEW])
    return one.where, some + (" …" if len(one.texts) > _FEW else ""), f"{one.why}. {one.mend}"


def _questions(one: Understood) -> Iterator[str]:
    for each in one.questions:
        yield f"{'Answer first' if each.must else 'Better answered'}: {each.says[:1].upper()}{each.says[1:]}"
        if each.about == "columns":
            yield '    --column "A=set" --column "B=distance" (or note, ignore, ' + ", ".join(each.options[:12]) + ")"
        elif each.column:
            yield f'    yes: --column "{each.column}={each.about}"    no: --column "{each.column}=note"'
        elif each.word:
            first, *others = each.options
            yield f'    --word "{each.about}: {each.word}={first}" (or {", ".join(others)})'
        elif each.about == "purchase":
            yield "    " + " or ".join(f'--every "purchase={option}"' for option in each.options)
        else:
            yield "    " + " or ".join(f'--units "{each.about}={option}"' for option in each.options)
            yield f'    or leave the column out of the figures: --column "{_heading_of(one, each.about)}=note"'


def _heading_of(one: Understood, field: str) -> str:
    return next((each.heading or each.letters for each in one.columns if each.field == field), field)


def _end(one: Understood, written: str) -> Iterator[str]:
    if written:
        yield f"Written: {written}. What no cell states is unknown there until somebody measures it."
        yield f"Draw it: {NEXT.format(house=written)}"
    elif one.questions:
        yield "Nothing was written: a figure with a guessed unit would be worse than none."
    else:
        yield "Nothing was written: no row states a set."


def _aligned(rows: Sequence[tuple[str, ...]]) -> list[str]:
    widths = [max(len(row[i]) for row in rows) for i in range(len(rows[0]) - 1)]
    padded = ([cell.ljust(width) for cell, width in zip(row[:-1], widths, strict=True)] for row in rows)
    return ["  ".join([*cells, row[-1]]) for cells, row in zip(padded, rows, strict=True)]


def _cells(count: int) -> str:
    return f"{count} cell{'s' if count != 1 else ''}"


def _short(words: str, most: int = 50) -> str:
    return words if len(words) <= most else words[: most - 1] + "…"


def _as_json(found: ReadSchedule, written: str) -> str:
    one = found.understood
    data: dict[str, Any] = {
        "schema": "counterpoise schedule 1",
        "file": one.file,
        "sheet": one.sheet,
        "other sheets": list(found.others),
        "written": written,
        "columns": [
            {"column": each.letters, "heading": each.heading, "field": each.field, "unit": each.unit, "why": each.why}
            for each in one.columns
        ],
        "sets": [
            {"set": each.label, "at": each.place, "notes": list(each.notes),
             "values": {name: {"says": value.words, "at": value.place} for name, value in each.values.items()}}
            for each in one.sets
        ],
        "cells": [
            {"at": each.place, "text": each.text, "state": each.state.value, "became": each.became, "why": each.why,
             "mend": each.mend}
            for each in one.cells
        ],
        "remarks": [{"says": each.says, "mend": each.mend, "at": each.place} for each in one.remarks],
        "questions": [
            {"about": each.about, "says": each.says, "options": list(each.options), "must": each.must,
             "word": each.word, "column": each.column}
            for each in one.questions
        ],
    }  # fmt: skip
    return json.dumps(data, indent=1, ensure_ascii=True, allow_nan=False)
