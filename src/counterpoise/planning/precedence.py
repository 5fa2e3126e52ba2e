"""Who comes before whom in a call, because of pieces that go from set to set and pieces that cannot pass each other."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from counterpoise.planning.neighbours import Passage, before_whom
from counterpoise.planning.state import Refusal
from counterpoise.planning.turns import Held, Turn

After = Mapping[int, frozenset[int]]


@dataclass(frozen=True, slots=True, kw_only=True)
class Precedence:
    """The turns that can be worked, for each the turns before it, and the sets that are held as they cannot be."""

    turns: tuple[Turn, ...]
    after: After
    held: tuple[Held, ...]


def precedence_of(turns: Sequence[Turn], first: After, standing: Sequence[Passage]) -> Precedence:
    """Sets that foul another whichever goes first are held, one of each two, and with them what waits for their piece.

    `first` names the turns that must come before a turn in any case; `standing` is what sets left alone take up.
    """
    turns, first, standing = tuple(turns), dict(first), list(standing)
    held: list[Held] = []
    while (found := _in_the_way(turns, first, standing)) is not None:
        label, other = found
        goes = _with_what_waits(turns, first, label)
        held += [_held(each, label, other) for each in dict.fromkeys(turns[at].set for at in goes)]
        standing += [Passage(set=turns[at].set, before=turns[at].passage.before, after=turns[at].passage.before)
                     for at in goes]  # fmt: skip
        stay = [at for at in range(len(turns)) if at not in goes]
        number = {at: new for new, at in enumerate(stay)}
        first = {number[at]: frozenset(number[k] for k in first.get(at, frozenset()) if k in number) for at in stay}
        turns = tuple(turns[at] for at in stay)
    return Precedence(turns=turns, after=_after(turns, first), held=tuple(held))


def _in_the_way(turns: Sequence[Turn], first: After, standing: Sequence[Passage]) -> tuple[str, str] | None:
    """A set that can be worked neither before nor after another, and that other.

    First whatever fouls a set that stays; then the set that fouls most others, of those the last of the house.
    """
    for turn in turns:
        for one in standing:
            if turn.set != one.set and before_whom([turn.passage, one])[1]:
                return turn.set, one.set
    _, either = before_whom([turn.passage for turn in turns])
    pairs = [(turns[i].set, turns[j].set) for i, j in either if turns[i].set != turns[j].set]
    if pairs:
        count = Counter(label for pair in dict.fromkeys(pairs) for label in pair)
        order = [turn.set for turn in turns]
        worst = max(count, key=lambda label: (count[label], order.index(label)))
        return next((worst, one if other == worst else other) for one, other in pairs if worst in (one, other))
    wants = _after(turns, first)
    lost = [(at, sorted(wants[at] - first.get(at, frozenset()))) for at in _in_a_ring(wants)]
    return next(((turns[at].set, turns[before[0]].set) for at, before in reversed(lost) if before), None)


def _after(turns: Sequence[Turn], first: After) -> dict[int, frozenset[int]]:
    wants, _ = before_whom([turn.passage for turn in turns])
    return {at: frozenset(first.get(at, frozenset()) | {k for k in wants[at] if turns[k].set != turns[at].set})
            for at in range(len(turns))}  # fmt: skip


def _in_a_ring(after: After) -> tuple[int, ...]:
    """The turns that wait for each other, so that none of them can be the first."""
    left = set(after)
    while ready := {at for at in left if not after[at] & left}:
        left -= ready
    return tuple(sorted(left))


def _with_what_waits(turns: Sequence[Turn], first: After, label: str) -> tuple[int, ...]:
    """All turns of a set, and all of the sets that wait for it, and so on."""
    labels = {label}
    while more := set(_waiting(turns, first, labels)) - labels:
        labels |= more
    return tuple(at for at, turn in enumerate(turns) if turn.set in labels)


def _waiting(turns: Sequence[Turn], first: After, labels: set[str]) -> Iterator[str]:
    for at, turn in enumerate(turns):
        if any(turns[k].set in labels for k in first.get(at, frozenset())):
            yield turn.set


def _held(label: str, culprit: str, other: str) -> Held:
    if label != culprit:
        says = f"Set {label} waits for a piece of set {culprit}, which is held."
        return Held(set=label, refusal=Refusal(code="PIECE", says=says, mend=f"Free set {culprit} first."))
    says = f"Set {label} and set {other} foul each other on the way, whichever goes first, by the thickness written."
    mend = (
        "Another trim or another set for one of them, or measure how thick they are. Else move them by hand and eye, "
    )
    return Held(set=label, refusal=Refusal(code="FOULS", says=says, mend=f"{mend}outside this call."))
