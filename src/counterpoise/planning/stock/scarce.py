"""Which kinds of brick are short for the sets that take no others, if bricks could be cut: where prices begin."""

from __future__ import annotations

from itertools import product

import numpy as np

from counterpoise.planning.stock.columns import Counts, Figures

_MOST_KINDS = 6  # of more only all together are looked at


def scarce(lacks: Figures, weights: Figures, stock: Counts) -> Figures:
    """By kind what a brick weighs at the most, or 0 where sets that take it do not set the largest out of balance.

    For some kinds together, and the sets that take no others, the largest can not fall below where what they lack
    beyond it is all the weight that there is of these kinds. It is highest for the kinds that are told.

    Args:
        lacks: what each set lacks [N].
        weights: what a brick of each kind weighs on each [N], one row a set, 0 where it takes none.
        stock: bricks by kind.
    """
    most = weights.max(axis=0)
    order = np.argsort(-lacks)
    lacks, takes = lacks[order], weights[order] > 0.0
    per_brick = 1.0 / np.max(weights[order] / np.maximum(most, 1e-12), axis=1)  # twice as many on double purchase
    highest, told = -np.inf, np.ones(len(stock), dtype=bool)
    for choice in product((True, False), repeat=len(stock)) if len(stock) <= _MOST_KINDS else ():
        kinds = np.array(choice)
        own = ~takes[:, ~kinds].any(axis=1)
        if kinds.any() and own.any():
            asked = np.cumsum(np.where(own, per_brick, 0.0))
            lacking = np.cumsum(np.where(own, per_brick * lacks, 0.0))
            level = np.max((lacking - most[kinds] @ stock[kinds])[own] / asked[own])
            if level > highest + 1e-9:
                highest, told = float(level), kinds
    found: Figures = np.where(told, most, 0.0)
    return found
