"""Where moment, stress and sag are greatest in each of many fields: exact, between stations too."""

from typing import NamedTuple

import numpy as np

from counterpoise.statics.many_equations import Array, Index, Mask
from counterpoise.statics.many_fields import Fields

_ENOUGH = 1.0e-6  # of a bracket: a Newton step this short leaves its square; the sag is level here besides
_MOST_TURNS = 80


class Greatest(NamedTuple):
    """A value of the greatest size at every place, with its sign, and where along the batten [m]."""

    values: Array
    xs: Array


def _of(values: Array, xs: Array) -> Greatest:
    """The first of the greatest size along axis 0."""
    row = np.abs(values).argmax(axis=0)[None]
    return Greatest(np.take_along_axis(values, row, axis=0)[0], np.take_along_axis(xs, row, axis=0)[0])


def _humps(fields: Fields) -> tuple[Array, Array]:
    """Moment where the shear passes zero inside a cell, nothing elsewhere; and how far into the cell."""
    v, w = fields.shears[:-1], fields.ws
    inside = (v > 0.0) & (v < w * fields.hs)
    t = np.divide(v, w, out=np.zeros(w.shape), where=inside)
    return np.where(inside, fields.moments[:-1] + 0.5 * v * t, 0.0), t


def greatest_moments(fields: Fields) -> Greatest:
    """Bending moment of the greatest size anywhere on the batten [N m]."""
    humps, t = _humps(fields)
    return _of(np.concatenate([fields.moments, humps]), np.concatenate([fields.xs, fields.xs[:-1] + t]))


def greatest_shears(fields: Fields) -> Greatest:
    """Shear of the greatest size, at a step the larger of both sides [N]."""
    starts = np.where(fields.hs > 0.0, fields.shears[:-1], 0.0)  # between a load and a line at one place is no batten
    ends = starts - fields.ws * fields.hs
    return _of(np.concatenate([starts, ends]), np.concatenate([fields.xs[:-1], fields.xs[1:]]))


def greatest_stresses(fields: Fields, moduli: Array) -> Greatest:
    """Bending stress of the greatest size, of stretches with these moduli by cells of the standing grid [Pa]."""
    humps, t = _humps(fields)
    share = 1.0 / moduli[fields.of]
    values = np.concatenate([fields.moments[:-1] * share, humps * share, fields.moments[1:] * share])
    found = _of(values, np.concatenate([fields.xs[:-1], fields.xs[:-1] + t, fields.xs[1:]]))
    return Greatest(np.abs(found.values), found.xs)


def greatest_sags(fields: Fields) -> tuple[Greatest, Array]:
    """Sag of the greatest size against the chord of its span [m]; and the greatest of size over span of any span."""
    inside = (fields.span > 0) & (fields.span < len(fields.lengths) - 1)
    sags = np.where(inside, fields.sags[:-1], 0.0)
    values, xs = [sags], [fields.xs[:-1]]
    for level, t in _level_places(fields, inside):
        found = np.zeros(sags.shape)
        found[level] = _sag_at(fields, level, t)
        place = fields.xs[:-1].copy()
        place[level] += t
        values.append(found)
        xs.append(place)
    every = np.concatenate(values)
    ratios = np.abs(every) / np.concatenate([fields.lengths[fields.span]] * len(values))
    return _of(every, np.concatenate(xs)), np.asarray(ratios.max(axis=0))


def _firsts(fields: Fields) -> Array:
    """Slope against the chord at the start of every cell."""
    return fields.slopes[:-1] - np.take_along_axis(fields.chords, fields.span, axis=0)


def _sag_at(fields: Fields, level: tuple[Index, ...], t: Array) -> Array:
    """Sag at the distance t into some cells."""
    m, v, w = fields.moments[:-1][level], fields.shears[:-1][level], fields.ws[level]
    first, soft = _firsts(fields)[level], fields.softs[level]
    bent = 0.5 * m + t * (v / 6.0 - t * w / 24.0)
    return np.asarray(fields.sags[:-1][level] + t * (first - soft * t * bent))


def _level_places(fields: Fields, inside: Mask) -> list[tuple[tuple[Index, ...], Array]]:
    """Cells with a place where the slope is the chord's, and how far into the cell: up to three times.

    Between two places where the moment is zero the slope only rises or only falls, so each such part has one or none.
    """
    first, soft, h = _firsts(fields), fields.softs, fields.hs
    m, v, w = fields.moments[:-1], fields.shears[:-1], fields.ws
    one, two = _zero_moments(m, v, w, h)
    ends = [np.zeros(h.shape), one, two, h]
    slopes = [first - soft * t * (m + t * (0.5 * v - w * t / 6.0)) for t in ends]
    found = []
    for low, high, f_low, f_high in zip(ends, ends[1:], slopes, slopes[1:], strict=False):
        level = np.nonzero(inside & (high > low) & ((f_low < 0.0) != (f_high < 0.0)))
        cells = (each[level] for each in (first, soft, m, v, w))
        found.append((level, _newton(*cells, bracket=(low[level], high[level], f_low[level], f_high[level]))))
    return found


def _zero_moments(m: Array, v: Array, w: Array, h: Array) -> tuple[Array, Array]:
    """The two places in each cell where the moment is zero, in order; the start of the cell where there is none."""
    under = v * v + 2.0 * w * m
    root = np.sqrt(np.maximum(under, 0.0))
    q = np.where(v >= 0.0, v + root, v - root)  # both roots without loss of digits
    real = under > 0.0
    one = np.divide(q, w, out=np.zeros(h.shape), where=real & (w > 0.0))
    other = np.divide(-2.0 * m, q, out=np.zeros(h.shape), where=real & (q != 0.0))
    one, other = (np.where((each > 0.0) & (each < h), each, 0.0) for each in (one, other))
    return np.minimum(one, other), np.maximum(one, other)


def _newton(first: Array, soft: Array, m: Array, v: Array, w: Array, *, bracket: tuple[Array, ...]) -> Array:
    """The one place in each bracket where the slope is zero; as sweep.level_place."""
    low, high, f_low, f_high = bracket
    rising, enough = f_low < 0.0, _ENOUGH * (high - low)
    half, third = 0.5 * v, w / 6.0
    t = low + (high - low) * f_low / (f_low - f_high)
    for _ in range(_MOST_TURNS):
        f = first - soft * t * (m + t * (half - third * t))
        below = (f < 0.0) == rising
        low, high = np.where(below, t, low), np.where(below, high, t)
        fall = soft * (m + t * (v - 0.5 * w * t))
        new = t + np.divide(f, fall, out=np.full(t.shape, np.inf), where=fall != 0.0)
        new = np.where((low < new) & (new < high), new, 0.5 * (low + high))
        new = np.where(f == 0.0, t, new)
        done = (np.abs(new - t) <= enough).all()
        t = new
        if done:
            break
    return t
