"""A set of which just what its lines share by is not known: how much hangs on all of them together is, all the same."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from counterpoise.documents import House, Known, LineAt, LineSet
from counterpoise.rigging.build import HungPieces, batten_of, lacks_of_batten
from counterpoise.rigging.rules import Rule
from counterpoise.rigging.sets import RiggedBatten

STIFFNESS = 1.0e6  # [N], about EA of a wire rope of 1/4 in; no sum over all lines rests on it
MODULUS = 2.0e11  # [Pa], of steel; likewise
ACROSS = 1.0  # [m], of the head block beyond the end; likewise


def whole_batten(one: LineSet, house: House, rules: Mapping[str, Rule], hung: HungPieces) -> RiggedBatten | None:
    """The batten with stand-ins for figures that decide nothing but how its lines share.

    In equilibrium plumb lines pull up together what hangs, whatever ropes and pipe give: so of what comes of it only
    sums over all of its lines are told. None where another figure is missing, where none is, or where lines lean,
    which pull more than what hangs.
    """
    stood_in = _stood_in(one)
    if stood_in == one or list(lacks_of_batten(stood_in, house, rules, hung)):
        return None
    found = batten_of(stood_in, house, rules, hung)
    return None if found.runs else found


def _stood_in(one: LineSet) -> LineSet:
    lines, batten = one.lines, one.batten
    places = tuple(_plain(line) for line in lines.at)
    return replace(
        one, batten=replace(batten, modulus=_known(batten.modulus, MODULUS)),
        lines=replace(lines, at=places, stiffness=_known(lines.stiffness, STIFFNESS),
                      head_block_from_end=_known(lines.head_block_from_end, ACROSS)),
    )  # fmt: skip


def _plain(line: LineAt) -> LineAt:
    """The line without what is not known of its own rope."""
    return replace(line, stiffness=_if_known(line.stiffness), length=_if_known(line.length),
                   trim_error=_if_known(line.trim_error))  # fmt: skip


def _if_known(known: Known | None) -> Known | None:
    return None if known is None or known.best is None else known


def _known(known: Known, value: float) -> Known:
    return known if known.best is not None else replace(known, low=value, best=value, high=value)
