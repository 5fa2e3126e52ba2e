"""Where the slope of a cell is zero: up to three places, found one by one between the places where it turns."""

import math


def level_places(first: float, soft: float, m: float, v: float, w: float, h: float) -> list[float]:
    """Distances in a cell of length h where the slope, `first` at its start, is zero."""
    found = []
    low, f_low = 0.0, first
    for t in (*zero_moments(m, v, w, h), h):  # up to each of these the slope only rises or only falls
        f = first - soft * t * (m + t * (0.5 * v - w * t / 6.0))
        if (f < 0.0) != (f_low < 0.0):
            found.append(level_place(first, soft, m, v, w, (low, t, f_low, f)))
        low, f_low = t, f
    return found


def zero_moments(m: float, v: float, w: float, h: float) -> tuple[float, ...]:
    """Distances strictly inside a cell where the moment m + v t - w t2/2 is zero, in order."""
    if w == 0.0:
        t = -m / v if v else 0.0
        return (t,) if 0.0 < t < h else ()
    under = v * v + 2.0 * w * m
    if under <= 0.0:
        return ()
    q = v + math.sqrt(under) if v >= 0.0 else v - math.sqrt(under)  # both roots without loss of digits
    one, other = q / w, -2.0 * m / q
    if one > other:
        one, other = other, one
    if 0.0 < one < h:
        return (one, other) if one < other < h else (one,)
    return (other,) if 0.0 < other < h else ()


def level_place(
    first: float, soft: float, m: float, v: float, w: float, bracket: tuple[float, float, float, float]
) -> float:
    """The one place where the slope is zero: Newton, kept inside by bisection.

    The bracket holds two places, between which the slope only rises or only falls, and the slopes there, of which one
    is below zero.
    """
    low, high, f_low, f_high = bracket
    rising = f_low < 0.0
    enough = 1.0e-6 * (high - low)  # a Newton step this short leaves its square; the sag is level here besides
    t = low + (high - low) * f_low / (f_low - f_high)
    half, third = 0.5 * v, w / 6.0
    for _ in range(80):
        f = first - soft * t * (m + t * (half - third * t))
        if f == 0.0:
            return t
        if (f < 0.0) == rising:
            low = t
        else:
            high = t
        fall = soft * (m + t * (v - 0.5 * w * t))
        new = t + f / fall if fall else low
        if not low < new < high:
            new = 0.5 * (low + high)
        if -enough <= new - t <= enough:
            return new
        t = new
    return t
