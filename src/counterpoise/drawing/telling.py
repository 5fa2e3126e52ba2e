"""What a picture of the house says of the set that teaches: its sentence, and the callout above its lane."""

from __future__ import annotations

from counterpoise.checks import Check, HouseResult, SetResult, Surprise, Verdict, surprise_of
from counterpoise.checks.told import CAUTION
from counterpoise.drawing.links import bears_resultant, of_text
from counterpoise.rigging import RiggedBatten
from counterpoise.units import Style

AT_ONCE = "AT-MOST"  # code of the finding that several are over, with what would mend all of them
_SHARES = ". Equal shares"


def reason_of(one: SetResult) -> tuple[str, str]:
    """What governs a set that is over and what mends all of it; both empty where nothing is over."""
    over = [each for each in one.findings if each.verdict is Verdict.OVER]
    use = {row.key: row.use for row in one.rows}
    worst = max((each for each in over if each.code != AT_ONCE), key=lambda each: use.get(each.key, 0.0), default=None)
    if worst is None:
        return "", ""
    whole = next((each.mend for each in over if each.code == AT_ONCE), worst.mend)
    return f"{worst.place.removeprefix(f'set {one.label}, ')}: {worst.says}", whole


def caption_of(result: HouseResult, one: SetResult | None = None) -> tuple[str, ...]:
    """What a file says below its picture: which house, which set, how it stands, what was not checked, the caution."""
    within, over, unknown, out = result.counted()
    if one is not None:
        name = f"Set {one.label}, {', '.join(one.hung) or 'nothing hung'}, {result.house.name}"
        stands = "out of service" if one.out_of_service else one.verdict.value
        reason = reason_of(one)[0]
    else:
        name, reason = f"{result.house.name}, {result.house.show}", ""
        stands = f"{within} within, {over} over, {unknown} unknown, {out} out of service"
    open_ = [f"{each.thing} ({each.why}; {each.who}{f', until {each.until}' if each.until else ''})"
             for each in result.not_checked]  # fmt: skip
    parts = (f"{name}: {stands}{f'; {reason}' if reason else ''}",
             f"Not checked here: {'; '.join(open_)}." if open_ else "",
             f"Not computed here: {'; '.join(result.left_out)}." if result.left_out else "", CAUTION)  # fmt: skip
    return tuple(part for part in parts if part)


def told_of(result: HouseResult, style: Style) -> tuple[str, ...]:
    """The callout of the marked set: its name, its telling figure, and the mend of that figure and of no other."""
    surprise = surprise_of(result)
    one = result.set_called(surprise.label) if surprise is not None else None
    if surprise is None or one is None or one.rigged is None:
        return ()
    row = surprise.row if surprise.row and surprise.row.verdict is one.verdict else one.telling
    said = [f"set {one.label} · {', '.join(one.hung)}"]
    if row is not None:
        said.append(f"{row.place}: {of_text(row, style)}")
        said += [each.mend for each in one.findings if each.key and each.key in _alike(one, row)][:1]
    return tuple(said)


def _alike(one: SetResult, row: Check) -> set[str]:
    """Rows of the same link: of these one finding tells, with the key of the worst."""
    return {each.key for each in one.rows if each.link == row.link and each.verdict is row.verdict}


def sentence_of(surprise: Surprise, one: SetResult) -> str:
    """The sentence, with where the piece hangs and how wide; of blocks where what they bear is no pull in a line."""
    told = surprise.sentence
    head, between, tail = told.partition(_SHARES)
    if not between or one.batten is None:
        return told
    if surprise.row is not None and bears_resultant(one, surprise.row):
        tail = tail.replace("on every line", "on every block").replace("really carries", "really puts on its block")
        tail = tail.replace("really carry", "really put on their blocks")
    return f"{head.replace(', hangs evenly spread', '')}, {_hangs(one.batten)}{between}{tail}"


def _hangs(rigged: RiggedBatten) -> str:
    """Where the heaviest piece hangs, in the words of its documents."""
    piece = max(rigged.pieces, key=lambda each: each.mass[1])
    batten = f"a {_plain(rigged.written.batten.length.text)} batten"
    centre = _plain(piece.hung.centre.text)
    if piece.written.spread_over is None:
        return f"hangs at {centre} of {batten}"
    return f"spread evenly over {_plain(piece.written.spread_over.text)} at {centre} of {batten}"


def _plain(said: str) -> str:
    return said.split("@", maxsplit=1)[0].strip()
