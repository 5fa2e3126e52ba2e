"""What an arbor puts on its guides: the couple of what is aside of its lift lines, on upper and lower shoes."""

from __future__ import annotations

from counterpoise.balance.flying import flying_heights
from counterpoise.balance.stack import Stack
from counterpoise.balance.travel import Span, out_of_balance
from counterpoise.rigging import RiggedSet
from counterpoise.units.constants import STANDARD_GRAVITY as GRAVITY


def largest_off(rigged: RiggedSet, stack: Stack) -> Span:
    """The largest out of balance of either sign over the heights at which a set flies [N], felt at the batten."""
    spans = [out_of_balance(rigged, stack, height) for height in flying_heights(rigged)]
    return Span(max(max(one.low, -one.high, 0.0) for one in spans), max(abs(one.best) for one in spans),
                max(abs(one.worst) for one in spans))  # fmt: skip


def on_arbor(rigged: RiggedSet, stack: Stack) -> Span:
    """Weight of arbor, bricks and plates [N], at their mean give or take what is in doubt."""
    load = GRAVITY * (rigged.arbor_mass + stack.mass(rigged))
    more = GRAVITY * (rigged.arbor_doubt + stack.doubt(rigged))
    return Span(max(0.0, load - more), load, load + more)


def hand_line_on_arbor(rigged: RiggedSet, stack: Stack) -> Span:
    """The largest force of the hand line on the arbor while the lock holds the set where it flies [N]: r |Δ|.

    Whether it is tied straight to a double purchase arbor or turned over a block on it: as the batten moves by dh the
    arbor moves by dh/r, and the work is the same. Source: equilibrium; docs/theory/balance.md.
    """
    off = largest_off(rigged, stack)
    return Span(*(rigged.purchase * each for each in (off.low, off.best, off.high)))


def on_shoe(load: Span, load_aside: Span, hand_line: Span, hand_line_aside: Span, apart: Span) -> Span:
    """Force on one guide shoe: P = (W e + F e_h) / a, the upper and the lower one each, opposite to one another.

    Args:
        load: W, arbor and what is on it [N], 0 or more.
        load_aside: e, how far its middle is in plan from where the lift lines pull [m], 0 or more.
        hand_line: F, what the hand line pulls on the arbor [N], of either sign, 0 or more.
        hand_line_aside: e_h, how far it is from there in plan [m], 0 or more.
        apart: a, height between upper and lower shoes [m], above 0.

    Which way each is aside is not asked: both couples are taken to turn the arbor the same way, which is the worst.
    The guides are taken not to give, and one shoe at each height to bear it all.
    Source: equilibrium of a couple, any text on statics; docs/theory/balance.md, Guides.
    """
    return Span((load.low * load_aside.low + hand_line.low * hand_line_aside.low) / apart.high,
                (load.best * load_aside.best + hand_line.best * hand_line_aside.best) / apart.best,
                (load.high * load_aside.high + hand_line.high * hand_line_aside.high) / apart.low)  # fmt: skip
