"""`counterpoise steps`: one set's load-in, strike or re-weigh, from empty or from how a log leaves it."""

from __future__ import annotations

import argparse
import json
from typing import TYPE_CHECKING

from counterpoise.cli.answer import Answer, Exit, today
from counterpoise.errors import BadDocument, Misuse

if TYPE_CHECKING:
    from counterpoise.checks import HouseResult
    from counterpoise.planning import Goal, Plan

_BEST = -1


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """What the command takes after the three files."""
    parser.add_argument("set", metavar="SET", help="label of the set")
    parser.add_argument("--strike", action="store_true", help="the strike instead")
    parser.add_argument("--log", metavar="FILE", help="from how this log leaves the house, not from empty")
    parser.add_argument("--reweigh", metavar="N", nargs="?", type=_count, const=_BEST,
                        help="from a log: bricks on the arbor, with pipe weight; without N what balances what hangs "
                        "now")  # fmt: skip
    parser.add_argument("--small", metavar="N", type=_count, default=0, help="with --reweigh N: small ones on top (0)")
    parser.add_argument("--json", action="store_true", help="print data instead (see: counterpoise schema steps)")


def _count(words: str) -> int:
    if words.isascii() and words.isdigit() and len(words) < 5:
        return int(words)
    raise argparse.ArgumentTypeError(f"a count of bricks is a number from 0, not {words}")


def steps(asked: argparse.Namespace) -> Answer:
    """Say the steps of one set."""
    from counterpoise.app.speaking import spoken_load_in
    from counterpoise.cli.as_json import steps_as_data
    from counterpoise.cli.commands import judged, set_of
    from counterpoise.cli.say import told_steps
    from counterpoise.planning import strike

    result, goal = judged(asked), _goal(asked)
    one = set_of(result, asked.set)
    if asked.log is not None:
        plan = _from_log(asked, result, goal)
    else:
        plan = strike(result.house, asked.set) if asked.strike else spoken_load_in(result, asked.set)
    data = steps_as_data(plan, one, goal.what)
    words = json.dumps(data, indent=1, ensure_ascii=True, allow_nan=False) if asked.json else \
        result.speech()(told_steps(plan, one, goal.what))  # fmt: skip
    code = {"within": Exit.WITHIN, "over": Exit.OVER, "unknown": Exit.UNKNOWN}[one.verdict.value]
    return Answer(words, Exit.OVER if plan.refusal else code)


def _goal(asked: argparse.Namespace) -> Goal:
    from counterpoise.balance import Stack
    from counterpoise.planning import Goal

    if asked.reweigh is None:
        if asked.small:
            raise Misuse("--small goes with --reweigh N.", "Say how many bricks: --reweigh 18 --small 1.")
        return Goal(what="strike" if asked.strike else "load-in")
    if asked.log is None or asked.strike:
        raise Misuse("--reweigh is from what hangs now, and that only a log tells; it is no strike.",
                     "Name the log: --log FILE --reweigh 18.")  # fmt: skip
    if asked.reweigh == _BEST:
        return Goal(what="re-weigh")
    return Goal(what="re-weigh", stack=Stack(asked.reweigh, asked.small))


def _from_log(asked: argparse.Namespace, result: HouseResult, goal: Goal) -> Plan:
    """From how a log leaves the house. Where one is refused at a line, that is told instead."""
    from dataclasses import replace

    from counterpoise.app.calls import rehearsed
    from counterpoise.app.files import read_text, read_texts
    from counterpoise.app.speaking import spoken_from
    from counterpoise.planning.log import bricks_adrift

    texts = read_texts(asked.house, asked.show, asked.hang)
    _, found = rehearsed(texts, read_text(asked.log), asked.log, on=today())
    if found.problems:
        raise BadDocument(found.problems)
    plan = spoken_from(result, found.standing, asked.set, goal)
    if found.refusal is None:
        return replace(plan, notes=(*plan.notes, *bricks_adrift(found.standing)))
    says = f"{asked.log}:{found.line}: {found.refusal.says}"
    return replace(plan, steps=(), lines=(), notes=(), refusal=replace(found.refusal, says=says))
