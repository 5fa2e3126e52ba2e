"""A limit row: a link, what it carries, what it may carry, and the verdict. Everything that judges reads these."""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass
from enum import Enum

from counterpoise.balance import Span
from counterpoise.documents import NOT_WRITTEN, How, Known
from counterpoise.rigging import Rule, is_guess
from counterpoise.units import Direction, Form, Kind, Style, pair, printed_as

_WEIGHTS = (Kind.MASS, Kind.LINE_MASS)  # those from memory are widened like estimates; ratings from memory are not
BRIDGE_FLOOR = "bridge floor"  # the one link that is of no set
_FIELD = re.compile(r"(stage|kinds|sets|pieces|hung)(?:(?<=kinds)\.([^.]+)|\[\d+\])?\.([^\[\]]+)")
ROUNDING = 1e-9  # a load of just the limit is within it, however its decimals came out


class Verdict(Enum):
    """What a check found. Unknown is never within."""

    WITHIN = "within"
    OVER = "over"
    UNKNOWN = "unknown"


class Measure(Enum):
    """What a row compares."""

    FORCE = Kind.FORCE
    STRESS = Kind.STRESS
    LENGTH = Kind.LENGTH
    MOMENT = Kind.MOMENT
    ANGLE = Kind.ANGLE


@dataclass(frozen=True, slots=True, kw_only=True)
class Input:
    """A figure a result rests on: what it is, its words, how well it is known, where it stands."""

    name: str
    words: str
    how: How
    path: str
    source: str
    line: int = 0  # of the document, 0 where nothing is written
    is_unknown: bool = False
    is_doubtful: bool = False  # an estimate, or known only within a range
    widens: float = 0.0  # by how much it widens what is felt at the batten [N]
    is_lacking: bool = False  # it is what its row says that it lacks: written, the row is judged
    write: str = ""  # the words to write, where they are more than its path says

    @property
    def where(self) -> str:
        """The document and its line, for one who is to go there and write, and the words where none stand there."""
        is_bare = self.is_unknown and self.words in (NOT_WRITTEN, "not written")
        if self.write:
            return f"{self.write} in the {document_of(self.path)}"
        words = words_to_write(self.path) if is_bare else ""
        return f"{words}, {where(self.path, self.line)}" if words else where(self.path, self.line)

    @classmethod
    def of(cls, name: str, known: Known, said: str = "", widens: float = 0.0) -> Input:
        """From a written value; `said` is what it is in other words, where it is not the figure itself."""
        return cls(name=said or name, words=known.text, how=known.how, path=known.path,
                   source=str(known.source) if known.source else "", line=known.line,
                   is_unknown=known.is_unknown,
                   is_doubtful=known.form in (Form.ESTIMATE, Form.RANGE)
                   or (known.kind in _WEIGHTS and is_guess(known)), widens=widens)  # fmt: skip

    @classmethod
    def unwritten(cls, name: str) -> Input:
        """A figure that is needed and stands nowhere."""
        return cls(name=name, words="not written", how=How.UNKNOWN, path="", source="", is_unknown=True)

    @classmethod
    def of_rule(cls, rule: Rule) -> Input:
        """From a rule of the house."""
        return cls(
            name=rule.name,
            words=rule.words,
            how=rule.how,
            path=f"rules.{rule.name}",
            source=rule.source,
            line=rule.written.line if rule.written else 0,
            is_unknown=rule.is_unknown,
        )


def most_telling(inputs: Iterable[Input]) -> Input | None:
    """The figure to find out first: one that is unknown, else the one that widens the answer most, else a doubtful one.

    None where all are known as well as they are used.
    """
    found = list(inputs)
    unknown = next((one for one in found if one.is_unknown), None)
    if unknown is not None:
        return unknown
    widest = max(found, key=lambda one: one.widens, default=None)
    if widest is not None and widest.widens > 0.0:
        return widest
    return next((one for one in found if one.is_doubtful), None)


