"""A maker's truss: by the maker's published table, or as a beam with allowable moment and shear.

Tables of allowable loads are for one simple span on two supports. A truss that hangs on three lines or more has moments
over its lines that no table shows: there only the section counts. What a table says is the house's to write down, with
its source; nothing here knows any maker's figure.
"""

import math
from collections.abc import Iterator
from dataclasses import dataclass

from counterpoise.errors import within
from counterpoise.statics.hanging import Hanging
from counterpoise.statics.model import Beam, Segment
from counterpoise.statics.splices import greatest_shear

KINDS = ("uniform", "centre", "third points")


@dataclass(frozen=True, slots=True, kw_only=True)
class TableRow:
    """What a table allows on one span; None where it gives no figure."""

    span: float  # between two supports [m]
    uniform: float | None = None  # all along [N/m]
    centre: float | None = None  # one load in the middle [N]
    third_points: float | None = None  # each of two loads at a third and two thirds [N]

    def __post_init__(self) -> None:
        within("span of a table row", self.span, low=0.1, high=1.0e3, unit="m", mend="Give the span as published.")
        for name, value in zip(KINDS, (self.uniform, self.centre, self.third_points), strict=True):
            if value is not None:
                mend = "Give the load as published; leave out what is not."
                within(f"{name} load of a table row", value, low=0.0, high=1.0e9, unit="N", mend=mend)


@dataclass(frozen=True, slots=True, kw_only=True)
class LoadTable:
    """Allowable loads on a simple span, as published."""

    rows: tuple[TableRow, ...]  # spans rising
    source: str  # maker's sheet and date, as the house wrote it

    def __post_init__(self) -> None:
        within("rows of a table", len(self.rows), low=1, high=math.inf, mend="Give one span or more.")
        reached = 0.0
        for row in self.rows:
            low = math.nextafter(reached, math.inf)
            within("span of a table row", row.span, low=low, high=1.0e3, unit="m", mend="Give the spans rising.")
            reached = row.span

    def allowable(self, kind: str, span: float) -> float | None:
        """The load allowed on a simple span; None where the table gives no figure.

        Args:
            kind: "uniform" [N/m], "centre" [N], or "third points" [N each].
            span: between two supports [m], within the table.

        Returns:
            That of the row; between two rows, that of the longer span: allowable loads fall along a hollow curve, so
            a straight line between two of them would allow too much.

        Raises:
            OutOfRange: another kind, or a span beyond the table at either end.
        """
        mend = f"Ask for one of: {', '.join(KINDS)}."
        within("kind of load", KINDS.index(kind) if kind in KINDS else -1, low=0, high=len(KINDS) - 1, mend=mend)
        low, high = self.rows[0].span, self.rows[-1].span
        mend = "The table says nothing beyond its spans; ask the maker."
        within("span", span, low=low, high=high, unit="m", mend=mend)
        row = next(row for row in self.rows if row.span >= span)
        return {"uniform": row.uniform, "centre": row.centre, "third points": row.third_points}[kind]

    def section_forces(self, own_weight: float = 0.0) -> Iterator[tuple[float, str, float, float]]:
        """What each figure of the table means for the section: span, kind, largest moment [N m], largest shear [N].

        Own weight [N/m] is added where the figures are over and above it. On short spans shear or a joint may govern a
        table, on long ones deflection: then the section could carry more moment than the row shows, never less.
        Source: w l2/8, P l/4, P l/3 and their shears; any table of beams.
        """
        for row in self.rows:
            span, own = row.span, own_weight * row.span
            if row.uniform is not None:
                load = row.uniform * span + own
                yield span, "uniform", load * span / 8.0, load / 2.0
            if row.centre is not None:
                yield span, "centre", row.centre * span / 4.0 + own * span / 8.0, (row.centre + own) / 2.0
            if row.third_points is not None:
                load = row.third_points
                yield span, "third points", load * span / 3.0 + own * span / 8.0, load + own / 2.0


@dataclass(frozen=True, slots=True, kw_only=True)
class MakersTruss:
    """A truss as one beam, by figures that its maker or an engineer gives for the section."""

    length: float  # [m]
    stiffness: float  # EI [N m2]
    allowable_moment: float | None  # [N m]; None: not known
    allowable_shear: float | None  # [N]; None: not known
    source: str  # whose figures, and when

    def __post_init__(self) -> None:
        for name, value in (("allowable moment", self.allowable_moment), ("allowable shear", self.allowable_shear)):
            if value is not None:
                within(name, value, low=1.0e-3, high=1.0e9, mend="Leave it out where it is not known.")

    @property
    def beam(self) -> Beam:
        """The beam to hang."""
        segment = Segment(start=0.0, end=self.length, stiffness=self.stiffness)
        return Beam(length=self.length, segments=(segment,))

    def use(self, hanging: Hanging) -> "SectionUse":
        """What the section carries where it carries most, beside what it may."""
        moment, moment_at = hanging.largest_moment
        shear, shear_at = greatest_shear(hanging)
        return SectionUse(
            moment=moment,
            moment_at=moment_at,
            allowable_moment=self.allowable_moment,
            shear=shear,
            shear_at=shear_at,
            allowable_shear=self.allowable_shear,
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class SectionUse:
    """Largest moment and shear of a truss, where they are, and what is allowed; None is unknown, and not within."""

    moment: float  # with its sign [N m]
    moment_at: float  # x [m]
    allowable_moment: float | None  # [N m]
    shear: float  # with its sign [N]
    shear_at: float  # x [m]
    allowable_shear: float | None  # [N]

    @property
    def within(self) -> bool | None:
        """Whether both are within what is allowed; None where one that is not over has no limit."""
        pairs = ((self.moment, self.allowable_moment), (self.shear, self.allowable_shear))
        if any(limit is not None and not abs(value) <= limit for value, limit in pairs):
            return False
        return None if any(limit is None for _, limit in pairs) else True
