"""One cell of a known field to the words of a house file, or why not and what to write.

A number without a unit is never given one here that nobody stated: it waits for the answer to a question.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from dataclasses import replace

from counterpoise.errors import Unreadable
from counterpoise.exchange.headings import FIELDS
from counterpoise.exchange.parts import read_pipe, read_places
from counterpoise.exchange.said import Read
from counterpoise.exchange.service import says_out_of_service
from counterpoise.units import Form, Kind, Reading, read

LONGEST_LABEL = 24
NOTHING_SAID = "nothing is stated"
_MARKS = str.maketrans("′’‘″”“", "'''\"\"\"")
_BARE = re.compile(r"~?(?:\d[\d,]*(?:\.\d+)?|\.\d+)(?:[ -]?\d+/\d+|[ -]?[½⅓⅔¼¾⅛⅜⅝⅞])?\Z")
_FEET_INCHES = re.compile(r"(\d+)\s*(?:'|ft)?\s*[-–. ]\s*(\d{1,2}(?:[ -]\d+/\d+|\.\d+)?)\s*(?:\"|in)?\Z")
_COMMA = re.compile(r"(?<![\d.,])(\d+),(\d{1,2})(?![\d,.])")  # no thousands: those come in threes
_UPSTAGE = re.compile(r"\s*\b(?:us|u/s|upstage)(?: of (?:pl|plaster line|setting line))?\.?\Z", re.IGNORECASE)
_DOWNSTAGE = re.compile(r"\s*\b(?:ds|d/s|downstage)(?: of (?:pl|plaster line|setting line))?\.?\Z", re.IGNORECASE)
_BRACKET = re.compile(r"(.*\S)\s*\(([^()]*)\)\Z")
_SPREAD = re.compile(
    r"\s*\(?\b(?:udl|uniform(?:ly distributed)?|evenly distributed|distributed)\b\)?\s*\Z", re.IGNORECASE
)
_NOTHING = frozenset({"-", "–", "—", "--", "---", "n/a", "na", "none", "nil", "x", "."})
_NOT_KNOWN = frozenset({"?", "??", "???", "tbc", "tbd", "tba", "unknown", "not known", "unk"})
_DITTO = frozenset(
    {'"', "''", "ditto", "do", "do.", "dto", '" "', '-"-', '- " -', "″", "”", "“", "\u3003", "as above", "same"}
)
_MANUAL = r"(?:cwt |cw |counterweight |c w |manual )?"
_AFTER = r"(?: ?purchased?| purch?| pur)?(?: cwt| cw| counterweight| manual| set)?"
_SINGLE = r"(?:sp|s p|singles?|singl|sgl|sngl|sing|s|1 1|1 to 1)"
_DOUBLE = r"(?:dp|d p|doubles?|dbl|dble|doub|d|2 1|2 to 1|compound|twice)"
_PURCHASE: tuple[tuple[str, Mapping[str, str], str], ...] = (
    (r"(?:.* )?(?:motors?|motori[sz]ed|winch|winched|power|powered|automated|automation|hoist)(?: .*)?", {}, "machine"),
    (rf"{_MANUAL}{_SINGLE}{_AFTER}", {"purchase": "single"}, ""),
    (rf"{_MANUAL}{_DOUBLE}{_AFTER}", {"purchase": "double"}, ""),
    (r"(?:cwt|cw|c w|counterweight|counter weight|manual)(?: set| line)?", {"rigged": "counterweight"},
     "a counterweight set; whether single or double purchase is not said"),
    (r"(?:hemp|rope|hemp set|hemp line|rope set|rope line|hemps|spot ?line|sandbag)", {"rigged": "hemp"}, ""),
    (r"(?:dh|d h|dead|dead ?hung|dead ?hang|fixed|static|hard)(?: bar| pipe)?", {"rigged": "dead-hung"}, ""),
)  # fmt: skip
_RIGGED = tuple((re.compile(pattern), values, says) for pattern, values, says in _PURCHASE)
_TWIN = re.compile(
    r"(?:twin|twinned|tandem|paired|married|tied)(?: set)?(?: (?:of|with|to))? (?:line ?set |line |set |bar |no |ls )?"
    r"(\w{1,24})\Z"
)


def read_value(name: str, text: str, unit: str) -> Read:
    """What a cell of a field says.

    Args:
        name: of FIELDS.
        text: of the cell, not blank.
        unit: of its bare numbers, "" where nobody stated one.
    """
    folded = text.lower()
    if folded in _NOTHING and name != "set":
        return Read(says=NOTHING_SAID)
    if folded in _NOT_KNOWN and name == "purchase":
        return Read(values={name: "unknown"}, says="it is not known")
    if folded in _NOT_KNOWN and name != "set":
        return Read(says="it is not known") if FIELDS[name].kind is None else Read(values={name: "unknown"})
    kind = FIELDS[name].kind
    if kind is not None:
        return _quantity(name, kind, text, unit)
    return _READERS[name](text)


def is_ditto(text: str) -> bool:
    """True for the marks that stand for what is written above."""
    return text.lower() in _DITTO


def _label(text: str) -> Read:
    if len(text) > LONGEST_LABEL:
        return Read(why=f"a label has at most {LONGEST_LABEL} characters", mend="Write a short label.")
    return Read(values={"set": text})


def _use(text: str) -> Read:
    out = says_out_of_service(text)
    return Read(values={"use": text, "out of service": text} if out else {"use": text})


def _brick(text: str) -> Read:
    return Read(values={"brick": text})


def _out(text: str) -> Read:
    if text.lower() in ("no", "in service", "ok", "in use", "0", "false"):
        return Read(says="in service")
    why = "the line schedule says so" if text.lower() in ("yes", "y", "x", "out", "oos", "out of service") else text
    return Read(values={"out of service": why})


def _rigged(text: str) -> Read:
    words = re.sub(r"[^a-z0-9]+", " ", text.lower()).strip()
    twin = _TWIN.match(words)
    if twin:
        return Read(values={"twin of": _as_written(twin[1], text)})
    for pattern, values, says in _RIGGED:
        if pattern.fullmatch(words):
            if says == "machine":
                return Read(note=text, not_a_set=True, says="not a manual set")
            return Read(values=values, says=says)
    if words.startswith(("twin", "tandem", "paired")):
        return Read(why="it does not say with which set", mend="Write the other set too, as in twin of 12.")
    return Read(why="says neither single, double, hemp nor dead hung", mend="Write SP, DP, hemp or dead hung.")


def _as_written(folded: str, text: str) -> str:
    found = re.search(rf"\b{re.escape(folded)}\b", text, re.IGNORECASE)
    return found.group() if found else folded


def _quantity(name: str, kind: Kind, text: str, unit: str) -> Read:
    said = _COMMA.sub(r"\1.\2", text.translate(_MARKS))
    note = ""
    if name == "distance":
        said, down = _DOWNSTAGE.subn("", _UPSTAGE.sub("", said))
        said = f"-{said}" if down and not said.startswith("-") else said
    if kind is Kind.FORCE:
        shorn = _SPREAD.sub("", said)
        said, note = (shorn, f"posted as {text}") if shorn != said else (said, "")
        said = re.sub(r"\s*#\Z", " lb", said)
    if kind is Kind.COUNT:
        said = re.sub(r"(?i)\s*(?:lines?|wires?|cables?|drops?|picks?|bricks?|plates?)\Z", "", said)
    result = _read(name, kind, said, unit)
    bracket = _BRACKET.match(said) if result.why and not result.waits else None
    if bracket:
        again = _read(name, kind, bracket[1], unit)
        if not again.why:
            result, note = again, text
    if result.why:
        return result
    says = result.says or (f"read as {result.values[name]}" if result.values[name] != text else "")
    return replace(result, note=note, says=says)


def _read(name: str, kind: Kind, said: str, unit: str) -> Read:
    sign, said = ("-", said[1:].lstrip()) if name == "distance" and said[:1] == "-" else ("", said)
    figure = said
    if kind is not Kind.COUNT and _BARE.match(said) and said.strip("0.~") != "":
        if not unit:
            return Read(why="is a number without a unit", mend="Say which unit the column has.", waits=True)
        figure = f"{said} {'ft' if unit == 'ft-in' else unit}"
        if unit == "ft-in" and "." in said:
            return Read(why="may mean feet and inches or a part of a foot", mend="Write it like 12'-6\".")
    elif unit == "ft-in" and (found := _FEET_INCHES.match(said)) and "." not in said[: found.end(1) + 1]:
        figure = f"{found[1]} ft {found[2]} in"
    try:
        return _fit(name, sign + figure, read(sign + figure, kind, signed=bool(sign)))
    except Unreadable as bad:
        mend = bad.mend
        found = _FEET_INCHES.match(said) if kind is Kind.LENGTH and "-" in said else None
        if found is not None and float(re.split(r"[ /-]", found[2])[0]) < 12.0:  # else its own mend asks back
            mend = f"Write {found[1]}'-{found[2]}\", or say that the column is in ft-in."
        return Read(why=bad.why, mend=mend)


def _fit(name: str, figure: str, found: Reading) -> Read:
    if found.form is Form.RANGE and name != "posted":
        return Read(why="is a range", mend="Write the one figure, with ~ in front if it is an estimate.")
    if name not in ("distance", "low trim", "pipe weight") and found.low is not None and found.low <= 0.0:
        return Read(why="is not more than zero", mend="Write the figure, or leave the cell blank.")
    return Read(values={name: figure.partition("@")[0].strip()}, si=found.best)


_READERS: Mapping[str, Callable[[str], Read]] = {
    "set": _label, "purchase": _rigged, "use": _use, "out of service": _out, "batten pipe": read_pipe,
    "lines at": read_places, "brick": _brick,
}  # fmt: skip
