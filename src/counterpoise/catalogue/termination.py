"""What an end fitting leaves of a rope's breaking strength; clips by rope size; knots in fibre rope."""

from __future__ import annotations

from dataclasses import replace

from counterpoise.catalogue.row import Row, computed, documented, from_memory

_ARMY = "US Army TM 5-3810-305-10, table 4"
_OF = "share of the breaking strength of the rope, fitting correctly made"
_TRADE = "usual trade table for FF-C-450 type clips, to which ASME B30.26 refers"
_FEDERAL = "29 CFR 1918, appendix II, table 1: drop-forged clips, every rope up to 1/2 in"
_PEOPLE = ("Saddle on the live side; tighten again after the first load. Not allowed on suspension ropes over people "
           "in German venues (DGUV V17 section 9, implementing note); EN 13411-5 keeps U-bolt grips to static loads "
           "and single lifts.")  # fmt: skip
# name, other names, share left
_FITTINGS = (
    ("spelter socket", ("resin socket", "poured socket"), "100 %"),
    ("swaged socket", ("swaged fitting",), "95 %"),
    ("mechanical sleeve, steel core", ("mechanically spliced sleeve IWRC", "mechanical splice IWRC"), "95 %"),
    ("mechanical sleeve, fibre core", ("mechanically spliced sleeve fibre core", "mechanical splice FC"), "92.5 %"),
)
# rope; clips, turn back [in], torque of the nuts [lb-ft]
_CLIPS = (
    ("3/16", "2", "3-3/4", "7.5"),
    ("1/4", "2", "4-3/4", "15"),
    ("5/16", "2", "5-1/4", "30"),
    ("3/8", "2", "6-1/2", "45"),
)


def rows() -> tuple[Row, ...]:
    """All rows: fittings, pressed sleeves, clips, knots."""
    fittings = (Row(family="termination", name=name, others=others,
                    values={"termination": documented(share, _ARMY, of=_OF, by=_ARMY)})
                for name, others, share in _FITTINGS)  # fmt: skip
    return (*fittings, _pressed(), _any_clips(), _eighth(), *(_clips(*one) for one in _CLIPS), _half(), *_knots())


def _pressed() -> Row:
    return Row(
        family="termination",
        name="copper oval sleeve",
        others=("copper sleeve", "pressed copper sleeve", "swaged copper sleeve", "copper oval sleeve on 7x19"),
        values={"termination": from_memory("95 %", "some users derate to it", "medium", of=_OF)},
        conflicts={"termination": (from_memory("100 %", "MS51844, AC 43.13-1B paragraph 7-148", "medium", of=_OF,
                                               by="AC 43.13-1B"),)},
        note="Only where every crimp passes the gauge of its tool.",
    )  # fmt: skip


def _any_clips() -> Row:
    return Row(
        family="termination",
        name="wire rope clips",
        others=("clips", "cable clips", "U-bolt clips", "bulldog grips"),
        values={"termination": documented("80 %", _ARMY, of=_OF, by=_ARMY)},
        note=f"{_PEOPLE} 30 CFR 57.19025(a) asks at least 80 % of a mine hoist's load-end fitting.",
    )


def _clips(size: str, clips: str, back: str, torque: str) -> Row:
    return Row(
        family="termination",
        name=f"wire rope clips, {size} in rope",
        others=(f"clips {size} in", f"{size} in clips", f"wire rope clips {size} in"),
        values={
            "termination": documented("80 %", _ARMY, of=_OF, by=_ARMY),
            "clips": documented(clips, _TRADE),
            "turn back": documented(f"{back} in", _TRADE),
            "torque": documented(f"{torque} lb-ft", _TRADE),
        },
        conflicts={"clips": (documented("3", _FEDERAL),)},
        note=_PEOPLE,
    )


def _eighth() -> Row:
    """The one size where two copies of the trade table disagree about the turn-back."""
    one = _clips("1/8", "2", "3-3/4", "4.5")
    return replace(
        one,
        conflicts={**one.conflicts, "turn back": (from_memory("3-1/4 in", _TRADE, "high"),)},
        note=f"{one.note} The copy read prints the same turn-back for 1/8 and 3/16 in, which looks like a slip.",
    )


def _half() -> Row:
    """The first size where both tables ask for three."""
    return replace(_clips("1/2", "3", "11-1/2", "65"), conflicts={})


def _knots() -> tuple[Row, ...]:
    of = "share of the breaking strength of a fibre rope"
    general = "general rope guide"
    any_knot = documented("50 %", f"{general}: 50 % loss assumed for any knot", of=of)
    return (
        Row(
            family="termination",
            name="knot in fibre rope",
            others=("knot", "any knot"),
            values={"termination": any_knot},
        ),
        Row(
            family="termination",
            name="figure-eight knot",
            others=("figure eight", "figure eight loop"),
            values={"termination": any_knot},
            conflicts={"termination": (computed("65 %", f"{general}: loss about 35 %", of=of),)},
        ),
        *(
            Row(
                family="termination",
                name=name,
                values={"termination": any_knot},
                conflicts={"termination": (from_memory("60 %", "rope handbooks", "medium", of=of),)},
            )
            for name in ("clove hitch", "bowline")
        ),
        Row(
            family="termination",
            name="eye splice in fibre rope",
            others=("splice", "eye splice"),
            values={"termination": from_memory("90..100 %", "rope handbooks", "medium", of=of)},
        ),
    )
