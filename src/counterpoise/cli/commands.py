"""The commands, one function each: files in, an answer out."""

from __future__ import annotations

import argparse
import difflib
import json
from collections.abc import Iterable
from importlib.resources import files
from pathlib import Path
from typing import TYPE_CHECKING

from counterpoise.cli.answer import Answer, Exit, needs_one_or_three, today
from counterpoise.errors import Misuse

if TYPE_CHECKING:
    from counterpoise.checks import HouseResult, SetResult, Verdict


def check(asked: argparse.Namespace) -> Answer:
    """Judge a hang."""
    from counterpoise.app import judge
    from counterpoise.app.files import read_texts
    from counterpoise.cli.as_json import check_as_data
    from counterpoise.cli.say import told

    needs_one_or_three(asked.files, "check")
    result = judge(read_texts(*asked.files), today())
    words = _as_json(check_as_data(result)) if asked.json else result.speech()(told(result))
    return Answer(words, _code(result.verdict))


def explain(asked: argparse.Namespace) -> Answer:
    """Tell how one figure came about."""
    from counterpoise.checks import explain as explain_row
    from counterpoise.checks.working import workings_of
    from counterpoise.cli.say import told_derivation

    result = judged(asked)
    rooms = {f"{one.batten.key}/room": one for one in result.sets if one.batten is not None}
    keys = [row.key for one in result.sets for row in one.rows] + [row.key for row in result.bridges] + list(rooms)
    if asked.key is None:
        return Answer("\n".join(keys))
    if asked.key in rooms:
        from counterpoise.app.room import room_table
        from counterpoise.cli.say import told_room

        one = rooms[asked.key]
        return Answer(result.speech()(told_room(result, one, room_table(result, one))))
    found = explain_row(result, asked.key)
    if found is None:
        mend = _did_you_mean(asked.key, keys) or "Call this without a KEY to list them."
        raise Misuse(f'No figure has the key "{asked.key}".', mend)
    return Answer(result.speech()(told_derivation(found, workings_of(result, asked.key))))


def mend(asked: argparse.Namespace) -> Answer:
    """Tell what would clear what is over."""
    from counterpoise.cli.say import told_mends
    from counterpoise.planning import mends_of

    result = judged(asked)
    wanted = [set_of(result, asked.set)] if asked.set is not None else \
        [one for one in result.sets if one.verdict.value == "over"]  # fmt: skip
    found = {one.label: mends_of(result, one.label) for one in wanted}
    words = _as_json({"schema": "counterpoise mend 1", "sets": [
        {"set": label, "mends": [{"kind": each.kind, "says": each.says, "verdict": each.verdict.value}
                                 for each in mends]} for label, mends in found.items()]}) if asked.json \
        else result.speech()(told_mends(result, found))  # fmt: skip
    return Answer(words, _code(result.verdict))


def draw(asked: argparse.Namespace) -> Answer:
    """Draw a house or a set."""
    from counterpoise.app import judge
    from counterpoise.app.files import read_texts, write_whole
    from counterpoise.app.picture import house_file, set_file

    needs_one_or_three(asked.files, "draw")
    if Path(asked.out).suffix.lower() != ".svg":
        raise Misuse(f"{asked.out} is no name of an SVG file.", "Let it end in .svg; paper is printed by `sheets`.")
    result = judge(read_texts(*asked.files), today())
    one = None if asked.set is None else set_of(result, asked.set)
    text = house_file(result, dark=asked.dark) if one is None else set_file(result, one, dark=asked.dark)
    write_whole(Path(asked.out), text.encode("utf-8"))
    return Answer(f"Written: {asked.out}", _code(result.verdict if one is None else one.verdict))


def set_of(result: HouseResult, label: str) -> SetResult:
    """The set of this label. Raises Misuse with the near name where the house has none."""
    one = result.set_called(label)
    if one is None:
        labels = [each.label for each in result.sets]
        mend = _did_you_mean(label, labels) or f"The house has {', '.join(labels)}."
        raise Misuse(f'There is no set "{label}".', mend)
    return one


