"""The arithmetic of a set whose lines lean with its numbers put in: axial force, drift, depth, what its ropes pull."""

from __future__ import annotations

from collections.abc import Iterator

from counterpoise.balance import on_batten, slant
from counterpoise.checks.result import SetResult
from counterpoise.checks.rows import Check, Verdict
from counterpoise.checks.working_parts import Step, modulus_said, printed_kind
from counterpoise.loadpath import Forces, Hangs
from counterpoise.units import METRES_PER_INCH, STANDARD_GRAVITY as GRAVITY, Kind, Style, length

LEAST = 1e-6  # of a figure: less than that is no part of it
TOLD_APART = 2e-3  # of a figure: less than that is told with all that is not known exactly
TELLING = 1.5e-4  # [m]; a line that reaches deeper by less than that reaches as deep


def bent_and_pressed(hangs: Hangs, style: Style, *, amplified: bool) -> Iterator[Step]:
    """Of a pipe of one section: M, grown by what presses it where that is asked for, over S, and N over A."""
    worst, section = hangs.worst_stretch(amplified=amplified), hangs.made.stretches[0]
    moment, push = abs(worst.moment), abs(worst.axial)
    more = (worst.stress - push / section.area) * section.modulus - moment if amplified else 0.0
    yield from _bent(moment, more, "the largest bending moment", style)
    yield Step("÷", "S, the section modulus of the design wall", modulus_said(section.modulus, style), section.modulus)
    yield from _along(push, worst.axial < 0.0, section.area, worst.stress, style)


def bent_and_pressed_at(hangs: Hangs, x: float, style: Style, *, amplified: bool) -> Iterator[Step]:
    """The same at a splice."""
    section = hangs.made.stretches[0]
    assert hangs.along is not None  # the caller looked
    axial = hangs.along.axial.at(x)
    bent = (hangs.stress_at(x) - abs(axial) / section.area) * section.modulus
    more = hangs.more_at(x) if amplified else 0.0
    yield from _bent(bent, more, "the bending moment at the splice", style)
    yield Step("÷", "S, the section modulus of the design wall", modulus_said(section.modulus, style), section.modulus)
    yield from _along(abs(axial), axial < 0.0, section.area, hangs.stress_at(x), style)


def _bent(moment: float, more: float, which: str, style: Style) -> Iterator[Step]:
    yield Step("", f"M, {which}", printed_kind(Kind.MOMENT, style, moment), moment)
    if more > LEAST * moment:
        says = "what the push along it adds to it at most: sec(π/2 √(N / N_E)) − 1 of the largest"
        yield Step("+", says, printed_kind(Kind.MOMENT, style, more), more)


def _along(force: float, is_push: bool, area: float, stress: float, style: Style) -> Iterator[Step]:
    if force / area > LEAST * stress:
        much = printed_kind(Kind.FORCE, style, force)
        says = f"N / A, {'a push' if is_push else 'a pull'} of {much} along it on {_area_said(area, style)}"
        yield Step("+", says, printed_kind(Kind.STRESS, style, force / area), force / area)


def _area_said(area: float, style: Style) -> str:
    return f"{area / METRES_PER_INCH**2:.3f} in²" if style.system == "us" else f"{area * 1e4:.2f} cm²"


def more_in_ropes(one: SetResult, row: Check, height: float, delta: float, style: Style) -> Iterator[Step]:
    """Of a lock that holds a batten-heavy set: how much more than most likely its leaning ropes may pull."""
    rigged = one.rigged
    if rigged is None or not rigged.runs or delta > 0.0 or row.verdict is Verdict.OVER:
        return
    likely, most = slant(rigged, height)
    heavy = GRAVITY * on_batten(rigged, height, rigged.pieces)[2] * rigged.hand_line_ratio
    more = heavy * (most - likely)
    if TOLD_APART * row.value.high < more <= row.value.high - rigged.hand_line_ratio * abs(delta):
        yield Step("+", "more, as its lines lean and how they share is not looked at here",
                   printed_kind(row.measure.value, style, more), more)  # fmt: skip


def how_it_leans(one: SetResult, row: Check, style: Style) -> str:
    """Where lines lean, at which height a figure is found, how far the batten drifted, and how deep a line reaches."""
    forces, batten = one.forces, one.batten
    if forces is None or batten is None or not batten.runs:
        return ""
    if row.link in ("lock", "hand line", "tension block"):
        most = 100.0 * (slant(batten, batten.high)[1] - 1.0)
        return f"Its lines lean: at high trim their ropes pull up to {most:.2g} % more than hangs on them."
    hangs = _shown(forces, row)
    if hangs is None or hangs.along is None:
        return ""
    along = hangs.along
    if row.line is not None:
        i = row.line - 1
    else:
        i = max(range(len(along.lower)), key=lambda each: abs(along.lower[each]))
    side = "left" if along.drift > 0.0 else "right"
    said = (f"Its lines lean. Here the batten is at {length(along.height, style)} and has drifted "
            f"{_small(along.drift, style)} toward stage {side}; line {i + 1} then leans by "
            f"{_small(along.widths[i], style)}")  # fmt: skip
    if abs(along.lower[i]) < TELLING:
        return f"{said}."
    deep = "less deep" if along.lower[i] < 0.0 else "deeper"
    return (f"{said}, and reaches {_small(along.lower[i], style)} {deep} than a plumb line that was level with it at "
            "low trim.")  # fmt: skip


def _shown(forces: Forces, row: Check) -> Hangs | None:
    """How the batten hangs where a row is found."""
    if row.formula in ("bending", "ladder", "truss", "truss table"):
        return forces.stressed_most(amplified=row.verdict is not Verdict.OVER) if row.formula == "bending" else None
    return forces.at_most(row.coefficients, vertical=row.link == "loft beam") if any(row.coefficients) else None


def _small(value: float, style: Style) -> str:
    """A short length without sign, no finer than it is known."""
    if style.system == "us":
        inches = abs(value) / METRES_PER_INCH
        return f"{inches:.1f} in" if inches >= 1.0 else f"{inches:.2f} in"
    return f"{abs(value) * 1e3:.0f} mm" if abs(value) >= 0.01 else f"{abs(value) * 1e3:.1f} mm"
