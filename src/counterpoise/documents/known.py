"""A value as somebody wrote it: its own words, its range in SI, where it stands and how well it is known."""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum

from counterpoise.units import Form, Kind

NOT_WRITTEN = "nothing is written"  # the words of a figure that is left out


class How(Enum):
    """How well a figure is known, best first; what rests on several figures rests on the worst of them."""

    MEASURED = "measured"
    DOCUMENTED = "documented"
    COMPUTED = "computed"
    ASSUMED = "assumed"
    ESTIMATE = "estimate"
    DEFAULT = "default, not adopted"
    UNKNOWN = "unknown"

    @property
    def rank(self) -> int:
        """0 for the best known, larger for worse."""
        return list(How).index(self)


@dataclass(frozen=True, slots=True, kw_only=True)
class Source:
    """Where figures come from, named once in a document and pointed at with `@name`."""

    name: str
    how: How
    what: str
    who: str = ""
    when: str = ""

    def __str__(self) -> str:
        return ", ".join(part for part in (self.what, self.who, self.when) if part)


@dataclass(frozen=True, slots=True, kw_only=True)
class Known:
    """One written value. `low`, `best` and `high` are SI in the unit of `kind`, None where unknown."""

    text: str
    kind: Kind
    low: float | None
    best: float | None
    high: float | None
    form: Form
    source: Source | None
    path: str
    line: int

    @property
    def is_unknown(self) -> bool:
        """True where no figure was written, only that it is not known."""
        return self.best is None

    @property
    def how(self) -> How:
        """How well it is known: by its notation first, then by its source; a bare number is assumed."""
        if self.form is Form.UNKNOWN:
            return How.UNKNOWN
        if self.form is Form.ESTIMATE:
            return How.ESTIMATE
        return self.source.how if self.source else How.ASSUMED

    @property
    def number(self) -> float:
        """The best figure [SI]. Raises ValueError where unknown: ask `is_unknown` first."""
        if self.best is None:
            raise ValueError(f"{self.path} is unknown")
        return self.best


def worst(hows: list[How]) -> How:
    """The worst-known of several, DOCUMENTED for none."""
    return max(hows, key=lambda how: how.rank, default=How.DOCUMENTED)
