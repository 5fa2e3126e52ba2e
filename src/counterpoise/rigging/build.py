"""What hangs, from the written set: the batten as a beam, the lines as springs, the pieces where they hang."""

from __future__ import annotations

import itertools
from collections.abc import Iterator, Mapping, Sequence

from counterpoise.documents import (
    COUNTERWEIGHT,
    DEAD_HUNG,
    FREE,
    IN_SECTIONS,
    OFF_THE_FLOOR,
    TIPPED_UP,
    Attachment,
    Cable,
    House,
    Hung,
    Known,
    LineAt,
    LineSet,
    Piece,
)
from counterpoise.rigging.lines import (
    asked_of_lines,
    block_of,
    fleets_of,
    lacking_places,
    line_of,
    runs_of,
    towards_of,
)
from counterpoise.rigging.made import Made, lacks_of_make, made_of, or_named
from counterpoise.rigging.missing import PULLS, Missing, unknown_of
from counterpoise.rigging.pieces import RiggedCable, RiggedPart, RiggedPiece
from counterpoise.rigging.rules import Rule, doubt, most
from counterpoise.rigging.sets import Fixed, RiggedBatten
from counterpoise.rigging.takeoff import lights_of, weight_of

NEARLY_THERE = 0.001  # [m]; a millimetre off the middle is taken for the middle

HungPieces = Sequence[tuple[Hung, Piece]]


def lacks_of_batten(one: LineSet, house: House, rules: Mapping[str, Rule], hung: HungPieces) -> Iterator[Missing]:
    """The figures without which the pulls in the lines can not be computed, the plainest to find out first."""
    batten, lines = one.batten, one.lines
    asked: list[tuple[str, Known | None]] = [
        ("height of the loft blocks", house.stage.loft_blocks), ("low trim", one.low_trim),
        ("batten length", batten.length),
    ]  # fmt: skip
    if one.rigged != DEAD_HUNG:  # which hangs at its low trim and stays there
        asked.insert(2, ("high trim", one.high_trim))
    yield from unknown_of(one.label, asked, PULLS)
    yield from lacking_places(one, house)
    if one.rigged == COUNTERWEIGHT and one.purchase == "unknown":
        yield Missing(label=one.label, path=f"{one.stands}.purchase", line=one.line_of,
                      what="purchase", waits=PULLS)  # fmt: skip
    rope = [("lift-line weight", lines.weight), ("lift-line stiffness", lines.stiffness)]
    asked = []
    for each_ in lacks_of_make(one):
        if isinstance(each_, Missing):
            yield each_
        else:
            asked.append(each_)
    asked += [("batten hardware", batten.hardware),
              *or_named(rope, lines.rope, "which rope the lift lines are, as in 1/4 in 7x19", "rope")]  # fmt: skip
    if one.rigged != DEAD_HUNG:
        asked.append(("head block place", lines.head_block_from_end))
    asked += [*asked_of_lines(one), ("the rule `trim error`", house.rules.trim_error)]
    if any(line.trim_error is None for line in lines.at):
        asked.append(("the rule `trim error`", house.rules.trim_error))
    for attached in batten.attachments:
        asked += [(f"weight of {attached.attachment}", attached.weight),
                  (f"centre of {attached.attachment}", attached.centre),
                  (f"spread of {attached.attachment}", attached.spread_over)]  # fmt: skip
    for each, piece in hung:
        asked += _asked_of(each, piece, rules)
    yield from unknown_of(one.label, asked, PULLS)
    for _, piece in hung:
        if not piece.picks and piece.spread_over is None:
            yield Missing(label=one.label, path=f"{piece.stands}.picks", line=piece.line_of,
                          what=f"how {piece.piece} hangs, by picks or spread over a length", waits=PULLS)  # fmt: skip
        elif _shares(piece) is None and not _unknown_places(piece):
            yield Missing(label=one.label, path=f"pieces {piece.piece} › centre of gravity", line=piece.line_of,
                          what=f"how {piece.piece} shares its weight, with its centre of gravity off the middle of "
                          "what it hangs by", waits=PULLS)  # fmt: skip


