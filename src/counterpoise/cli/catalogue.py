"""The catalogue on the console: families, the rows of one, or one row in full; each figure with its source."""

from __future__ import annotations

import argparse
import json
from collections.abc import Iterator
from typing import TYPE_CHECKING, Any

from counterpoise.cli.answer import Answer
from counterpoise.errors import Misuse

if TYPE_CHECKING:
    from counterpoise.catalogue import Figure, Row
    from counterpoise.units import Kind

_HOW = (
    "documented: read in a published table or a public copy of it. computed: from what its source says. default, not "
    "adopted: from memory, look it up. other: another published value, never averaged. A maker's sheet or a scale "
    "comes before all of them."
)


def catalogue(asked: argparse.Namespace) -> Answer:
    """List families, the rows of a family, or tell one row in full."""
    from counterpoise.catalogue import about, families, rows

    if asked.family is None:
        width = max(len(name) for name in families())
        lines = [f"{name:<{width}}  {len(rows(name)):3d}  {about(name)}" for name in families()]
        data: dict[str, Any] = {
            "families": [{"family": name, "about": about(name), "rows": len(rows(name))} for name in families()]
        }
        return _answer(asked, [*lines, "", "Its rows: counterpoise catalogue FAMILY"], data)
    shown = rows(asked.family) if asked.name is None else (_one(asked.family, asked.name),)
    blocks = [line for row in shown for line in (*_told(row, full=asked.name is not None), "")]
    head = [] if asked.name is not None else [f"{asked.family}: {about(asked.family)}", ""]
    return _answer(asked, [*head, *blocks, _HOW], {"rows": [_row_as_data(row) for row in shown]})


def _answer(asked: argparse.Namespace, lines: list[str], data: dict[str, Any]) -> Answer:
    if asked.json:
        return Answer(json.dumps({"schema": "counterpoise catalogue 1", **data}, indent=1, allow_nan=False))
    return Answer("\n".join(lines))


def _one(family: str, name: str) -> Row:
    from counterpoise.catalogue import find, near

    found = find(family, name)
    if found is None:
        close = near(family, name)
        mend = f"Did you mean {' or '.join(close)}?" if close else f'Its rows: counterpoise catalogue "{family}"'
        raise Misuse(f'There is no {family} "{name}" in the catalogue.', mend)
    return found


def _told(row: Row, *, full: bool) -> Iterator[str]:
    yield row.name
    if full and row.others:
        yield f"    also written: {'; '.join(row.others)}"
    for field, figure in row.values.items():
        yield f"    {field}: {_figure(row, field, figure, full=full)}"
        for other in row.conflicts.get(field, ()):
            yield f"        other: {_figure(row, field, other, full=full)}"
    if row.note:
        yield f"    {row.note}"


def _figure(row: Row, field: str, figure: Figure, *, full: bool) -> str:
    kind = _kind(row, field)
    si = f" ({_si(figure, kind)})" if full and kind.si else ""
    of = f"; {figure.of}" if figure.of else ""
    by = f" (rated by {figure.by})" if figure.by else ""
    return f"{figure.text}{si}{of}{by}. {figure.how.value}: {figure.source}."


def _si(figure: Figure, kind: Kind) -> str:
    low, _, high = _read(figure, kind)
    return f"{low:.4g} {kind.si}" if low == high else f"{low:.4g} to {high:.4g} {kind.si}"


def _read(figure: Figure, kind: Kind) -> tuple[float, float, float]:
    from counterpoise.units import read

    found = read(figure.text, kind)
    if found.low is None or found.best is None or found.high is None:
        raise ValueError(f"{figure.text} is no figure")  # a row leaves out what is unknown
    return found.low, found.best, found.high


def _kind(row: Row, field: str) -> Kind:
    from counterpoise.catalogue import kinds_of

    return kinds_of(row.family)[field]


def _row_as_data(row: Row) -> dict[str, Any]:
    return {
        "family": row.family,
        "name": row.name,
        "others": list(row.others),
        "values": {field: _figure_as_data(row, field, one) for field, one in row.values.items()},
        "conflicts": {
            field: [_figure_as_data(row, field, one) for one in several] for field, several in row.conflicts.items()
        },
        "note": row.note,
    }


def _figure_as_data(row: Row, field: str, figure: Figure) -> dict[str, Any]:
    kind = _kind(row, field)
    low, best, high = _read(figure, kind)
    return {"text": figure.text, "low": low, "best": best, "high": high, "unit": kind.si, "how": figure.how.value,
            "source": figure.source, "of": figure.of, "by": figure.by}  # fmt: skip
