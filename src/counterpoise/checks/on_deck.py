"""What lies or stands on the deck at a trim that the show is played at: within every limit, and not hung as drawn."""

from __future__ import annotations

from collections.abc import Iterator

from counterpoise.checks.finding import Finding
from counterpoise.checks.rows import Verdict
from counterpoise.documents import Hang
from counterpoise.rigging import RiggedBatten, RiggedHouse, RiggedPiece
from counterpoise.units import Direction, Style, length, mass

SHOW = "show"  # the trim at which a load-in ends
NEARLY = 1e-3  # [m]; less than a millimetre on the deck is none


def on_deck_findings(house: RiggedHouse, rigged: RiggedBatten) -> Iterator[Finding]:
    """A note for each piece of the set that is not clear of the deck at a trim of the show.

    These are the trim called `show`, and those that the preset and the cues name; at others, storage or low trim,
    landing is usual. A piece of which it is written where it `lands` is meant to. Where it lies it breaks no limit:
    balance and pulls are judged with what hangs there, and with all of it.
    """
    style = Style(house.house.units)  # type: ignore[arg-type]  # the document allows just these two words
    played = _played(house.hang, {rigged.label, *rigged.twins})
    for piece in rigged.pieces:
        if piece.hung.label != rigged.label or piece.written.lands is not None:
            continue  # of twins it is told once, of the set that it is written on
        found = {name: least for name, least in _least(piece).items()
                 if name in played and least < piece.clear - NEARLY}  # fmt: skip
        if found:
            name = min(found, key=lambda one: found[one])
            yield _finding(rigged, piece, name, found[name], style)


def _played(hang: Hang, labels: set[str]) -> set[str]:
    """The names of trims that the show is played at."""
    found = {SHOW, *(trim for label, trim in hang.preset.items() if label in labels)}
    return found | {move.to for cue in hang.cues for move in cue.moves if move.label in labels}


def _least(piece: RiggedPiece) -> dict[str, float]:
    """Its trims, of one that is a range the lower end [m]."""
    return {name: at.low for name, at in piece.hung.trims.items() if at.low is not None}


def _finding(rigged: RiggedBatten, piece: RiggedPiece, name: str, height: float, style: Style) -> Finding:
    free, top = length(piece.clear, style, Direction.UP), length(rigged.high, style)
    mend = f"Raise the trim to {free} or more"
    if piece.clear > rigged.high:
        mend = f"It hangs free from {free} up, above high trim ({top}): tie it up, or hang it elsewhere"
    return Finding(code="ON-DECK", label=rigged.label, place=f"set {rigged.label}, trim {name}",
                   says=f"with the batten at {length(height, style)}, {_lies(piece, height, style)}.",
                   mend=f"{mend}; where it is meant, write `lands: {free}` of {piece.name} in the show.",
                   source="", verdict=Verdict.WITHIN)  # fmt: skip


def _lies(piece: RiggedPiece, height: float, style: Style) -> str:
    """How much of it is on the deck, and what of its weight the batten carries then, at the best figures."""
    shares = [(part.mass[1], part.share(height)) for part in piece.parts]
    least, most = (sum(kg * share[end] for kg, share in shares) for end in (0, 1))
    whole = mass(piece.mass[1], style)
    if most > least:
        return f"{piece.name} stands on the deck, and its ties decide how much of its {whole} the batten carries"
    lies = f"{piece.name} stands on the deck"
    if piece.off_the_floor:
        lies = (
            f"{length(min(piece.clear - height, piece.parts[0].cloth or 0.0), style)} of {piece.name} lie on the deck"
        )
    return f"{lies}, and the batten carries {mass(least, style)} of its {whole}"
