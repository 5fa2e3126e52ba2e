"""The second kernel: one batten in a great many cases, or a great many battens, with numpy.

The contract is that of `hang`: the same pulls and the same slack lines to rounding, proven on the way out. Choices of
carrying lines are guessed for all cases at once and kept where pulls and gaps bear them out, which only one choice
does; the few cases where guessing goes round in circles are given to `hang`, one by one.

Not imported with `counterpoise.statics`, since numpy takes longer to load than most battens to compute.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from counterpoise.errors import within
from counterpoise.statics.hanging import Hanging, Tips
from counterpoise.statics.many_battens import Batten, Battens, battens, spans_of_battens
from counterpoise.statics.many_equations import STIFF, Array, Equations, Index, Mask, equations, spans_of
from counterpoise.statics.many_moments import largest_moments, moments_at_lines
from counterpoise.statics.model import Beam, Line, Load, check_lines, check_loads, check_weight
from counterpoise.statics.proof import PROOF
from counterpoise.statics.slack import hang

__all__ = ["Battens", "Many", "battens", "hang_battens", "hang_many", "largest_moments", "moments_at_lines"]

TRIFLE = 1.0e-12  # of the load: below this a push or a stretch is rounding
CHUNK = 4096  # cases at once: what stays in the cache of a processor
NONE = np.empty(0, dtype=np.intp)
ROUNDS = 8  # guesses of carrying lines before a case is given to `hang`; after half of them the guess is a careful one


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


def hang_many(beam: Beam, lines: Sequence[Line], loads: Sequence[Load], offsets: NDArray[np.float64]) -> Many | Tips:
    """How one batten hangs under its loads in many cases of trim error.

    Args:
        beam, lines, loads: as for hang.
        offsets: how much lower each line hangs than the line itself says, positive is longer [cases, lines] [m],
            within 1000 m either way.

    Returns:
        Many, or Tips where the centre of gravity lies outside the outer lines (then in every case).

    Raises:
        OutOfRange: as hang, or offsets of another shape, or out of range, or no numbers.
        Unproven: a case did not stand its proof: equilibrium, no push, no stretched slack line, no kink over a line,
            each within 1e-9 of the load or of the deflection.

    Assumes what hang assumes.
    Source: docs/theory/batten.md, "Many at once".
    """
    check_lines(beam, lines)
    check_loads(beam, loads)
    spans = spans_of(beam, lines, loads)
    check_weight(float(spans.weight))
    cases = _cases(offsets, len(lines))
    system = equations(spans)
    slip = TRIFLE
    if not system.places[0] - slip <= system.centre <= system.places[-1] + slip:
        first, last = float(spans.places[0]), float(spans.places[-1])
        return Tips(centre=float(spans.first / spans.weight), first=first, last=last)
    return _Cases(beam, lines, loads, system, cases).solve()


def _cases(offsets: NDArray[np.float64], count: int) -> Array:
    cases = np.asarray(offsets, dtype=np.float64)
    mend = "Give one row for each case and one column for each line."
    within("number of axes of the offsets", cases.ndim, low=2, high=2, mend=mend)
    within("columns of the offsets", cases.shape[1], low=count, high=count, mend=mend)
    return cases


def _check_offsets(offsets: Array) -> None:
    low, high = float(offsets.min()), float(offsets.max())  # what is no number stays no number here
    for name, value in (("lowest offset", low), ("highest offset", high)):
        if not -1.0e3 <= value <= 1.0e3:
            mend = "How much longer each line is than it should be."
            within(name, value, low=-1.0e3, high=1.0e3, unit="m", mend=mend)


class _Cases:
    """One batten, and what is found case by case."""

    def __init__(
        self, beam: Beam, lines: Sequence[Line], loads: Sequence[Load], system: Equations, offsets: Array
    ) -> None:
        self.beam, self.lines, self.loads, self.system, self.offsets = beam, lines, loads, system, offsets
        count, n = offsets.shape
        self.tensions, self.carrying = np.empty((count, n)), np.ones((count, n), dtype=bool)
        self.slack: list[Index] = [NONE]
        self.gaps: list[Array] = [np.empty((0, n))]
        self.fallen: list[int] = []  # cases that guessing does not settle, or that do not stand their proof
        constant, on_pulls, on_levels = system.law()
        self.law = (constant + on_levels @ system.offsets)[:, None], on_pulls, on_levels
        self.drop, self.weight = float(system.drop), float(system.weight)
        self.bits = 2.0 ** np.arange(n)  # a choice of lines as one number

    def solve(self) -> Many:
        """First with every line carrying; then, where one pushes, choice by choice."""
        count, n = self.offsets.shape
        left: list[Index] = []
        masks: list[NDArray[np.int64]] = []
        straight = np.concatenate(self._straight(np.ones(n, dtype=bool))[::-1], axis=1)
        constant, on_pulls, on_levels = self.law
        law = np.concatenate([on_levels / self.drop, constant, on_pulls], axis=1)
        known = np.ones((2 * n + 1, min(count, CHUNK)))  # offsets, ones, pulls: in one block, so that one product does
        for start in range(0, count, CHUNK):
            stop = min(start + CHUNK, count)
            block = known[:, : stop - start]
            block[:n] = self.offsets[start:stop].T
            _check_offsets(block[:n])
            pulls = block[n + 1 :]
            np.matmul(straight, block[: n + 1], out=pulls)
            fallen = self._fallen(law @ block, block[:n])
            if len(fallen):
                self.fallen.extend((fallen + start).tolist())
            if pulls.min() < -TRIFLE:
                pushed = np.flatnonzero(pulls.min(axis=0) < -TRIFLE)
                left.append(pushed + start)
                masks.append(self._mask(pulls[:, pushed] > 0.0))
            np.maximum(pulls, 0.0, out=pulls)
            np.multiply(pulls.T, self.weight, out=self.tensions[start:stop])
        if left:
            self._by_choice(np.concatenate(left), np.concatenate(masks))
        for case in self.fallen:
            self._alone(case)
        slack, gaps = np.concatenate(self.slack), np.concatenate(self.gaps)
        if self.fallen:  # of two answers the later counts
            slack, at = np.unique(slack[::-1], return_index=True)
            gaps = gaps[::-1][at]
        return Many(
            tensions=self.tensions,
            carrying=self.carrying,
            tips=np.zeros(count, dtype=bool),
            slack=slack,
            slack_gaps=gaps,
            alone=len(self.fallen),
        )

    def _straight(self, carrying: Mask) -> tuple[Array, Array]:
        """Signed pulls and gaps of a choice: those without trim error [n, 1], and how they run with it [n, n]."""
        system, n = self.system, len(carrying)
        right = np.zeros((2 * n - 2, n + 1))
        right[:, 0] = system.right(carrying)
        right[: n - 2, 1:] = -system.differences / self.drop
        solved = np.linalg.solve(system.matrix(carrying), right)
        pulls = system.differences.T @ solved[: n - 2]
        pulls[:, 0] += system.straight
        signed = np.where(carrying[:, None], pulls, -STIFF * solved[n - 2 :])
        return signed[:, :1], signed[:, 1:]

    def _by_choice(self, left: Index, masks: NDArray[np.int64]) -> None:
        """Settle the cases that are left, all that share a choice of lines together."""
        for turn in range(ROUNDS):
            again: list[Index] = []
            guesses: list[NDArray[np.int64]] = []
            for mask, members in _groups(masks, left):
                carrying = np.array([bool(mask >> i & 1) for i in range(len(self.bits))])
                if carrying.sum() < 2:
                    carrying = _beside(self.system.places, self.system.centre)
                at_zero, slope = self._straight(carrying)
                side = np.where(carrying, 1.0, -1.0)[:, None]
                for start in range(0, len(members), CHUNK):
                    some = members[start : start + CHUNK]
                    offsets = np.ascontiguousarray(self.offsets[some].T)
                    signed = slope @ offsets
                    signed += at_zero
                    wrong = (signed * side).min(axis=0) < -TRIFLE
                    kept = ~wrong
                    if kept.all():
                        self._keep(some, carrying, signed, offsets)
                        continue
                    if kept.any():
                        self._keep(some[kept], carrying, signed[:, kept], offsets[:, kept])
                    guess = _guess(signed[:, wrong], carrying[:, None], careful=2 * turn >= ROUNDS)
                    again.append(some[wrong])
                    guesses.append(self._mask(guess))
            if not again:
                return
            left, masks = np.concatenate(again), np.concatenate(guesses)
        self.fallen.extend(left.tolist())

    def _mask(self, carrying: Mask) -> NDArray[np.int64]:
        return (self.bits @ carrying.astype(np.float64)).astype(np.int64)

    def _keep(self, cases: Index, carrying: Mask, signed: Array, offsets: Array) -> None:
        """Prove these cases, and write them down."""
        constant, on_pulls, on_levels = self.law
        pulls = np.where(carrying[:, None], signed, 0.0)
        gaps = np.where(carrying[:, None], 0.0, signed / -STIFF)
        fallen = self._fallen(on_pulls @ pulls + on_levels @ (offsets / self.drop - gaps) + constant, offsets)
        self.fallen.extend(cases[fallen].tolist())
        self.tensions[cases] = np.maximum(pulls, 0.0).T * self.weight
        self.carrying[cases] = carrying
        self.slack.append(cases)
        self.gaps.append(np.maximum(gaps, 0.0).T * self.drop)

    def _fallen(self, miss: Array, offsets: Array) -> Index:
        """The cases that do not stand: out of balance, or with a kink over a line."""
        if max(miss.max(), -miss.min()) <= 1.0e-3 * PROOF:  # of any case, however little it bends
            return NONE
        tall = np.maximum(1.0e-3, np.abs(self.system.offsets[:, None] + offsets / self.drop).max(axis=0))
        worst = np.abs(miss)
        worst[2:] /= tall
        return np.flatnonzero(~(worst <= PROOF).all(axis=0))  # a miss that is no number fails as well

    def _alone(self, case: int) -> None:
        """The answer of the other kernel."""
        pairs = zip(self.lines, self.offsets[case], strict=True)
        moved = [Line(x=a.x, flexibility=a.flexibility, offset=a.offset + float(b)) for a, b in pairs]
        settled = (self.beam, moved, self.loads)
        gaps = np.empty((1, len(moved)))
        _settle_alone(settled, self.tensions[case], gaps[0], self.carrying[case])
        self.slack.append(np.array([case]))
        self.gaps.append(gaps)


def hang_battens(many: Battens) -> Many:
    """How each of many battens hangs; the same answers as hang, row by row.

    Args:
        many: what `battens` made of them.

    Returns:
        Many; a batten whose centre of gravity lies outside its outer lines is marked in `tips` and has no numbers.

    Raises:
        OutOfRange: as hang. Unproven: as hang_many.
    """
    system = equations(spans_of_battens(many))
    low, high = system.places[:, 0] - TRIFLE, system.places[:, -1] + TRIFLE
    tips = ~((low <= system.centre) & (system.centre <= high))
    carrying = np.ones(system.places.shape, dtype=bool)
    signed = system.all_carrying()
    wrong = np.flatnonzero((signed.min(axis=1) < -TRIFLE) & ~tips)
    for turn in range(ROUNDS):
        if not len(wrong):
            break
        guess = _guess(signed[wrong].T, carrying[wrong].T, careful=2 * turn >= ROUNDS).T
        poor = guess.sum(axis=1) < 2
        if poor.any():
            guess[poor] = _beside(system.places[wrong[poor]], system.centre[wrong[poor]])
        some = system.some(wrong)
        found = some.solved(guess)
        signed[wrong], carrying[wrong] = found, guess
        wrong = wrong[(np.where(guess, found, -found) < -TRIFLE).any(axis=1)]
    pulls, gaps = np.where(carrying, signed, 0.0), np.where(carrying, 0.0, signed / -STIFF)
    stands = _stand(system, pulls, gaps)
    stands[wrong] = False
    wrong = np.flatnonzero(~stands & ~tips)
    tensions, gaps = np.maximum(pulls, 0.0) * system.weight[:, None], np.maximum(gaps, 0.0) * system.drop[:, None]
    for i in wrong:
        _settle_alone(many.given[i], tensions[i], gaps[i], carrying[i])
    tensions[tips], carrying[tips] = np.nan, False
    slack = np.flatnonzero(~carrying.all(axis=1) & ~tips)
    return Many(tensions=tensions, carrying=carrying, tips=tips, slack=slack, slack_gaps=gaps[slack], alone=len(wrong))


def _stand(system: Equations, pulls: Array, gaps: Array) -> Mask:
    """Which battens are in balance and without a kink over any line."""
    constant, on_pulls, on_levels = system.law()
    miss = np.abs(constant + (on_pulls @ pulls[..., None] + on_levels @ (system.offsets - gaps)[..., None])[..., 0])
    miss[:, 2:] /= np.maximum(1.0e-3, np.abs(system.offsets).max(axis=1))[:, None]
    return np.asarray((miss <= PROOF).all(axis=1))  # a miss that is no number fails as well


def _settle_alone(batten: Batten, tensions: Array, gaps: Array, carrying: Mask) -> None:
    """The answer of the other kernel, written into these rows."""
    answer = hang(*batten)
    assert isinstance(answer, Hanging)  # where the centre of gravity lies was looked at before
    tensions[:], gaps[:], carrying[:] = answer.tensions, answer.gaps, False
    carrying[list(answer.carrying)] = True


def _beside(places: Array, centre: Array) -> Mask:
    """The two neighbouring lines that hold the centre of gravity between them [..., lines]."""
    n = places.shape[-1]
    after = np.clip((places < centre[..., None]).sum(axis=-1, keepdims=True), 1, n - 1)
    lines = np.arange(n)
    return np.asarray((lines == after) | (lines == after - 1))


def _groups(masks: NDArray[np.int64], cases: Index) -> Iterator[tuple[int, Index]]:
    """The cases of each mask."""
    order = np.argsort(masks.astype(np.uint16) if masks.max() < 1 << 16 else masks, kind="stable")
    sorted_masks, sorted_cases = masks[order], cases[order]
    edges = np.flatnonzero(np.diff(sorted_masks)) + 1
    for start, stop in zip([0, *edges], [*edges, len(masks)], strict=True):
        yield int(sorted_masks[start]), sorted_cases[start:stop]


def _guess(signed: Array, carrying: Mask, *, careful: bool) -> Mask:
    """The next choice of each case: lines that would pull; careful: one line in, or those that push out."""
    if not careful:
        return np.asarray(signed > 0.0)
    pushing = (signed < 0.0) & carrying
    guess = carrying & ~pushing
    calm = np.flatnonzero(~pushing.any(axis=0))
    stretched = np.where(carrying, -np.inf, signed)[:, calm]
    guess[stretched.argmax(axis=0), calm] = True
    return guess
