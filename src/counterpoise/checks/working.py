"""The arithmetic behind a figure with its numbers put in: what the engine found, step by step, to what is printed.

Nothing is reckoned anew: each number is one that the engine gave, and the last of a sum is what is left to its total.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from counterpoise.balance import flying_heights, out_of_balance
from counterpoise.checks.counts import balances_at
from counterpoise.checks.link_rows import hand_line_on
from counterpoise.checks.result import HouseResult, SetResult
from counterpoise.checks.rows import Check, Verdict
from counterpoise.checks.steel_shares import shares_of_others
from counterpoise.checks.working_lean import bent_and_pressed, bent_and_pressed_at, how_it_leans, more_in_ropes
from counterpoise.checks.working_parts import (
    Step,
    allowed_of_part,
    carried_of_part,
    modulus_said,
    printed_kind,
    rating_of,
)
from counterpoise.loadpath import Forces, links_of
from counterpoise.rigging import RiggedSet, least
from counterpoise.statics import Beam
from counterpoise.units import STANDARD_GRAVITY, Kind, Style, length, place

NEARLY_ONE = 0.005
NEARLY_ALL = 1e-6  # by how much a sum may miss its total
LEAST = 1e-6  # of a figure: less than that is no part of it
OF_MANY = ("shared steel", "dead ends")  # what carries other sets too
MOST_NAMED = 60  # of these, before the rest is told as one
OF_MOST_LINES = ("clamp", "trim chain", "shackle", "turnbuckle", "lift line")  # of a line: its pull and no more
COMES_TO = "what it comes to"
IMPACT = 1.25  # "add 25 %" of an allowance without impact
OF_TURNED = ("block", "shaft and base")  # of blocks, which a line is turned over


@dataclass(frozen=True, slots=True)
class Working:
    """Steps, done one after the other from the first, and what comes out; `note` says which case of a rule it is."""

    says: str
    steps: tuple[Step, ...]
    figure: str
    value: float
    note: str = ""


def workings_of(result: HouseResult, key: str) -> tuple[Working, ...]:
    """How the value of a row and its limit come out; of each only where its steps can be told one by one."""
    one, row = next(((one, row) for one in result.sets for row in one.rows if row.key == key), (None, None))
    if one is None or row is None or one.forces is None:
        return ()
    style = Style(result.house.house.units)  # type: ignore[arg-type]  # the document allows just these two words
    carried = list(_carried(result, one, one.forces, row, style))
    allowed = list(_allowed(result, one, one.forces, row, style))
    told = []
    if carried:
        most = row.value.best if row.verdict is Verdict.OVER else row.value.high
        wider = most - _of_steps(carried)
        if _counts(row, wider):
            carried.append(Step("+", "more, by what is not known exactly", _finer(row, style, wider), wider))
        if wider > -NEARLY_ALL * max(abs(most), LEAST):  # else a part of it is not certain: no plain sum
            told.append(Working(COMES_TO, tuple(carried), _finer(row, style, most), most, _note(one, row, style)))
    if allowed and row.limit is not None:
        told.append(Working("what it may come to", tuple(allowed), _finer(row, style, row.limit), row.limit))
    return tuple(told)


def _finer(row: Check, style: Style, value: float) -> str:
    """With a digit more than it is told with, so that the sum is seen to come out."""
    return printed_kind(row.measure.value, style, value)


def _counts(row: Check, part: float) -> bool:
    return part > LEAST * max(abs(row.value.best), 1e-9)


def _of_steps(steps: list[Step]) -> float:
    """What the steps come to so far."""
    value = 0.0
    for step in steps:
        value = value * step.value if step.sign == "×" else value / step.value if step.sign == "÷" else \
            value - step.value if step.sign == "−" else value + step.value  # fmt: skip
    return value


def _carried(result: HouseResult, one: SetResult, forces: Forces, row: Check, style: Style) -> Iterator[Step]:
    if row.formula == "bending":
        yield from _bent(forces, row, style)
    elif row.link in ("lock", "hand line"):
        yield from _locked(one, row, style)
    elif row.link == "arbor":
        yield from _on_arbor(one, row, style)
    elif row.link == "stack":
        yield from _stacked(one, style)
    elif row.formula == "sag":
        ratio = forces.sag.best
        yield Step("", "sag as a share of its span", f"1 in {1 / ratio:,.0f}" if ratio else "none", ratio)
        yield Step("×", "that span", length(_span(forces), style), _span(forces))
    elif row.formula == "splice" and forces.best.along is not None:
        yield from _spliced(one, forces, row, style)
    elif row.formula in OF_TURNED:
        yield from _on_block(result, one, forces, row, style)
    elif row.link not in OF_MOST_LINES or row.line is None:
        parts = list(carried_of_part(result.house, one, row, style))
        if parts:
            yield from parts
        elif row.coefficients:
            yield from _pulled(forces, row, style, shares_of_others(result, one, row) if row.formula in OF_MANY else [])
    elif row.coefficients:
        yield from _pulled(forces, row, style, shares_of_others(result, one, row) if row.formula in OF_MANY else [])


def _factor(row: Check) -> float:
    """Of the pull in a line, what its turn makes of it on the block."""
    return max(row.coefficients, default=1.0)


def _note(one: SetResult, row: Check, style: Style) -> str:
    """Of a lock where to balance with what is on; of a block which case of `rating of` it is judged by."""
    if row.link != "lock" or one.rigged is None or one.stack is None:
        return " ".join(filter(None, (_case_of_rating(one, row), how_it_leans(one, row, style))))
    at = balances_at(one.rigged, one.stack)
    said = "" if at is None else f"With {one.stack.said} on it balances with the batten at {length(at, style)}."
    return " ".join(filter(None, (said, how_it_leans(one, row, style))))


def _case_of_rating(one: SetResult, row: Check) -> str:
    """Which case of `rating of` a block is judged by."""
    what, times = rating_of(one, row), f"{_factor(row):.3g} T" if row.coefficients else ""
    return {
        "line pull": "`rating of` is line pull: T itself is held against it.",
        "resultant": f"`rating of` is the resultant: a line that is turned so puts {times} on its block.",
        "unknown": f"`rating of` is not written: T and the resultant, up to {times}, were both looked at. "
        + ("Line pull alone is past it." if row.verdict is Verdict.OVER else "The larger is held against it."),
    }.get(what, "")


def _on_block(result: HouseResult, one: SetResult, forces: Forces, row: Check, style: Style) -> Iterator[Step]:
    """The pull of each line that a block turns, what the turn makes of it, and what the hand line adds."""
    assert one.batten is not None  # a set with forces has a batten
    name, _, number = row.key.removeprefix(f"{one.batten.key}/").partition("/")
    found = [link for link in links_of(one.batten, None, {}, forces) if link.name == name and link.line == row.line]
    link = found[int(number.rpartition("/")[2]) - 1 if name == "mule block" else 0]
    is_over = row.verdict is Verdict.OVER  # of a rating of unknown then by the smaller of both readings
    times = [(link.certain if is_over else 1.0) * factor for factor in link.coefficients]
    own = link.constant.best * (link.certain if is_over else 1.0)
    if row.line is not None:
        pull, turn = forces.at_most(times).tensions[row.line - 1], times[row.line - 1]
        yield Step("", f"T, the pull in line {row.line}", _finer(row, style, pull), pull)
        if turn and own > LEAST * max(pull, 1.0):
            yield Step("+", "the rope's own weight", _finer(row, style, own / turn), own / turn)
        if abs(turn - 1.0) > LEAST:
            yield Step("×", "the turn over the block, which bears the resultant", f"{turn:.4g}", turn)
        return
    for i, (factor, pull) in enumerate(zip(times, forces.at_most(times).tensions, strict=True)):
        often = "" if abs(factor - 1.0) < NEARLY_ONE else f", {factor:.4g} times"
        part = factor * pull
        yield Step("+" if i else "", f"T, the pull in line {i + 1}{often}", _finer(row, style, part), part)
    hand = hand_line_on(result.house, one.batten, one.stack, row.link)
    for says, part in (("the ropes' own weight", own),
                       ("what the hand line adds, arbor-heavy", hand.best if is_over else hand.high)):  # fmt: skip
        if _counts(row, part):
            yield Step("+", says, _finer(row, style, part), part)


def _pulled(forces: Forces, row: Check, style: Style, others: list[tuple[str, float]]) -> Iterator[Step]:
    """What each line adds, what other sets do, and what is there besides."""
    vertical = row.link == "loft beam"
    most = forces.at_most(row.coefficients, vertical=vertical)
    pulls = most.verticals if vertical else most.tensions
    parts = [(i, c * pull) for i, (c, pull) in enumerate(zip(row.coefficients, pulls, strict=True)) if c]
    rest = row.value.best - sum(part for _, part in parts)
    if rest < -LEAST * max(abs(row.value.best), 1.0):
        return  # part of it is not certain: no plain sum
    for turn, (i, part) in enumerate(parts):
        times = row.coefficients[i]
        often = "" if abs(times - 1.0) < NEARLY_ONE else f", {times:.3g} times"
        whose = " of this set" if row.formula in OF_MANY else ""
        what = "V, what hangs on" if vertical and most.along is not None else "T, the pull in"
        yield Step("+" if turn else "", f"{what} line {i + 1}{whose}{often}", _finer(row, style, part), part)
    if others and sum(part for _, part in others) <= rest + LEAST * row.value.best:
        for label, part in others[:MOST_NAMED]:
            yield Step("+", label, _finer(row, style, part), part)
        rest -= sum(part for _, part in others[:MOST_NAMED])
    if _counts(row, rest):
        yield Step("+", _what_remains(row, len(others) > MOST_NAMED), _finer(row, style, rest), rest)


def _what_remains(row: Check, some_are_left: bool) -> str:
    if row.formula in OF_MANY:
        return f"the ropes of this set{', and the other sets on the same steel' if some_are_left else ''}"
    return "the rope's own weight" if row.line is not None else "the ropes' own weight"


def _bent(forces: Forces, row: Check, style: Style) -> Iterator[Step]:
    stretches = forces.best.made.stretches
    if len(stretches) != 1:
        return
    is_over = row.verdict is Verdict.OVER
    if forces.best.along is not None:
        yield from bent_and_pressed(forces.stressed_most(amplified=not is_over), style, amplified=not is_over)
        return
    moment, modulus = forces.stressed_most(amplified=False).largest_moment, stretches[0].modulus
    yield Step("", "M, the largest bending moment", printed_kind(Kind.MOMENT, style, moment), moment)
    yield Step("÷", "S, the section modulus of the design wall", modulus_said(modulus, style), modulus)


def _spliced(one: SetResult, forces: Forces, row: Check, style: Style) -> Iterator[Step]:
    """At a splice of a pipe whose lines lean."""
    number, most = int(row.key.rsplit("/", 1)[-1]), row.verdict is not Verdict.OVER
    x = place(one.written.batten.splices[number - 1].at, length=forces.best.made.beam.length).best
    if x is not None and len(forces.best.made.stretches) == 1 and isinstance(forces.best.made.beam, Beam):
        yield from bent_and_pressed_at(forces.stressed_most_at(x, amplified=most), x, style, amplified=most)


def _locked(one: SetResult, row: Check, style: Style) -> Iterator[Step]:
    if one.rigged is None or one.stack is None:
        return
    found = [(height, out_of_balance(one.rigged, one.stack, height).best) for height in flying_heights(one.rigged)]
    height, delta = max(found, key=lambda pair: abs(pair[1]))
    heavy = "arbor" if delta > 0 else "batten"
    says = f"Δ with the batten at {length(height, style)}, {heavy}-heavy: the largest where it flies"
    yield Step("", says, _finer(row, style, abs(delta)), abs(delta))
    yield Step("×", "hand line for each length of batten travel", f"{one.rigged.hand_line_ratio:g}",
               one.rigged.hand_line_ratio)  # fmt: skip
    yield from more_in_ropes(one, row, height, delta, style)


def _on_arbor(one: SetResult, row: Check, style: Style) -> Iterator[Step]:
    rigged, stack = one.rigged, one.stack
    if rigged is None or stack is None:
        return
    plates = stack.plates(rigged)
    parts = [("the arbor itself", rigged.arbor_mass), *_bricks_of(rigged, stack.bricks, stack.small, style),
             (f"{plates} plate{'' if plates == 1 else 's'}", plates * rigged.plate_mass)]  # fmt: skip
    for turn, (says, mass) in enumerate((says, mass) for says, mass in parts if mass):
        weight = STANDARD_GRAVITY * mass
        yield Step("+" if turn else "", says, _finer(row, style, weight), weight)


def _bricks_of(rigged: RiggedSet, bricks: int, small: int, style: Style) -> Iterator[tuple[str, float]]:
    for count, kind in ((bricks, rigged.brick), (small, rigged.small)):
        if kind is not None and count:
            yield f"{count} bricks of {printed_kind(Kind.MASS, style, kind.mass)}", count * kind.mass


def _stacked(one: SetResult, style: Style) -> Iterator[Step]:
    rigged, stack = one.rigged, one.stack
    if rigged is None or stack is None:
        return
    plates = stack.plates(rigged)
    thick = plates * rigged.plate_thickness
    high = stack.height(rigged) - thick
    yield Step("", f"{stack.said} bricks, one on the other", printed_kind(Kind.LENGTH, style, high), high)
    yield Step("+", f"{plates} plate{'' if plates == 1 else 's'}", printed_kind(Kind.LENGTH, style, thick), thick)


def _span(forces: Forces) -> float:
    """The span that sags most for its length [m]."""
    start, end = forces.sags_most
    return end - start


def _allowed(result: HouseResult, one: SetResult, forces: Forces, row: Check, style: Style) -> Iterator[Step]:
    """What the limit is made of, where it is not one written figure."""
    rules = result.house.rules
    if row.limit is None:
        return
    if row.link == "lift line" and row.line is not None:
        lines = one.written.lines
        own = lines.at[row.line - 1]
        strength = least(own.breaking_strength or lines.breaking_strength, rules)
        ends, factor = least(own.termination or lines.termination, rules), rules["lift line factor"].value
        if strength is not None and ends is not None:
            yield Step("", "breaking strength of the rope", _finer(row, style, strength), strength)
            yield Step("×", "what its terminations keep", printed_kind(Kind.RATIO, style, ends), ends)
            yield Step("÷", "design factor", f"{factor:g}", factor)
    elif row.formula == "sag":
        share = rules["sag"].value
        yield Step("", "the rule of sag", f"1 in {1 / share:,.0f}", share)
        yield Step("×", "that span", length(_span(forces), style), _span(forces))
    elif row.formula in ("bags", "overhang", "splice"):
        yield from allowed_of_part(result.house, one, row, style)
    elif row.formula in OF_MANY and "add 25 %" in row.inputs[0].name:
        allowance = row.limit * IMPACT
        yield Step("", "allowance of the steel", _finer(row, style, allowance), allowance)
        yield Step("÷", "impact, which it does not count", f"{IMPACT:g}", IMPACT)
