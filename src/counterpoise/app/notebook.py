"""A result that shows itself where it is looked at: what is so, its picture, then every set on a line."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import fields
from datetime import date
from html import escape

from counterpoise.app.judge import Texts, judge as judge_plainly
from counterpoise.checks import HouseResult, SetResult, figure_told, together
from counterpoise.checks.told import CAUTION
from counterpoise.units import Style

HEADS = ("set", "hung", "bricks", "decided by", "figure", "verdict")
_Speech = Callable[[str], str]


class Judged(HouseResult):
    """A whole hang judged, which draws itself in a notebook."""

    __slots__ = ()

    def _repr_html_(self) -> str:
        from counterpoise.app.picture import house_file  # a check on the command line draws nothing

        say = self.speech()
        heads = "".join(f"<th>{escape(say(one))}</th>" for one in HEADS)
        rows = "".join(f"<tr>{_cells(_row(self, one), say)}</tr>" for one in self.sets)
        return (f"<p>{escape(say(_counted(self)))}</p>{_findings(self, say)}{house_file(self)}"
                f"<table><tr>{heads}</tr>{rows}</table>{_listed(_below(self), say)}")  # fmt: skip


def judge(texts: Texts, on: date | None = None) -> Judged:
    """Everything computed for a hang, or a house alone, on a day.

    Args:
        texts: house, show and hang; or a house alone.
        on: the day, after which what was left unchecked until then is asked for again; None: no day is looked at.

    Raises:
        BadDocument: with every problem found in the texts.
        Unproven: statics cannot prove an answer.
    """
    result = judge_plainly(texts, on)
    return Judged(**{one.name: getattr(result, one.name) for one in fields(result)})


def _counted(result: HouseResult) -> str:
    within, over, unknown, out = result.counted()
    return (f"{result.verdict.value}: {result.house.name}: {over} over, {unknown} unknown, {within} within what was "
            f"checked, {out} out of service.")  # fmt: skip


def _findings(result: HouseResult, say: _Speech) -> str:
    """What is over or unknown, and what to do about it."""
    told = together(result.findings, [one.label for one in result.sets])
    items = [f"<li>{escape(say(f'{one.finding.verdict.value}: {one.place}: {one.finding.says}'))}<br>"
             f"{escape(say(one.finding.mend))}</li>" for one in told]  # fmt: skip
    return f"<ul>{''.join(items)}</ul>" if items else ""


def _below(result: HouseResult) -> Iterator[str]:
    """The bridges, what is not checked, and who this is for."""
    style = _style(result)
    for row in result.bridges:
        yield f"{row.label}, bricks stored and people: {figure_told(row, style)}, {row.verdict.value}."
    for one in result.not_checked:
        until = f", until {one.until}" if one.until else ""
        yield f"Not checked: {one.thing}: {one.why} ({one.who}{until})."
    if result.left_out:
        yield f"Not computed here: {'; '.join(result.left_out)}."
    yield CAUTION


def _listed(lines: Iterator[str], say: _Speech) -> str:
    return "".join(f"<p>{escape(say(one))}</p>" for one in lines)


def _cells(row: tuple[str, ...], say: _Speech) -> str:
    return "".join(f"<td>{escape(say(cell))}</td>" for cell in row)


def _row(result: HouseResult, one: SetResult) -> tuple[str, ...]:
    row, verdict = one.telling, one.verdict.value
    figure = "" if row is None else figure_told(row, _style(result))
    if one.out_of_service:
        verdict = f"{'over, ' if verdict == 'over' else ''}out of service: {one.out_of_service}"
    return one.label, ", ".join(one.hung), one.bricks, "" if row is None else row.place, figure, verdict


def _style(result: HouseResult) -> Style:
    return Style("metric" if result.house.units == "metric" else "us")
