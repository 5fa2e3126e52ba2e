"""What there is to say of a set: code, place, what is so, what would mend it, where the limit is from."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace

from counterpoise.checks.as_found import OF_BALANCE, TAUT, TOO_STEEP
from counterpoise.checks.finding import Finding
from counterpoise.checks.mend_words import Mending
from counterpoise.checks.pipe_weight import PIPE_WEIGHT, mismatch_of, mismatch_said
from counterpoise.checks.rows import Check, Verdict, where
from counterpoise.checks.steel_waits import OF_STEEL, is_figure, place_to_write, steel_waits
from counterpoise.checks.together import MEASURED
from counterpoise.documents import How, Known
from counterpoise.loadpath import SteelPulls, Tipping
from counterpoise.rigging import BALANCE, PULLS, Missing, RiggedBatten, RiggedHouse, RiggedSet
from counterpoise.units import Direction, Style, length

SEE_PIPE_WEIGHT = "Settle its pipe weight first, as said there: this figure comes of it."
AS_TWINS = (
    "No figure settles it. Hang it on one set, or work them as one: steps are planned where it is written that their "
    "hand lines are `married`."
)
OF_ROPE = ("lift-line stiffness", "stiffness of line ")
NAMED = 6  # figures that a finding names before it counts the rest


def findings_of(
    house: RiggedHouse, rigged: RiggedBatten, rows: Sequence[Check], pulls: Mapping[str, SteelPulls]
) -> Iterator[Finding]:
    """One finding for each link that is over or unknown, told of the line where it is worst.

    Before them what of pipe weight, arbor and batten can not all be true, and a cable that is too short; after them,
    where several rows are over, the most that one piece may weigh for all of them. `pulls` are what sets put on the
    steel they share.
    """
    style = Style(house.house.units)  # type: ignore[arg-type]  # the document allows just these two words
    if rigged.out_of_service and rigged.pieces:
        yield out_of_service_finding(rigged.label, rigged.pieces[0].name, rigged.out_of_service)
    unmatched = _unmatched(rigged, rows, style)
    yield from [unmatched] if unmatched is not None else []
    yield from _too_short(rigged, style)
    yield from _too_steep(rigged, rows, style)
    mending = Mending(house=house, rigged=rigged, pulls=pulls, rows=rows, style=style)
    told = [row for row in rows if row.verdict is not Verdict.WITHIN and not _is_told_once(rigged, row)]
    for link in dict.fromkeys(row.link for row in told):
        bad = [row for row in told if row.link == link]
        worst = max(bad, key=lambda row: (row.verdict is Verdict.OVER, row.value.high))
        found = _finding(mending, worst, bad)
        if link == "lock" and worst.verdict is Verdict.OVER and not worst.lacks and unmatched:
            found = replace(found, mend=SEE_PIPE_WEIGHT)
        yield found
    at_once = mending.for_all()
    if at_once is not None:
        yield Finding(code="AT-MOST", label=rigged.label, place=f"set {rigged.label}", says=at_once[0],
                      mend=at_once[1], source="", verdict=Verdict.OVER)  # fmt: skip


def _is_told_once(rigged: RiggedBatten, row: Check) -> bool:
    """True of a row that is open by nothing but a cable too short or a line that leans too far: one finding tells."""
    if row.verdict is not Verdict.UNKNOWN:
        return False
    is_taut = bool(rigged.taut) and row.lacks.startswith(TAUT)
    return is_taut or (rigged.steep > 0 and row.lacks.startswith(f"line {rigged.steep} {TOO_STEEP}"))


def _too_steep(rigged: RiggedBatten, rows: Sequence[Check], style: Style) -> Iterator[Finding]:
    """Lines that lean too far for what is computed of them, and up to where they do not."""
    open_ = [row.link for row in rows if rigged.steep and _is_told_once(rigged, row)]
    if not open_:
        return
    top = rigged.steep_above
    lower = f"With a high trim of {length(top, style, Direction.DOWN)} or lower it is. " if top > rigged.low else ""
    yield Finding(code="LEANS", label=rigged.label, place=f"set {rigged.label}, line {rigged.steep}",
                  says=f"it {TOO_STEEP}: what that does to pulls, stress and balance is not computed.",
                  mend=f"{lower}Else settle it, or list {', '.join(dict.fromkeys(open_))} under `not checked here` "
                  "with who says so.", source="", verdict=Verdict.UNKNOWN)  # fmt: skip


def _too_short(rigged: RiggedBatten, style: Style) -> Iterator[Finding]:
    """A cable that comes taut over the travel, and how long one has to be that does not."""
    for one in rigged.cables:
        ends = [height for height in (rigged.low, rigged.high) if one.is_taut(height)]
        if ends:
            need = max(abs(one.box - height) for height in ends)
            yield Finding(code="CABLE-SHORT", label=rigged.label, place=f"set {rigged.label}, cable of {one.name}",
                          says=f"it is too short: {length(one.length, style)} to a box at {length(one.box, style)} "
                          "comes taut over the travel, and what then hangs where is not known.",
                          mend=f"Take one longer than {length(need, style)}; {where(*_at(one.written))}.",
                          source="", verdict=Verdict.UNKNOWN)  # fmt: skip


def _unmatched(rigged: RiggedBatten, rows: Sequence[Check], style: Style) -> Finding | None:
    """Figures that contradict each other, where something of the balance is over or unknown."""
    open_ = [row.verdict for row in rows if row.link in OF_BALANCE and row.verdict is not Verdict.WITHIN]
    if not isinstance(rigged, RiggedSet) or not open_ or (found := mismatch_of(rigged)) is None:
        return None
    one = rigged.written
    figures = [("pipe weight", one.pipe_weight), ("arbor weight", one.arbor.weight), ("batten", one.batten.weight)]
    return Finding(code=PIPE_WEIGHT, label=rigged.label, place=f"set {rigged.label}, pipe weight",
                   says=mismatch_said(rigged, found, style),
                   mend="Check " + ", ".join(f"{name} ({known.text})" for name, known in figures)
                   + f" and the hardware of the batten: one of them is not as written, {where(*_at(one.pipe_weight))}.",
                   source="", verdict=Verdict.OVER if Verdict.OVER in open_ else Verdict.UNKNOWN)  # fmt: skip


def _at(known: Known) -> tuple[str, int]:
    return known.path, known.line


def nothing_checked(label: str) -> Finding:
    """A set of which every row is listed as not checked."""
    return Finding(code="NOTHING-CHECKED", label=label, place=f"set {label}",
                   says="nothing of it was checked: all of it is listed under `not checked here`.",
                   mend="Take off that list what can be checked.", source="house", verdict=Verdict.UNKNOWN)  # fmt: skip


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
            settles = f"Find it out and write it: {place_to_write(lacking[0])}."
            settles += f" {MEASURED}" if any(one.what.startswith(OF_ROPE) for one in lacking) else ""
            yield Finding(code="MISSING", label=label, place=f"set {label}, {waits}", says=_lacks(lacking),
                          mend=AS_TWINS if not any(map(is_figure, lacking)) else settles, source="house",
                          verdict=Verdict.UNKNOWN)  # fmt: skip


def _lacks(lacking: Sequence[Missing]) -> str:
    """What is not known, the first few by name."""
    names = list(dict.fromkeys(one.what for one in lacking))
    told = names if len(names) <= NAMED else names[: NAMED - 1]
    rest = f" and {len(names) - len(told)} more" if len(told) < len(names) else ""
    return f"{', '.join(told)}{rest} {'is' if len(names) == 1 else 'are'} not known."


def _finding(mending: Mending, row: Check, bad: list[Check]) -> Finding:
    code = f"{row.link.upper().replace(' ', '-')}-{row.verdict.value.upper()}"
    source, label = row.inputs[0].source if row.inputs else "", mending.rigged.label
    says, carries = _says(mending, row, bad)
    bay = mending.house.bay_of(label) if row.formula in OF_STEEL and row.verdict is Verdict.OVER else None
    return Finding(code=code, label=label, place=f"set {label}, {_places(row, bad)}", says=says, mend=mending.of(row),
                   source=source, verdict=row.verdict, key=row.key, carries=carries,
                   bay=bay.bay if bay is not None else "")  # fmt: skip


def _places(row: Check, bad: list[Check]) -> str:
    lines = [str(one.line) for one in bad if one.line is not None and one.verdict is row.verdict]
    if not lines:
        return row.link
    listed = lines[0] if len(lines) == 1 else f"{', '.join(lines[:-1])} and {lines[-1]}"
    return f"{row.link}, line{'s' if len(lines) > 1 else ''} {listed}"


def _says(mending: Mending, row: Check, bad: list[Check]) -> tuple[str, str]:
    """What is so, and of it what is of this set alone where the rest is a limit that is not known."""
    style = mending.style
    value, bound = row.printed(style)
    others = [one for one in bad if one.line is not None and one is not row and one.verdict is row.verdict]
    if row.verdict is Verdict.OVER and others:
        rest = ", ".join(f"{one.printed(style)[0]} on {one.line}" for one in others)
        return f"{value} of {bound} on line {row.line} ({rest}){_at_worst(row, style)}{_though(row)}.", ""
    if row.verdict is Verdict.OVER and row.lacks and row.formula not in OF_STEEL:
        return f"{value} of {bound}{_at_worst(row, style)}{_though(row)}.", ""
    waits = steel_waits(mending.house, row)
    if waits:
        are = "are" if len(waits) > 1 or " and " in waits[0].what else "is"
        return f"{', and '.join(one.what for one in waits)} {are} not known.", ""
    if row.lacks:
        return f"{row.lacks}.", ""
    if row.limit is None:
        carries = f"{'up to ' if others else ''}{value}"
        return f"carries {carries}; its limit is not known.", carries
    if row.verdict is Verdict.UNKNOWN:
        guessed = any(one.how is How.ESTIMATE for one in row.inputs)
        why = "an estimate" if guessed else "a weight known only within a range, or a piece that may stand on the deck"
        if mending.rigged.runs and not any(one.is_doubtful for one in row.inputs):
            why = "how far lines that lean make it more, which is known between bounds only"
        return f"may come to {value} of {bound}: it rests on {why}.", ""
    return f"{value} of {bound}{_at_worst(row, style)}.", ""


def _though(row: Check) -> str:
    """What is not known of a row that is over all the same."""
    return f"; {row.lacks}" if row.lacks and row.formula not in OF_STEEL else ""


def _at_worst(row: Check, style: Style) -> str:
    """The worst figure beside the best one, each called what it is; "" where they are told alike."""
    best, worst = row.printed(style)[0], row.printed_worst(style)
    return "" if worst == best else f" at the best figures, {worst} at the worst"
