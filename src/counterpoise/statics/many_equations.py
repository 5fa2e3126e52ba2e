"""The equations of one batten or of many as arrays: moments over all lines, pulls, and gaps of the slack ones.

In units of the batten itself: its length, its greatest stiffness and its load are 1. With m the moments over the inner
lines, T the pulls, y the levels of the batten at the lines, g the gaps (0 where a line carries):

    T = s + E' m                      s: pulls with m at zero (and the overhangs hanging)
    F m + phi + E y = 0               the batten has no kink over any line, carrying or slack
    y = offset + f T - g              T = 0 where a line is slack, g = 0 where it carries

E holds the second differences over the spans. This is docs/theory/batten.md, eq. 1 to 3, with every line kept as a
station whether it carries or not, so that one set of arrays serves every choice. All arrays may have leading axes.
"""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from counterpoise.statics.grid import cut, left_of, right_of, simple_span
from counterpoise.statics.model import Beam, Line, Load

Array = NDArray[np.float64]
Mask = NDArray[np.bool_]
Index = NDArray[np.intp]

STIFF = 200.0  # pull that counts as much as a gap, in units of the batten, when a choice of lines is guessed


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Choices:
    """What settles any choice of carrying lines; n lines, leading axes for many battens."""

    differences: Array  # E [..., n-2, n]
    soft: Array  # F + E f E': kinks under unit moments, every line carrying [..., n-2, n-2]
    kinks: Array  # phi + E (offset + f s): kinks with every moment and gap at zero [..., n-2]
    straight: Array  # s [..., n]

    def some(self, battens: Index) -> "Choices":
        """Those of some of the battens."""
        return Choices(
            differences=self.differences[battens],
            soft=self.soft[battens],
            kinks=self.kinks[battens],
            straight=self.straight[battens],
        )

    def all_carrying(self) -> Array:
        """Pulls if every line carries both ways [..., n]."""
        moments = np.linalg.solve(self.soft, -self.kinks[..., None])
        return np.asarray(self.straight + (self.differences.swapaxes(-1, -2) @ moments)[..., 0])

    def matrix(self, carrying: Mask) -> Array:
        """Left-hand side for m and the gaps, for a choice of carrying lines [..., 2n-2, 2n-2]."""
        inner, n = self.differences.shape[-2:]
        full = np.zeros((*carrying.shape[:-1], inner + n, inner + n))
        full[..., :inner, :inner] = self.soft
        full[..., :inner, inner:] = -self.differences
        full[..., inner:, :inner] = np.where(carrying[..., None], 0.0, self.differences.swapaxes(-1, -2))  # no pull
        lines = np.arange(n)
        full[..., inner + lines, inner + lines] = carrying
        return full

    def right(self, carrying: Mask) -> Array:
        """Right-hand side that belongs to it, with the offsets as given [..., 2n-2]."""
        return np.concatenate([-self.kinks, np.where(carrying, 0.0, -self.straight)], axis=-1)

    def solved(self, carrying: Mask) -> Array:
        """Pull of each carrying line, and STIFF times the gap of each slack one below zero [..., n]."""
        inner = self.differences.shape[-2]
        found = np.linalg.solve(self.matrix(carrying), self.right(carrying)[..., None])
        pulls = self.straight + (self.differences.swapaxes(-1, -2) @ found[..., :inner, :])[..., 0]
        return np.asarray(np.where(carrying, pulls, -STIFF * found[..., inner:, 0]), dtype=np.float64)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Equations(Choices):
    """See the head of this module; n lines, leading axes for many battens."""

    places: Array  # [..., n]
    bends: Array  # F [..., n-2, n-2]
    turns: Array  # phi, with what the overhangs add [..., n-2]
    flexes: Array  # f [..., n]
    offsets: Array  # of the lines as given [..., n]
    reach: Array  # moments over the inner lines for unit pulls to their left [..., n-2, n]
    hung: Array  # moments over the inner lines of the loads to their left [..., n-2]
    centre: Array  # [...]
    length: Array  # [m]
    weight: Array  # [N]
    drop: Array  # unit of levels: weight length3 / stiffness [m]

    def law(self) -> tuple[Array, Array, Array]:
        """What must vanish: constant + on_pulls T + on_levels (offset - gap), without the moments that were solved for.

        First the sum of the pulls, then their moment about x = 0, then the kink over each inner line [..., n, .].
        """
        x, E = self.places, self.differences
        kinks = self.bends @ self.reach + E * self.flexes[..., None, :]
        on_pulls = np.concatenate([np.ones_like(x)[..., None, :], x[..., None, :], kinks], axis=-2)
        on_levels = np.concatenate([np.zeros((*x.shape[:-1], 2, x.shape[-1])), E], axis=-2)
        sums = np.stack([-np.ones_like(self.centre), -self.centre], axis=-1)
        bent = self.turns - (self.bends @ self.hung[..., None])[..., 0]
        return np.concatenate([sums, bent], axis=-1), on_pulls, on_levels

    def missed(self, pulls: Array, gaps: Array) -> tuple[Array, Array, Array]:
        """What these pulls and gaps leave of the law: of the sum [...], the moment [...], the kinks [..., n-2]."""
        levels = self.offsets + self.flexes * pulls - gaps
        moments = (self.reach @ pulls[..., None])[..., 0] - self.hung
        kinks = self.turns + (self.bends @ moments[..., None] + self.differences @ levels[..., None])[..., 0]
        return pulls.sum(axis=-1) - 1.0, (self.places * pulls).sum(axis=-1) - self.centre, kinks


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Many:
    """Battens at rest, one row a case."""

    tensions: Array  # pull of every line, 0 where slack [cases, lines] [N]
    carrying: Mask  # [cases, lines]
    tips: Mask  # cases in which the batten tips: pulls are no numbers there [cases]
    slack: Index  # cases with a slack line, in no order
    slack_gaps: Array  # how slack each of their lines is, 0 where it carries [those cases, lines] [m]
    alone: int  # cases that `hang` had to settle

    @property
    def gaps(self) -> Array:
        """Slack of every line, 0 where it carries [cases, lines] [m]; a large array, made when asked for."""
        found = np.zeros(self.tensions.shape)
        found[self.slack] = self.slack_gaps
        found[self.tips] = np.nan
        return found


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Spans:
    """Battens with equally many lines as plain numbers, SI; spans lie between neighbouring lines."""

    places: Array  # [..., n]
    flexes: Array
    offsets: Array
    length: Array  # [...]
    stiffness: Array  # the greatest of each batten
    lefts: Array  # pulls at the ends of each span as a simple beam [..., n-1]
    rights: Array
    leads: Array  # turns of its ends under load
    trails: Array
    flex: Array  # turns under unit end moments: left-left, left-right, right-right [..., 3, n-1]
    falls: Array  # weight beyond the outer lines [..., 2]
    ends: Array  # its moments about them, hogging positive [..., 2]
    at_lines: Array  # weight exactly at a line [..., n]
    weight: Array  # [...]
    first: Array  # moment of all loads about x = 0


