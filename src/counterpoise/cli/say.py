"""A result in words: the verdict first, what to do about it, every set on one line, and what was not checked."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from typing import TYPE_CHECKING

from counterpoise.checks import figure_told, listed, together
from counterpoise.checks.told import CAUTION as WHO_IT_IS_FOR, whole_first
from counterpoise.units import Style, length, limit

if TYPE_CHECKING:
    from counterpoise.app.room import RoomLeft
    from counterpoise.checks import Derivation, Finding, HouseResult, SetResult
    from counterpoise.checks.working import Working
    from counterpoise.planning import Mend, Plan, Refusal
    from counterpoise.rigging import RiggedSet

CAUTION = WHO_IT_IS_FOR
NOT_OF_ROOM = (
    "Balanced anew with that load on: lock, hand line, tension block and bottom stop are met by the count of bricks "
    "and are not looked at here; nor is the load itself, its clamps and its thickness."
)
NEARLY_CENTRED = 0.003  # [m]
NO_LIMIT = "none met"  # of a place where no limit is met up to the most that is looked for


def told(result: HouseResult) -> str:
    """All that `check` prints."""
    order = [one.label for one in result.sets]
    blocks = [[verdict_line(result)],
              [line for one in together(whole_first(result.findings), order)
               for line in told_finding(one.finding, one.place)],
              list(_find_out_first(result)), list(_slack(result)), _table(result),
              [*_posted(result), *_bridges(result), *_stock(result)],
              [*_not_checked(result), *_left_out(result), *_not_adopted(result), CAUTION]]  # fmt: skip
    return "\n\n".join("\n".join(lines) for lines in blocks if lines)


def _stock(result: HouseResult) -> Iterator[str]:
    """Whether there are enough bricks, kind by kind."""
    from counterpoise.checks.brick_count import brick_counts

    for one in brick_counts(result):
        short = one.asked - one.have
        about = "about " if one.is_about else ""
        end = "enough" if short <= 0 else f"short by {short}; `bricks` shares out what there is"
        unknown = f"; how many are at {', '.join(one.unknown)} is not known" if one.unknown else ""
        yield f"Bricks, {one.kind}: {about}{one.asked} asked beside pipe weight, {one.have} in stock: {end}{unknown}."


def verdict_line(result: HouseResult) -> str:
    """The verdict and how many sets there are of each."""
    within, over, unknown, out = result.counted()
    parts = [f"{over} set{'s' if over != 1 else ''} over" if over else "", f"{unknown} unknown" if unknown else "",
             f"{within} within what was checked" if within else "", f"{out} out of service" if out else ""]  # fmt: skip
    show = result.house.show or "nothing hung"
    return f"{result.verdict.value}: {', '.join(filter(None, parts))}. {result.house.name}, {show}."


def told_finding(one: Finding, place: str = "") -> Iterator[str]:
    """A finding on two lines: what is so, then what to do and where the limit is from."""
    yield f"{one.verdict.value}: {place or one.place}: {one.says}"
    source = f" Source: {one.source}." if one.source not in ("", "unknown") else ""
    key = f" Key: {one.key}" if one.key else ""
    yield f"    {one.mend}{source}{key}"


def told_mends(result: HouseResult, found: Mapping[str, Sequence[Mend]]) -> str:
    """For each set that is over: what is over, and the smallest changes found that clear it."""
    lines = [] if found else ["Nothing is over."]
    for label, mends in found.items():
        one = result.set_called(label)
        findings = one.findings if one is not None else ()
        lines += [f"over: {each.place}: {each.says}" for each in findings if each.verdict.value == "over"]
        lines += [f"    {each.says} Then the set is {_then(each)}." for each in mends]
        if not mends:
            lines.append("    Nothing that was tried clears it: another count of bricks, less weight of one piece, "
                         "moves along its batten, two picks, empty sets near it.")  # fmt: skip
    return "\n".join([*lines, "", "Each was tried out by the full computation. A person decides.", CAUTION])


def _then(mend: Mend) -> str:
    return "within what was checked" if mend.verdict.value == "within" else f"no more over, but {mend.verdict.value}"


def _find_out_first(result: HouseResult) -> Iterator[str]:
    place_of = {one.label: at for at, one in enumerate(result.sets)}
    for one in result.unknowns[:1]:
        waits = _sets(one.sets, place_of)
        more = len(result.unknowns) - 1
        after = f" {more} more after it." if more else ""
        alone = f" By itself it settles {_sets(one.settles, place_of)}." if one.settles else ""
        yield f"Find out first: {one.what}, {one.where}. Waiting: {waits}.{alone}{after}"


def _sets(labels: Sequence[str], place_of: dict[str, int]) -> str:
    return f"set{'s' if len(labels) > 1 else ''} {listed(labels, place_of)}"


def _slack(result: HouseResult) -> Iterator[str]:
    """Battens that hang on fewer lines than they have: no limit is broken by that, and nobody sees it from the deck."""
    for one in result.sets:
        if one.slack and one.batten is not None:
            lines = f"line{'s' if len(one.slack) > 1 else ''} {', '.join(map(str, one.slack))}"
            yield f"Slack: set {one.label}, {lines} of {len(one.batten.lines)}: the others carry all of it."


def _table(result: HouseResult) -> list[str]:
    style = style_of(result)
    rows = [("set", "piece", "bricks", "add", "decided by", "", "verdict")]
    rows += [_columns(one, style) for one in result.sets]
    widths = [max(len(row[i]) for row in rows) for i in range(7)]
    right = {2, 3}
    return ["  ".join(cell.rjust(width) if i in right else cell.ljust(width)
                      for i, (cell, width) in enumerate(zip(row, widths, strict=True))).rstrip()
            for row in rows]  # fmt: skip


def _columns(one: SetResult, style: Style) -> tuple[str, str, str, str, str, str, str]:
    pieces = _short(", ".join(one.hung), 32) or "-"
    total = add = "-"
    if one.stack is not None and one.rigged is not None:
        total = one.bricks
        add = one.add
    row = one.telling
    verdict = one.verdict.value
    if one.out_of_service:
        verdict = f"{'over, ' if one.verdict.value == 'over' else ''}out of service: {one.out_of_service}"
    return one.label, pieces, total, add, row.place if row else "-", figure_told(row, style) if row else "-", verdict


def _short(words: str, most: int) -> str:
    return words if len(words) <= most else words[: most - 1] + "…"


def _not_checked(result: HouseResult) -> Iterator[str]:
    for one in result.not_checked:
        until = f", until {one.until}" if one.until else ""
        yield f"Not checked: {one.thing}: {one.why} ({one.who}{until})."


def _posted(result: HouseResult) -> Iterator[str]:
    """Of a posted capacity and what is computed, the one nearer its limit, and the other beside it."""
    style = style_of(result)
    for one in result.sets:
        if one.posted is not None and any(row.link == "posted capacity" and row.value.high > 0.0 for row in one.posted):
            first, second = (f"{row.place} {figure_told(row, style)}" for row in one.posted)
            yield f"Set {one.label}, how much may hang, posted and computed: {first} is nearest, beside it {second}."


def _bridges(result: HouseResult) -> Iterator[str]:
    """The floor of each bridge, which is of no set."""
    for row in result.bridges:
        yield f"{row.label}, bricks stored and people: {figure_told(row, style_of(result))}, {row.verdict.value}."


def _left_out(result: HouseResult) -> Iterator[str]:
    """What nothing here is computed of, beside what a person lists."""
    if result.left_out:
        yield f"Not computed here: {'; '.join(result.left_out)}."


def _not_adopted(result: HouseResult) -> Iterator[str]:
    """One notice for all rules that nobody has adopted."""
    rules, written = result.house.rules.values(), result.house.house.rules
    defaults = [f"{one.name} {one.default}" for one in rules if one.written is None]
    if written.adopted_by:
        loose: list[str] = []
    else:
        loose = [f"{one.name} {one.words}" for one in rules if one.written is not None]
    if defaults or loose:
        yield f"Rules that nobody has adopted: {'; '.join([*loose, *defaults])}. Have the house adopt its own."


def style_of(result: HouseResult) -> Style:
    """The units of the house."""
    return Style("metric" if result.house.units == "metric" else "us")


def told_derivation(one: Derivation, workings: Sequence[Working] = ()) -> str:
    """How a figure came about: its formula, the arithmetic with its numbers put in, and what it rests on."""
    against = "limit not known" if one.limit == "not known" else f"of {one.limit}"
    lines = [f"{one.verdict}: {one.place}: {one.value} {against}", f"formula: {one.formula}", f"theory: {one.theory}",
             *(line for each in workings for line in _told_working(each)),
             f"rests on (the worst of it is {one.how.value}):"]  # fmt: skip
    for each in one.inputs:
        source = f"; {each.source}" if each.source else ""
        lines.append(f"    {each.name}: {each.words} ({each.how.value}{source}), {each.where}")
    return "\n".join(lines)


def told_room(result: HouseResult, one: SetResult, left: RoomLeft) -> str:
    """Room left along a batten, a place on a line: where, how much more, and the limit that is met first."""
    style = style_of(result)
    if not left.at or one.batten is None:
        return f"room left on set {one.label}: {left.says}"
    rows = [("place", "room", "met first")]
    for each in left.at:
        aside = each.x - one.batten.beam.length / 2
        side = " SR" if aside < 0 else " SL"
        at = "CL" if abs(aside) < NEARLY_CENTRED else f"{length(abs(aside), style)}{side}"
        rows.append((at, limit(each.force, style) if each.link != NO_LIMIT else "any", each.link))
    wide = [max(len(row[i]) for row in rows) for i in (0, 1)]
    return "\n".join([
        f"room left on set {one.label} for one more load at one place, all that hangs there left as it is:",
        *(f"    {place.ljust(wide[0])}  {room.rjust(wide[1])}  {link}" for place, room, link in rows),
        NOT_OF_ROOM, CAUTION])  # fmt: skip


def _refused(refusal: Refusal, one: SetResult) -> str:
    """A refusal, without what a finding above it said in the same words."""
    mends = {each.mend for each in one.findings}
    above = next((each for each in one.findings if one.verdict.value != "within"
                  and refusal.says.endswith(each.says)), None)  # fmt: skip
    if above is None or refusal.mend not in mends:
        return f"{refusal.says} {refusal.mend}"
    place = above.place.removeprefix(f"set {one.label}, ")
    return f"{refusal.says.removesuffix(above.says).rstrip(': ').removesuffix(place).rstrip(': ')}, as said above."


def sizes_told(sets: Iterable[RiggedSet]) -> Iterator[str]:
    """Which of the house's bricks the lines call small: by voice "2 half" could be heard as two and a half."""
    of: dict[tuple[str, str], list[str]] = {}
    for one in sets:
        if one.small is not None:
            of.setdefault((one.brick.name, one.small.name), []).append(one.label)
    for (brick, small), labels in of.items():
        where = f" on set{'s' if len(labels) > 1 else ''} {', '.join(labels)}" if len(of) > 1 else ""
        yield f'Said as "brick"{where} is {brick}, said as "small" is {small}.'


