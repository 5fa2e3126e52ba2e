"""What would mend the rows of one set, in words: every weight and every count was judged before it is told."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from functools import cached_property

from counterpoise.balance import Stack, best_stack, stated_stack
from counterpoise.checks.balance_mend import balance_mend, count_said
from counterpoise.checks.counts import other_count, rests_on_count
from counterpoise.checks.hemp_rows import more_bags
from counterpoise.checks.lighter import Lighter, Promise, is_met, part_of
from counterpoise.checks.rows import Check, Verdict, most_telling
from counterpoise.checks.steel_shares import pulls_on
from counterpoise.checks.steel_waits import OF_STEEL, steel_waits
from counterpoise.documents import COUNTERWEIGHT
from counterpoise.loadpath import SteelPulls
from counterpoise.rigging import RiggedBatten, RiggedHouse, RiggedPiece, RiggedSet
from counterpoise.units import Direction, Style, force, printed_as

BY_PLACE = {  # what no lighter load would mend
    "fleet angle": "Move the block, or turn it so that its line runs true; ask one who may say.",
    "fire curtain": "Hang it on a set upstage of the path: nothing may hang in it.",
    "bags": "Take bags off: with these on the batten could not be pulled in. Where others hang than the house writes, "
    "state them in the hang: `stated bags`.",
    "roll": "Hang it below the pipe, or as much on its other side.",
}
TAKE_OFF = "Take load off, or hang it elsewhere."
NOTHING_HANGS = "Nothing hangs here that could be taken off: look at the figures it rests on."
BARE = "The bare batten is past this by itself: no load taken off clears it. Look at the figures it rests on."
MORE_THAN_ONE = "No one piece clears this, however light: take off more than one."
PLACE_BLOCKS = (
    "Measure where the loft blocks of both sets stand and write it, as `lines: {at: [{at: …, block at: …}]}`: those on "
    "one beam within a foot of each other. If this set hangs on other steel, give it a bay of its own under `steel`. "
    "Or list this steel under `not checked here` with who says so."
)
BY_COUNT = ("lock", "hand line", "tension block", "bottom stop")  # another count is their mend, not another weight
LOADED = ("arbor", "guides", "stack")  # another count is theirs where the hang states one
OWN_CLAMPS = ("clamp", "clamp size")
MOST_PIECES = 6  # of a set, the heaviest, that are tried


@dataclass(frozen=True, kw_only=True)
class Mending:
    """What would mend the rows of one set."""

    house: RiggedHouse
    rigged: RiggedBatten
    pulls: Mapping[str, SteelPulls]
    rows: Sequence[Check]
    style: Style

    def of(self, row: Check) -> str:
        """What would mend a row, that row's own."""
        if row.verdict is Verdict.UNKNOWN:
            return self._of_unknown(row)
        if row.link in BY_PLACE:
            return BY_PLACE[row.link]
        if row.link == "crew" and (bags := more_bags(self.house, self.rigged, self.style)):
            return bags
        if rests_on_count(row) and row.lacks:
            return "Settle that first: the figure is as if it were not so."
        if row.link in BY_COUNT or (row.link in LOADED and self._is_stated):
            return self._by_count(row)
        if row.lacks:
            return TAKE_OFF if self.rigged.pieces else NOTHING_HANGS
        return self._weight(row) or self._cause(row)

    def for_all(self) -> tuple[str, str] | None:
        """What is over at once and the most one piece may weigh for all of it; None with one row, or no promise."""
        bad = [row for row in self.rows if row.verdict is Verdict.OVER]
        over = list(dict.fromkeys(row.link for row in bad))
        if len(over) < 2 or not self.rigged.pieces or self._waits:
            return None
        for kg, piece in self._reliefs(bad):
            most = self._lighter.most_of_all(kg, piece)
            found = None if most is None else self._lighter.promise(piece, most, self.style)
            governing = None if found is None else self._lighter.governing(piece, found.kg)
            if found is not None and governing is not None:
                end = f" where it hangs ({governing.place} governs)."
                return f"{' and '.join(over)} are over at once.", f"For all of it {_may_weigh(piece, found)}{end}"
        return None

    @cached_property
    def _lighter(self) -> Lighter:
        return Lighter(self.house, self.rigged, self.pulls, self.rows)

    @cached_property
    def _other_count(self) -> Stack | None:
        if not isinstance(self.rigged, RiggedSet) or self._waits:
            return None
        return other_count(self.house, self.rigged, self.pulls)

    @cached_property
    def _waits(self) -> bool:
        """True where its balance, or what it pulls, waits for a figure: then nothing is promised."""
        is_half = self.rigged.written.rigged == COUNTERWEIGHT and not isinstance(self.rigged, RiggedSet)
        return is_half or bool(self.house.missing_of(self.rigged.label))

    @property
    def _is_stated(self) -> bool:
        return isinstance(self.rigged, RiggedSet) and stated_stack(self.rigged) is not None

    def _by_count(self, row: Check) -> str:
        """Another count that keeps all within that rests on it, or that there is none."""
        if not isinstance(self.rigged, RiggedSet):
            return TAKE_OFF
        if row.link == "lock" and (words := balance_mend(self.house, self.rigged, self.style, self._other_count)):
            return words
        if self._other_count is not None:
            now = stated_stack(self.rigged) or best_stack(self.rigged)
            said = count_said(self.rigged, now, self._other_count, self.style)
            return f"{said}, keep this and all else that rests on the count within."
        if (words := self._weight(row) if row.link in LOADED else "") or (words := self._balanced_anew(row)):
            return words
        worst = printed_as(row.measure.value, self.style, Direction.UP).print(row.value.high)
        return (
            f"No count of bricks keeps this and all else that rests on the count within. It comes to {worst} at the "
            "worst: less load or less travel, or a part that carries that much."
        )

    def _balanced_anew(self, row: Check) -> str:
        """What a piece may weigh with the count that then balances it, where the hang states another."""
        if not isinstance(self.rigged, RiggedSet) or not self._is_stated or row.link in BY_COUNT:
            return ""
        free = replace(self.rigged, stated_bricks=None, stated_small=None)
        words = replace(self, rigged=free)._weight(row)
        return f"With the count that then balances it, {words[:1].lower()}{words[1:]}" if words else ""

    def _pieces_for(self, row: Check) -> list[RiggedPiece]:
        """The pieces whose weight might matter for a row."""
        if row.link in OWN_CLAMPS:
            own = [one for one in self.rigged.pieces if f"/{row.link}/{one.name}" in row.key]
            return sorted(own, key=lambda one: -len(one.name))[:1]
        return sorted(self.rigged.pieces, key=lambda one: -one.mass[1])[:MOST_PIECES]

    def _reliefs(self, bad: Sequence[Check]) -> Iterator[tuple[float, RiggedPiece]]:
        """For pieces that clear rows by being lighter, the most each may weigh [kg]; the smallest relief first."""
        found = []
        for piece in self._pieces_for(bad[0]):
            each = [self._lighter.most_for(row.key, piece) for row in bad]
            kg = min((one for one in each if one is not None), default=None)
            if kg is not None and None not in each:
                found.append((piece.mass[1] - kg, kg, piece))
        yield from ((kg, piece) for _, kg, piece in sorted(found, key=lambda one: one[0]))

    def _weight(self, row: Check) -> str:
        """The most a piece may weigh for this row; of the set, where nothing else of it is open then."""
        part = part_of(row)
        over = {one.link for one in self.rows if one.verdict is Verdict.OVER}
        alone = len(over) == 1 and not self._waits
        for kg, piece in self._reliefs([row]):
            told = self._lighter.printed(piece, kg, self.style, lambda rows: is_met(rows, row.key), part)
            if told is None:
                continue
            whole = self._lighter.promise(piece, told[0], self.style, steps=1) if alone else None
            found = whole if whole is not None and whole.holds_below else \
                self._lighter.promise_for(row, piece, *told)  # fmt: skip
            if whole is not None and (whole.holds_below or not found.holds_below):
                return f"Where it hangs now {_may_weigh(piece, whole)}."
            end = "; at just that all else is within too" if whole is not None else ""
            return f"For this alone {_may_weigh(piece, found)} where it hangs{end}."
        for piece in sorted(self._pieces_for(row), key=lambda one: one.mass[1]):
            if is_met(self._lighter.without([piece], part), row.key):
                return f"Take {piece.name} off this set: no weight of it would clear this."
        return ""

    def _cause(self, row: Check) -> str:
        """Of a row that no weight of one piece clears: what it is that keeps it over."""
        if row.formula in OF_STEEL and (others := self._others_on(row)):
            label, pull = others[0]
            return (f"No load of this set clears it: set {label} puts the most on it, {force(pull, self.style)} with "
                    "its ropes. Take load off there.")  # fmt: skip
        if not self.rigged.pieces:
            return NOTHING_HANGS
        if is_met(self._lighter.without(self.rigged.pieces, part_of(row)), row.key):
            return MORE_THAN_ONE
        if rests_on_count(row):
            return self._by_count(row)
        return BARE

    def _others_on(self, row: Check) -> list[tuple[str, float]]:
        """The other sets on this steel, the heaviest first."""
        bay = self.house.bay_of(row.label)
        return [] if bay is None else pulls_on(self.rigged, bay, self.pulls, row)

    def _of_unknown(self, row: Check) -> str:
        waits = steel_waits(self.house, row)
        if waits:
            all_of = "; and ".join(f"{one.what}, {one.where}" if one.where else one.what for one in waits)
            return f"Find out {all_of}. Or list this steel under `not checked here` with who says so."
        if row.lacks and "stand at other places" in row.lacks:
            return PLACE_BLOCKS
        lacking = next((one for one in row.inputs if one.is_lacking), None)
        if lacking is not None:
            return (
                f"Find it out: {lacking.name}, {lacking.where}. Or list it under `not checked here` with who says so."
            )
        if row.lacks and any(not one.is_unknown for one in row.inputs):
            return "Settle that, or list it under `not checked here` with who says so."
        open_ = most_telling(row.inputs)
        if open_ is None:
            return "Have it found out by one who may say."
        verb = "Weigh it" if open_.name.startswith(("weight of", "arbor weight", "hardware")) else "Find it out"
        return f"{verb}: {open_.name} ({open_.words}), {open_.where}."


def _may_weigh(piece: RiggedPiece, found: Promise) -> str:
    """At most, where all that is less was within too; else that weight and no other."""
    if found.holds_below:
        return f"{piece.name} may weigh at most {found.words}"
    return f"{piece.name} may weigh {found.words} (judge any other weight anew)"
