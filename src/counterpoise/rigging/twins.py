"""Twin sets that carry pieces together: each is judged with all of it, and what its bricks then take is not known."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from counterpoise.documents import COUNTERWEIGHT, House, Hung, LineSet, Piece
from counterpoise.rigging.missing import BALANCE, PULLS, Missing
from counterpoise.rigging.pieces import RiggedPiece
from counterpoise.rigging.sets import RiggedBatten

SAME_LENGTH = 0.01  # [m]; battens that differ by more do not meet a piece at the same places

HungPieces = Sequence[tuple[Hung, Piece]]


@dataclass(frozen=True, slots=True, kw_only=True)
class Shared:
    """What a set carries with its twins, `others` their labels; none where nothing hangs on any of them."""

    others: tuple[str, ...]
    hung: HungPieces
    lacks: tuple[Missing, ...]


def twins_of(house: House) -> dict[str, tuple[str, ...]]:
    """For each set that is one of a pair, or of more that are tied together, the others."""
    groups: list[set[str]] = []
    for one in house.sets:
        if one.twin_of:
            pair = {one.label, one.twin_of}
            for group in [group for group in groups if group & pair]:
                groups.remove(group)
                pair |= group
            groups.append(pair)
    return {label: tuple(sorted(group - {label})) for group in groups for label in group}


def shared_with_twins(one: LineSet, house: House, twins: Sequence[str], hung: Mapping[str, HungPieces]) -> Shared:
    """What a set carries: all that hangs on it, and all that hangs on its twins, each piece once.

    With free hand lines the bricks decide the shares, with a fouled or a locked one any of them may take all of it. So
    its lines are judged with all of it, and its balance waits. Where a twin is no counterweight set, or its batten is
    of another length, nothing says what each may take, and its pulls wait too.
    """
    own = list(hung.get(one.label, ()))
    pieces = own + [each for label in twins for each in hung.get(label, ())]
    if not twins or not pieces:
        return Shared(others=(), hung=own, lacks=())
    once: dict[str, tuple[Hung, Piece]] = {}
    for at, piece in pieces:  # its own place before that on a twin
        once.setdefault(piece.piece, (at, piece))
    others = [each for label in twins if (each := house.set_called(label)) is not None]
    why = "with free hand lines the bricks decide, with one fouled or locked any of them may take all of it"
    waits = BALANCE
    if any(each.rigged != COUNTERWEIGHT for each in (one, *others)):
        why, waits = "not all of them are counterweight sets", PULLS
    elif not _as_long(one, others):
        why, waits = "their battens are not of one length", PULLS
    return Shared(others=tuple(twins), hung=tuple(once.values()), lacks=tuple(_lacks(one, twins, why, waits)))


def _lacks(one: LineSet, twins: Sequence[str], why: str, waits: str) -> Iterator[Missing]:
    yield Missing(label=one.label, path=f"{one.stands}.twin of", line=one.line_of, waits=waits,
                  what=f"how it shares what hangs with its twin, set {', '.join(twins)} ({why}),")  # fmt: skip


def _as_long(one: LineSet, others: Sequence[LineSet]) -> bool:
    lengths = [each.batten.length.best for each in (one, *others)]
    known = [length for length in lengths if length is not None]
    return len(known) == len(lengths) and max(known) - min(known) <= SAME_LENGTH


def as_twin(batten: RiggedBatten, others: Sequence[str]) -> RiggedBatten:
    """The batten with pieces of which it may carry all, or none."""
    if not others:
        return batten
    cables = tuple(replace(one, line_mass=(0.0, *one.line_mass[1:])) for one in batten.cables)
    return replace(batten, pieces=tuple(map(_or_none, batten.pieces)), cables=cables, twins=tuple(others))


def _or_none(piece: RiggedPiece) -> RiggedPiece:
    return replace(piece, parts=tuple(replace(part, mass=(0.0, *part.mass[1:])) for part in piece.parts))
