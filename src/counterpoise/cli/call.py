"""`call` and `changeover`: all sets of a hang, and from one hang to another."""

from __future__ import annotations

import argparse
import json
import math
from collections.abc import Callable, Iterator, Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Any

from counterpoise.cli.answer import Answer, Exit, today
from counterpoise.errors import Misuse

if TYPE_CHECKING:
    from counterpoise.checks import HouseResult
    from counterpoise.cli.call_unknown import Open
    from counterpoise.planning.call import Call
    from counterpoise.planning.spoken import Spoken
    from counterpoise.planning.turns import Turn

Add = Callable[..., argparse.ArgumentParser]
_LONGEST = 600.0  # [s]


def add_commands(add: Add) -> None:
    """The commands and their words."""
    one = add("call", "say the load-in of all that hangs, set after set, with bricks and bridge floors", call)
    for name in ("house", "show", "hang"):
        one.add_argument(name, metavar=name.upper(), help=f"the {name} file")
    one.add_argument("--strike", action="store_true", help="the strike instead")
    one.add_argument("--log", metavar="FILE", help="write it as a log besides; never over one that is there")
    _of_a_search(one)
    two = add("changeover", "say the way from one hang to another in the same house", changeover)
    two.add_argument("house", metavar="HOUSE", help="the house file")
    for number, which in (("1", "what hangs now"), ("2", "what is to hang")):
        two.add_argument(f"show{number}", metavar=f"SHOW{number}", help=f"the show file of {which}")
        two.add_argument(f"hang{number}", metavar=f"HANG{number}", help=f"the hang file of {which}")
    two.add_argument("--log", metavar="FILE", help="write it as a log besides; never over one that is there")
    two.add_argument("--strip-first", action="store_true", help="strike all that leaves before anything is loaded")
    _of_a_search(two)


