"""A line schedule, read and written as a house file: what it states and no more, each value with its cell."""

from __future__ import annotations

import json
import os
import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field as with_default
from pathlib import Path

from counterpoise.app.files import read_bytes, write_whole
from counterpoise.app.usual_kind import UsualKind, usual_kinds
from counterpoise.errors import Misuse, Refused
from counterpoise.exchange import ScheduledSet, Sheet, State, Understood, Value, in_one_line, read_cells, understand

_FEW = 3  # cells of a row that are named in a few words
LONGEST_COMMENT = 160
_PARTS: Mapping[str, Mapping[str, str]] = {
    "batten": {"batten length": "length", "batten pipe": "pipe"},
    "lines": {"lines at": "at", "line count": "count"},
    "arbor": {"arbor usable height": "usable height"},
}
_PLAIN = re.compile(r"[A-Za-z0-9~](?:[^\[\]{},:#\\]*[^\[\]{},:#\\\s])?\Z")
_HEAD = 4000  # characters in which a document says what it is
_DOCUMENT = re.compile(r"(?:\s*#[^\n]*\n|\s+|---[^\n]*\n)*\{?\s*\"?counterpoise\"?\s*:\s*\"?(house|show|hang) \d")
_NULLS = frozenset({"null", "~"})  # YAML's own, which a document takes for nothing written
_KNOWS = frozenset({"unknown", "none"})


@dataclass(frozen=True, slots=True, kw_only=True)
class Told:
    """What the user says about a schedule, as `understand` takes it, and which sheet is meant."""

    sheet: str = ""
    columns: Mapping[str, str] = with_default(default_factory=dict)
    units: Mapping[str, str] = with_default(default_factory=dict)
    every: Mapping[str, str] = with_default(default_factory=dict)
    words: Mapping[str, str] = with_default(default_factory=dict)


@dataclass(frozen=True, slots=True, kw_only=True)
class ReadSchedule:
    """A schedule that was read, and the other sheets of its file that hold sets too."""

    understood: Understood
    others: tuple[str, ...]


def read_schedule(data: bytes | str, name: str, told: Told) -> ReadSchedule:
    """Read the sheet that holds the schedule.

    Args:
        data: of the file, or pasted text.
        name: what the reader calls it.
        told: what the user says; without a sheet, the visible one that states most sets is taken.

    Raises:
        BadDocument: no table.
        Misuse: it is a house, a show or a hang already, or the user's words name what is not there.
    """
    _no_document(data, name)
    sheets = read_cells(data, name)
    if told.sheet:
        one = next((each for each in sheets if each.name == told.sheet), None)
        if one is None:
            names = ", ".join(each.name for each in sheets if each.name) or "no sheets with names"
            raise Misuse(f'There is no sheet "{told.sheet}".', f"The file has {names}.")
        others: tuple[str, ...] = ()
    else:
        one, others = _most_sets(sheets)
    found = understand(one, told.columns, told.units, told.every, told.words)
    return ReadSchedule(understood=found, others=others)


def read_schedule_file(path: Path | str, told: Told) -> ReadSchedule:
    """As `read_schedule`, from a file. Raises CannotRead too."""
    return read_schedule(read_bytes(path), Path(path).name, told)


def keep_new_house(path: Path, text: str) -> None:
    """Write a house where nothing is yet. Raises Refused where a file stands, CannotWrite where it cannot be kept."""
    if os.path.lexists(path):
        raise Refused(f"{path}: already there. Nothing was written", "Name another file with --out.")
    write_whole(path, text.encode("utf-8"))


def _no_document(data: bytes | str, name: str) -> None:
    """Raise Misuse for a document of this program: it is not to be read as cells."""
    begins = data[:_HEAD] if isinstance(data, str) else data[:_HEAD].decode("utf-8", "replace")
    found = _DOCUMENT.match(begins.lstrip("\ufeff"))
    if found:
        mend = "Check it: counterpoise check FILE." if found[1] == "house" else "Give the line schedule itself."
        raise Misuse(f"{name} is a {found[1]} already, and no line schedule.", mend)


