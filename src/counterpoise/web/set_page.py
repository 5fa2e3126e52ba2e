"""One set: its picture along the batten, the chain, the travel and the stack, what will be said, and the mend."""

from __future__ import annotations

from dataclasses import replace

from htpy import Element, Node, a, b, button, div, fragment, h1, header, p, section, span

from counterpoise.app.room import BY_COUNT
from counterpoise.app.stations import Station
from counterpoise.app.workspace import Now
from counterpoise.checks import SetResult, Verdict
from counterpoise.documents import COUNTERWEIGHT, Known
from counterpoise.drawing import (
    Axis,
    RoomCurve,
    along_picture,
    axis_of,
    chain_picture,
    keyed,
    of_text,
    status_of,
)
from counterpoise.units import Style
from counterpoise.web.beside_part import beside_part
from counterpoise.web.foot_part import set_foot
from counterpoise.web.frame import drawn, page, theme_button
from counterpoise.web.say_part import say_part, steps_part
from counterpoise.web.words import set_address

EVERY = {"us": 6, "metric": 10}  # inches, or centimetres, between the places that a drag stops at
NEAR = 0.61  # [m] either way, within which a key moves by the inch
WORDS = {"within": "within", "over": "over", "unknown": "unknown", "out": "out of service"}


def set_page(now: Now, one: SetResult, back: str = "") -> Element:
    """The whole page; `back` is the last change of this set in words, "" where there is none to take back."""
    return page(
        f"set {one.label}",
        header(".top")[
            a(".plain", href="/")[f"← {now.result.house.name}"],
            _neighbours(now, one),
            span(".grow"),
            p("#said.said", role="status"),
            button(type="button", data_act="undo", disabled=not back)[take_back_words(back)],
            theme_button(),
        ],
        div("#set", data_label=one.label, data_revision=str(now.revision))[set_sheet(now, one)],
        scripts=("set.js", "write.js"),
    )


def take_back_words(back: str) -> str:
    """What is taken back, before it is."""
    return f"take back {back}" if back else "nothing to take back"


def set_sheet(now: Now, one: SetResult) -> Node:
    """What is drawn anew after each change."""
    result = now.result
    style = Style(result.house.house.units)  # type: ignore[arg-type]  # the document allows just these two words
    room = RoomCurve(says="none: out of service") if one.out_of_service else _room(now, one)
    said, cls = governing_words(one, style)
    plan = now.told.plan(one.label)
    names = " · ".join(hung.piece for hung in result.house.hang.hung if hung.label == one.label)
    return fragment[
        div(".set-top")[
            h1[
                span(".big.word-out" if one.out_of_service else ".big")[one.label],
                span(".name")[names or "nothing hung"],
            ], span(".about")[_about(one)],
            span(".verdict")[span(data_key="governing")[said], " ",
                             b(data_key="verdict", class_=cls)[WORDS[status_of(one)]]],
        ],
        div(".sheet" if one.batten is not None else ".sheet.bare")[
            say_part(now, one, plan),
            div(".draw")[
                section(".wide", aria_label="Along the batten")[
                    drawn(along_picture(one, style, room=room)), drawn(chain_picture(one, style))],
                section(".narrow", aria_label="Along the batten, for a small screen")[
                    drawn(along_picture(one, style, narrow=True, room=room)),
                    drawn(chain_picture(one, style, narrow=True))],
                section("#story", aria_live="polite", aria_label="How a figure came about"),
            ],
            beside_part(now, one, plan),
            steps_part(one, plan),
        ],
        set_foot(result, one, style),
    ]  # fmt: skip


def _room(now: Now, one: SetResult) -> RoomCurve:
    """Room left, and which rows of the balance that are not settled it leaves out."""
    room = now.told.room(one.label) or RoomCurve()
    unsettled = dict.fromkeys(row.link for row in one.rows if row.link in BY_COUNT and row.verdict is Verdict.UNKNOWN)
    if one.rigged is None and one.written.rigged == COUNTERWEIGHT:
        unsettled["its balance"] = None
    elif one.stack is None and one.written.rigged == COUNTERWEIGHT:
        unsettled["its count"] = None
    if not room.points or not unsettled:
        return room
    return replace(room, says=f"{' and '.join(unsettled)} left out, not known")


def _neighbours(now: Now, one: SetResult) -> Node:
    """The sets upstage and downstage of it: one walks along the rail."""
    labels = [each.label for each in now.result.sets]
    at = labels.index(one.label)
    before = labels[at - 1] if at else None
    after = labels[at + 1] if at + 1 < len(labels) else None
    return [
        before and a(".plain", href=set_address(before), rel="prev", aria_label=f"set {before}")[f"‹ {before}"],
        after and a(".plain", href=set_address(after), rel="next", aria_label=f"set {after}")[f"{after} ›"],
    ]


def governing_words(one: SetResult, style: Style) -> tuple[str, str]:
    """What governs, and the class of the verdict's word."""
    if one.out_of_service:
        return one.out_of_service, "word-out"
    row = one.telling
    said = "" if row is None else f"{row.place}: {of_text(row, style)}"
    return said, f"word-{one.verdict.value}"


def response_table(one: SetResult, stations: list[Station], style: Style, *, narrow: bool) -> dict[str, object]:
    """For every place of the load: what each moving shape of the picture becomes, and the words at the top."""
    assert one.batten is not None  # stations are made of battens that hang
    axis = axis_of(one, one.batten, narrow=narrow)
    now = _shows(one, style, axis, narrow=narrow)
    found = [(each, _shows(each.result, style, axis, narrow=narrow)) for each in stations if each.result is not None]
    moving = {(key, name) for _, shows in found for key, given in shows.items() for name, value in given.items()
              if now.get(key, {}).get(name) != value}  # fmt: skip
    told = [{"words": each.words, "x": round(each.x, 4), "says": _says(each, style),
             "shows": {key: kept for key, given in shows.items()
                       if (kept := {name: value for name, value in given.items() if (key, name) in moving})}}
            for each, shows in found]  # fmt: skip
    return {"stations": told}


def _shows(one: SetResult, style: Style, axis: Axis, *, narrow: bool) -> dict[str, dict[str, str]]:
    said, cls = governing_words(one, style)
    return {
        **keyed(along_picture(one, style, narrow=narrow, axis=axis)),
        **keyed(chain_picture(one, style, narrow=narrow)),
        "governing": {"text": said},
        "verdict": {"text": WORDS[status_of(one)], "class": cls},
    }


def _says(station: Station, style: Style) -> str:
    if station.result is None:
        return ""
    return f"{station.words}: {governing_words(station.result, style)[0]}, {WORDS[status_of(station.result)]}"


def _about(one: SetResult) -> str:
    """How it is roped and what its batten is, as far as that is written."""
    written, size = one.written, one.written.batten
    roped = f"{written.purchase} purchase" if written.rigged == COUNTERWEIGHT else written.rigged
    said = [written.use, "" if roped.startswith("unknown") else roped]
    if not size.length.is_unknown:
        sort = "ladder" if size.ladder else "truss" if size.truss else "pipe"
        pipe = "" if size.outside_diameter.is_unknown else f"{_plain(size.outside_diameter)} "
        said.append(f"{_plain(size.length)} of {pipe}{sort}")
    if written.lines.at:
        said.append(f"{len(written.lines.at)} lines")
    return " · ".join(filter(None, said))


def _plain(known: Known) -> str:
    return known.text.split("@")[0].strip()
