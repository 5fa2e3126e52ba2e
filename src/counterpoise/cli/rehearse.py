"""`rehearse`: a log of what was really done, judged; how all stands then, or before the line that is refused."""

from __future__ import annotations

import argparse
import json
from collections.abc import Callable, Iterator
from typing import TYPE_CHECKING, Any

from counterpoise.cli.answer import Answer, Exit, today

if TYPE_CHECKING:
    from counterpoise.checks import HouseResult
    from counterpoise.planning.log import Rehearsed


def add_rehearse(add: Callable[..., argparse.ArgumentParser]) -> None:
    """The command and its words."""
    log = add("rehearse", "judge a log of what was done, and say what is on every arbor then", rehearse)
    for name in ("house", "show", "hang", "log"):
        log.add_argument(name, metavar=name.upper(), help=f"the {name} file")
    log.add_argument("--to", nargs=2, metavar=("SHOW2", "HANG2"), help="of a changeover: what is to hang")
    log.add_argument("--json", action="store_true", help="print data instead (see: counterpoise schema rehearse)")


def rehearse(asked: argparse.Namespace) -> Answer:
    """Judge a log."""
    from counterpoise.app.calls import rehearsed
    from counterpoise.app.files import read_text, read_texts

    texts = read_texts(asked.house, asked.show, asked.hang)
    coming = read_texts(asked.house, *asked.to) if asked.to else None
    result, found = rehearsed(texts, read_text(asked.log), asked.log, coming, today())
    data = _log_as_data(found, asked.log)
    words = json.dumps(data, indent=1, ensure_ascii=True, allow_nan=False) if asked.json else \
        result.speech()(_told_log(result, found, asked))  # fmt: skip
    return Answer(words, _exit_of(found))


def _exit_of(found: Rehearsed) -> Exit:
    """Over where a line is refused or what was counted is over; unknown where a set waits or bricks are not found."""
    if found.problems:
        return Exit.BAD_INPUT
    now = found.standing
    waits = now.left_off or now.adrift or any(one.blocked for one in now.state.sets.values())
    return Exit.OVER if found.refusal or found.over else Exit.UNKNOWN if waits else Exit.WITHIN


def _told_log(result: HouseResult, found: Rehearsed, asked: argparse.Namespace) -> str:
    from counterpoise.cli.say import CAUTION

    lines = [f"{found.done} of {found.of} lines are allowed."]
    if found.refusal is not None:
        lines.append(f"{asked.log}:{found.line}: refused: {found.refusal.says} {found.refusal.mend}")
        told = 1 if found.refusal.code == "READ" else 0
        lines += [f"Also {one}" for one in found.problems[told:]]
        lines.append("What follows is how all stood before that line.")
    lines += [f"Over: {says}" for says in found.over.values()]
    lines += _stands(result, found)
    return "\n".join([*lines, "", CAUTION])


def _stands(result: HouseResult, found: Rehearsed) -> Iterator[str]:
    """Every set that is not empty, locked and in pipe weight at low trim; then the loose bricks."""
    from counterpoise.planning import start, tell
    from counterpoise.planning.log import bricks_adrift

    now, house = found.standing, result.house
    at_rest = start(house).sets
    for label, on in now.state.sets.items():
        said = _waits(found, label, on.blocked)
        if on == at_rest[label] and not said:
            continue
        held = ", ".join(word for word, so in (("unlocked", not on.locked), ("second hold on", on.held),
                                               ("collars up", not on.collars_down)) if so)  # fmt: skip
        yield (f"Set {label}: {on.stack.said} on, at {tell.height(house, on.height)}, {', '.join(on.hung) or 'empty'}"
               f"{'; ' + held if held else ''}{'. ' + said if said else '.'}")  # fmt: skip
    yield "The other sets are empty, in pipe weight, locked at low trim."
    for kind, places in now.state.stock.items():
        yield f"Loose: {', '.join(f'{count} {kind} at {place}' for place, count in places.items()) or 'none'}."
    yield from bricks_adrift(now)


def _waits(found: Rehearsed, label: str, blocked: str) -> str:
    left, out = found.standing.left_off.get(label), found.standing.locked_out.get(label)
    said = [f"Is {blocked}."] if blocked else []
    said += [f"Its counts found {abs(count)} {kind} {'fewer' if count < 0 else 'more'} than the log moved."
             for kind, count in found.standing.found.get(label, {}).items()]  # fmt: skip
    said += [f"Left off at {left.n}: {left.why}; close it by name."] if left else []
    return " ".join([*said, *([f"Locked out: {out}."] if out else [])])


def _log_as_data(found: Rehearsed, name: str) -> dict[str, Any]:
    from counterpoise.cli.say import CAUTION

    now, refusal = found.standing, found.refusal
    return {
        "schema": "counterpoise rehearse 1", "done": found.done, "of": found.of,
        "refusal": None if refusal is None else {"file": name, "line": found.line, "code": refusal.code,
                                                 "says": refusal.says, "mend": refusal.mend},
        "problems": [{"line": one.line, "path": one.path, "value": one.value, "says": one.says, "mend": one.mend}
                     for one in found.problems],
        "over": dict(found.over),
        "sets": [{"set": label, "bricks": on.bricks, "small": on.small, "height": on.height, "hung": list(on.hung),
                  "locked": on.locked, "held": on.held, "collars_down": on.collars_down, "blocked": on.blocked,
                  "left_off": left.why if (left := now.left_off.get(label)) else "",
                  "locked_out": now.locked_out.get(label, ""), "found": now.found.get(label, {})}
                 for label, on in now.state.sets.items()],
        "stock": now.state.stock, "found": now.adrift, "caution": CAUTION,
    }  # fmt: skip
