"""The preset and the cues of a hang, held against its sets, their trims and each other."""

from __future__ import annotations

from counterpoise.documents.desk import Desk
from counterpoise.documents.hang import Hang, Move
from counterpoise.documents.house import House
from counterpoise.documents.named import must_be, set_must_be, twice
from counterpoise.documents.text import Fields, Node


def check_cues(hang: Hang, house: House, tree: Fields, desk: Desk) -> None:
    """Every set is one of the house, every trim one of that set, no cue twice and no set twice in one."""
    preset = tree.fields.get("preset")
    for label, trim in hang.preset.items():
        key, said = (preset.keys[label], preset.fields[label]) if isinstance(preset, Fields) else (None, None)
        set_must_be(label, house, key, "preset", desk)
        _trim_must_be(trim, label, hang, house, said, f"preset.{label}", tree, desk)
    twice(((one, one.cue) for one in hang.cues), "cue", desk)
    for cue in hang.cues:
        seen: dict[str, Move] = {}
        for move in cue.moves:
            node = desk.node_of(move)
            set_must_be(move.label, house, node.fields["set"], f"{node.path}.set", desk)
            _trim_must_be(move.to, move.label, hang, house, node.fields["to"], f"{node.path}.to", tree, desk)
            if seen.setdefault(move.label, move) is not move:
                desk.refuse(node.fields["set"], f"{node.path}.set", f"cue {cue.cue} moves set {move.label} twice.",
                            "Keep one of the two, or make two cues of it.")  # fmt: skip


def _trim_must_be(
    trim: str, label: str, hang: Hang, house: House, node: Node | None, path: str, tree: Fields, desk: Desk
) -> None:  # fmt: skip
    """A trim that a piece on the set or on its twins has; a set that is not there is told by itself."""
    this = house.set_called(label)
    if this is None or desk.has_lost(tree, "hung"):
        return
    twins = {one.label for one in house.sets if one.twin_of == label} | {label, this.twin_of}
    here = [one for one in hang.hung if one.label in twins]
    if any(desk.has_lost(desk.node_of(one), "trims") for one in here):
        return
    trims = list(dict.fromkeys(name for one in here for name in one.trims))
    must_be(trim, trims, "trim", node, path, f"trims of what hangs on set {label}", desk)
