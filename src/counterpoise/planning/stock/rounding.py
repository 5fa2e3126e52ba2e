"""From parts of choices to whole ones: a choice for each set that the stock allows, near a mix that it allows too."""

from __future__ import annotations

import numpy as np

from counterpoise.planning.stock.columns import Columns, Counts, Figures

_LOOKED_AT = 250  # unlike changes of which all pairs are tried
_LEAST_GAIN = 1e-6  # [N]
_MIXER = 6364136223846793005  # odd, so that counts that differ nearly never have one key


def rounded(columns: Columns, stock: Counts, mixed: Figures) -> Counts:
    """A choice for each set, so that all together use nearly what the mix does; it may be more than there is.

    The sets with the fewest choices go first; each makes up for what those before it took too much of or left.
    """
    scale = 1.0 / np.maximum(1.0, stock)
    ends = np.append(columns.starts[1:], len(columns.owner))
    chosen = columns.starts.copy()
    owed = np.zeros(len(stock))
    for one in np.argsort(ends - columns.starts, kind="stable"):
        first, end = columns.starts[one], ends[one]
        owed += mixed[one]
        off = (columns.as_figures[first:end] - owed) * scale
        at = int(np.argmin((off * off).sum(axis=1)))
        chosen[one] = first + at
        owed -= columns.as_figures[first + at]
    return chosen


def mended(columns: Columns, stock: Counts, chosen: Counts, enough: float, most: int = 80) -> Counts | None:
    """One set changed at a time, or two at once: first until nothing is missing, then until it costs no less.

    It ends where the cost is no more than `enough`, or after so many changes at the most. None where something stays
    missing.
    """
    chosen = chosen.copy()
    weight = 1.0 / np.maximum(1.0, stock)
    dear = 10.0 * (1.0 + float(columns.cost.max())) * float(np.max(stock, initial=1))  # a brick outweighs any cost
    for _ in range(most):
        room = stock - columns.counts[chosen].sum(axis=0)
        missing = float(np.maximum(0, -room) @ weight)
        if missing <= 0.0 and float(columns.cost[chosen].sum()) <= enough:
            break
        change = columns.counts - columns.counts[chosen][columns.owner]
        rise = columns.cost - columns.cost[chosen][columns.owner]
        worth = (np.maximum(0, change - room) @ weight - missing) * dear + rise
        at = int(np.argmin(worth))
        better = (at,) if worth[at] < -_LEAST_GAIN else _pair(columns.owner, change, rise, room, weight * dear)
        if not better:
            break
        for each in better:
            chosen[columns.owner[each]] = each
    return chosen if (columns.counts[chosen].sum(axis=0) <= stock).all() else None


def _pair(owner: Counts, change: Counts, rise: Figures, room: Counts, dear: Figures) -> tuple[int, ...]:
    """Two choices of two sets that are better together than what there is; nothing where there are none.

    Of the choices that change the counts alike only the one whose cost rises least is looked at.
    """
    keys = np.zeros(len(change), dtype=np.int64)
    for column in change.T:
        keys = keys * _MIXER + column
    order = np.lexsort((rise, keys))
    order = order[np.flatnonzero(np.diff(keys[order], prepend=keys[order[0]] - 1))]
    size = np.abs(change[order]) @ dear
    order = order[np.argsort(size, kind="stable")[:_LOOKED_AT]]
    some = change[order]
    after = some[:, None, :] + some[None, :, :] - room
    worth = np.maximum(0, after) @ dear - float(np.maximum(0, -room) @ dear)
    worth += rise[order][:, None] + rise[order][None, :]
    worth[owner[order][:, None] == owner[order][None, :]] = np.inf
    at = int(np.argmin(worth))
    one, other = divmod(at, len(order))
    return (int(order[one]), int(order[other])) if worth.flat[at] < -_LEAST_GAIN else ()
