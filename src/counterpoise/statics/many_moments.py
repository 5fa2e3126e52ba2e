"""Moments of many cases at once, from their pulls."""

from collections.abc import Sequence

import numpy as np

from counterpoise.statics.grid import cut, left_of, simple_span
from counterpoise.statics.many_equations import Array
from counterpoise.statics.model import Beam, Line, Load
from counterpoise.statics.stretch import Stretch


def moments_at_lines(beam: Beam, lines: Sequence[Line], loads: Sequence[Load], tensions: Array) -> Array:
    """Bending moment at each line, sagging positive, from the pulls of many cases under the same loads.

    Args:
        beam, lines, loads: as given to hang_many.
        tensions: its answer [cases, lines] [N].

    Returns:
        [cases, lines] [N m].
    """
    grid = cut(beam, lines, loads)
    x = np.array([grid.xs[s] for s in grid.at])
    hung = np.array([left_of(grid, s)[1] for s in grid.at])
    reach = np.maximum(x[:, None] - x[None, :], 0.0)
    return np.asarray(tensions @ reach.T - hung)


def largest_moments(beam: Beam, lines: Sequence[Line], loads: Sequence[Load], tensions: Array) -> tuple[Array, Array]:
    """Moment of the greatest size anywhere on the batten in each case, with its sign [N m], and where [m]. Exact.

    Args and source: as moments_at_lines; between neighbouring lines the moment is one hump, whose top is where the
    shear passes zero.
    """
    grid = cut(beam, lines, loads)
    at_lines = moments_at_lines(beam, lines, loads, tensions)
    softs = [1.0 / ei for ei in grid.eis]
    rows = np.arange(len(at_lines))
    column = np.abs(at_lines).argmax(axis=1)
    best, where = at_lines[rows, column], np.array([grid.xs[s] for s in grid.at])[column]
    for j, (a, b) in enumerate(zip(grid.at, grid.at[1:], strict=False)):
        ps = [0.0, *grid.ps[a + 1 : b + 1]]
        span = Stretch(grid.xs[a : b + 1], softs[a:b], grid.ws[a:b], ps, 0.0, simple_span(grid, a, b).left)
        fore, aft = at_lines[:, j], at_lines[:, j + 1]
        slant = (aft - fore) / span.length
        cells = span.cells
        c = np.maximum(np.searchsorted(np.array(span.rising), slant) - 1, 0)
        w, h, start = np.array(cells.ws)[c], np.array(cells.hs)[c], np.array(cells.xs)[c]
        shear = np.array(cells.shears)[c] + slant
        top = np.divide(shear, w, out=h.copy(), where=w > 0.0)
        t = np.clip(np.where(shear > 0.0, top, 0.0), 0.0, h)
        peak = np.array(cells.moments)[c] + fore + slant * (start - cells.xs[0]) + t * (shear - 0.5 * w * t)
        higher = peak > np.abs(best)
        best, where = np.where(higher, peak, best), np.where(higher, start + t, where)
    return best, where