def _asked_of(each: Hung, piece: Piece, rules: Mapping[str, Rule]) -> Iterator[tuple[str, Known | None]]:
    name = piece.piece
    yield f"weight of {name}", weight_of(piece, rules)
    yield f"centre of {name}", each.centre
    yield f"spread of {name}", piece.spread_over
    yield f"centre of gravity of {name} along it", piece.centre_of_gravity
    yield f"ties of {name}", piece.ties
    yield f"landing height of {name}", piece.lands
    for part in piece.sections:
        yield from ((f"height of {part.part or 'a section'} of {name}", part.height),
                    (f"height of the centre of gravity of {part.part or 'a section'} of {name}", part.balance_height),
                    (f"joining height of {part.part or 'a section'} of {name}", part.joins_at))  # fmt: skip
    if piece.comes != IN_SECTIONS:
        yield f"height of {name}", piece.height
    if piece.comes == TIPPED_UP:
        yield f"height of the centre of gravity of {name}", piece.balance_height
    yield from ((f"a pick of {name}", pick) for pick in piece.picks)
    yield from ((f"trim {trim} of {name}", at) for trim, at in each.trims.items())
    for cable in piece.cables:
        yield from ((f"length of the cable of {name}", cable.length), (f"weight of the cable of {name}", cable.weight),
                    (f"height of the cable box of {name}", cable.box), (f"count of cables of {name}", cable.count),
                    (f"place of the cable of {name}", cable.at))  # fmt: skip


def batten_of(one: LineSet, house: House, rules: Mapping[str, Rule], hung: HungPieces) -> RiggedBatten:
    """The batten in SI. Nothing that `lacks_of_batten` asks for may be missing."""
    batten, made, length = one.batten, made_of(one), one.batten.length.number
    spreads = [_relative(each, rules) for each in (batten.weight, *(part.weight for part in batten.lengths))]
    return RiggedBatten(
        key=one.permanent, label=one.label, purchase=2 if one.purchase == "double" else 1,
        low=one.low_trim.number, high=(one.low_trim if one.rigged == DEAD_HUNG else one.high_trim).number,
        loft=house.stage.loft_blocks.number, made=made,
        lines=tuple(line_of(line, one, house) for line in one.lines.at), line_mass=one.lines.weight.number,
        hardware_mass=batten.hardware.number,
        pieces=tuple(_piece(each, piece, length, rules) for each, piece in hung),
        fixed=tuple(_fixed(attached, length, rules) for attached in batten.attachments),
        cables=tuple(_cable(cable, each, piece, length, rules) for each, piece in hung for cable in piece.cables),
        out_of_service=one.out_of_service, written=one,
        pipe_doubt=_pipe_doubt(made, spreads), pipe_spreads=tuple(spreads),
        hardware_doubt=doubt(batten.hardware, rules),
        trim_doubts=tuple(_trim_doubt(line, house, rules) for line in one.lines.at),
        runs=runs_of(one), towards=towards_of(one, house),
        blocks=tuple(block_of(line, one) for line in one.lines.at), fleets=tuple(fleets_of(one, house)),
    )  # fmt: skip


def _trim_doubt(line: LineAt, house: House, rules: Mapping[str, Rule]) -> float:
    """How far a line may be off what is written of it: its own range, else the rule of the house, else nothing [m]."""
    rule = house.rules.trim_error
    if line.trim_error is not None:
        return doubt(line.trim_error, rules)
    return (most(rule, rules) or 0.0) if rule is not None else 0.0


def _pipe_doubt(made: Made, spreads: Sequence[float]) -> float:
    """How far all of its pipe may be out [kg]: its own, and each length of another by what is written of it."""
    return sum(spreads[of] * mass * (end - start)
               for (start, end, mass), of in zip(made.per_length, made.written, strict=True))  # fmt: skip


def _relative(weight: Known, rules: Mapping[str, Rule]) -> float:
    """How far a weight per length may be out, as a share of it."""
    return doubt(weight, rules) / weight.number if weight.number > 0.0 else 0.0


