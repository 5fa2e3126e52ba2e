"""The count of bricks that balances one set best over the heights at which it flies."""

from counterpoise.balance.stack import Stack
from counterpoise.balance.travel import out_of_balance
from counterpoise.rigging import RiggedSet


def best_stack(rigged: RiggedSet) -> Stack:
    """The count whose largest out of balance over the flying range is least; the smaller of two that tie.

    The flying range is from where every piece hangs free of the deck to high trim, with the heights between at which a
    cable changes its slope. A set without pieces keeps its pipe weight. The count is never below pipe weight; whether
    it fits the arbor and stands at the deck is judged by the limits and by the replay, not here.
    """
    pipe_weight = Stack(rigged.pipe_bricks)
    if not rigged.pieces:
        return pipe_weight
    free, kinks = rigged.clear, (at for cable in rigged.cables for at in cable.changes)
    heights = sorted({free, rigged.high, *(at for at in kinks if free < at < rigged.high)})

    def balances(bricks: int) -> list[float]:
        return [out_of_balance(rigged, Stack(bricks), height).best for height in heights]

    # Between these heights Δ runs straight, and each brick moves all of them alike: the least of the largest is where
    # the middle of the two extremes is nearest zero.
    def middle(bricks: int) -> float:
        found = balances(bricks)
        return (min(found) + max(found)) / 2

    low, high = rigged.pipe_bricks, rigged.pipe_bricks + 1
    while middle(high) < 0.0:
        low, high = high, 2 * high
    while high - low > 1:
        between = (low + high) // 2
        low, high = (between, high) if middle(between) < 0.0 else (low, between)
    return min(map(Stack, (low, high)), key=lambda stack: (round(max(map(abs, balances(stack.bricks))), 6), stack))
