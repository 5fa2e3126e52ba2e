"""Many cases of one batten: all cases that share a choice of carrying lines go through one matrix product."""

from collections.abc import Iterator, Sequence

import numpy as np
from numpy.typing import NDArray

from counterpoise.errors import within
from counterpoise.statics.hanging import Hanging
from counterpoise.statics.many_battens import Batten
from counterpoise.statics.many_equations import STIFF, Array, Equations, Index, Many, Mask
from counterpoise.statics.model import Beam, Line, Load
from counterpoise.statics.proof import PROOF
from counterpoise.statics.slack import hang

TRIFLE = 1.0e-12  # of the load: below this a push or a stretch is rounding
CHUNK = 4096  # cases at once: what stays in the cache of a processor
TOGETHER = 4  # cases in one row of the product that proves them
NONE = np.empty(0, dtype=np.intp)
ROUNDED = 2.3e-16  # of a number: how far off rounding may leave it
ROUNDS = 8  # guesses of carrying lines before a case is given to `hang`; after half of them the guess is a careful one


def _check_offsets(offsets: Array) -> float:
    """The largest size of an offset [m]; OutOfRange for one that is out of range, or no number."""
    low, high = float(offsets.min()), float(offsets.max())  # what is no number stays no number here
    for name, value in (("lowest offset", low), ("highest offset", high)):
        if not -1.0e3 <= value <= 1.0e3:
            mend = "How much longer each line is than it should be."
            within(name, value, low=-1.0e3, high=1.0e3, unit="m", mend=mend)
    return max(high, -low)


