"""Prices on the kinds of brick, as good as any: found from the choices that every set makes at those tried so far.

With a price on each kind every set chooses for itself; what they then pay, less what the stock is worth, is below every
answer that the stock allows (weak duality). As prices change it is the least of as many planes as there are choices, so
the best prices are a small linear programme of which the planes are found one after the other (cutting planes).
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from counterpoise.planning.stock.columns import Columns, Counts, Figures

_PLANES = 150
_PIVOTS = 60
_TINY = 1e-11  # of the reach
_LEAST_PIVOT = 1e-9


@dataclass(frozen=True, slots=True, kw_only=True)
class Priced:
    """Prices by kind, the bound they give, and the parts of choices that come nearest to what the stock allows.

    `mixed` is one row a set: a mean of some of its choices, of each kind. No answer costs less than `bound`.
    """

    prices: Figures
    bound: float
    mixed: Figures


def best_prices(
    columns: Columns, stock: Counts, start: Figures, reach: float, *, enough: float, close: float
) -> Priced:
    """The prices whose bound is the highest, of those that make the stock worth no more than `reach`.

    Args:
        columns: the choices; every set must have one.
        stock: bricks by kind; of a kind that there is none of, one counts as worth its price.
        start: prices to try first.
        reach: what the stock may be worth at the prices.
        enough: a bound above this is good enough.
        close: how near the highest the bound must be.
    """
    planes, costs, basis = _without_planes(stock, reach)
    picks: list[Counts] = []
    best, held, tried = -np.inf, start, start
    for turn in range(_PLANES):
        chosen, _ = columns.cheapest(tried)
        over = columns.counts[chosen].sum(axis=0) - stock
        cost = float(columns.cost[chosen].sum())
        picks.append(chosen)
        if cost + float(over @ tried) > best:
            best, held = cost + float(over @ tried), tried
        planes = np.column_stack([planes, np.append(over, 1.0)])
        costs = np.append(costs, cost)
        if not turn:
            basis = _first_basis(basis, over, stock)
        basis, parts, duals = _solved(planes, costs, basis)
        if best > enough or float(duals[-1]) - best <= close:
            break
        target = np.maximum(0.0, -duals[:-1])
        tried = (target + held) / 2 if turn % 2 else target
    of_planes = basis > len(stock)
    mixed = sum(part * columns.as_figures[picks[at - len(stock) - 1]]
                for at, part in zip(basis[of_planes], parts[of_planes], strict=True))  # fmt: skip
    return Priced(prices=held, bound=best, mixed=np.asarray(mixed))


def _without_planes(stock: Counts, reach: float) -> tuple[Figures, Figures, Counts]:
    """The programme before the first plane, as its dual: what is bought at the reach, and what is left over by kind.

    Its rows are the kinds, and that the parts of planes make one. A basis that is no answer yet comes with it.
    """
    kinds = len(stock)
    planes = np.zeros((kinds + 1, kinds + 1))
    planes[:kinds, 0] = -np.maximum(1.0, stock)
    planes[:kinds, 1:] = np.eye(kinds)
    costs = np.zeros(kinds + 1)
    costs[0] = reach
    return planes, costs, np.arange(1, kinds + 2)


def _first_basis(basis: Counts, over: Counts, stock: Counts) -> Counts:
    """The one plane, with what it is over bought as far as the worst kind asks for."""
    worst = int(np.argmax(over / np.maximum(1.0, stock)))
    first = basis.copy()
    if over[worst] > 0:
        first[worst] = 0
    return first


def _solved(planes: Figures, costs: Figures, basis: Counts) -> tuple[Counts, Figures, Figures]:
    """The revised simplex method from a basis that is an answer: the basis, how much of each, and the duals.

    Where it does not end in time the basis is an answer all the same, and prices from any duals give a bound.
    """
    tiny = _TINY * max(1.0, float(costs[0]))
    inverse = np.linalg.inv(planes[:, basis])
    for turn in range(_PIVOTS):
        gains = costs - costs[basis] @ inverse @ planes
        gains[basis] = 0.0
        enter = int(np.argmin(gains) if turn < _PIVOTS // 2 else np.argmax(gains < -tiny))  # then no circles (Bland)
        if gains[enter] >= -tiny:
            break
        falls = inverse @ planes[:, enter]
        ratio = np.where(
            falls > _LEAST_PIVOT, np.maximum(inverse[:, -1], 0.0) / np.maximum(falls, _LEAST_PIVOT), np.inf
        )
        leave = int(np.argmin(ratio))
        if not np.isfinite(ratio[leave]):
            break
        basis = basis.copy()
        basis[leave] = enter
        row = inverse[leave] / falls[leave]
        inverse = inverse - falls[:, None] * row
        inverse[leave] = row
    return basis, np.maximum(0.0, inverse[:, -1]), costs[basis] @ inverse