def value_of(rule: Rule) -> float | None:
    """What a rule says, None where the house wrote that it is not known."""
    return None if rule.is_unknown else rule.value


def where(path: str, line: int) -> str:
    """The document that holds a path, and the line."""
    if path.startswith("catalogue"):
        return f"the {path}"
    document = document_of(path)
    return f"line {line} of the {document}" if line else f"`{path}` in the {document}"


def words_to_write(path: str) -> str:
    """The words by which a figure is written where nothing of it stands yet: `stage: {loft blocks: …}`; "" if none."""
    found = _FIELD.fullmatch(path)
    if found is None or "›" in path:
        return ""
    home, name, fields = found.groups()
    first, *more = fields.split(".")
    inner = "".join(f": {{{word}" for word in more)
    words = f"{first}{inner}: …{'}' * len(more)}"
    if home == "stage":
        return f"`stage: {{{words}}}`"
    return f"`{words}` in the kind `{name}` (`kinds`)" if home == "kinds" else f"`{words}`"


def document_of(path: str) -> str:
    """house, show or hang: the document in which a path stands."""
    parts = {"pieces": "show", "hung": "hang", "stated": "hang"}
    return next((name for start, name in parts.items() if path.startswith(start)), "house")


@dataclass(frozen=True, slots=True, kw_only=True)
class Check:
    """One row. `coefficients` on the line forces let room left, dragging and planning use the same row."""

    key: str
    label: str
    link: str
    line: int | None
    measure: Measure
    value: Span
    limit: float | None
    formula: str
    inputs: tuple[Input, ...]
    coefficients: tuple[float, ...] = ()
    constant: float = 0.0
    lacks: str = ""
    waits_for: tuple[str, ...] = ()  # sets on the same steel whose pulls are not known

    @property
    def is_told_by_figures(self) -> bool:
        """True where what it lacks is no more than its unknown inputs say."""
        by_steel = self.formula == "shared steel" and any(one.is_unknown for one in self.inputs)
        return by_steel or any(one.is_lacking for one in self.inputs)

    @property
    def verdict(self) -> Verdict:
        """Over where the best figure is; within only where the whole range is; else unknown."""
        if self.limit is None:
            return Verdict.UNKNOWN
        most = self.limit * (1.0 + ROUNDING)
        if self.value.best > most:
            return Verdict.OVER  # also where a neighbour is not known: it could only add
        if self.lacks:
            return Verdict.UNKNOWN
        return Verdict.WITHIN if self.value.high <= most else Verdict.UNKNOWN

    @property
    def how(self) -> How:
        """How well the worst-known of its inputs is known."""
        return max((one.how for one in self.inputs), key=lambda how: how.rank, default=How.COMPUTED)

    @property
    def use(self) -> float:
        """Value over limit at the worst of the range; what governs is the largest. Infinite where unknown."""
        return self.value.high / self.limit if self.limit else float("inf")

    @property
    def place(self) -> str:
        """The link, with its line where it has one."""
        return f"{self.link}, line {self.line}" if self.line else self.link

    @property
    def of(self) -> str:
        """The set and the link, or the bridge."""
        return f"{self.label}, {self.place}" if self.link == BRIDGE_FLOOR else f"set {self.label}, {self.place}"

    def printed(self, style: Style) -> tuple[str, str]:
        """The value and the limit as a reader sees them."""
        value = self.value.high if self.verdict is not Verdict.OVER else self.value.best
        if self.limit is None:
            return printed_as(self.measure.value, style, Direction.UP).print(value), "not known"
        return pair(value, self.limit, style, self.measure.value)

    def printed_worst(self, style: Style) -> str:
        """The value at the worst of its range, as it is printed beside its limit."""
        if self.limit is None:
            return printed_as(self.measure.value, style, Direction.UP).print(self.value.high)
        return pair(self.value.high, self.limit, style, self.measure.value)[0]
