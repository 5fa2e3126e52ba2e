"""Documents on the console: to JSON and back, what changed between two, and sets renumbered."""

from __future__ import annotations

import argparse
import json
from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING, Any

from counterpoise.cli.answer import Answer
from counterpoise.errors import Misuse, Refused

if TYPE_CHECKING:
    from counterpoise.documents import Difference, Hang, House, Renumbered, Show

Add = Callable[..., argparse.ArgumentParser]
KINDS = ("house", "show", "hang")


def add_commands(add: Add) -> None:
    """The commands of this module, each with its words."""
    for turned in (add("json", "turn a document into JSON: the same words, without its comments", to_json),
                   add("yaml", "turn a document that is in JSON into YAML", to_yaml)):  # fmt: skip
        turned.add_argument("file", metavar="FILE", help="a house, show or hang")
        turned.add_argument("--out", metavar="FILE", help="to write; never over one that is there. Else it is printed")
    diff = add("diff", "tell what changed from one house, show or hang to another", differences)
    diff.add_argument("old", metavar="OLD", help="the document as it was")
    diff.add_argument("new", metavar="NEW", help="the document as it is")
    diff.add_argument("--json", action="store_true", help="print data instead (see: counterpoise schema diff)")
    changed = add("renumber", "renumber sets in a house, its hangs and logs, as one change", renumbered)
    changed.add_argument("words", metavar="FILE|OLD=NEW", nargs="+",
                         help="house, hangs and logs, then labels: house.yaml hang.yaml 12=12A 13=14")  # fmt: skip
    changed.add_argument("--write", action="store_true", help="write the files; else it is only shown")


def to_json(asked: argparse.Namespace) -> Answer:
    """Turn a document into JSON."""
    from counterpoise.app.files import read_text
    from counterpoise.documents import to_json as turned

    text = turned(read_text(asked.file), asked.file)
    if asked.out:
        return _written(asked.out, text)
    return Answer(json.dumps(json.loads(text), indent=2, ensure_ascii=True))  # no console's code page can bend it


def to_yaml(asked: argparse.Namespace) -> Answer:
    """Turn a document into YAML."""
    from counterpoise.app.files import read_text
    from counterpoise.documents import from_json

    text = from_json(read_text(asked.file), asked.file)
    return _written(asked.out, text) if asked.out else Answer(text.rstrip("\n"))


def _written(name: str, text: str) -> Answer:
    from counterpoise.app.files import write_whole

    if Path(name).exists():
        raise Refused(f"{name} is there already. Nothing was written", "Name a new file.")
    write_whole(Path(name), text.encode("utf-8"))
    return Answer(f"Written: {name}")


def schema(kind: str) -> Answer:
    """Print the schema of a document."""
    from counterpoise.documents import schema_of

    return Answer(json.dumps(schema_of(kind), indent=1, ensure_ascii=True))


def differences(asked: argparse.Namespace) -> Answer:
    """Tell what changed."""
    from counterpoise.documents import diff

    (kind, old), (other, new) = _document(asked.old), _document(asked.new)
    if kind != other:
        raise Misuse(f"{asked.old} is a {kind}, {asked.new} a {other}.", "Name two documents of one kind.")
    found = diff(old, new)
    if asked.json:
        data = {"schema": "counterpoise diff 1", "document": kind, "differences": [_as_data(one) for one in found]}
        return Answer(json.dumps(data, indent=1, ensure_ascii=True))
    return Answer("\n".join(one.says for one in found) or f"The two say the same: no difference in the {kind}.")


def _as_data(one: Difference) -> dict[str, Any]:
    return {"says": one.says, "form": one.form.value, "where": one.where, "what": one.what, "before": one.before,
            "after": one.after, "sets": list(one.sets), "kind": one.kind, "path": one.path}  # fmt: skip


def _document(name: str) -> tuple[str, House | Show | Hang]:
    """A document by what its first field says it is; a hang by itself, for its house and show may be others by now."""
    from counterpoise.app.files import read_text
    from counterpoise.documents import kind_of, read_hang_alone, read_house, read_show

    text = read_text(name)
    kind = kind_of(text, name)
    readers: dict[str, Callable[[str, str], House | Show | Hang]] = {
        "house": read_house, "show": read_show, "hang": read_hang_alone,
    }  # fmt: skip
    return kind, readers[kind](text, name)


def renumbered(asked: argparse.Namespace) -> Answer:
    """Renumber sets, or show what it would touch."""
    from counterpoise.app.files import read_text, write_whole
    from counterpoise.documents import renumber

    names, labels = _files_and_labels(asked.words)
    house, *hangs = [read_text(name) for name in names]
    try:
        done = renumber(house, hangs, labels, file=names[0], files=names[1:])
    except Refused as no:  # what was asked for cannot be; no file stood in the way
        raise Misuse(no.says, no.mend) from None
    told = [
        *map(str, done.touched),
        "",
        "Hangs and logs that are not named here keep the old labels, and are told when they are read.",
    ]
    if not asked.write:
        return Answer("\n".join([*told, "", "Nothing is written yet: say it again with --write."]))
    written = _changed(names, [house, *hangs], done)
    for name, text in written.items():
        write_whole(Path(name), text.encode("utf-8"))
    return Answer("\n".join([*told, "", f"Written: {', '.join(written)}"]))


def _changed(names: list[str], before: list[str], done: Renumbered) -> dict[str, str]:
    """The texts that differ, by file; the house last, so that a hang that cannot be written leaves it as it was."""
    after = [done.house, *done.hangs]
    texts = {name: new for name, old, new in zip(names, before, after, strict=True) if new != old}
    return {name: texts[name] for name in [*names[1:], names[0]] if name in texts}


def _files_and_labels(words: list[str]) -> tuple[list[str], dict[str, str]]:
    names: list[str] = []
    labels: dict[str, str] = {}
    for word in words:
        old, between, new = word.partition("=")
        if not between or Path(word).exists():
            names.append(word)
        elif old in labels:
            raise Misuse(f"Set {old} is given two new labels.", "Give each set one.")
        else:
            labels[old] = new
    if not names or not labels:
        raise Misuse("No house is named." if not names else "No label is given.",
                     "counterpoise renumber HOUSE [HANG|LOG ...] 12=12A 13=14")  # fmt: skip
    if len(set(names)) < len(names):
        raise Misuse("A file is named twice.", "Name each once.")
    return names, labels
