"""A result that shows itself where it is looked at: its picture, then every set on a line."""

from __future__ import annotations

from dataclasses import fields
from datetime import date
from html import escape

from counterpoise.app.judge import Texts, judge as judge_plainly
from counterpoise.checks import HouseResult, SetResult
from counterpoise.units import Style

HEADS = ("set", "hung", "bricks", "governs", "verdict")


class Judged(HouseResult):
    """A whole hang judged, which draws itself in a notebook."""

    __slots__ = ()

    def _repr_html_(self) -> str:
        from counterpoise.app.picture import house_file  # a check on the command line draws nothing

        within, over, unknown, out = self.counted()
        said = f"{over} over, {unknown} unknown, {within} within what was checked, {out} out of service"
        rows = "".join(f"<tr>{_cells(_row(self, one))}</tr>" for one in self.sets)
        left = "".join(f"<p>Not checked: {escape(one.thing)}: {escape(one.why)} ({escape(one.who)}).</p>"
                       for one in self.not_checked)  # fmt: skip
        left += f"<p>Not computed here: {escape('; '.join(self.left_out))}.</p>" if self.left_out else ""
        heads = "".join(f"<th>{one}</th>" for one in HEADS)
        return (f"<p>{escape(self.house.name)}: {said}.</p>{house_file(self)}"
                f"<table><tr>{heads}</tr>{rows}</table>{left}")  # fmt: skip


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


def _cells(row: tuple[str, ...]) -> str:
    return "".join(f"<td>{escape(cell)}</td>" for cell in row)


def _row(result: HouseResult, one: SetResult) -> tuple[str, ...]:
    row, style = one.telling, Style("metric" if result.house.units == "metric" else "us")
    figure = "" if row is None else f"{row.place}: {' of '.join(row.printed(style))}"
    return one.label, ", ".join(one.hung), one.bricks, figure, one.verdict.value
