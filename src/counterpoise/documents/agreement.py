"""What a show and a hang say against themselves, their house and each other; each disagreement is told at its line."""

from __future__ import annotations

from collections.abc import Iterator

from counterpoise.documents.cues import check_cues
from counterpoise.documents.desk import Desk
from counterpoise.documents.hang import Hang
from counterpoise.documents.house import House
from counterpoise.documents.landing import check_lands
from counterpoise.documents.line_set import HEMP
from counterpoise.documents.named import check_notes, must_be, set_must_be, twice
from counterpoise.documents.numbering import check_numbering
from counterpoise.documents.show import IN_SECTIONS, Part, Piece, Show, Taken
from counterpoise.documents.text import Fields

# What a weight of a takeoff is multiplied by, and what may stand beside that.
_SIZES_OF = {"per area": ("width", "height"), "per length": ("length",), "each": ()}
_MAY = {"per area": ("fullness",), "per length": (), "each": ()}
_SIZES = ("width", "height", "fullness", "length")


def check_show(show: Show, desk: Desk) -> None:
    """No piece twice, and each hung one way."""
    twice(((one, one.piece) for one in show.pieces), "piece", desk)
    twice(((one, one.key or one.piece) for one in show.pieces), "key", desk)
    names = [one.piece for one in show.pieces]
    for one in show.pieces:
        node = desk.node_of(one)
        at = f"{node.path} {one.piece}"
        if one.picks and one.spread_over is not None:
            desk.refuse(node, at, "a piece has either picks or a length it is spread over.",
                        "Write `picks: [6' SR, 6' SL]` or `spread over: 40 ft`.")  # fmt: skip
        if (one.takeoff or one.sections) and "weight" in node.fields:
            desk.refuse(node, at, "its weight stands here twice: as one figure and in parts.",
                        "Keep the one you trust; put the other in its `note`.")  # fmt: skip
        if (one.comes == IN_SECTIONS) != bool(one.sections) and not desk.has_lost(node, "comes", "sections"):
            desk.refuse(node, at, "`comes: in sections` and a list of `sections` go together.",
                        "Write both, or neither.")  # fmt: skip
        for taken in one.takeoff:
            _check_taken(taken, desk)
        _check_balance_height(one, desk)
        _check_tips(one, desk)
        _check_clamps(one, desk)
        check_lands(one, desk)
        for part in one.sections:
            _check_balance_height(part, desk)
        for other in (*one.wishes.upstage_of, *one.wishes.downstage_of, *one.wishes.masks) if one.wishes else ():
            must_be(other, names, "piece", node.fields["wishes"], f"{at} › wishes", "this show has", desk)


def _check_balance_height(one: Piece | Part, desk: Desk) -> None:
    """A centre of gravity lies below the top."""
    known, height = one.balance_height, one.height
    if known.best is not None and height.best is not None and known.best > height.best:
        desk.refuse(desk.node_of(one).fields["balance height"], known.path, f"a centre of gravity {known.text} up lies "
                    f"above the top of {height.text}.", "Give its height above the foot.")  # fmt: skip


def _check_tips(one: Piece, desk: Desk) -> None:
    """Between its picks the weight is shared by the lever; outside them the far one would have to push."""
    known, picks = one.centre_of_gravity, [pick.best for pick in one.picks if pick.best is not None]
    if known is None or known.low is None or known.high is None or len(picks) < 2 or len(picks) < len(one.picks):
        return
    if known.low < min(picks) - 1e-6 or known.high > max(picks) + 1e-6:
        first, last = (end(one.picks, key=lambda pick: pick.number) for end in (min, max))
        desk.refuse(desk.node_of(one).fields["centre of gravity"], known.path, f"it lies outside the picks, "
                    f"{first.text} to {last.text}: the piece would tip on the nearer one.",
                    "Give it from the middle of the piece, or move a pick past it.")  # fmt: skip


