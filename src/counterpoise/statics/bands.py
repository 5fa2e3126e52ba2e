"""Systems of equations as small as a ladder truss needs them, symmetric and positive definite.

Source: Cholesky's method without roots, any text on matrix computation.
"""

from collections.abc import Iterable, Sequence
from operator import mul

# Lower entries of three rows that belong together. First those to the three rows before: three of the first row; the
# first two of the second, and the last two of the third, whose others are nothing. Then those among themselves: the
# diagonal; one and the diagonal; two and the diagonal.
Entries = tuple[float, float, float, float, float, float, float, float, float, float, float, float, float]
Factors = tuple[float, float, float, float, float, float, float, float, float, float, float]


class Band:
    """A factored matrix L D L' of rows in threes, each three tied only to the three beside it.

    Everything is written out: loops cost most.
    """

    def __init__(self, blocks: Iterable[Entries]) -> None:
        lower: list[Factors] = []
        softs: list[float] = []
        p = q = r = 0.0  # factors among the three rows before: second to first, third to first, third to second
        sa = sb = sc = 0.0  # one over their pivots
        for a1, a2, a3, b1, b2, c2, c3, aa, ba, bb, ca, cb, cc in blocks:
            a2 -= a1 * p
            a3 -= a1 * q + a2 * r
            fa, fb, fc = a1 * sa, a2 * sb, a3 * sc
            soft_a = 1.0 / (aa - (a1 * fa + a2 * fb + a3 * fc))
            b2 -= b1 * p
            b3 = -(b1 * q + b2 * r)
            ba -= b1 * fa + b2 * fb + b3 * fc
            ga, gb, gc, p = b1 * sa, b2 * sb, b3 * sc, ba * soft_a
            soft_b = 1.0 / (bb - (b1 * ga + b2 * gb + b3 * gc + ba * p))
            c3 -= c2 * r
            ca -= c2 * fb + c3 * fc
            cb -= c2 * gb + c3 * gc + ca * p
            hb, hc, q, r = c2 * sb, c3 * sc, ca * soft_a, cb * soft_b
            sa, sb, sc = soft_a, soft_b, 1.0 / (cc - (c2 * hb + c3 * hc + ca * q + cb * r))
            lower.append((fa, fb, fc, ga, gb, gc, p, hb, hc, q, r))
            softs += (sa, sb, sc)
        self._lower = lower
        self.softs = softs  # one over the pivots

    def ahead(self, right: Sequence[float], first: int = 0) -> list[float]:
        """Half of a solution: y of L y = right; above row `first`, the first of its three, the right is nothing.

        With A = L D L', the product of two right-hand sides over A is that of their halves over D.
        """
        a = b = c = 0.0
        middle = [0.0] * first
        columns = (right[first::3], right[first + 1 :: 3], right[first + 2 :: 3])
        rows = zip(self._lower[first // 3 :], *columns, strict=True)
        for (fa, fb, fc, ga, gb, gc, p, hb, hc, q, r), at_a, at_b, at_c in rows:
            at_a -= fa * a + fb * b + fc * c
            at_b -= ga * a + gb * b + gc * c + p * at_a
            c = at_c - (hb * b + hc * c + q * at_a + r * at_b)
            a, b = at_a, at_b
            middle += (a, b, c)
        return middle

    def closing(self, middle: Sequence[float]) -> list[float]:
        """What brings the right-hand side to nothing, x of A x = -right, from its half."""
        found: list[float] = []
        ta = tb = tc = 0.0  # what the three rows behind take from these
        over = list(map(mul, middle, self.softs))
        rows = zip(reversed(self._lower), over[-3::-3], over[-2::-3], over[::-3], strict=True)
        for (fa, fb, fc, ga, gb, gc, p, hb, hc, q, r), at_a, at_b, at_c in rows:
            c = -at_c - tc
            b = -at_b - tb - r * c
            a = -at_a - ta - p * b - q * c
            found += (c, b, a)
            ta, tb, tc = fa * a + ga * b, fb * a + gb * b + hb * c, fc * a + gc * b + hc * c
        found.reverse()
        return found


def solve_dense(matrix: Sequence[Sequence[float]], right: Sequence[float]) -> list[float]:
    """Solve a small symmetric positive definite system, full rows, by L D L'."""
    lower: list[list[float]] = []
    pivots: list[float] = []
    x: list[float] = []
    for full, value in zip(matrix, right, strict=True):
        row: list[float] = []
        ratios: list[float] = []
        pivot = full[len(x)]
        for j, (before, soft) in enumerate(zip(lower, pivots, strict=True)):
            entry = full[j]
            for a, b in zip(row, before, strict=False):
                entry -= a * b
            row.append(entry)
            ratio = entry * soft
            ratios.append(ratio)
            pivot -= entry * ratio
            value -= ratio * x[j]
        lower.append(ratios)
        pivots.append(1.0 / pivot)
        x.append(value)
    x = [value * soft for value, soft in zip(x, pivots, strict=True)]
    for i in range(len(x) - 1, 0, -1):
        at_i = x[i]
        for j, ratio in enumerate(lower[i]):
            x[j] -= ratio * at_i
    return x