def as_list(said: str, indent: str = "     ") -> str:
    """What is told with heads of a list, each head on a line of its own."""
    from counterpoise.planning.tall_words import PARTS

    for head in PARTS:
        said = said.replace(f" {head}", f"\n{indent}{head}")
    return said


def _told_working(one: Working) -> Iterator[str]:
    """The arithmetic, a number on each line."""
    yield f"{one.says}:"
    wide = max(len(figure) for figure in (one.figure, *(each.figure for each in one.steps)))
    yield from (f"    {each.sign or ' '} {each.figure.rjust(wide)}  {each.says}" for each in one.steps)
    yield f"    = {one.figure.rjust(wide)}"
    if one.note:
        yield f"    {one.note}"


def told_steps(plan: Plan, one: SetResult, what: str) -> str:
    """The spoken lines of a plan, then why it ends where it ends early."""
    lines = [f"Set {one.label}, {what}."]
    if one.verdict.value != "within":
        lines.append(f"The set is {one.verdict.value}:")
        lines += [line for each in whole_first(one.findings) for line in told_finding(each)]
    if one.hold == "unknown" and plan.lines and what == "load-in":
        lines.append("HOLD, unknown: put nothing on. Its steps are as they would be once this is found out.")
    if any(" small" in line.says for line in plan.lines) and one.rigged is not None:
        lines += sizes_told([one.rigged])
    for line in plan.lines:
        lines.append(f"{line.number:3d}. {line.to}: {line.says}")
        lines.append(f'     reply "{line.reply}"' + (f" ({line.after})" if line.after else ""))
    if plan.refusal is not None:
        lines.append(as_list(f"Refused: {_refused(plan.refusal, one)}"))
    elif not plan.lines:
        lines.append(f"Nothing to load or to strike: {plan.final.said} on, leave it.")
    return "\n".join([*lines, "", *map(as_list, plan.notes), CAUTION])
