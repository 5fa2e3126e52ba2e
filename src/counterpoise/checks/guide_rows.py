"""Guides of an arbor: what a shoe bears where the load, or the hand line, is aside of the lift lines."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from counterpoise.balance import Span, Stack, hand_line_on_arbor, on_arbor, on_shoe
from counterpoise.checks.inputs import brick_inputs
from counterpoise.checks.rows import Check, Input, Measure
from counterpoise.documents import Guides, Known
from counterpoise.rigging import RiggedHouse, RiggedSet, doubt, least, most

NONE = Span(0.0, 0.0, 0.0)


def guide_rows(house: RiggedHouse, rigged: RiggedSet, stack: Stack, hung: tuple[Input, ...]) -> Iterator[Check]:
    """The force on one shoe, where anything of its guides is written: against what a shoe may bear on them.

    What of it is not known could only add: of the rest alone it is over all the same.
    """
    guides = rigged.written.guides
    if guides is None:
        return
    figures = _figures(guides)
    lacking = [name for name, span in zip(figures, _spans(house, guides), strict=True) if span is None]
    places = (replace(Input.of(name, known), is_lacking=name in lacking) for name, known in figures.items())
    yield Check(key=f"{rigged.key}/guides", label=rigged.label, link="guides", line=None, measure=Measure.FORCE,
                value=shoe_force(house, guides, on_arbor(rigged, stack), hand_line_on_arbor(rigged, stack)),
                limit=least(guides.rating, house.rules), formula="guides",
                lacks=f"{lacking[0]} is not known" if lacking else "",
                inputs=(Input.of("guide rating", guides.rating), *places, *brick_inputs(house, rigged, stack), *hung,
                        Input.of("lift-line weight", rigged.written.lines.weight)))  # fmt: skip


def shoe_force(house: RiggedHouse, guides: Guides, load: Span, hand_line: Span) -> Span:
    """Force on a shoe by what is on the arbor and what the hand line pulls on it [N].

    What is not known of the guides adds nothing here; without the height between the shoes nothing is told.
    """
    apart, aside, tied = _spans(house, guides)
    return NONE if apart is None else on_shoe(load, aside or NONE, hand_line, tied or NONE, apart)


def _figures(guides: Guides) -> dict[str, Known]:
    """What the force on a shoe rests on besides the weights, by what each is called."""
    return {
        "the height between its upper and lower guide shoes": guides.shoes_apart,
        "how far the load on its arbor is aside of the lift lines": guides.load_aside,
        "how far its hand line is aside of the lift lines": guides.hand_line_aside,
    }


def _spans(house: RiggedHouse, guides: Guides) -> Iterator[Span | None]:
    """Each of those figures with how far it may be out [m]; None where that is not known, or leaves no height."""
    for known in _figures(guides).values():
        best, off = known.best, doubt(known, house.rules)
        told = best is not None and most(known, house.rules) is not None
        if best is None or not told or (known is guides.shoes_apart and off >= best):
            yield None
        else:
            yield Span(max(0.0, best - off), best, best + off)
