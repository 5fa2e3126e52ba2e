"""The links of one set from its trim chains to its head block: what each carries as a sum over the line forces."""

from __future__ import annotations

import math
from collections.abc import Mapping

from counterpoise.balance import Span
from counterpoise.documents import DEAD_HUNG, HEMP, Bay, Mule
from counterpoise.loadpath.forces import NOTHING, Forces
from counterpoise.loadpath.link import Link
from counterpoise.loadpath.steel import SteelPulls, steel_links
from counterpoise.rigging import RiggedBatten
from counterpoise.units import STANDARD_GRAVITY as GRAVITY

RIGHT_ANGLE = 2.0 * math.sin(math.pi / 4.0)  # resultant per pull of a line turned by 90 degrees
UPRIGHT = (math.sqrt(2.0), math.sqrt(2.0))  # the same of a line straight below its loft block, least and most


def links_of(
    rigged: RiggedBatten, bay: Bay | None, neighbours: Mapping[str, SteelPulls | None], forces: Forces
) -> list[Link]:
    """Every link from the batten up, in order; `neighbours` are the other sets of the bay, None where not known.

    The lift line and its blocks carry the batten's pull and the line's own weight below the loft block, largest at
    low trim; along a rope that leans the pull grows by its weight per height, as along a plumb one. Sheave, shaft and
    bolts of a block are links of their own, whether the set writes a figure of them or not. `forces` tell how lines
    that lean come to their blocks.
    """
    own = GRAVITY * rigged.line_mass * (rigged.loft - rigged.low)
    below = Span(own, own, own)
    links: list[Link] = []
    for i in range(len(rigged.lines)):
        links += _of_line(rigged, i, forces.turns(i) or UPRIGHT, below)
    if rigged.written.rigged != DEAD_HUNG:
        head, every = rigged.written.head_block, (1.0,) * len(rigged.lines)
        all_own = _times(sum(every), below)
        links.append(_turning("head block", None, head.rating_of, every, all_own))
        links += [_turning(f"head block {part}", None, "resultant", every, all_own, formula="shaft and base")
                  for part in ("shaft", "base")]  # fmt: skip
    if bay is not None:
        links += steel_links(rigged, bay, neighbours, forces)
    return links


def _of_line(rigged: RiggedBatten, i: int, turns: tuple[float, float], below: Span) -> list[Link]:
    """The links of one line, from the batten to its loft block and the mule blocks after it."""
    pull = tuple(float(i == j) for j in range(len(rigged.lines)))
    links = [_at(i, name, pull, NOTHING, "pull") for name in ("clamp", "trim chain", "shackle", "turnbuckle")]
    links.append(_at(i, "lift line", pull, below, "pull"))
    if rigged.written.rigged != DEAD_HUNG:  # whose lines are made to the steel
        line = rigged.written.lines.at[i]
        block, (least, turned) = line.loft_block or rigged.written.loft_block, turns
        links.append(_at(i, "sheave", pull, below, "sheave"))
        links.append(_turning("loft block", i + 1, block.rating_of, pull, below, turned, least=least))
        links += [_turning(f"loft block {part}", i + 1, "resultant", pull, below, turned, formula="shaft and base",
                           least=least) for part in ("shaft", "base")]  # fmt: skip
        links += [_turning("mule block", i + 1, mule.rating_of, pull, below, _turned(mule), number)
                  for number, mule in enumerate(line.mule_blocks, start=1)]  # fmt: skip
    if rigged.written.rigged == HEMP:
        links.append(_at(i, "pin", pull, below, "pin"))
    return links


def _at(i: int, name: str, coefficients: tuple[float, ...], constant: Span, formula: str) -> Link:
    return Link(name=name, line=i + 1, coefficients=coefficients, constant=constant, formula=formula)


def _turned(mule: Mule) -> float | None:
    """Resultant on a mule block per pull of its line, 2 sin(turn / 2); None where the turn is not known."""
    return None if mule.turn.best is None else 2.0 * math.sin(min(mule.turn.best, math.pi) / 2.0)


def _turning(
    name: str, line: int | None, rating_of: str, pulls: tuple[float, ...], own: Span,
    turned: float | None = RIGHT_ANGLE, number: int = 0, formula: str = "block", least: float | None = None,
) -> Link:  # fmt: skip
    """A block that turns its line; where it is not known what its rating is of, both are looked at.

    `least` where a line that leans turns by less at another height or weight.
    """
    lacks = "" if turned is not None or rating_of == "line pull" else "how far it turns its line is not known"
    resultant = turned if turned is not None else 2.0  # doubled back: no turn brings more
    ends = (resultant,) if least is None or least == resultant else (least, resultant)
    looked_at = {"line pull": (1.0,), "resultant": ends}.get(rating_of, (1.0, *ends))
    most = max(looked_at)
    return Link(name=name, line=line, coefficients=tuple(most * c for c in pulls), constant=_times(most, own),
                formula=formula, number=number, certain=0.0 if lacks else min(looked_at) / most,
                lacks=lacks)  # fmt: skip


def _times(factor: float, span: Span) -> Span:
    return Span(factor * span.low, factor * span.best, factor * span.high)
