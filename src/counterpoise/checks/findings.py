"""What there is to say of a set: code, place, what is so, what would mend it, where the limit is from."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from counterpoise.balance import best_stack, stated_stack
from counterpoise.checks.balance_mend import balance_mend
from counterpoise.checks.link_rows import HEAD_BLOCK, hand_line_on
from counterpoise.checks.rows import Check, Measure, Verdict, most_telling, where
from counterpoise.documents import How
from counterpoise.loadpath import Tipping, forces_of
from counterpoise.rigging import BALANCE, PULLS, Missing, RiggedBatten, RiggedHouse, RiggedSet
from counterpoise.units import Style, length, mass_down, signed_force

BY_PLACE = {  # what no lighter load would mend
    "fleet angle": "Move the block, or turn it so that its line runs true; ask one who may say.",
    "fire curtain": "Hang it on a set upstage of the path: nothing may hang in it.",
    "bags": "Take bags off: with these on the batten could not be pulled in.",
    "roll": "Hang it below the pipe, or as much on its other side.",
}
LIGHTEST = 0.001  # [kg]; a piece that weighs nothing is none
STEPS = 16  # weights between which a row that does not only grow with a weight is looked at
NAMED = 6  # figures that a finding names before it counts the rest


@dataclass(frozen=True, slots=True, kw_only=True)
class Finding:
    """One thing to know. `key` leads to the derivation of its figure, where it has one."""

    code: str
    label: str
    place: str
    says: str
    mend: str
    source: str
    verdict: Verdict
    key: str = ""


def findings_of(house: RiggedHouse, rigged: RiggedBatten, rows: Sequence[Check]) -> Iterator[Finding]:
    """One finding for each link that is over or unknown, told of the line where it is worst."""
    style = Style(house.house.units)  # type: ignore[arg-type]  # the document allows just these two words
    if rigged.out_of_service and rigged.pieces:
        yield out_of_service_finding(rigged.label, rigged.pieces[0].name, rigged.out_of_service)
    for link in dict.fromkeys(row.link for row in rows if row.verdict is not Verdict.WITHIN):
        bad = [row for row in rows if row.link == link and row.verdict is not Verdict.WITHIN]
        worst = max(bad, key=lambda row: (row.verdict is Verdict.OVER, row.value.high))
        found = _finding(house, rigged, worst, bad, style)
        if link == "lock" and worst.verdict is Verdict.OVER and not worst.lacks and isinstance(rigged, RiggedSet):
            found = replace(found, mend=balance_mend(house, rigged, style) or found.mend)
        yield found


def out_of_service_finding(label: str, piece: str, why: str) -> Finding:
    """A piece hangs where nothing may."""
    return Finding(code="OUT-OF-SERVICE", label=label, place=f"set {label}",
                   says=f"{piece} is hung on a set that is out of service: {why}.",
                   mend="Hang it elsewhere until a named person has released the set.", source="house",
                   verdict=Verdict.OVER)  # fmt: skip


def missing_findings(house: RiggedHouse, label: str, tipping: Tipping | None) -> Iterator[Finding]:
    """For a set that cannot be computed: what is missing, or that it tips."""
    if tipping is not None:
        style = Style(house.house.units)  # type: ignore[arg-type]
        tips = tipping.tips
        sure = tipping.is_certain
        says = (f"the batten {'tips' if sure else 'may tip'} over: the load's centre {'is' if sure else 'may be'} "
                f"{length(tips.centre, style)} from the stage-right end, outside the outer lines at "
                f"{length(tips.first, style)} and {length(tips.last, style)}.")  # fmt: skip
        yield Finding(code="TIPS", label=label, place=f"set {label}, batten", says=says,
                      mend="Move load inside the outer lines.", source="equilibrium",
                      verdict=Verdict.OVER if sure else Verdict.UNKNOWN)  # fmt: skip
    for waits in (PULLS, BALANCE):
        lacking = [one for one in house.missing_of(label) if one.waits == waits]
        if lacking:
            yield Finding(code="MISSING", label=label, place=f"set {label}, {waits}", says=_lacks(lacking),
                          mend=f"Find it out and write it: {where(lacking[0].path, lacking[0].line)}.", source="house",
                          verdict=Verdict.UNKNOWN)  # fmt: skip


def _lacks(lacking: Sequence[Missing]) -> str:
    """What is not known, the first few by name."""
    names = list(dict.fromkeys(one.what for one in lacking))
    told = names if len(names) <= NAMED else names[: NAMED - 1]
    rest = f" and {len(names) - len(told)} more" if len(told) < len(names) else ""
    return f"{', '.join(told)}{rest} {'is' if len(names) == 1 else 'are'} not known."


def _finding(house: RiggedHouse, rigged: RiggedBatten, row: Check, bad: list[Check], style: Style) -> Finding:
    code = f"{row.link.upper().replace(' ', '-')}-{row.verdict.value.upper()}"
    source = row.inputs[0].source if row.inputs else ""
    return Finding(code=code, label=rigged.label, place=f"set {rigged.label}, {_places(row, bad)}",
                   says=_says(row, bad, style), mend=_mend(house, rigged, row, style), source=source,
                   verdict=row.verdict, key=row.key)  # fmt: skip


def _places(row: Check, bad: list[Check]) -> str:
    lines = [str(one.line) for one in bad if one.line is not None and one.verdict is row.verdict]
    if not lines:
        return row.link
    listed = lines[0] if len(lines) == 1 else f"{', '.join(lines[:-1])} and {lines[-1]}"
    return f"{row.link}, line{'s' if len(lines) > 1 else ''} {listed}"


def _says(row: Check, bad: list[Check], style: Style) -> str:
    value, bound = row.printed(style)
    others = [one for one in bad if one.line is not None and one is not row and one.verdict is row.verdict]
    if row.verdict is Verdict.OVER and others:
        rest = ", ".join(f"{one.printed(style)[0]} on {one.line}" for one in others)
        return f"{value} of {bound} on line {row.line} ({rest})."
    if row.lacks:
        return f"{row.lacks}."
    if row.limit is None:
        return f"carries {'up to ' if others else ''}{value}; its limit is not known."
    if row.verdict is Verdict.UNKNOWN:
        guessed = any(one.how is How.ESTIMATE for one in row.inputs)
        why = "an estimate" if guessed else "a weight known only within a range, or a piece that may stand on the deck"
        return f"may come to {value} of {bound}: it rests on {why}."
    return f"{value} of {bound}."


def _mend(house: RiggedHouse, rigged: RiggedBatten, row: Check, style: Style) -> str:
    if row.verdict is Verdict.UNKNOWN:
        if row.lacks and any(not one.is_unknown for one in row.inputs):
            thing = "steel" if row.formula == "shared steel" else row.link
            return f"Settle that, or list this {thing} under `not checked here` with who says so."
        open_ = most_telling(row.inputs)
        if open_ is None:
            return "Have it found out by one who may say."
        verb = "Weigh it" if open_.name.startswith(("weight of", "arbor weight", "hardware")) else "Find it out"
        return f"{verb}: {open_.name} ({open_.words}), {open_.where}."
    most = heaviest(house, rigged, row)
    if most is not None:
        name, kg = most
        told = mass_down(kg, style)
        if told.startswith("0 "):
            return f"Take {name} off this set: no weight of it would clear this."
        return f"Where it hangs now {name} may weigh at most {told}."
    if row.link == "lock":
        return (
            f"Re-weigh, or balance at another height: it comes to {signed_force(row.value.worst, style)} at the lock."
        )
    return BY_PLACE.get(row.link, "Take load off, or hang it elsewhere.")


def heaviest(house: RiggedHouse, rigged: RiggedBatten, row: Check) -> tuple[str, float] | None:
    """The most the heaviest piece may weigh for this row to be within, found by the full engine; None if not so found.

    Bisected to a tenth of a kilogram and told from the side that is within. The hand line's share of a head block goes
    with the weight: a lighter piece leaves a set of as many bricks more arbor-heavy.
    """
    if row.measure is not Measure.FORCE or row.limit is None or not rigged.pieces or not row.coefficients:
        return None
    if row.lacks or row.link == "arbor":
        return None  # no weight brings a row within while something else of it is open
    piece = max(rigged.pieces, key=lambda one: one.mass[1])
    now, shared = forces_of(rigged), _share_of_hand_line(house, rigged, row)
    if isinstance(now, Tipping):
        return None
    others_part, most = row.value.high - now.span(row.coefficients).high - shared, row.limit

    def within(kg: float) -> bool:
        changed = replace(rigged, pieces=tuple(one.weighing(kg) if one is piece else one for one in rigged.pieces))
        forces = forces_of(changed)
        if isinstance(forces, Tipping):
            return False
        share = _share_of_hand_line(house, changed, row) if row.link in HEAD_BLOCK else 0.0
        return forces.span(row.coefficients).high + others_part + share <= most

    tries = [piece.mass[2] * i / STEPS for i in range(STEPS, 0, -1)] if row.link in HEAD_BLOCK else []
    low = next((kg for kg in (*tries, LIGHTEST) if within(kg)), None)
    if low is None:
        return piece.name, 0.0
    high = min((kg for kg in tries if kg > low), default=piece.mass[2])
    while high - low > 0.05:
        middle = (low + high) / 2
        low, high = (middle, high) if within(middle) else (low, middle)
    return piece.name, low


def _share_of_hand_line(house: RiggedHouse, rigged: RiggedBatten, row: Check) -> float:
    """What of a head block's row is the hand line's, at most [N]; nothing of any other row."""
    stack = stated_stack(rigged) or best_stack(rigged) if isinstance(rigged, RiggedSet) else None
    return hand_line_on(house, rigged, stack, row.link).high
