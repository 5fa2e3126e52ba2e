"""One choice for each set under a shared stock, by prices on the kinds: an answer, and a bound that nothing is below.

With a price on each kind of brick every set chooses for itself; what they then pay, less what the stock is worth, is
below every answer that the stock allows (weak duality). Good prices are found by moving them with the shortage; the
choices at those prices are mended into an answer; what is left between the two is searched to the end if it is small.
"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from counterpoise.planning.columns import Columns, Counts, Figures

_TRIES = 120
_MOVES = 400
_PAIRED = 1500
_MOST_STATES = 20_000
_MOST_TRIED = 400_000
_NOISE = 1e-7
CLOSE = 1e-6  # of a sum: an answer that near its bound is taken for the best


def find_within(columns: Columns, stock: Counts) -> tuple[Counts | None, bool]:
    """Counts for each set that the stock allows, one row a set; or None, and if that is proven."""
    if not columns.is_whole:
        return None, True
    weight = _scale(columns)
    prices = weight.copy()
    best_short = None
    for turn in range(_TRIES):
        chosen, paid = columns.cheapest(prices, is_free=True)
        over = columns.counts[chosen].sum(axis=0) - stock
        if (over <= 0).all():
            return columns.counts[chosen], True
        if paid - float(prices @ stock) > _NOISE * max(1.0, paid):
            return None, True
        short = float(np.maximum(over, 0) @ weight)
        if best_short is None or short < best_short[0]:
            best_short = (short, chosen)
        if turn in (15, _TRIES - 1):
            mended = _mend(columns, stock, best_short[1], weight)
            if mended is not None:
                return columns.counts[mended], True
        prices = np.maximum(0.0, prices + over * weight**2 / (_length(over * weight) * (1.0 + turn / 4)))
    paid_each = columns.counts @ prices
    dearer = paid_each - np.minimum.reduceat(paid_each, columns.starts)[columns.owner]
    keep = dearer <= float(prices @ stock) - float((paid_each - dearer)[columns.starts].sum()) + _NOISE
    few = columns.only(keep)  # what is dearer than all that the stock leaves over can be in no answer
    found, is_sure = _search(few, stock, prices, None)
    return (None if found is None else few.counts[found]), is_sure


def prices_of(columns: Columns, stock: Counts) -> tuple[Figures, float]:
    """Good prices for the least summed cost, and the bound they give: no answer that the stock allows costs less."""
    weight = _scale(columns)
    prices, held, lower = np.zeros(len(stock)), np.zeros(len(stock)), 0.0
    reach, stale = max(1.0, float(columns.cost.max())) * 10.0, 0
    for _ in range(4 * _TRIES):
        chosen, paid = columns.cheapest(prices, is_free=False)
        over = columns.counts[chosen].sum(axis=0) - stock
        value = paid - float(prices @ stock)
        if value > lower + _NOISE:
            lower, held, stale = value, prices, 0
        else:
            stale += 1
        if stale > 6:
            reach, stale, prices = reach / 2, 0, held
            if reach < _NOISE:
                break
        norm = float((over * weight) @ (over * weight))
        if norm <= 0.0:
            break
        prices = np.maximum(0.0, prices + (lower + reach - value) * over * weight**2 / norm)
    return held, lower


def search_least(
    columns: Columns, stock: Counts, start: Counts, prices: Figures, lower: float
) -> tuple[Counts, float, float]:
    """The choices whose summed cost is least, that cost, and a bound below all: the cost itself where that is proven.

    Only choices that at the prices are dearer than the cheapest by less than the gap can be part of a better answer.
    A small gap is tried first, and widened until an answer lies in it.
    """
    best = _improve(columns, stock, start)
    upper = float(columns.cost[best].sum())
    dearer = columns.cost + columns.counts @ prices
    dearer = dearer - np.minimum.reduceat(dearer, columns.starts)[columns.owner]
    gap, proven, all_seen = max(_NOISE * 10, 1e-4 * float(columns.cost.max())), lower, True
    close = max(_NOISE, CLOSE * upper)
    while upper - proven > close:
        gap = min(gap, upper - lower)
        keep = dearer <= gap
        keep[best] = True
        few = columns.only(keep)
        found, is_sure = _search(few, stock, prices, lower + gap)
        if found is not None:
            tried = _improve(columns, stock, np.flatnonzero(keep)[found])
            if float(columns.cost[tried].sum()) < upper - _NOISE:
                best, upper = tried, float(columns.cost[tried].sum())
        all_seen = all_seen and is_sure
        if all_seen:
            proven = upper if found is not None else min(upper, lower + gap)
        if found is not None or gap >= upper - lower:
            break
        gap *= 4.0 if is_sure else 30.0
    if upper - proven > close:
        best = _improve_by_two(columns, stock, best, dearer)
        upper = float(columns.cost[best].sum())
    return best, upper, min(proven, upper)


def _scale(columns: Columns) -> Figures:
    """What a brick of each kind is worth beside the others: as many as would be used of it, each."""
    used = np.maximum.reduceat(columns.counts, columns.starts, axis=0).sum(axis=0)
    found: Figures = 1.0 / np.maximum(1.0, used.astype(np.float64))
    return found


def _length(vector: Figures) -> float:
    return max(1e-12, float(np.sqrt(vector @ vector)))


def _mend(columns: Columns, stock: Counts, chosen: Counts, weight: Figures) -> Counts | None:
    """Change one set at a time so that less is missing, until nothing is; None where no one change helps."""
    chosen = chosen.copy()
    used = columns.counts[chosen].sum(axis=0)
    for _ in range(_MOVES):
        missing = np.maximum(0, used - stock) @ weight
        if missing <= 0.0:
            return chosen
        after = used + columns.counts - columns.counts[chosen][columns.owner]
        lacks = np.maximum(0, after - stock) @ weight
        rise = columns.cost - columns.cost[chosen][columns.owner]
        spent = (after - used) @ weight
        helps = np.flatnonzero(lacks < missing - 1e-12)
        if not len(helps):
            return None
        gained = missing - lacks[helps]
        at = helps[
            int(np.argmin((np.maximum(rise[helps], 0.0) + np.maximum(spent[helps], 0.0) * 1e-6 + 1e-9) / gained))
        ]
        used = after[at]
        chosen[columns.owner[at]] = at
    return None


def _improve(columns: Columns, stock: Counts, chosen: Counts) -> Counts:
    """Change one set at a time for the better while the stock allows it."""
    chosen = chosen.copy()
    used = columns.counts[chosen].sum(axis=0)
    for _ in range(_MOVES):
        gain = columns.cost - columns.cost[chosen][columns.owner]
        better = np.flatnonzero(gain < -1e-12)
        after = used + columns.counts[better] - columns.counts[chosen][columns.owner[better]]
        better, after = better[fits := (after <= stock).all(axis=1)], after[fits]
        if not len(better):
            return chosen
        at = int(np.argmin(gain[better]))
        used = after[at]
        chosen[columns.owner[better[at]]] = better[at]
    return chosen


def _improve_by_two(columns: Columns, stock: Counts, chosen: Counts, dearer: Figures) -> Counts:
    """Change two sets at once for the better, of the choices that are least dear at the prices, while that helps."""
    keep = np.zeros(len(dearer), dtype=bool)
    keep[np.argsort(dearer, kind="stable")[:_PAIRED]] = True
    for _ in range(_MOVES):
        keep[chosen] = True
        at = np.flatnonzero(keep)
        change = columns.counts[at] - columns.counts[chosen][columns.owner[at]]
        gain = columns.cost[at] - columns.cost[chosen][columns.owner[at]]
        room = stock - columns.counts[chosen].sum(axis=0)
        pair, most = None, -_NOISE
        for one in range(len(at)):
            fits = (change <= room - change[one]).all(axis=1) & (columns.owner[at] != columns.owner[at[one]])
            other = int(np.argmin(np.where(fits, gain, np.inf)))
            if fits[other] and gain[one] + gain[other] < most:
                pair, most = (at[one], at[other]), float(gain[one] + gain[other])
        if pair is None:
            return chosen
        chosen = chosen.copy()
        for each in pair:
            chosen[columns.owner[each]] = each
        chosen = _improve(columns, stock, chosen)
    return chosen


def _search(columns: Columns, stock: Counts, prices: Figures, upper: float | None) -> tuple[Counts | None, bool]:
    """The best choice below `upper`, or any where that is None, set by set, or None; and whether all was seen.

    A part way is dropped where even at the prices the rest can not bring it below `upper`, or within the stock.
    """
    paid = columns.counts @ prices if upper is None else columns.cost + columns.counts @ prices
    ends = np.append(columns.starts[1:], len(columns.counts))
    rest = np.append(np.cumsum(np.minimum.reduceat(paid, columns.starts)[::-1])[::-1], 0.0)
    fewest = np.minimum.reduceat(columns.counts, columns.starts, axis=0)
    needs = np.vstack([np.cumsum(fewest[::-1], axis=0)[::-1], np.zeros((1, len(stock)), dtype=np.int64)])
    most = float(prices @ stock) + (_NOISE if upper is None else upper - _NOISE)
    used, spent = np.zeros((1, len(stock)), dtype=np.int64), np.zeros(1)
    came: list[tuple[Counts, Counts]] = []
    path = _even_path(columns, stock)
    seen, is_sure = 0, True
    for at, (first, end) in enumerate(zip(columns.starts, ends, strict=True)):
        rows, costs = columns.counts[first:end], paid[first:end]
        if len(spent) * len(rows) > _MOST_TRIED:
            few = _likely(used - path[at - 1], spent, stock)[: max(1, _MOST_TRIED // len(rows))]
            used, spent, is_sure = used[few], spent[few], False
            came[-1] = (came[-1][0][few], came[-1][1][few])
        all_spent = (spent[:, None] + costs[None, :]).ravel()
        keep = np.flatnonzero(all_spent + rest[at + 1] <= most + (0.0 if upper is not None else _NOISE))
        source, pick = keep // len(rows), keep % len(rows)
        sums = used[source] + rows[pick]
        fits = (sums + needs[at + 1] <= stock).all(axis=1)
        source, pick, sums, all_spent = source[fits], pick[fits], sums[fits], all_spent[keep][fits]
        order = np.lexsort((all_spent, *sums.T))
        ordered = sums[order]
        new = np.ones(len(order), dtype=bool)
        new[1:] = (ordered[1:] != ordered[:-1]).any(axis=1)
        order = order[new]
        if len(order) > _MOST_STATES:
            order, is_sure = order[_likely(sums[order] - path[at], all_spent[order], stock)], False
        used, spent = sums[order], all_spent[order]
        came.append((source[order], first + pick[order]))
        seen += len(order)
        if not len(order):
            return None, is_sure
    own = spent - used @ prices  # of what they pay, less what the bricks are worth
    if upper is not None and float(own.min()) >= upper - _NOISE:
        return None, is_sure
    return _traced(came, int(np.argmin(own))), is_sure


def _even_path(columns: Columns, stock: Counts) -> Figures:
    """What would be used of each kind after each set, if every set took its part of the stock."""
    sizes = np.diff(np.append(columns.starts, len(columns.counts)))[:, None]
    so_far = np.cumsum(np.add.reduceat(columns.counts, columns.starts, axis=0) / sizes, axis=0)
    path: Figures = so_far / np.maximum(1e-9, so_far[-1]) * stock
    return path


def _likely(off: Figures, spent: Figures, stock: Counts) -> Counts:
    """The ways that are most likely to come to a good end: little spent, and the stock drawn on evenly so far."""
    uneven = np.abs(off) @ (1.0 / np.maximum(1.0, np.sqrt(stock)))
    rank = np.argsort(np.argsort(spent, kind="stable")) + 3 * np.argsort(np.argsort(uneven, kind="stable"))
    found: Counts = np.argsort(rank, kind="stable")[:_MOST_STATES]
    return found


def _traced(came: Sequence[tuple[Counts, Counts]], last: int) -> Counts:
    found = []
    for source, pick in reversed(came):
        found.append(pick[last])
        last = int(source[last])
    return np.asarray(found[::-1], dtype=np.int64)
