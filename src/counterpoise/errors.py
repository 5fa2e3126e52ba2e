"""What can go wrong, said to the person who can mend it: which thing, its value, the limit, what to do.

CounterpoiseError
    OutOfRange    a number lies where a formula does not hold (also a ValueError)
    Unreadable    a text is not a quantity we can read (also a ValueError)
    BadDocument   a document has problems; holds all of them at once
    Refused       a change or a request that the rules of the house do not allow
    Misuse        the tool was called in a way it does not know (a command line, an API request)
    Fault         a mistake of this program, never of its user
"""

import math
from collections.abc import Iterable
from dataclasses import dataclass
from typing import Any


class CounterpoiseError(Exception):
    """Root of every error this package raises on purpose."""

    def __reduce__(self) -> tuple[Any, ...]:
        # The default would call __init__ with the message alone, which breaks copies and worker processes.
        return type(self).__new__, (type(self), *self.args), self.__dict__


class OutOfRange(CounterpoiseError, ValueError):
    """A number lies where the formula does not hold, or is no number at all."""

    def __init__(self, name: str, value: float, *, low: float, high: float, unit: str = "", mend: str) -> None:
        super().__init__(f"{name} is {_number(value, unit)}; it must be {_bounds(low, high, unit)}. {mend}")
        self.name, self.value, self.low, self.high, self.unit, self.mend = name, value, low, high, unit, mend


class Unreadable(CounterpoiseError, ValueError):
    """A text that cannot be read as the quantity it stands for."""

    def __init__(self, text: str, why: str, mend: str) -> None:
        super().__init__(f'"{text}" {_sentence(why)} {mend}'.rstrip())
        self.text, self.why, self.mend = text, why, mend


@dataclass(frozen=True, slots=True, kw_only=True)
class Problem:
    """One thing that is wrong in a document, and where it stands."""

    file: str
    line: int  # counted from 1; 0 when the place is not known
    column: int  # counted from 1; 0 when the place is not known
    path: str  # words of the document, as in "sets 14 › batten › length"
    value: str | None  # as written; None where nothing is written
    says: str  # goes on from the value: "cannot be read as a length"
    mend: str

    def __str__(self) -> str:
        place = ":".join([self.file, *(str(n) for n in (self.line, self.column) if n > 0)])
        path = f"{self.path}: " if self.path else ""
        value = f'"{self.value}" ' if self.value is not None else ""
        return f"{place}  {path}{value}{_sentence(self.says)} {self.mend}".rstrip()


class BadDocument(CounterpoiseError):
    """A document that cannot be used as it stands; `problems` are all that were found."""

    def __init__(self, problems: Iterable[Problem]) -> None:
        self.problems: tuple[Problem, ...] = tuple(problems)
        super().__init__("\n".join(str(problem) for problem in self.problems))


class Refused(CounterpoiseError):
    """A request that was understood and is not allowed; nothing was changed."""

    def __init__(self, says: str, mend: str = "") -> None:
        super().__init__(f"{_sentence(says)} {mend}".rstrip())
        self.says, self.mend = says, mend


class Misuse(CounterpoiseError):
    """The tool was called in a way it does not know."""

    def __init__(self, says: str, mend: str = "") -> None:
        super().__init__(f"{_sentence(says)} {mend}".rstrip())
        self.says, self.mend = says, mend


class Fault(CounterpoiseError):
    """A mistake of this program. The reader can only report it."""


def within(name: str, value: float, *, low: float, high: float, unit: str = "", mend: str) -> None:
    """Refuse a number outside low to high (both allowed), and refuse what is not a number.

    Args:
        name: what the reader calls the number.
        value: the number, in `unit`.
        low, high: the ends of the range, in `unit`; an infinite end is no bound, and infinity then lies within it.
        unit: for the message, as in "N".
        mend: one sentence that tells the reader what to do.

    Raises:
        OutOfRange: the number is outside the range, or is NaN.
    """
    if not low <= value <= high:  # written so that NaN, which compares false to everything, is refused
        raise OutOfRange(name, value, low=low, high=high, unit=unit, mend=mend)


def _number(value: float, unit: str) -> str:
    short = f"{value:g}"
    # "is 1; it must be 1 or less" would send the reader hunting, so a number that %g would bend is printed whole.
    text = short if math.isnan(value) or float(short) == value else repr(float(value))
    return f"{text} {unit}".rstrip()


def _bounds(low: float, high: float, unit: str) -> str:
    if math.isinf(low) and math.isinf(high):
        return "a number"
    if math.isinf(high):
        return f"{_number(low, unit)} or more"
    if math.isinf(low):
        return f"{_number(high, unit)} or less"
    return f"from {_number(low, '')} to {_number(high, unit)}"


def _sentence(text: str) -> str:
    return text if text.endswith((".", "?", "!")) else f"{text}."
