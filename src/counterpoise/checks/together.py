"""Findings that say the same of many sets, told once."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

from counterpoise.checks.finding import Finding

EACH = "Find it out and write it in each set, or once in a kind they share (`kinds`)."
MEASURED = (
    "Stiffness is EA, from the maker's sheet; or measured: load × length / stretch, as 100 lb on 20 ft that stretch by "
    "2 in are 100 × 240 / 2 = 12,000 lb. Take about what a line carries, on rope that was loaded before."
)
MAY_WEIGH = " may weigh "
MOST = 8  # of what single sets carry, before the rest is counted


@dataclass(frozen=True, slots=True, kw_only=True)
class Told:
    """One thing to know of one set or of several; `finding` is the first of them."""

    finding: Finding
    labels: tuple[str, ...]
    place: str


def together(findings: Iterable[Finding], order: Sequence[str]) -> tuple[Told, ...]:
    """The findings in their order, those that say the same of several sets joined at the first of them.

    Args:
        findings: of one house.
        order: the labels of its sets, in which neighbours are told as "18 to 25".
    """
    groups: dict[tuple[object, ...], list[Finding]] = {}
    for one in findings:
        # what waits for a figure of its own set says the same in each: only the place to write it differs
        mend = EACH if one.code == "MISSING" else one.mend
        says = one.code if one.carries else one.says  # a limit that many wait for is told once, what each carries after
        if one.bay:  # steel is over once, for all sets on it; each has its own mend
            groups.setdefault((one.verdict, one.code, one.bay), []).append(one)
            continue
        groups.setdefault((one.verdict, says, mend), []).append(one)
    place_of = {label: at for at, label in enumerate(order)}
    return tuple(_joined(group, place_of) for group in groups.values())


def _joined(group: list[Finding], place_of: dict[str, int]) -> Told:
    first = group[0]
    labels = tuple(dict.fromkeys(one.label for one in group))
    if len(group) == 1:
        return Told(finding=first, labels=labels, place=first.place)
    mend = first.mend if len({one.mend for one in group}) == 1 else _mends(group) if first.bay else EACH
    if mend == EACH and all(one.mend.endswith(MEASURED) for one in group):
        mend = f"{EACH} {MEASURED}"
    things = dict.fromkeys(_thing(one) for one in group)
    sets = f"set{'s' if len(labels) > 1 else ''} {listed(labels, place_of)}"
    return Told(finding=replace(first, says=_says(group), mend=mend, key=first.key if len(labels) == 1 else ""),
                labels=labels,
                place=", ".join(filter(None, [sets, " and ".join(filter(None, things))])))  # fmt: skip


def _mends(group: list[Finding]) -> str:
    """Of steel that is over for many sets: what load may be taken off it, else where the most comes from."""
    helpful = [one for one in group if MAY_WEIGH in one.mend] or [one for one in group if one.mend.startswith("Take ")]
    if not helpful:
        return group[0].mend
    each = [f"on set {one.label}, {one.mend[:1].lower()}{one.mend[1:].rstrip('.')}" for one in helpful[:MOST]]
    return f"O{'; or '.join(each)[1:]}."


def _says(group: list[Finding]) -> str:
    """What they say; of a limit that is not known what each set carries, the most first."""
    first = group[0]
    if len({one.says for one in group}) == 1:
        return first.says
    alike: dict[str, list[str]] = {}
    for one in group:
        alike.setdefault(one.carries, []).append(one.label)
    told = [f"{carries} (set{'s' if len(labels) > 1 else ''} {', '.join(labels)})" for carries, labels in alike.items()]
    rest = f" and {len(told) - MOST} more" if len(told) > MOST else ""
    return f"its limit is not known; carries {', '.join(told[:MOST])}{rest}."


def _thing(one: Finding) -> str:
    """The link without its set and its lines."""
    return one.place.removeprefix(f"set {one.label}").removeprefix(", ").split(", line")[0]


def listed(labels: Sequence[str], place_of: dict[str, int]) -> str:
    """Labels with runs of three and more neighbours told by their ends: 3, 18 to 25, 27.

    Only numbers that follow each other make a run: nobody can tell from "23 to 12A" which sets stand between.
    """
    runs: list[list[str]] = []
    for label in sorted(labels, key=lambda one: place_of.get(one, 0)):
        last = runs[-1][-1] if runs else ""
        beside = place_of.get(label, -1) == place_of.get(last, -9) + 1
        if beside and label.isdecimal() and last.isdecimal() and int(label) == int(last) + 1:
            runs[-1].append(label)
        else:
            runs.append([label])
    return ", ".join(f"{run[0]} to {run[-1]}" if len(run) > 2 else ", ".join(run) for run in runs)
