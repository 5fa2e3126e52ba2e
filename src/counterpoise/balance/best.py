"""The count of bricks that balances one set best over the heights at which it flies."""

from counterpoise.balance.stack import Stack
from counterpoise.balance.travel import out_of_balance
from counterpoise.rigging import RiggedSet
from counterpoise.units.constants import STANDARD_GRAVITY as GRAVITY


def best_stack(rigged: RiggedSet) -> Stack:
    """The count whose largest out of balance over the flying range is least; the smaller of two that tie.

    The flying range is from where every piece hangs free of the deck to high trim. A set without pieces keeps its
    pipe weight. The count is never below pipe weight; whether it fits the arbor and stands at the deck is judged by
    the limits and by the replay, not here.
    """
    pipe_weight = Stack(rigged.pipe_bricks)
    if not rigged.pieces:
        return pipe_weight
    free = min(rigged.high, max([rigged.low, *(one.height for one in rigged.pieces)]))

    def largest(stack: Stack) -> float:
        return max(abs(out_of_balance(rigged, stack, height).best) for height in (free, rigged.high))

    need = -out_of_balance(rigged, pipe_weight, (free + rigged.high) / 2).best * rigged.purchase
    about = rigged.pipe_bricks + int(need / (GRAVITY * rigged.brick.mass))
    counts = [count for count in range(about - 4, about + 5) if count >= rigged.pipe_bricks] or [rigged.pipe_bricks]
    return min((Stack(count) for count in counts), key=lambda stack: (round(largest(stack), 6), stack.bricks))
