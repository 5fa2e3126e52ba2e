"""Counts of every kind in one whole number, so that many are added, held to limits and told apart at once.

Each kind has a field of bits, and above it one that stays empty. Where a number is taken from limits in which that bit
is set, it stays set exactly where the kind is no more than its limit. Where one number is too short there are several.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from counterpoise.planning.stock.columns import Counts, Figures, Yes

_BITS = 62
_SHORT = 1_000  # as many are sorted sooner with their cost than without it


@dataclass(frozen=True, slots=True)
class Packing:
    """Where the field of each kind is: in which number (`word`), how far up (`shift`), and all its bits (`mask`).

    `empty` has the bit above each field, one row a number.
    """

    word: Counts
    shift: Counts
    mask: Counts
    empty: Counts

    @classmethod
    def for_up_to(cls, most: Counts) -> Packing:
        """Room for so many of each kind."""
        word, shift, mask, empty = [], [], [], [0]
        at = 0
        for each in most.tolist():
            width = max(1, each.bit_length())
            if at + width + 1 > _BITS:
                at = 0
                empty.append(0)
            word.append(len(empty) - 1)
            shift.append(at)
            mask.append((1 << width) - 1)
            at += width + 1
            empty[-1] |= 1 << (at - 1)
        return cls(np.array(word), np.array(shift), np.array(mask), np.array(empty)[:, None])

    def packed(self, counts: Counts) -> Counts:
        """One row a number, one column a row of the counts."""
        found = np.zeros((len(self.empty), len(counts)), dtype=np.int64)
        for kind, (word, shift) in enumerate(zip(self.word, self.shift, strict=True)):
            found[word] += counts[:, kind] << shift
        return found

    def counts(self, packed: Counts) -> Counts:
        """What was packed."""
        found: Counts = (packed[self.word] >> self.shift[:, None] & self.mask[:, None]).T
        return found

    def limits(self, most: Counts) -> Counts:
        """How many of each there may be, packed as `are_within` takes it."""
        return self.packed(most) | self.empty

    def are_within(self, packed: Counts, limit: Counts) -> Yes:
        """Those of which no kind is more than it may be: `limit` is one column."""
        kept = (limit - packed & self.empty) == self.empty
        return kept[0] if len(kept) == 1 else np.asarray(kept.all(axis=0))


def each_once(packed: Counts, cost: Figures) -> Counts:
    """Where the cheapest of those that are the same is, and of two that cost the same the first."""
    several = len(packed) > 1 or len(cost) < _SHORT
    order = np.lexsort((cost, *packed)) if several else np.argsort(packed[0])
    ordered = packed[:, order]
    unlike = ordered[:, 1:] != ordered[:, :-1]
    new = np.ones(len(order), dtype=bool)
    new[1:] = unlike[0] if len(unlike) == 1 else unlike.any(axis=0)
    if several:
        return order[new]
    starts, paid = np.flatnonzero(new), cost[order]
    least = np.minimum.reduceat(paid, starts)[np.cumsum(new) - 1]
    found: Counts = np.minimum.reduceat(np.where(paid <= least, order, len(order)), starts)
    return found