def _of_a_search(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("--order", metavar="SETS", default="", help="judge this order instead: 3,5,8")
    parser.add_argument("--budget", metavar="S", type=_seconds, default=1.0,
                        help="about how many seconds the search for an order may take (1)")  # fmt: skip
    parser.add_argument("--json", action="store_true", help="print data instead (see: counterpoise schema call)")


def _seconds(words: str) -> float:
    try:
        found = float(words)
    except ValueError:
        found = math.nan
    if not 0.0 < found <= _LONGEST:
        raise argparse.ArgumentTypeError(f"a budget is more than 0 and at most {_LONGEST:g} seconds, not {words}")
    return found


def call(asked: argparse.Namespace) -> Answer:
    """Say a whole call."""
    from counterpoise.app.calls import whole_call
    from counterpoise.app.files import read_texts

    result = _checked(read_texts(asked.house, asked.show, asked.hang))
    found = whole_call(result, is_strike=asked.strike, seconds=asked.budget, order=_labels(asked.order))
    _write_log(found, asked.log)
    return _answer(found, result, (result,), as_json=asked.json)


def _write_log(found: Call, name: str | None, *, leaves: str = "") -> None:
    from counterpoise.app.files import write_new
    from counterpoise.planning.as_log import as_log

    if name is None:
        return
    if found.refusal is not None:
        raise Misuse("The call is refused, so there is no log of it to write.", found.refusal.mend)
    write_new(Path(name), as_log(found, leaves=leaves))


def changeover(asked: argparse.Namespace) -> Answer:
    """Say a changeover."""
    from counterpoise.app.calls import from_hang_to_hang
    from counterpoise.app.files import read_texts

    old = _checked(read_texts(asked.house, asked.show1, asked.hang1))
    new = _checked(read_texts(asked.house, asked.show2, asked.hang2))
    found = from_hang_to_hang(old, new, seconds=asked.budget, order=_labels(asked.order),
                              strip_first=asked.strip_first)  # fmt: skip
    _write_log(found, asked.log, leaves=old.house.show)
    return _answer(found, new, (old, new), as_json=asked.json)


def _checked(texts: Any) -> HouseResult:
    from counterpoise.app import judge

    return judge(texts, today())


def _labels(words: str) -> tuple[str, ...]:
    return tuple(filter(None, (one.strip() for one in words.split(","))))


def _as_json(data: object) -> str:
    return json.dumps(data, indent=1, ensure_ascii=True, allow_nan=False)


# --- a call ------------------------------------------------------------------------------------------------------


def _answer(found: Call, result: HouseResult, results: Sequence[HouseResult], *, as_json: bool) -> Answer:
    from counterpoise.cli.call_unknown import open_of

    unknown = _unknown(found, results)
    opens = [open_of(turn, results) for turn in found.turns]
    words = _as_json(_as_data(found, unknown, opens)) if as_json else \
        result.speech()("\n".join(_told(found, unknown, opens)))  # fmt: skip
    if found.refusal is not None or found.held:
        return Answer(words, Exit.OVER)
    return Answer(words, Exit.UNKNOWN if unknown else Exit.WITHIN)


def _unknown(found: Call, results: Sequence[HouseResult]) -> tuple[str, ...]:
    """The sets that are worked and of which the check does not know enough."""
    from counterpoise.checks import Verdict

    known = [{result.house.label_of(one.label): one.verdict for one in result.sets if one.verdict is Verdict.UNKNOWN}
             for result in results]  # fmt: skip
    labels = dict.fromkeys(turn.set for turn in found.turns)
    return tuple(label for label in labels if any(label in each for each in known))


def _told(found: Call, unknown: Sequence[str], opens: Sequence[Open]) -> Iterator[str]:
    from counterpoise.cli.say import CAUTION, as_list
    from counterpoise.planning import tell
    from counterpoise.planning.turns import named

    sets = len(dict.fromkeys(turn.set for turn in found.turns))
    what = found.what[0].upper() + found.what[1:]
    yield (f"{what}, {found.house.show}, {found.house.name}: {sets} set{'s' if sets != 1 else ''}, {found.lifts} "
           f"lifts, {tell.mass_up(found.house, found.lifted)}.")  # fmt: skip
    for one in found.held:
        says = one.refusal.says.removeprefix(f"Set {one.set}: ")
        says = f"it {says.removeprefix(own)}" if says.startswith(own := f"Set {one.set} ") else says
        yield as_list(f"Hold set {one.set}: {says} {one.refusal.mend}")
    if unknown:
        yield f"Unknown: {named(unknown)}; `counterpoise check` says what is lacking. Nothing is promised of these."
    on_hold = [turn.set for turn, one in zip(found.turns, opens, strict=True) if one.hold]
    if on_hold and found.refusal is None:
        yield f"Put nothing on {named(on_hold)} until that is found out; why is told above the steps of each."
    if found.refusal is not None:
        yield f"Refused before the first step: {found.refusal.says} {found.refusal.mend}"
        if found.turns and not found.closed and found.order.needs_help:
            yield f"Best order found: {', '.join(turn.set for turn in found.turns)}."
    else:
        yield from _spoken(found, opens)
    yield ""
    yield from found.notes
    yield CAUTION


def _spoken(found: Call, opens: Sequence[Open]) -> Iterator[str]:
    from counterpoise.cli.say import sizes_told
    from counterpoise.planning.call import opening, total_said

    if not found.turns:
        yield "Nothing to do."
        return
    yield f"Before the first step: {total_said(found, opening(found))}."
    said_small = {line.set for line in found.lines if " small" in line.says}
    yield from sizes_told(one for one in found.house.sets if one.label in said_small)
    start = 0
    for turn, closed, one in zip(found.turns, found.closed, opens, strict=True):
        yield f"\nSet {turn.set}, {_what(turn)}"
        if one.says:
            yield f"     {one.says}"
        for line in found.lines[start : closed.lines]:
            yield from _line(line)
        yield f"     Set {turn.set} is closed. Now {total_said(found, closed)}."
        start = closed.lines


def _what(turn: Turn) -> str:
    return "strike, then load-in" if turn.what == "change" else turn.what


def _line(line: Spoken) -> Iterator[str]:
    yield f"{line.number:3d}. {line.to}: {line.says}"
    yield f'     reply "{line.reply}"' + (f" ({line.after})" if line.after else "")


def _as_data(found: Call, unknown: Sequence[str], opens: Sequence[Open]) -> dict[str, Any]:
    from counterpoise.cli.say import CAUTION

    refusal, starts = found.refusal, [0, *(one.lines for one in found.closed)]
    return {
        "schema": "counterpoise call 1", "what": found.what, "house": found.house.name, "show": found.house.show,
        "turns": [{"set": turn.set, "what": turn.what, "hold": one.hold, "why": one.says,
                   "lines": [_line_as_data(line) for line in found.lines[begin : closed.lines]],
                   "stock": closed.stock, "floors": closed.floors}
                  for turn, closed, begin, one in zip(found.turns, found.closed, starts, opens, strict=False)]
        if refusal is None else [],
        "order": [turn.set for turn in found.turns], "kept": list(found.kept), "unknown": list(unknown),
        "held": [{"set": one.set, "code": one.refusal.code, "says": one.refusal.says, "mend": one.refusal.mend}
                 for one in found.held],
        "begin_stock": found.begin.stock, "lifts": found.lifts, "lifted": found.lifted,
        "short": found.order.short, "carried": found.order.carried, "least": list(found.order.least),
        "asks": [{"brick": one.kind, "place": one.place, "count": one.count, "before": one.before}
                 for one in found.asks],
        "refusal": None if refusal is None else {"code": refusal.code, "says": refusal.says, "mend": refusal.mend},
        "notes": list(found.notes), "caution": CAUTION,
    }  # fmt: skip


def _line_as_data(line: Spoken) -> dict[str, Any]:
    return {"number": line.number, "to": line.to, "set": line.set, "says": line.says, "reply": line.reply,
            "after": line.after, "only_if": line.is_branch}  # fmt: skip
