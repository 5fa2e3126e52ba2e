"""The count of bricks that balances one set best over the heights at which it flies."""

from counterpoise.balance.stack import Stack
from counterpoise.balance.travel import out_of_balance
from counterpoise.rigging import RiggedSet


def best_stack(rigged: RiggedSet) -> Stack:
    """The count whose largest out of balance over the flying range is least; the smaller of two that tie.

    The flying range is from where every piece hangs free of the deck to high trim. A set without pieces keeps its
    pipe weight. The count is never below pipe weight; whether it fits the arbor and stands at the deck is judged by
    the limits and by the replay, not here.
    """
    pipe_weight = Stack(rigged.pipe_bricks)
    if not rigged.pieces:
        return pipe_weight
    free = rigged.clear

    def largest(stack: Stack) -> float:
        return max(abs(out_of_balance(rigged, stack, height).best) for height in (free, rigged.high))

    # Between its ends Δ runs straight, and each brick moves both ends alike: the least of the largest is where the
    # middle of the two is nearest zero.
    def middle(bricks: int) -> float:
        ends = [out_of_balance(rigged, Stack(bricks), height).best for height in (free, rigged.high)]
        return sum(ends) / 2

    low, high = rigged.pipe_bricks, rigged.pipe_bricks + 1
    while middle(high) < 0.0:
        low, high = high, 2 * high
    while high - low > 1:
        between = (low + high) // 2
        low, high = (between, high) if middle(between) < 0.0 else (low, between)
    return min((Stack(count) for count in (low, high)), key=lambda stack: (round(largest(stack), 6), stack.bricks))