def _piece(hung: Hung, piece: Piece, length: float, rules: Mapping[str, Rule]) -> RiggedPiece:
    centre = length / 2 + hung.centre.number
    weight = weight_of(piece, rules)
    even = piece.spread_over
    reach = (centre - even.number / 2, centre + even.number / 2) if even is not None and even.best is not None else None
    if reach is not None:
        reach = (max(0.0, reach[0]), min(length, reach[1]))
    points = tuple((min(length, max(0.0, centre + pick.number)), share)
                   for pick, share in zip(piece.picks, _shares(piece) or (), strict=False))  # fmt: skip
    tall = sum(part.height.number for part in piece.sections) if piece.sections else piece.height.number
    return RiggedPiece(
        name=piece.piece, parts=tuple(_parts(piece, weight, rules)), points=points, spread=reach, height=tall,
        looks=piece.looks, trims={name: at.number for name, at in hung.trims.items() if at.best is not None},
        written=piece, hung=hung, weight=weight, lights=lights_of(piece, rules) if piece.comes == FREE else (),
    )  # fmt: skip


def _unknown_places(piece: Piece) -> bool:
    return any(known is not None and known.best is None for known in (*piece.picks, piece.centre_of_gravity))


def _shares(piece: Piece) -> tuple[float, ...] | None:
    """The share of its weight at each pick: equal, or by the lever between two; () where it is spread evenly.

    None where a centre of gravity is written that neither gives: then no statics of the batten alone says how it hangs.
    """
    if _unknown_places(piece):
        return None
    picks = [pick.number for pick in piece.picks]
    middle = sum(picks) / len(picks) if picks else 0.0
    centre = piece.centre_of_gravity.number if piece.centre_of_gravity is not None else middle
    if abs(centre - middle) < NEARLY_THERE:
        return tuple(1.0 / len(picks) for _ in picks)
    if len(picks) == 2 and min(picks) <= centre <= max(picks):
        second = (centre - picks[0]) / (picks[1] - picks[0])
        return 1.0 - second, second
    return None


def _masses(weight: Known, rules: Mapping[str, Rule]) -> tuple[float, float, float]:
    best, spread = weight.number, doubt(weight, rules)
    return max(0.0, best - spread), best, best + spread


def _parts(piece: Piece, weight: Known, rules: Mapping[str, Rule]) -> Iterator[RiggedPart]:
    """How the weight comes on: all of a free piece once it is clear, cloth by its length, walls by their lever."""
    ties = piece.ties.number if piece.ties is not None else 0.0
    lands = piece.lands.number if piece.lands is not None else 0.0
    if piece.comes == IN_SECTIONS:
        tops = list(itertools.accumulate((part.height.number for part in piece.sections), initial=ties))
        for part, above, clear in zip(piece.sections, tops, tops[1:], strict=False):
            joins = part.joins_at.number if part.joins_at is not None else above if above > ties else 0.0
            yield RiggedPart(mass=_masses(part.weight, rules), joins=joins, clear=max(clear, lands),
                             tipped=part.balance_height.number / part.height.number)  # fmt: skip
        return
    clear, masses = max(ties + piece.height.number, lands), _masses(weight, rules)
    if piece.comes == OFF_THE_FLOOR:
        yield RiggedPart(mass=masses, joins=0.0, clear=clear, cloth=piece.height.number)
    elif piece.comes == TIPPED_UP:
        yield RiggedPart(mass=masses, joins=0.0, clear=clear,
                         tipped=piece.balance_height.number / piece.height.number)  # fmt: skip
    else:
        assert piece.comes == FREE  # the document knows no other word
        yield RiggedPart(mass=masses, joins=0.0, clear=clear)


def _fixed(attached: Attachment, length: float, rules: Mapping[str, Rule]) -> Fixed:
    x, even = length / 2 + attached.centre.number, attached.spread_over
    spread = None
    if even is not None and even.best is not None:
        spread = (max(0.0, x - even.best / 2), min(length, x + even.best / 2))
    return Fixed(name=attached.attachment, mass=_masses(attached.weight, rules), x=x, spread=spread)


def _cable(cable: Cable, hung: Hung, piece: Piece, length: float, rules: Mapping[str, Rule]) -> RiggedCable:
    count = cable.count.number if cable.count is not None else 1.0
    low, best, high = _masses(cable.weight, rules)
    at = cable.at.number if cable.at is not None else 0.0
    x = min(length, max(0.0, length / 2 + hung.centre.number + at))
    return RiggedCable(name=piece.piece, line_mass=(count * low, count * best, count * high),
                       length=cable.length.number, box=cable.box.number, x=x, written=cable.weight)  # fmt: skip