def equations(spans: Spans) -> Equations:
    """Assemble the equations, in units of each batten."""
    L, W = spans.length, spans.weight
    EI = spans.stiffness
    x = spans.places / L[..., None]
    inverse = 1.0 / (x[..., 1:] - x[..., :-1])
    n = x.shape[-1]
    E = np.zeros((*x.shape[:-1], n - 2, n))
    F = np.zeros((*x.shape[:-1], n - 2, n))
    for j in range(n - 2):
        before, after = inverse[..., j], inverse[..., j + 1]
        E[..., j, j], E[..., j, j + 1], E[..., j, j + 2] = before, -before - after, after
    flex = spans.flex * (EI / L)[..., None, None]
    ll, lr, rr = flex[..., 0, :], flex[..., 1, :], flex[..., 2, :]
    for j in range(n - 2):
        F[..., j, j], F[..., j, j + 1], F[..., j, j + 2] = lr[..., j], rr[..., j] + ll[..., j + 1], lr[..., j + 1]
    turn = (EI / (W * L**2))[..., None]
    phi = (spans.trails[..., :-1] + spans.leads[..., 1:]) * turn
    ends = -spans.ends / (W * L)[..., None]
    phi = phi + F[..., :, 0] * ends[..., :1] + F[..., :, -1] * ends[..., 1:]
    pulls = spans.at_lines.copy()
    pulls[..., :-1] += spans.lefts
    pulls[..., 1:] += spans.rights
    pulls[..., 0] += spans.falls[..., 0]
    pulls[..., -1] += spans.falls[..., 1]
    pulls /= W[..., None]
    hinged = pulls.copy()  # every moment at zero, and no overhang's either
    pulls[..., 0] -= ends[..., 0] * inverse[..., 0]
    pulls[..., 1] += ends[..., 0] * inverse[..., 0]
    pulls[..., -1] -= ends[..., 1] * inverse[..., -1]
    pulls[..., -2] += ends[..., 1] * inverse[..., -1]
    reach = np.maximum(x[..., 1:-1, None] - x[..., None, :], 0.0)
    hung = (reach @ hinged[..., None])[..., 0] - ends[..., :1]
    drop = W * L**3 / EI
    bends, flexes, offsets = F[..., 1:-1], spans.flexes * (W / drop)[..., None], spans.offsets / drop[..., None]
    return Equations(
        differences=E,
        soft=bends + (E * flexes[..., None, :]) @ E.swapaxes(-1, -2),
        kinks=phi + (E @ (offsets + flexes * pulls)[..., None])[..., 0],
        straight=pulls,
        places=x,
        bends=bends,
        turns=phi,
        flexes=flexes,
        offsets=offsets,
        reach=reach,
        hung=hung,
        centre=spans.first / (W * L),
        length=L,
        weight=W,
        drop=drop,
    )


def spans_of(beam: Beam, lines: Sequence[Line], loads: Sequence[Load]) -> Spans:
    """The spans of one batten of any steps of stiffness; arguments have been checked."""
    grid = cut(beam, lines, loads)
    spans = [simple_span(grid, a, b) for a, b in zip(grid.at, grid.at[1:], strict=False)]
    (left, m_left), (right, m_right) = left_of(grid, grid.at[0]), right_of(grid, grid.at[-1])
    return Spans(
        places=np.array([grid.xs[s] for s in grid.at]),
        flexes=np.array([line.flexibility for line in lines]),
        offsets=np.array([line.offset for line in lines]),
        length=np.array(beam.length),
        stiffness=np.array(max(grid.eis)),
        lefts=np.array([span.left for span in spans]),
        rights=np.array([span.right for span in spans]),
        leads=np.array([span.turn_left for span in spans]),
        trails=np.array([span.turn_right for span in spans]),
        flex=np.array([[s.flex_ll for s in spans], [s.flex_lr for s in spans], [s.flex_rr for s in spans]]),
        falls=np.array([left, right]),
        ends=np.array([m_left, m_right]),
        at_lines=np.array([grid.ps[s] for s in grid.at]),
        weight=np.array(grid.weight),
        first=np.array(grid.weight * grid.centre),
    )
