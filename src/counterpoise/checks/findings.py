"""What there is to say of a set: code, place, what is so, what would mend it, where the limit is from."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from counterpoise.checks.as_found import OF_BALANCE
from counterpoise.checks.balance_mend import balance_mend
from counterpoise.checks.hemp_rows import more_bags
from counterpoise.checks.lighter import Lighter
from counterpoise.checks.pipe_weight import PIPE_WEIGHT, mismatch_of, mismatch_said
from counterpoise.checks.rows import Check, Verdict, most_telling, where
from counterpoise.checks.steel_waits import place_to_write, steel_waits
from counterpoise.documents import COUNTERWEIGHT, How, Known
from counterpoise.loadpath import SteelPulls, Tipping
from counterpoise.rigging import BALANCE, PULLS, Missing, RiggedBatten, RiggedHouse, RiggedSet
from counterpoise.units import Style, length, mass_down, signed_force

BY_PLACE = {  # what no lighter load would mend
    "fleet angle": "Move the block, or turn it so that its line runs true; ask one who may say.",
    "fire curtain": "Hang it on a set upstage of the path: nothing may hang in it.",
    "bags": "Take bags off: with these on the batten could not be pulled in.",
    "roll": "Hang it below the pipe, or as much on its other side.",
}
SEE_PIPE_WEIGHT = "Settle its pipe weight first, as said there: this figure comes of it."
TAKE_OFF = "Take load off, or hang it elsewhere."
NOTHING_HANGS = "Nothing hangs here that could be taken off: look at the figures it rests on."
PLACE_BLOCKS = (
    "Measure where the loft blocks of both sets stand and write it, as `lines: {at: [{at: …, block at: …}]}`: those on "
    "one beam within a foot of each other. If this set hangs on other steel, give it a bay of its own under `steel`. "
    "Or list this steel under `not checked here` with who says so."
)
MORE_BRICKS = ("lock", "hand line", "tension block")  # of these no weight is told: another count is the mend
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
    carries: str = ""  # what of it is the set's own, where the rest, a limit that is not known, is told of many at once


def findings_of(
    house: RiggedHouse, rigged: RiggedBatten, rows: Sequence[Check], pulls: Mapping[str, SteelPulls]
) -> Iterator[Finding]:
    """One finding for each link that is over or unknown, told of the line where it is worst.

    Before them what of pipe weight, arbor and batten can not all be true; after them, where several rows are over, the
    most that the heaviest piece may weigh for all of them. `pulls` are what sets put on the steel they share.
    """
    style = Style(house.house.units)  # type: ignore[arg-type]  # the document allows just these two words
    if rigged.out_of_service and rigged.pieces:
        yield out_of_service_finding(rigged.label, rigged.pieces[0].name, rigged.out_of_service)
    unmatched = _unmatched(rigged, rows, style)
    yield from [unmatched] if unmatched is not None else []
    told = _Told(house, rigged, Lighter(house, rigged, pulls, rows) if rigged.pieces else None, style)
    for link in dict.fromkeys(row.link for row in rows if row.verdict is not Verdict.WITHIN):
        bad = [row for row in rows if row.link == link and row.verdict is not Verdict.WITHIN]
        worst = max(bad, key=lambda row: (row.verdict is Verdict.OVER, row.value.high))
        found = _finding(told, worst, bad)
        if link == "lock" and worst.verdict is Verdict.OVER and not worst.lacks and isinstance(rigged, RiggedSet):
            found = replace(found, mend=SEE_PIPE_WEIGHT if unmatched else
                            balance_mend(house, rigged, style) or found.mend)  # fmt: skip
        yield found
    yield from told.for_all(rows)


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
            yield Finding(code="MISSING", label=label, place=f"set {label}, {waits}", says=_lacks(lacking),
                          mend=f"Find it out and write it: {place_to_write(lacking[0])}.", source="house",
                          verdict=Verdict.UNKNOWN)  # fmt: skip


def _lacks(lacking: Sequence[Missing]) -> str:
    """What is not known, the first few by name."""
    names = list(dict.fromkeys(one.what for one in lacking))
    told = names if len(names) <= NAMED else names[: NAMED - 1]
    rest = f" and {len(names) - len(told)} more" if len(told) < len(names) else ""
    return f"{', '.join(told)}{rest} {'is' if len(names) == 1 else 'are'} not known."


def _finding(told: _Told, row: Check, bad: list[Check]) -> Finding:
    code = f"{row.link.upper().replace(' ', '-')}-{row.verdict.value.upper()}"
    source, label = row.inputs[0].source if row.inputs else "", told.rigged.label
    says, carries = _says(told, row, bad)
    return Finding(code=code, label=label, place=f"set {label}, {_places(row, bad)}", says=says, mend=told.mend(row),
                   source=source, verdict=row.verdict, key=row.key, carries=carries)  # fmt: skip


def _places(row: Check, bad: list[Check]) -> str:
    lines = [str(one.line) for one in bad if one.line is not None and one.verdict is row.verdict]
    if not lines:
        return row.link
    listed = lines[0] if len(lines) == 1 else f"{', '.join(lines[:-1])} and {lines[-1]}"
    return f"{row.link}, line{'s' if len(lines) > 1 else ''} {listed}"


def _says(told: _Told, row: Check, bad: list[Check]) -> tuple[str, str]:
    """What is so, and of it what is of this set alone where the rest is a limit that is not known."""
    style = told.style
    value, bound = row.printed(style)
    others = [one for one in bad if one.line is not None and one is not row and one.verdict is row.verdict]
    if row.verdict is Verdict.OVER and others:
        rest = ", ".join(f"{one.printed(style)[0]} on {one.line}" for one in others)
        return f"{value} of {bound} on line {row.line} ({rest}){_at_worst(row, style)}.", ""
    waits = steel_waits(told.house, row)
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
        return f"may come to {value} of {bound}: it rests on {why}.", ""
    return f"{value} of {bound}{_at_worst(row, style)}.", ""


def _at_worst(row: Check, style: Style) -> str:
    """The worst figure beside the best one, each called what it is; "" where they are told alike."""
    best, worst = row.printed(style)[0], row.printed_worst(style)
    return "" if worst == best else f" at the best figures, {worst} at the worst"


@dataclass(slots=True)
class _Told:
    """What would mend the rows of one set, in words."""

    house: RiggedHouse
    rigged: RiggedBatten
    lighter: Lighter | None
    style: Style

    def mend(self, row: Check) -> str:
        """What would mend a row, that row's own."""
        if row.verdict is Verdict.UNKNOWN:
            return self._of_unknown(row)
        if row.link in BY_PLACE:
            return BY_PLACE[row.link]
        if row.link == "lock":
            worst = signed_force(row.value.worst, self.style)
            return f"Re-weigh, or balance at another height: it comes to {worst} at the lock."
        if row.link == "crew" and (bags := more_bags(self.house, self.rigged, self.style)):
            return bags
        return self._weight(row) or (TAKE_OFF if self.rigged.pieces else NOTHING_HANGS)

    def for_all(self, rows: Sequence[Check]) -> Iterator[Finding]:
        """The most its heaviest piece may weigh for every row, where more than one is over and that can be promised."""
        over = list(dict.fromkeys(row.link for row in rows if row.verdict is Verdict.OVER))
        found = self._for_set(rows) if len(over) > 1 else None
        if found is None or self.lighter is None:
            return
        kg, governing = found
        yield Finding(code="AT-MOST", label=self.rigged.label, place=f"set {self.rigged.label}",
                      says=f"{' and '.join(over)} are over at once.", source="", verdict=Verdict.OVER,
                      mend=f"For all of it {self.lighter.piece.name} may weigh at most {mass_down(kg, self.style)} "
                      f"where it hangs ({governing} governs).")  # fmt: skip

    def _for_set(self, rows: Sequence[Check]) -> tuple[float, str] | None:
        if self.lighter is None or self._waits():
            return None
        each = [self.lighter.most_for(row.key) for row in rows if row.verdict is Verdict.OVER]
        least = min((kg for kg in each if kg is not None), default=None)
        kg = None if least is None or None in each else self.lighter.most_of_all(least)
        governing = None if kg is None else self.lighter.governing(kg)
        if kg is None or governing is None or mass_down(kg, self.style).startswith("0 "):
            return None
        return kg, governing.place

    def _waits(self) -> bool:
        """True where its balance, or what it pulls, waits for a figure: then nothing is promised."""
        is_half = self.rigged.written.rigged == COUNTERWEIGHT and not isinstance(self.rigged, RiggedSet)
        return is_half or bool(self.house.missing_of(self.rigged.label))

    def _weight(self, row: Check) -> str:
        """The most its heaviest piece may weigh for this row; of the set, where nothing else of it is open then."""
        if self.lighter is None or row.lacks or row.link in MORE_BRICKS:
            return ""
        name, kg = self.lighter.piece.name, self.lighter.most_for(row.key)
        if kg is None or mass_down(kg, self.style).startswith("0 "):
            return f"Take {name} off this set: no weight of it would clear this."
        told = mass_down(kg, self.style)
        over = {one.link for one in self.lighter.rows if one.verdict is Verdict.OVER}
        if len(over) == 1 and not self._waits() and self.lighter.most_of_all(kg) == kg:
            return f"Where it hangs now {name} may weigh at most {told}."
        return f"For this alone {name} may weigh at most {told} where it hangs."

    def _of_unknown(self, row: Check) -> str:
        waits = steel_waits(self.house, row)
        if waits:
            all_of = "; and ".join(f"{one.what}, {one.where}" if one.where else one.what for one in waits)
            return f"Find out {all_of}. Or list this steel under `not checked here` with who says so."
        if row.lacks and "stand at other places" in row.lacks:
            return PLACE_BLOCKS
        if row.lacks and any(not one.is_unknown for one in row.inputs):
            thing = "steel" if row.formula == "shared steel" else row.link
            return f"Settle that, or list this {thing} under `not checked here` with who says so."
        open_ = most_telling(row.inputs)
        if open_ is None:
            return "Have it found out by one who may say."
        verb = "Weigh it" if open_.name.startswith(("weight of", "arbor weight", "hardware")) else "Find it out"
        return f"{verb}: {open_.name} ({open_.words}), {open_.where}."