def _most_sets(sheets: Sequence[Sheet]) -> tuple[Sheet, tuple[str, ...]]:
    seen = [one for one in sheets if not one.hidden and one.rows] or [one for one in sheets if one.rows]
    if len(seen) == 1:
        return seen[0], ()
    counted = [(len(understand(one).sets), one) for one in seen]
    best = max(counted, key=lambda pair: pair[0])[1]
    return best, tuple(one.name for count, one in counted if count and one is not best)


def house_from_schedule(understood: Understood, name: str, *, read_on: str = "", units: str = "") -> str:
    """The text of a house as its schedule states it.

    Args:
        understood: what was read, with no question open that must be answered.
        name: of the house.
        read_on: the day on which it was read, as 2026-11-25; "" leaves it out.
        units: "us" or "metric" for printing; "" takes those in which most lengths of the schedule are written.

    Returns:
        A house file. Every figure of the schedule names the schedule as its source; what no field takes is in `note`,
        words of no set are in `about`, and a cell that was not understood stands as a comment beside its set.
    """
    units = units or _units(understood)
    sheet = f", sheet {understood.sheet}" if understood.sheet else ""
    source = [f"how: documented, what: {_flow(f'line schedule {understood.file}{sheet}')}"]
    if read_on:
        source.append(f"when: {_flow(f'read {read_on}')}")
    told = [f"# For every set you said: {_comment(', '.join(f'{k}: {v}' for k, v in understood.every.items()))}"]
    lines = [
        f"# Written from the line schedule {_comment(understood.file)}. Beside each value stands its cell.",
        "# What the schedule does not state is not here, and is unknown until somebody measures it.",
        *(told if understood.every else []),
        "counterpoise: house 1",
        f"name: {_scalar(name)}",
        *_about(understood),
        f"units: {units}",
        "sources:",
        f"  schedule: {{{', '.join(source)}}}",
        *(["  told: {how: assumed, what: said for every set when the schedule was read}"] if understood.every else []),
        *(["stage:", "  distances from: setting line"] if understood.datum == "setting line" else []),
        *_bricks(understood),
    ]
    kinds = usual_kinds(understood.sets)
    lines += [line for kind in kinds for line in _kind(kind, is_first=kind is kinds[0])]
    lines.append("sets:")
    lost = _lost_by_row(understood)
    for one in understood.sets:
        kind = next((each for each in kinds if one.row in each.rows), None)
        lines += _set(one, lost.get(one.row, []), kind)
    beside = {one.row for one in understood.sets}
    for row in sorted(set(lost) - beside):
        lines += [f"  # {said}" for said in lost[row]]
    return "\n".join(lines) + "\n"


def _kind(kind: UsualKind, *, is_first: bool) -> Iterator[str]:
    """What its sets have alike; written once, a figure that is found out holds for all of them."""
    if is_first:
        yield "kinds:"
    yield f"  {kind.name}:  # {len(kind.rows)} sets; write here what is so for all of them"
    yield from _values(kind.values)


def _set(one: ScheduledSet, lost: list[str], kind: UsualKind | None) -> Iterator[str]:
    yield f"  - set: {_scalar(one.label, quoted=True)}  # {one.place}"
    for said in lost:
        yield f"    # {said}"
    if kind is not None:
        yield f"    kind: {kind.name}"
    yield from _values(one.values if kind is None else kind.own(one))
    if one.notes:
        yield f"    note: {_scalar('; '.join(one.notes))}"


def _values(values: Mapping[str, Value]) -> Iterator[str]:
    """Fields of a set or a kind, each with its cell."""
    for field in ("distance", "rigged", "purchase", "twin of"):
        if field in values and (field, values[field].words) != ("rigged", "counterweight"):
            known = _sourced(values[field]) if field == "distance" else values[field].words
            yield f"    {field}: {_scalar(known, quoted=field == 'twin of')}{_from(values[field])}"
    for field in ("use", "out of service"):
        if field in values:
            yield f"    {field}: {_scalar(values[field].words)}{_from(values[field])}"
    yield from _parts(values)
    for field in ("low trim", "high trim"):
        if field in values:
            yield f"    {field}: {_scalar(_sourced(values[field]))}{_from(values[field])}"
    if "posted" in values and values["posted"].words not in _KNOWS:
        counts = values["posted counts"].words if "posted counts" in values else "unknown"
        yield "    posted:"
        yield f"      - load: {_scalar(_sourced(values['posted']))}{_from(values['posted'])}"
        yield f"        counts: {counts}"


