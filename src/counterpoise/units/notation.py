"""What stands around a figure: the source behind it, the mark of an estimate, the dots of a range, the word unknown.

One plain character is made out of the many that are typed for a foot mark, an inch mark, a space or a minus. Every
other character that is no part of a figure is named, for a reader can not see that a letter is Cyrillic.
"""

import re
import unicodedata
from dataclasses import dataclass
from enum import Enum

from counterpoise.errors import Unreadable
from counterpoise.units.numerals import VULGAR


class Form(Enum):
    """How a quantity was put: as a figure, as an estimate, as a range, or as not known."""

    EXACT = "exact"
    ESTIMATE = "estimate"
    RANGE = "range"
    UNKNOWN = "unknown"


@dataclass(frozen=True, slots=True, kw_only=True)
class Notation:
    """A text taken apart into what is said about the figure and the figure itself, still as text."""

    form: Form
    parts: tuple[str, ...]  # one text, two for a range, none for "unknown"
    source: str | None


LONGEST_TEXT = 40
NAME_OF_SOURCE = "A name begins with a letter: letters, digits, spaces, points and dashes, as in 24 lb @survey."
_SPACES = "\t\u00a0\u1680\u2000\u2001\u2002\u2003\u2004\u2005\u2006\u2007\u2008\u2009\u200a\u202f\u205f\u3000"
_PLAIN = str.maketrans(
    {
        **dict.fromkeys(_SPACES, " "),
        **dict.fromkeys("′’‘‛ʹʼ´`", "'"),
        **dict.fromkeys("″”“‟ʺ˝", '"'),
        **dict.fromkeys("\u2212\u2010\u2011", "-"),
        "℄": "CL",
    }
)
_NOT_READ = re.compile(rf"[^ -~{VULGAR}²⁴°\u2044\u2012–—…±≈]")
_SOURCE = re.compile(r"[^\W\d_](?:[^\W\d]|[0-9. -])*\Z")
_TIMES = re.compile(r"(?<=[A-Za-z]) ?[·⋅] ?(?=[A-Za-z])")  # kN·m; between digits it may be an old decimal point
_ESTIMATE = re.compile(r"(?:[~≈]|(?:about|approximately|approx\.?|circa|ca\.?)(?=[ 0-9.]|\Z))[ ]*", re.IGNORECASE)
_NOT_SAID = frozenset(
    {
        "",
        "-",
        "--",
        "–",
        "—",
        "/",
        "n/a",
        "na",
        "n.a.",
        "tbd",
        "tba",
        "tbc",
        "t.b.d.",
        "unk",
        "unk.",
        "not known",
        "null",
    }
)
_NOTHING = frozenset({"none", "nil", "nothing"})


def take_apart(text: str, mend: str, span: str) -> Notation:
    """Take the source, the estimate mark and the range dots off a text.

    Args:
        text: as written.
        mend: what to tell a reader who wrote nothing that can be read.
        span: an example of a range.

    Raises:
        Unreadable: the text is empty, too long, holds what is no part of a figure, or its marks contradict each other.
    """
    stripped = text.strip()
    body, at, name = stripped[: 3 * LONGEST_TEXT].translate(_PLAIN).partition("@")
    body, name = _TIMES.sub(" ", body.rstrip(" ")), name.strip(" ")
    if len(stripped) > 3 * LONGEST_TEXT or len(body) > LONGEST_TEXT or len(name) > LONGEST_TEXT:
        raise Unreadable(shown(text), f"is longer than {LONGEST_TEXT} characters", mend)
    if not body.isascii() or not body.isprintable():
        _require_plain(text, body, mend)
    if at and not _SOURCE.match(name):
        raise Unreadable(shown(text), "has no name of a source after the @", NAME_OF_SOURCE)
    source = name or None
    if body.lower() == "unknown":
        return Notation(form=Form.UNKNOWN, parts=(), source=source)
    if not body:
        raise Unreadable(shown(text), "says nothing", f"{mend} If it is not known, write unknown.")
    _require_said(text, body)
    estimate = _ESTIMATE.match(body)
    if estimate is None:
        return _range_or_exact(text, body, source, span)
    if ".." in body:
        raise Unreadable(shown(text), "is both an estimate and a range", f"Write the range alone, as in {span}.")
    body = body[estimate.end() :]
    if not body:
        raise Unreadable(
            shown(text),
            "is the mark of an estimate with no figure after it",
            f"Write the figure too. {mend} If it is not known, write unknown.",
        )
    if body.lower() != "unknown":
        _require_said(text, body)
        return Notation(form=Form.ESTIMATE, parts=(body,), source=source)
    raise Unreadable(shown(text), "cannot be read as an estimate", "If it is not known, write unknown alone.")


def names_a_source(name: str) -> bool:
    """True where figures can point at a source of this name with an @."""
    return len(name) <= LONGEST_TEXT and _SOURCE.match(name) is not None


def shown(text: str) -> str:
    """A text as a message repeats it: short, and without what would break a line or a terminal."""
    text = text[: 3 * LONGEST_TEXT].strip() if len(text) > 3 * LONGEST_TEXT else text.strip()
    text = "".join("\ufffd" if unicodedata.category(one) in ("Cc", "Cs", "Cn") else one for one in text)
    return text if len(text) <= 2 * LONGEST_TEXT else text[: LONGEST_TEXT - 1] + "…"


def _require_plain(text: str, body: str, mend: str) -> None:
    found = _NOT_READ.search(body)
    if found is None:
        return
    if found[0] in "\n\r\x85\u2028\u2029":
        raise Unreadable(shown(text), "runs over more than one line", "Write it on one line.")
    name = unicodedata.name(found[0], "a character that does not show").lower()
    raise Unreadable(
        shown(text),
        f"has a character that is no part of a figure: U+{ord(found[0]):04X}, {name}",
        f"Type it anew with plain letters and digits. {mend}",
    )


def _require_said(text: str, body: str) -> None:
    folded = body.strip("? ").lower()
    if folded in _NOT_SAID:
        raise Unreadable(shown(text), "does not say what is meant", "If it is not known, write unknown.")
    if folded in _NOTHING:
        raise Unreadable(shown(text), "is no figure", "If it is nothing, write 0. If it is not known, write unknown.")


def _range_or_exact(text: str, body: str, source: str | None, span: str) -> Notation:
    if "…" in body or "..." in body or body.count("..") > 1:
        raise Unreadable(shown(text), "is not a range with two dots", f"Write a range like {span}.")
    low, dots, high = body.partition("..")
    if not dots:
        return Notation(form=Form.EXACT, parts=(body,), source=source)
    low, high = low.rstrip(" "), high.lstrip(" ")
    if not low or not high:
        raise Unreadable(shown(text), "is a range with one end missing", f"Write both ends, as in {span}.")
    return Notation(form=Form.RANGE, parts=(low, high), source=source)
