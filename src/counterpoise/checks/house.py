"""The whole hang: each set's stack, forces, rows, verdict and findings, and the one unknown to measure first."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from datetime import date

from counterpoise.balance import Span, Stack, out_of_balance
from counterpoise.checks.bridge_rows import bridge_findings, bridge_rows
from counterpoise.checks.findings import (
    findings_of,
    missing_findings,
    nothing_checked,
    out_of_service_finding,
)
from counterpoise.checks.left_out import left_out
from counterpoise.checks.limits import flying_heights, rows_asked, stack_of, verdict_of
from counterpoise.checks.on_deck import on_deck_findings
from counterpoise.checks.pipe_weight import PIPE_WEIGHT
from counterpoise.checks.result import HouseResult, SetResult
from counterpoise.checks.rows import Check, Verdict
from counterpoise.checks.unknowns import Waiting, unknowns_of
from counterpoise.documents import LineSet
from counterpoise.loadpath import Forces, SteelPulls, Tipping, are_pulls_known, forces_of, steel_pulls, whole_pulls
from counterpoise.rigging import RiggedBatten, RiggedHouse, RiggedSet
from counterpoise.units import Style

BALANCE_STATIONS = 33  # heights at which the balance is drawn; it is straight between the kinks, which are added


def check(house: RiggedHouse, on: date | None = None) -> HouseResult:
    """Judge every set of the house under its hang.

    Args:
        house: the sets as rigged.
        on: the day it is judged for; what is not checked here only until an earlier day is asked for again. Without
            a day that is not looked at.

    Raises:
        Unproven: statics cannot prove an answer.
    """
    standing = tuple(one for one in house.not_checked if not one.has_lapsed(on))
    house = replace(house, not_checked=standing)  # so that whoever plans from this result sees the same
    found = {one.label: (one, forces_of(one)) for one in house.battens}
    pulls = {label: steel_pulls(rigged, one, house.bay_of(label)) for label, (rigged, one) in found.items()
             if isinstance(one, Forces) and are_pulls_known(rigged, one)}  # fmt: skip
    pulls |= {one.label: whole for one in house.wholes if (whole := whole_pulls(one, house.bay_of(one.label)))}
    hung: dict[str, list[str]] = {}
    for piece in house.hang.hung:
        hung.setdefault(piece.label, []).append(piece.piece)
    results = []
    for written in house.house.sets:
        rigged, what = found.get(written.label, (None, None))
        names = tuple(hung.get(written.label, ()))
        if rigged is not None and rigged.twins:
            names = tuple(piece.name for piece in rigged.pieces)
        if rigged is None or not isinstance(what, Forces):
            results.append(_uncomputed(house, written, rigged, what, names))
        else:
            results.append(_computed(house, rigged, what, pulls, names))
    bridges = tuple(bridge_rows(house))
    everything = [finding for one in results for finding in one.findings]
    everything += bridge_findings(bridges, Style(house.house.units))  # type: ignore[arg-type]  # one of these two words
    order = {Verdict.OVER: 0, Verdict.UNKNOWN: 1, Verdict.WITHIN: 2}
    everything.sort(key=lambda one: (order[one.verdict], one.code != PIPE_WEIGHT))
    return HouseResult(house=house, sets=tuple(results), findings=tuple(everything), verdict=_all(results, bridges),
                       unknowns=unknowns_of(house, [Waiting(one.label, one.forces is not None, one.rows, one.written)
                                              for one in results]), not_checked=standing, bridges=bridges,
                       left_out=_left_out(house, results))  # fmt: skip


def _left_out(house: RiggedHouse, results: Sequence[SetResult]) -> tuple[str, ...]:
    return left_out(house, [(one.written, bool(one.hung), one.rows) for one in results if one.forces is not None])


def _all(results: list[SetResult], bridges: Sequence[Check]) -> Verdict:
    said = {*(one.verdict for one in results), *(row.verdict for row in bridges)}
    for worse in (Verdict.OVER, Verdict.UNKNOWN):
        if worse in said:
            return worse
    return Verdict.WITHIN


def _computed(
    house: RiggedHouse, batten: RiggedBatten, own: Forces, pulls: Mapping[str, SteelPulls], hung: tuple[str, ...]
) -> SetResult:
    rigged = batten if isinstance(batten, RiggedSet) else None
    stack, basis = stack_of(rigged) if rigged is not None else (None, "")
    asked = rows_asked(house, batten, stack, own, pulls)
    findings = [*findings_of(house, batten, asked, pulls), *missing_findings(house, batten.label, None)]
    findings += [] if asked else [nothing_checked(batten.label)]
    verdict = verdict_of(batten, asked)
    if verdict is Verdict.WITHIN and findings:
        verdict = Verdict.UNKNOWN
    findings += on_deck_findings(house, batten)  # a note: it changes no verdict
    return SetResult(
        label=batten.label, batten=batten, rigged=rigged, stack=stack, stack_basis=basis, forces=own, rows=asked,
        balance=_balance(rigged, stack) if rigged is not None and stack is not None else (), verdict=verdict,
        out_of_service=batten.out_of_service, findings=tuple(findings), written=batten.written, hung=hung,
    )  # fmt: skip


def _uncomputed(
    house: RiggedHouse, written: LineSet, batten: RiggedBatten | None, found: object, hung: tuple[str, ...]
) -> SetResult:
    label, out = written.label, written.out_of_service
    tips = found if isinstance(found, Tipping) else None
    findings = [*([out_of_service_finding(label, hung[0], out)] if out and hung else []),
                *missing_findings(house, label, tips)]  # fmt: skip
    over = (tips is not None and tips.is_certain) or bool(out and hung)
    return SetResult(
        label=label, batten=batten, rigged=batten if isinstance(batten, RiggedSet) else None, stack=None,
        stack_basis="", forces=None, rows=(), balance=(), verdict=Verdict.OVER if over else Verdict.UNKNOWN,
        out_of_service=out, findings=tuple(findings), written=written, hung=hung,
    )  # fmt: skip


def _balance(rigged: RiggedSet, stack: Stack) -> tuple[tuple[float, Span], ...]:
    step = (rigged.high - rigged.low) / (BALANCE_STATIONS - 1)
    heights = {rigged.low + i * step for i in range(BALANCE_STATIONS)} | set(flying_heights(rigged))
    heights |= {at for one in rigged.pieces for at in one.changes if rigged.low < at < rigged.high}
    return tuple((height, out_of_balance(rigged, stack, height)) for height in sorted(heights))
