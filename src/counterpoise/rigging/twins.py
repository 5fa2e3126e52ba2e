"""Twin sets that carry one piece: how they share it is not computed, and no set of the pair is judged as if it were."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from counterpoise.documents import House, Hung, LineSet, Piece
from counterpoise.rigging.missing import BALANCE, PULLS, Missing


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


def shared_with_twins(
    one: LineSet, twins: Sequence[str], hung: Mapping[str, Sequence[tuple[Hung, Piece]]]
) -> Iterator[Missing]:
    """What is not known of a set because a piece hangs on it and its twins together.

    With free hand lines the bricks decide the shares, with a fouled one either set may take all of it. Where all that
    they carry is written for this set its lines are judged with all of it; only its balance waits. Else its pulls do.
    """
    others = [label for label in twins if hung.get(label)]
    if not others and not (hung.get(one.label) and twins):
        return
    told = ", ".join(twins)
    yield Missing(label=one.label, path=f"{one.stands}.twin of", line=one.line_of,
                  what=f"how it shares what hangs with its twin, set {told}, which is not computed yet,",
                  waits=PULLS if others else BALANCE)  # fmt: skip