def _parts(values: Mapping[str, Value]) -> Iterator[str]:
    """The batten, its lines, the arbor, and what balances the pipe."""
    for part, fields in _PARTS.items():
        if any(field in values for field in fields):
            yield f"    {part}:"
        for field, of in fields.items():
            if field == "lines at" and field in values:
                places = ", ".join(_flow(one) for one in values[field].words.split(", "))
                yield f"      at: [{places}]{_from(values[field])}"
            elif field in values:
                words = values[field].words if field == "batten pipe" else _sourced(values[field])
                yield f"      {of}: {_scalar(words)}{_from(values[field])}"
    if "pipe weight" in values:
        yield f"    pipe weight: {_scalar(_sourced(values['pipe weight']))}{_from(values['pipe weight'])}"
    if "brick" in values:
        yield f"    brick: {_scalar(values['brick'].words, quoted=True)}{_from(values['brick'])}"


def _bricks(understood: Understood) -> list[str]:
    """The kinds of brick that sets name; what one weighs is unknown until somebody weighs it."""
    names = dict.fromkeys(one.values["brick"].words for one in understood.sets if "brick" in one.values)
    return ["bricks:", *(f"  - brick: {_scalar(name, quoted=True)}" for name in names)] if names else []


def _about(understood: Understood) -> list[str]:
    """Words of the schedule that belong to no set; headings that came again and totals are left out."""
    words = [one.text for one in understood.prose if one.why in ("stands above the table", "words of no set")]
    machines: dict[int, list[str]] = {}
    for one in understood.prose:
        if "machine" in one.why:
            machines.setdefault(one.row, []).append(one.text)
    left_out = (f"row {one.row} ({', '.join(one.texts[:_FEW])}): {one.why}" for one in understood.left_out)
    words += [f"left out, not understood: {said}" for said in left_out]
    words += [f"not a manual set: {' '.join(texts)}" for texts in machines.values()]
    return [f"about: {_scalar('; '.join(words))}"] if words else []


def _lost_by_row(understood: Understood) -> dict[int, list[str]]:
    rows: dict[int, dict[str, list[str]]] = {}
    for one in understood.of(State.NOT_UNDERSTOOD):
        rows.setdefault(one.row, {}).setdefault(one.why, []).append(f"{one.place} {one.text!r}")
    return {row: [_comment(f"not understood: {_some(cells)}: {why}") for why, cells in said.items()]
            for row, said in rows.items()}  # fmt: skip


def _some(cells: list[str]) -> str:
    return ", ".join(cells[:_FEW]) + (f" and {len(cells) - _FEW} more" if len(cells) > _FEW else "")


def _units(understood: Understood) -> str:
    """Those of most lengths; feet and inches where there is none."""
    words = [value.words for one in understood.sets for name, value in one.values.items()
             if name in ("distance", "low trim", "high trim", "batten length")]  # fmt: skip
    metric = sum(bool(re.search(r"\b(?:m|cm|mm|met(?:re|er)s?)\Z", said)) for said in words)
    return "metric" if metric * 2 > len(words) else "us"


def _sourced(value: Value) -> str:
    if value.words in _KNOWS:
        return value.words
    return f"{value.words} @{'schedule' if value.place else 'told'}"


def _from(value: Value) -> str:
    if not value.place:
        return ""
    return f"  # {value.place}" if value.text == value.words else f"  # {value.place} {_comment(value.text)!r}"


def _comment(words: str) -> str:
    plain = in_one_line(words)
    return plain if len(plain) <= LONGEST_COMMENT else plain[: LONGEST_COMMENT - 1] + "…"


def _scalar(words: str, *, quoted: bool = False) -> str:
    """Words as a YAML value on a line of its own, read back as they are."""
    plain = in_one_line(words)
    return (
        plain
        if _PLAIN.match(plain) and plain.lower() not in _NULLS and not quoted
        else json.dumps(plain, ensure_ascii=False)
    )


def _flow(words: str) -> str:
    """Words as a YAML value inside { }."""
    return json.dumps(in_one_line(words), ensure_ascii=False)