def _check_clamps(one: Piece, desk: Desk) -> None:
    """The smallest pipe is no larger than the largest."""
    clamps = one.clamps
    least, most = (clamps.fit_from, clamps.fit_to) if clamps else (None, None)
    if least and most and least.best is not None and most.best is not None and least.best > most.best:
        desk.refuse(desk.node_of(clamps).fields["fit from"], least.path, f"the smallest pipe, {least.text}, is larger "
                    f"than the largest, {most.text}.", "Write the smaller one at `fit from`.")  # fmt: skip


def _check_taken(taken: Taken, desk: Desk) -> None:
    """A line of a takeoff is measured in one way: by area, by length, or by count of one weight."""
    node = desk.node_of(taken)
    ways = [name for name, weight in (("per area", taken.per_area), ("per length", taken.per_length),
                                      ("each", taken.each)) if weight is not None]  # fmt: skip
    if desk.has_lost(node, "per area", "per length", "each"):
        return
    if len(ways) != 1:
        desk.refuse(node, node.path, "this line has no weight." if not ways else f"this line has {' and '.join(ways)}.",
                    "Name a row of the catalogue (`cloth`, `board`, `lumber`, `pipe`, `cable`, `fixture`), or write "
                    "one of `per area`, `per length`, `each`.")  # fmt: skip
        return
    for name in _SIZES:
        if name in node.fields and name not in (*_SIZES_OF[ways[0]], *_MAY[ways[0]]):
            way = next(way for way in _SIZES_OF if name in (*_SIZES_OF[way], *_MAY[way]))
            desk.refuse(node.fields[name], f"{node.path}.{name}", f"{name} does not go with `{ways[0]}`: it would "
                        "change nothing.", f"Take it out, or give the weight `{way}`.")  # fmt: skip
    for name in _SIZES_OF[ways[0]]:
        if name not in node.fields:
            desk.refuse(
                node, f"{node.path}.{name}", f"{name} is missing.", "Write it; write unknown where it is not known."
            )


def check_hang(hang: Hang, house: House, show: Show, tree: Fields, desk: Desk) -> None:
    """Sets, pieces and names are those of its house and show, pieces fit the pipe, trims the travel."""
    labels, pieces = [one.label for one in house.sets], [one.piece for one in show.pieces]
    for one in hang.hung:
        node = desk.node_of(one)
        set_must_be(one.label, house, node.fields["set"], f"{node.path}.set", desk)
        must_be(one.piece, pieces, "piece", node.fields["piece"], f"{node.path}.piece", f"{show.name} has", desk)
    for field, counts in (("stated bricks", hang.stated_bricks), ("stated small bricks", hang.stated_small_bricks),
                          ("stated bags", hang.stated_bags)):  # fmt: skip
        stated = tree.fields.get(field)
        for label in counts:
            node_of_label = stated.keys[label] if isinstance(stated, Fields) else None
            set_must_be(label, house, node_of_label, field, desk)
    _small_with_the_rest(hang, house, tree, desk)
    _bags_of_hemp(hang, house, tree, desk)
    check_notes(hang.not_checked_here, labels, f"{house.name} has", desk)
    check_cues(hang, house, tree, desk)
    check_numbering(_labels(hang), hang.numbering, house, tree, "hang", desk)
    twice(((one, f"{one.piece} on set {one.label}") for one in hang.hung), "piece", desk)
    _names_match(hang, house, show, tree, desk)
    _on_the_pipe(hang, house, show, desk)
    _within_travel(hang, house, desk)


def _labels(hang: Hang) -> Iterator[str]:
    """Every label that a hang names."""
    yield from (one.label for one in hang.hung)
    yield from (*hang.stated_bricks, *hang.stated_small_bricks, *hang.stated_bags, *hang.preset)
    yield from (move.label for cue in hang.cues for move in cue.moves)
    yield from (label for one in hang.not_checked_here for label in one.sets)


