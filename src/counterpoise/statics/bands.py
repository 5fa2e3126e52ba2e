"""Symmetric positive definite systems with up to five entries on either side of the diagonal.

Source: Cholesky's method without roots, any text on matrix computation.
"""

from collections.abc import Sequence


class Band:
    """A factored matrix L D L'; rows come as lower entries, the diagonal last."""

    def __init__(self, rows: Sequence[Sequence[float]]) -> None:
        """Factor. Row i holds the entries (i, i-5) to (i, i); those left of the first column are zero."""
        empty = (0.0, 0.0, 0.0, 0.0, 0.0)
        r1 = r2 = r3 = r4 = empty  # factors of the four rows before, the nearest last; written out, loops cost most
        s0 = s1 = s2 = s3 = s4 = 0.0  # one over the five pivots before
        lower: list[tuple[float, float, float, float, float]] = []
        softs: list[float] = []
        for w0, w1, w2, w3, w4, pivot in rows:
            w1 -= w0 * r1[4]
            w2 -= w0 * r2[3] + w1 * r2[4]
            w3 -= w0 * r3[2] + w1 * r3[3] + w2 * r3[4]
            w4 -= w0 * r4[1] + w1 * r4[2] + w2 * r4[3] + w3 * r4[4]
            f0, f1, f2, f3, f4 = w0 * s0, w1 * s1, w2 * s2, w3 * s3, w4 * s4
            soft = 1.0 / (pivot - (w0 * f0 + w1 * f1 + w2 * f2 + w3 * f3 + w4 * f4))
            row = (f0, f1, f2, f3, f4)
            lower.append(row)
            softs.append(soft)
            r1, r2, r3, r4 = r2, r3, r4, row
            s0, s1, s2, s3, s4 = s1, s2, s3, s4, soft
        self._lower = lower
        self.softs = softs  # one over the pivots

    def ahead(self, right: Sequence[float], first: int = 0) -> list[float]:
        """Half of a solution: y of L y = right; above row `first` the right-hand side is nothing.

        With A = L D L', the product of two right-hand sides over A is that of their halves over D.
        """
        a = b = c = d = e = 0.0  # the five values before
        middle = [0.0] * first
        lower, rest = (self._lower[first:], right[first:]) if first else (self._lower, right)
        for (p, q, r, s, t), value in zip(lower, rest, strict=True):
            value -= p * a + q * b + r * c + s * d + t * e
            a, b, c, d, e = b, c, d, e, value
            middle.append(value)
        return middle

    def back(self, middle: Sequence[float]) -> list[float]:
        """The solution, from its half."""
        found = []
        a = b = c = d = e = 0.0  # what the rows behind take from the five before them, the nearest first
        for (p, q, r, s, t), value, soft in zip(
            reversed(self._lower), reversed(middle), reversed(self.softs), strict=True
        ):
            x = value * soft - a
            found.append(x)
            a, b, c, d, e = b + t * x, c + s * x, d + r * x, e + q * x, p * x
        found.reverse()
        return found


def solve_dense(matrix: Sequence[Sequence[float]], right: Sequence[float]) -> list[float]:
    """Solve a small symmetric positive definite system, full rows, by L D L'."""
    count = len(right)
    lower: list[list[float]] = []
    pivots: list[float] = []
    x: list[float] = []
    for i in range(count):
        row = list(matrix[i][: i + 1])
        for j in range(i):
            row[j] -= sum([a * b for a, b in zip(row[:j], lower[j], strict=False)])
        ratios = [a / d for a, d in zip(row, pivots, strict=False)]
        pivots.append(row[i] - sum([a * b for a, b in zip(row, ratios, strict=False)]))
        lower.append(ratios)
        x.append(right[i] - sum([a * b for a, b in zip(ratios, x, strict=True)]))
    x = [value / pivot for value, pivot in zip(x, pivots, strict=True)]
    for i in range(count - 1, 0, -1):
        for j, ratio in enumerate(lower[i]):
            x[j] -= ratio * x[i]
    return x