class Cases:
    """One batten, and what is found case by case."""

    def __init__(
        self, beam: Beam, lines: Sequence[Line], loads: Sequence[Load], system: Equations, offsets: Array
    ) -> None:
        self.beam, self.lines, self.loads, self.system, self.offsets = beam, lines, loads, system, offsets
        count, n = offsets.shape
        self.tensions, self.carrying = np.empty((count, n)), np.ones((count, n), dtype=bool)
        self.slack: list[Index] = [NONE]
        self.gaps: list[Array] = [np.empty((0, n))]
        self.pushing: list[Index] = []  # cases in which a line pushes with every line carrying
        self.masks: list[NDArray[np.int64]] = []  # their next choice of lines
        self.fallen: list[int] = []  # cases that guessing does not settle, or that do not stand their proof
        constant, on_pulls, on_levels = system.law()
        self.law = (constant + on_levels @ system.offsets)[:, None], on_pulls, on_levels
        self.drop, self.weight = float(system.drop), float(system.weight)
        levers = 1.0 + system.places - system.centre  # with these, too, pulls without a moment come to the weight
        self.balance = np.stack([np.ones_like(levers), levers], axis=1)
        self.balance_of_some = np.kron(np.eye(TOGETHER), self.balance)  # of several cases in one row: a quicker product
        self.bits = 2.0 ** np.arange(n)  # a choice of lines as one number

    def solve(self) -> Many:
        """First with every line carrying; then, where one pushes, choice by choice."""
        count = len(self.offsets)
        self._with_every_line()
        if self.pushing:
            self._by_choice(np.concatenate(self.pushing), np.concatenate(self.masks))
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

    @np.errstate(over="ignore", invalid="ignore")  # by offsets that are refused as soon as they are looked at
    def _with_every_line(self) -> None:
        """Pulls with every line carrying, proven; the cases in which one pushes are noted.

        Chunk by chunk, so that each look at what came out of the product finds it in the cache.
        """
        count, n = self.offsets.shape
        at_zero, slope = self._straight(np.ones(n, dtype=bool))
        product = np.ascontiguousarray(slope.T) * self.weight
        start_pulls = np.tile(at_zero[:, 0] * self.weight, min(count, CHUNK))
        unbroken = self._unbroken(at_zero, slope)
        below, held = [NONE], 0  # places of pulls below zero among all
        for start in range(0, count, CHUNK):
            offsets, pulls = self.offsets[start : start + CHUNK], self.tensions[start : start + CHUNK]
            np.matmul(offsets, product, out=pulls)
            largest = _check_offsets(offsets)
            flat = pulls.reshape(-1)
            flat += start_pulls[: len(flat)]
            if not (largest <= unbroken and self._all_balanced(pulls)):
                self._prove_each(start, pulls, offsets)
            if flat.min() < 0.0:
                found = (flat < 0.0).nonzero()[0]
                found += start * n
                below.append(found)
                held += len(found)
                if held > CHUNK:  # while they are in the cache still
                    self._note_pushing(np.concatenate(below))
                    below, held = [NONE], 0
        self._note_pushing(np.concatenate(below))

    def _note_pushing(self, below: Index) -> None:
        """Note the cases in which one of these pulls below zero is a push, and set them all to zero."""
        flat, n = self.tensions.reshape(-1), len(self.lines)
        pushed = below[flat[below] < -TRIFLE * self.weight] // n
        if len(pushed):
            pushed = pushed[np.concatenate([[True], pushed[1:] != pushed[:-1]])]  # two lines of a case may push
            self.pushing.append(pushed)
            self.masks.append(self._mask(self.tensions[pushed].T > 0.0))
        flat[below] = 0.0

    def _all_balanced(self, pulls: Array) -> bool:
        """Whether in every one of these cases sum and moment of the pulls [N] meet those of the loads."""
        whole = len(pulls) % TOGETHER == 0
        found = pulls.reshape(-1, len(self.balance_of_some)) @ self.balance_of_some if whole else pulls @ self.balance
        slip = 1.0e-3 * PROOF * self.weight
        return bool(found.max() - self.weight <= slip and found.min() - self.weight >= -slip)

    def _unbroken(self, at_zero: Array, slope: Array) -> float:
        """Up to this size of offsets [m] no case has a kink over a line, every line carrying.

        The kink runs straight in the offsets, so what the product itself leaves bounds it for all cases, with rounding.
        """
        constant, on_pulls, on_levels = self.law
        rounded = (len(slope) + 2) * ROUNDED * np.abs(on_pulls)
        at_rest = np.abs(constant + on_pulls @ at_zero) + rounded @ np.abs(at_zero)
        each = np.abs(on_levels / self.drop + on_pulls @ slope) + rounded @ np.abs(slope)
        return float(((1.0e-3 * PROOF - at_rest[:, 0]) / np.maximum(each.sum(axis=1), 1.0e-300)).min())

    def _prove_each(self, start: int, pulls: Array, offsets: Array) -> None:
        """Look at every case of a chunk for itself: the chunk as a whole does not stand."""
        constant, on_pulls, on_levels = self.law
        miss = on_pulls @ (pulls.T / self.weight) + on_levels @ (offsets.T / self.drop) + constant
        self.fallen.extend((self._fallen(miss, offsets.T) + start).tolist())

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
                    carrying = beside(self.system.places, self.system.centre)
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
                    guess = next_choice(signed[:, wrong], carrying[:, None], careful=2 * turn >= ROUNDS)
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
        settle_alone(settled, self.tensions[case], gaps[0], self.carrying[case])
        self.slack.append(np.array([case]))
        self.gaps.append(gaps)


def settle_alone(batten: Batten, tensions: Array, gaps: Array, carrying: Mask) -> None:
    """The answer of the other kernel, written into these rows."""
    answer = hang(*batten)
    assert isinstance(answer, Hanging)  # where the centre of gravity lies was looked at before
    tensions[:], gaps[:], carrying[:] = answer.tensions, answer.gaps, False
    carrying[list(answer.carrying)] = True


def beside(places: Array, centre: Array) -> Mask:
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


def next_choice(signed: Array, carrying: Mask, *, careful: bool) -> Mask:
    """The next choice of each case: lines that would pull; careful: one line in, or those that push out."""
    if not careful:
        return np.asarray(signed > 0.0)
    pushing = (signed < 0.0) & carrying
    guess = carrying & ~pushing
    calm = np.flatnonzero(~pushing.any(axis=0))
    stretched = np.where(carrying, -np.inf, signed)[:, calm]
    guess[stretched.argmax(axis=0), calm] = True
    return guess
