"""Edits of a text that keep every other character, comments too: a value set, added, taken out, a name changed.

Each edit is read back before it is given: what stood elsewhere stands there still, or the edit is refused.
A path is that of the figure, `sets[3].lines.at[2]`; an item may be named by a field too, `sets[set=14].distance`.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from counterpoise.documents.json_text import is_json
from counterpoise.documents.layout import Change, applied, break_of, end_of, indent_of, line_end
from counterpoise.documents.removal import item_out, name_out
from counterpoise.documents.text import parse
from counterpoise.documents.tree import Fields, Items, Node, Plain, Scalar, found, plain
from counterpoise.documents.writing import inline, json_words, yaml_words
from counterpoise.errors import BadDocument, Problem, Refused


@dataclass(frozen=True, slots=True, kw_only=True)
class Edit:
    """One change of one value. `old` is what its writer saw there, None for nothing; `new` None takes it out.

    What is added to a list is written with the path `hung[+]`.
    """

    path: str
    old: Plain | None = None
    new: Plain | None


def standing(text: str, paths: Iterable[str], file: str = "house.yaml") -> list[Plain | None]:
    """What stands at each path, None where nothing does. Raises BadDocument where the text has no tree."""
    tree = parse(text, file)
    there = [found(tree, path) for path in paths]
    return [None if node is None else plain(node) for node in there]


def apply_edits(text: str, edits: Iterable[Edit], file: str = "hang.yaml") -> str:
    """The text with all edits made, or none.

    Raises:
        Refused: something else stands there now than the writer of an edit saw.
        BadDocument: the text has no tree, or an edit cannot be written there.
    """
    for one in edits:
        text = _edited(text, one, file)
    return text


def _edited(text: str, edit: Edit, file: str) -> str:
    there = found(parse(text, file), edit.path)
    now = None if there is None else plain(there)
    if now != edit.old:
        raise Refused(f"{edit.path} was changed meanwhile: {_said(now)} stands there now, {_said(edit.old)} was seen",
                      "Look at what stands now, then make the change again.")  # fmt: skip
    if edit.new is None:
        return remove(text, edit.path, file) if there is not None else text
    if isinstance(there, Scalar) and isinstance(edit.new, str):
        return edit_scalar(text, edit.path, edit.new, file)
    if there is not None:
        raise _refusal(file, there, edit.path, "this is not one value.", "Change the values in it one by one.")
    return add(text, edit.path, edit.new, file)


def _said(value: Plain | None) -> str:
    return "nothing" if value is None else inline(value)


def edit_scalar(text: str, path: str, new: str, file: str = "hang.yaml") -> str:
    """The text with the one value at `path` replaced and every other character kept, comments too.

    Raises BadDocument where the text has no such value.
    """
    tree = parse(text, file)
    node = found(tree, path)
    if not isinstance(node, Scalar):
        raise _refusal(file, None, path, "there is no single value here to change.", "Open the file and look for it.")
    gap = " " if node.start == node.end else ""  # nothing stands after the colon yet
    changed = applied(text, [Change(node.start, end_of(node, text), gap + written_like(text, node, new))])
    return _held(changed, tree, {node.path: new.strip()}, node, path, new, file)


def add(text: str, path: str, new: Plain, file: str = "hang.yaml") -> str:
    """The text with a field that is not there yet, or with one more item: `sets[3].note`, `hung[+]`.

    Maps on the way that are not there yet are made. Raises BadDocument where it cannot be written.
    """
    tree = parse(text, file)
    holder, name, value = _holder(tree, path, new)
    if holder is None or not name:
        raise _refusal(file, None, path, "there is no place for it.", "Name a map or a list that is there.")
    as_json = is_json(text)
    words = inline(value, as_json=as_json)
    if isinstance(holder, Items):
        inner, last = f"{holder.path}[{len(holder.items)}]", holder.items[-1] if holder.items else None
        change = _more(text, holder, last, words, "- ")
    else:
        key = json_words(name) if as_json else yaml_words(name)
        inner, last = f"{holder.path}.{name}".lstrip("."), next(reversed(holder.fields.values()), None)
        change = _more(text, holder, last, f"{key}: {words}", "")
    return _held(applied(text, [change]), tree, _leaves_of(value, inner), holder, path, words, file)


def _holder(tree: Fields, path: str, new: Plain) -> tuple[Fields | Items | None, str, Plain]:
    """The nearest map or list on the way, the name to write in it, and what to write there."""
    for at in range(len(path), -1, -1):
        head, tail = path[:at], path[at:]
        if tail and head and tail[0] not in ".[":
            continue
        node = found(tree, head) if head else tree
        if isinstance(node, Items):
            return (node, "+", new) if tail in ("[+]", f"[{len(node.items)}]") else (None, "", new)
        if isinstance(node, Fields) and tail and "[" not in tail.removesuffix("[+]"):
            first, *rest = tail.removesuffix("[+]").lstrip(".").split(".")
            value: Plain = [new] if tail.endswith("[+]") else new
            for step in reversed(rest):
                value = {step: value}
            return (None, "", new) if first in node.fields else (node, first, value)
    return None, "", new


def _more(text: str, holder: Fields | Items, last: Node | None, words: str, dash: str) -> Change:
    """One more entry after the last: behind a comma in brackets, else on a line of its own."""
    if last is None:
        return Change(holder.start + 1, holder.start + 1, words)
    end = end_of(last, text)
    if holder.flow:
        return Change(end, end, f", {words}")
    end = line_end(text, end)
    return Change(end, end, f"{break_of(text)}{indent_of(holder)}{dash}{words}")


def remove(text: str, path: str, file: str = "hang.yaml") -> str:
    """The text without a field or an item; the comments beside it stay. Raises BadDocument where there is none."""
    tree = parse(text, file)
    node = found(tree, path)
    holder, name = _around(tree, node) if node is not None else (None, "")
    if node is None or holder is None:
        raise _refusal(file, None, path, "there is nothing here to take out.", "Open the file and look for it.")
    if isinstance(holder, Items):
        changes = item_out(text, tree, holder, int(name))
    else:
        changes = name_out(text, tree, holder, name)
    wanted = _without(plain(tree), tree, node)
    changed = applied(text, changes)
    if plain(_read(changed, file, node, path, "")) != wanted:
        raise _refusal(file, node, path, "this cannot be taken out by itself.", "Open the file and take it out there.")
    return changed


def _around(tree: Node, node: Node) -> tuple[Fields | Items | None, str]:
    """The map or list that a node stands in, and its name or number there."""
    if isinstance(tree, Scalar):
        return None, ""
    inner = enumerate(tree.items) if isinstance(tree, Items) else tree.fields.items()
    for name, one in inner:
        if one is node:
            return tree, str(name)
        holder, within = _around(one, node)
        if holder is not None:
            return holder, within
    return None, ""


def _without(value: Plain, tree: Node, node: Node) -> Plain:
    """What the tree holds without the node."""
    if isinstance(tree, Scalar):
        return value
    if isinstance(tree, Items):
        return [_without(plain(one), one, node) for one in tree.items if one is not node]
    return {name: _without(plain(one), one, node) for name, one in tree.fields.items() if one is not node}


def rename(text: str, path: str, new: str, file: str = "hang.yaml") -> str:
    """The text with the name of the field at `path` changed, as in `stated bricks.12`; its value stays.

    Raises BadDocument where there is no such field, or one of the new name beside it.
    """
    tree = parse(text, file)
    node = found(tree, path)
    holder, name = _around(tree, node) if node is not None else (None, "")
    if not isinstance(holder, Fields):
        raise _refusal(file, None, path, "there is no field here to rename.", "Open the file and look for it.")
    key = holder.keys[name]
    if new in holder.fields and new != name:
        raise _refusal(file, key, path, f"there is a {new} beside it already.", "Give each its own name.")
    changed = applied(text, [Change(key.start, key.end, written_like(text, key, new))])
    again = _read(changed, file, key, path, new)
    there = found(again, holder.path) if holder.path else again
    if not isinstance(there, Fields) or list(there.fields) != [new if one == name else one for one in holder.fields]:
        raise _refusal(file, key, path, f"{new!r} can not be written here.", "Write plain words on one line.")
    return changed


def written_like(text: str, old: Scalar, new: str) -> str:
    """New words in the dress of the old: what stands in double quotes stays in them, so that JSON stays JSON."""
    if text[old.start : old.start + 1] == '"' or is_json(text):
        return json_words(new)
    if text[old.start : old.start + 1] == "'" and old.text == text[old.start + 1 : old.end - 1] and new.isprintable():
        return f"'{new}'" if "'" not in new else yaml_words(new)
    return yaml_words(new)


def by_name(text: str, path: str, file: str = "hang.yaml") -> str:
    """The path with each item named by its first field, `sets[set=14].distance`: it holds when items come and go."""
    node: Node = parse(text, file)
    said, rest = "", path
    while isinstance(node, Fields | Items):
        inner = node.items if isinstance(node, Items) else tuple(node.fields.values())
        on = [one for one in inner if path == one.path or path.startswith((f"{one.path}.", f"{one.path}["))]
        if len(on) != 1:
            break
        step, node = on[0].path.removeprefix(node.path), on[0]
        rest = path.removeprefix(node.path)
        first = next(iter(node.fields.items()), None) if isinstance(node, Fields) and step.startswith("[") else None
        said += f"[{first[0]}={first[1].text}]" if first and isinstance(first[1], Scalar) else step
    return (said + rest).lstrip(".")


def _leaves(node: Node) -> dict[str, str]:
    if isinstance(node, Scalar):
        return {node.path: node.text}
    inner = node.items if isinstance(node, Items) else tuple(node.fields.values())
    return {path: words for one in inner for path, words in _leaves(one).items()}


def _leaves_of(value: Plain, path: str) -> dict[str, str]:
    if isinstance(value, str):
        return {path: value.strip()}
    inner = value.items() if isinstance(value, Mapping) else enumerate(value)
    steps = ((f".{name}" if isinstance(value, Mapping) else f"[{name}]", one) for name, one in inner)
    return {at: words for step, one in steps for at, words in _leaves_of(one, path + step).items()}


def _held(
    changed: str, before: Fields, wanted: Mapping[str, str], node: Node, path: str, new: str, file: str
) -> str:  # fmt: skip
    """The changed text, where it reads as before but for what is wanted, each on one line."""
    if any(len(words.splitlines()) > 1 for words in wanted.values()) or _leaves(
        _read(changed, file, node, path, new)
    ) != {**_leaves(before), **wanted}:
        raise _refusal(file, node, path, f"{new!r} can not be written here.", "Write plain words on one line.")
    return changed


def _read(changed: str, file: str, node: Node, path: str, new: str) -> Fields:
    try:
        return parse(changed, file)
    except BadDocument as error:
        mend = error.problems[0].mend
        raise _refusal(file, node, path, f"{new!r} can not be written here.", mend) from None


def _refusal(file: str, node: Node | None, path: str, says: str, mend: str) -> BadDocument:
    line, column = (node.line, node.column) if node else (1, 1)
    value = node.text if isinstance(node, Scalar) else None
    return BadDocument([Problem(file=file, line=line, column=column, path=path, value=value, says=says, mend=mend)])
