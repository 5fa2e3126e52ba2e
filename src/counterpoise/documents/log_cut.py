"""A log that cannot be read whole: what of it stands before the first thing done that can not."""

from __future__ import annotations

import re
from dataclasses import dataclass, replace

from counterpoise.documents.desk import Desk
from counterpoise.documents.log import Log
from counterpoise.documents.text import Fields, Items
from counterpoise.errors import Problem

_OF_DONE = re.compile(r"done\[(\d+)\]")
_ITEM = re.compile(r"[ \t]*-(?:[ \t]|$)")


@dataclass(frozen=True, slots=True, kw_only=True)
class LogSoFar:
    """A log up to the first thing done that could not be read: how many there are, every problem, and its line."""

    log: Log
    of: int
    problems: tuple[Problem, ...] = ()
    line: int = 0


def before_the_line(text: str, line: int) -> str:
    """The text of a log without the thing done that stands at a line or begins before it, and without all below.

    "" where no such thing is found: what is wrong is then in the head of the log, or it is written as JSON.
    """
    lines = text.splitlines(keepends=True)
    starts = [at for at, one in enumerate(lines[:line]) if _ITEM.match(one)]
    if not starts:
        return ""
    kept = "".join(lines[: starts[-1]])
    return kept if len(starts) > 1 else kept.rstrip() + " []\n"  # nothing is done yet


def things_done(text: str) -> int:
    """How many things done a text begins, whether or not they can be read."""
    return sum(bool(_ITEM.match(one)) for one in text.splitlines())


def before_the_problem(log: Log, tree: Fields, desk: Desk) -> Log | None:
    """What was done before the first thing of which there is a problem, None where there is one in the head of it."""
    found = [_OF_DONE.match(problem.path) for problem in desk.problems]
    done = tree.fields.get("done")
    if not all(found) or not isinstance(done, Items):
        return None
    first = done.items[min(int(one[1]) for one in found if one is not None)]
    places = ((one, desk.node_of(one)) for one in log.done)
    return replace(log, done=tuple(one for one, at in places if (at.line, at.column) < (first.line, first.column)))
