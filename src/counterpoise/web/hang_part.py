"""Hanging a piece from the page of a set: one of the show that hangs nowhere yet, or a new one."""

from __future__ import annotations

from htpy import Element, Node, button, details, form, input as field_of_form, label, option, p, select, span, summary

from counterpoise.app.taking_back import change_note
from counterpoise.app.workspace import Now, Workspace
from counterpoise.checks import SetResult
from counterpoise.documents import Edit, Plain, read_show
from counterpoise.errors import Refused

NEW = ""  # what is chosen for a piece that the show does not hold yet
SHOW = "show"  # the trim that is asked for


def hang_part(now: Now, one: SetResult) -> Node:
    """A form, open where nothing hangs; none where the set is out of service."""
    if one.out_of_service:
        return None
    free = _not_hung(now)
    us = now.result.house.house.units == "us"
    return details(".ask.hang", open=not one.hung)[
        summary["hang a piece here"],
        form(".hang-form", data_set=one.label)[
            label[span["piece"], select(name="piece")[
                [option(value=name)[name] for name in free], option(value=NEW)["a new one, written below"]]],
            _line("centre", "its centre on the batten", "9' SL or 6' SR" if us else "2.7 m SL or 1.8 m SR", "CL"),
            _line("trim", "show trim, of the batten", "18' 6\"" if us else "5.6 m"),
            details(open=not free)[
                summary["a new piece"],
                _line("name", "its name", "painted drop"),
                _line("weight", "its weight, with ~ where estimated", "330 lb, ~330 lb" if us else "150 kg, ~150 kg"),
                _line("height", "its height, top to foot", "12'" if us else "3.6 m"),
                _line("spread", "spread evenly over; nothing for one pick", "10'" if us else "3 m"),
            ],
            button(type="submit")["hang it"],
            p(".answer", role="status"),
        ],
    ]  # fmt: skip


def _line(name: str, says: str, like: str, value: str = "") -> Element:
    return label[span[says], field_of_form(type="text", name=name, autocomplete="off", maxlength="80", value=value,
                                           placeholder=f"as in {like}")]  # fmt: skip


def _not_hung(now: Now) -> list[str]:
    hung = {one.piece for one in now.result.house.hang.hung}
    return [one.piece for one in read_show(now.texts.show).pieces if one.piece not in hung]


def hang(workspace: Workspace, label: str, asked: dict[str, str], *, operation: str, at: str) -> Now:
    """Hang a piece on a set, written into the show first where it is a new one.

    Raises Refused where a new one lacks its name or weight, BadDocument where something cannot be read.
    """
    name = asked["piece"]
    if name == NEW:
        name = _written(workspace, asked, operation=operation, at=at)
    hung: dict[str, Plain] = {"set": label, "piece": name, "centre": asked["centre"].strip() or "CL"}
    if asked["trim"].strip():
        hung["trims"] = {SHOW: asked["trim"].strip()}
    return workspace.write("hang", [Edit(path="hung[+]", new=hung)], note=change_note(label, f"{name} hung"),
                           operation=operation, at=at)  # fmt: skip


def _written(workspace: Workspace, asked: dict[str, str], *, operation: str, at: str) -> str:
    """A new piece in the show; its name. One of that name that hangs nowhere is taken as it is."""
    name, weight, height, spread = (asked[key].strip() for key in ("name", "weight", "height", "spread"))
    if not name or not weight or not height:
        raise Refused("A new piece needs a name, a weight and a height", "Write unknown for what is not known yet.")
    if name in _not_hung(workspace.now()):
        return name
    new: dict[str, Plain] = {"piece": name, "weight": weight, "height": height}
    new |= {"spread over": spread} if spread else {"picks": ["CL"]}
    workspace.write("show", [Edit(path="pieces[+]", new=new)], note=f"{name}, {weight}", operation=f"{operation}/piece",
                    at=at)  # fmt: skip
    return name