def sheets(asked: argparse.Namespace) -> Answer:
    """Write the bridge sheet."""
    from datetime import UTC, datetime

    from counterpoise.app.files import write_whole
    from counterpoise.app.speaking import spoken_load_in
    from counterpoise.sheets import bridge_sheet

    result = judged(asked)
    plans = {one.label: spoken_load_in(result, one.label) for one in result.sets}
    path = Path(asked.out, "bridge.pdf")
    when = datetime.now(UTC)
    write_whole(path, bridge_sheet(result, plans, revision=asked.revision, when=when, changed={}))
    held = [one.label for one in result.sets if one.hold or plans[one.label].refusal]
    note = (
        f"\nNo count to load is printed for {', '.join(held)}: over, unknown, refused or out of service."
        if held
        else ""
    )
    return Answer(f"Written: {path}{note}")


def demo(asked: argparse.Namespace) -> Answer:
    """Write the demo."""
    from counterpoise.app.files import write_demo

    house, show, hang = write_demo(Path(asked.directory))
    return Answer(f"There now: {house}, {show}, {hang}; beside them another night's hang, a line schedule, a metric "
                  "house and the least that can be drawn. All of it is invented.\n"
                  f"Try: counterpoise check {house} {show} {hang}")  # fmt: skip


def start(asked: argparse.Namespace) -> Answer:
    """Write a house to fill in."""
    from counterpoise.app.demo import blank_house
    from counterpoise.app.files import write_new

    path = Path(asked.house)
    write_new(path, blank_house(json.dumps(asked.name, ensure_ascii=False), asked.units, asked.sets, asked.purchase))
    return Answer(f"There now: {path}. Fill it in with any editor, in any order; what is unknown may stay so.\n"
                  f"See it at any time: counterpoise serve {path}\n"
                  f"What to find out first: counterpoise check {path}")  # fmt: skip


def tour(asked: argparse.Namespace) -> Answer:
    """Write the demo, tell what is found there, and serve it."""
    from counterpoise.app import judge
    from counterpoise.app.files import demo_there, read_texts, write_demo
    from counterpoise.cli.serve import serve_for_now
    from counterpoise.cli.tour import toured

    directory = Path(asked.directory)
    texts = read_texts(*(demo_there(directory) or write_demo(directory)))
    words = toured(judge(texts, today()), Path(asked.directory))
    if asked.no_serve:
        return Answer(words)
    print(words, flush=True)
    return serve_for_now(texts, asked.port)


def schema(asked: argparse.Namespace) -> Answer:
    """Print the schema of a document or of an output."""
    from counterpoise.cli.documents import KINDS, schema as schema_of_document

    if asked.of in KINDS:
        return schema_of_document(asked.of)
    return Answer(files("counterpoise.cli").joinpath("schemas", f"{asked.of}-1.json").read_text("utf-8").rstrip())


def judged(asked: argparse.Namespace) -> HouseResult:
    """The check of the three files that are named."""
    from counterpoise.app import judge
    from counterpoise.app.files import read_texts

    return judge(read_texts(asked.house, asked.show, asked.hang), today())


def _code(verdict: Verdict) -> Exit:
    return {"within": Exit.WITHIN, "over": Exit.OVER, "unknown": Exit.UNKNOWN}[verdict.value]


def _did_you_mean(words: str, known: Iterable[str]) -> str:
    all_known = list(known)
    near = [each for each in all_known if words and each.startswith(words)]
    near = near or difflib.get_close_matches(words, all_known, n=1, cutoff=0.4)
    return f"Did you mean {near[0]}?" if near else ""


def _as_json(data: object) -> str:
    """ASCII only, so that no console's code page can bend it; a figure that is no number is a fault, not NaN."""
    return json.dumps(data, indent=1, ensure_ascii=True, allow_nan=False)