def _small_with_the_rest(hang: Hang, house: House, tree: Fields, desk: Desk) -> None:
    """Small bricks are stated of a set that takes them, and together with its others."""
    stated = tree.fields.get("stated small bricks")
    takes = {one.label for one in house.sets if one.small_brick}
    for label in hang.stated_small_bricks:
        node = stated.keys[label] if isinstance(stated, Fields) else None
        if label not in takes:
            desk.refuse(node, "stated small bricks", f"set {label} takes no small brick.",
                        "Write its `small brick` in the house, or take the count out.")  # fmt: skip
        elif label not in hang.stated_bricks:
            desk.refuse(node, "stated small bricks", f"of set {label} only the small ones are stated.",
                        "State its others too, under `stated bricks`.")  # fmt: skip


def _bags_of_hemp(hang: Hang, house: House, tree: Fields, desk: Desk) -> None:
    """Bags are stated of a hemp set whose pins and crew the house tells of."""
    stated = tree.fields.get("stated bags")
    for label in hang.stated_bags:
        one = house.set_called(label)
        node = stated.keys[label] if isinstance(stated, Fields) else None
        if one is not None and one.rigged != HEMP:
            desk.refuse(node, "stated bags", f"set {label} is no hemp set: no bags hang on it.",
                        "State its bricks, under `stated bricks`, or take it out.")  # fmt: skip
        elif one is not None and one.bags is None:
            desk.refuse(node, "stated bags", f"of set {label} the house writes no `bags`: its pins and its crew are "
                        "not known.", f"Write `bags: {{pin: …, hauls: …}}` of set {label} in the house.")  # fmt: skip


def _names_match(hang: Hang, house: House, show: Show, tree: Fields, desk: Desk) -> None:
    for field, said, name in (("house", hang.house, house.name), ("show", hang.show, show.name)):
        if said != name:
            desk.refuse(tree.fields[field], field, f"the hang is for {said}, but the {field} given is {name}.",
                        f"Give the {field} file it was made for, or change the line.")  # fmt: skip


def _on_the_pipe(hang: Hang, house: House, show: Show, desk: Desk) -> None:
    for one in hang.hung:
        line_set, piece = house.set_called(one.label), show.piece_called(one.piece)
        if line_set is None or piece is None or one.centre.best is None or line_set.batten.length.best is None:
            continue
        half = line_set.batten.length.best / 2
        reach = [pick.number for pick in piece.picks if pick.best is not None]
        if piece.spread_over is not None and piece.spread_over.best is not None:
            reach = [-piece.spread_over.best / 2, piece.spread_over.best / 2]
        reach += [cable.at.best for cable in piece.cables if cable.at is not None and cable.at.best is not None]
        if any(abs(one.centre.best + at) > half + 1e-6 for at in reach):
            node = desk.node_of(one)
            mend = "Move its centre." if piece.spread_over else "Move its centre, or its picks."
            desk.refuse(node.fields["centre"], f"{node.path}.centre",
                        f"{one.piece} centred at {one.centre.text} reaches past the end of set {one.label}'s batten "
                        f"({line_set.batten.length.text}).", mend)  # fmt: skip


def _within_travel(hang: Hang, house: House, desk: Desk) -> None:
    """A trim that the set can not reach would else be left out of what is judged."""
    for one in hang.hung:
        line_set = house.set_called(one.label)
        if line_set is None or line_set.low_trim.best is None or line_set.high_trim.best is None:
            continue
        bottom, top = line_set.low_trim.best - 1e-6, line_set.high_trim.best + 1e-6
        for name, at in one.trims.items():
            if at.low is not None and at.high is not None and not bottom <= at.low <= at.high <= top:
                desk.refuse(desk.node_of(one), at.path, f"trim {name} at {at.text} is outside the travel of set "
                            f"{one.label}, {line_set.low_trim.text} to {line_set.high_trim.text}.",
                            "Give the height of the batten above the stage floor.")  # fmt: skip
