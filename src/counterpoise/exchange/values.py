"""One cell of a known field to the words of a house file, or why not and what to write.

A number without a unit is never given one here that nobody stated: it waits for the answer to a question.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from dataclasses import replace

from counterpoise.errors import Unreadable
from counterpoise.exchange.decimals import Decimal, with_points
from counterpoise.exchange.headings import FIELDS
from counterpoise.exchange.parts import read_pipe, read_places
from counterpoise.exchange.said import Read
from counterpoise.exchange.service import says_out_of_service, takes_it_back
from counterpoise.units import Form, Kind, Reading, read

LONGEST_LABEL = 24
NOTHING_SAID = "nothing is stated"
_MARKS = str.maketrans("′’‘″”“", "'''\"\"\"")
_BARE = re.compile(r"~?(?:\d[\d,]*(?:\.\d+)?|\.\d+)(?:[ -]?\d+/\d+|[ -]?[½⅓⅔¼¾⅛⅜⅝⅞])?\Z")
_FEET_INCHES = re.compile(r"(\d+)\s*(?:(?:'|ft)\s*[-–]?\s*|[-–. ]\s*)(\d{1,2}(?:[ -]\d+/\d+|\.\d+)?)\s*(?:\"|in)?\Z")
_UPSTAGE = re.compile(r"\s*\b(?:us|u/s|upstage)(?: of (?:pl|plaster line|setting line))?\.?\Z", re.IGNORECASE)
_DOWNSTAGE = re.compile(r"\s*\b(?:ds|d/s|downstage)(?: of (?:pl|plaster line|setting line))?\.?\Z", re.IGNORECASE)
_BRACKET = re.compile(r"(.*\S)\s*\(([^()]*)\)\Z")
_SPREAD = re.compile(
    r"\s*\(?\b(?:udl|uniform(?:ly distributed)?|evenly distributed|distributed)\b\)?\s*\Z", re.IGNORECASE
)
_NOTHING = frozenset({"-", "–", "—", "--", "---", "n/a", "na", "none", "nil", "x", "."})
_NOT_KNOWN = frozenset({"?", "??", "???", "tbc", "tbd", "tba", "unknown", "not known", "unk"})
_LABEL = re.compile(r"\w[\w .&/+'-]*\Z")
_NO_LABEL = frozenset(
    {"n/a", "na", "none", "nil", "null", "tbc", "tbd", "tba", "spare", "spares", "blank", "empty", "vacant", "unused",
     "open", "void", "unknown", "unk", "total", "totals"}
)  # fmt: skip
_DOUBT = re.compile(
    r"\?|\b(?:tb[acd]|est|estimated?|approx|approximately|about|check|verify|unsure|unknown)\b", re.IGNORECASE
)
_AT_A_POINT = re.compile(r"@|\b(?:point|pl|cent(?:re|er)|mid\w*|per|each|line|pick|lift)\b", re.IGNORECASE)
_MARKED = re.compile(r"[*†‡§^]")
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


def read_value(name: str, text: str, unit: str, decimal: Decimal = Decimal.NOT_SAID) -> Read:
    """What a cell of a field says.

    Args:
        name: of FIELDS.
        text: of the cell, not blank.
        unit: of its bare numbers, "" where nobody stated one.
        decimal: what sets off decimals on its sheet.
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
        return _quantity(name, kind, text, unit, decimal)
    return _READERS[name](text)


def is_ditto(text: str) -> bool:
    """True for the marks that stand for what is written above."""
    return text.lower() in _DITTO


def is_label(said: str) -> bool:
    """True for figures with letters, 12 or 12A or FOH 1, and for letters that are no word for there being none."""
    return _LABEL.match(said) is not None and said.lower() not in _NO_LABEL


def _label(text: str) -> Read:
    if len(text) > LONGEST_LABEL:
        return Read(why=f"a label has at most {LONGEST_LABEL} characters", mend="Write a short label.")
    return Read(values={"set": text})


def _use(text: str) -> Read:
    out = says_out_of_service(text)
    return Read(values={"use": text, "out of service": text} if out else {"use": text})


def _brick(text: str) -> Read:
    if "?" in text:
        return Read(why="is in doubt", mend="Write the brick without the ?, or leave the cell blank.")
    return Read(values={"brick": text})


def _out(text: str) -> Read:
    folded = text.lower().strip(" .!")
    if folded in ("no", "n", "in service", "ok", "okay", "in use", "0", "false"):
        return Read(says="in service")
    plain = ("yes", "y", "x", "1", "true", "out", "oos", "out of service")
    if takes_it_back(text) or ("?" in text and folded.strip(" ?") in plain):
        return Read(why="does not say plainly whether the set is out of service", mend="Write why, or yes, or no.")
    why = "the line schedule says so" if folded in plain else text
    return Read(values={"out of service": why})


def _rigged(text: str) -> Read:
    words = re.sub(r"[^a-z0-9]+", " ", text.lower()).strip()
    if "?" in text:
        return Read(why="is in doubt", mend="Write SP, DP, hemp or dead hung without the ?, or unknown.")
    if _MARKED.search(text):
        return Read(why="has a mark that points to words elsewhere", mend="Write SP, DP, hemp or dead hung alone.")
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


def _quantity(name: str, kind: Kind, text: str, unit: str, decimal: Decimal) -> Read:
    said, may_be = text.translate(_MARKS), ""
    if "@" in said:
        what = "the load of the whole set" if kind is Kind.FORCE else "the figure"
        return Read(why="has words behind an @", mend=f"Write {what} alone, and the rest in a note.")
    if kind is not Kind.COUNT:
        said, may_be = with_points(said, decimal, unit)
    if may_be:
        return Read(why="may be a thousand or a decimal", mend=f"Write {may_be}.")
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
    if bracket and _DOUBT.search(bracket[2]):
        return Read(why="is in doubt", mend=f"If it is an estimate, write ~{bracket[1].lstrip('~ ')}.")
    if bracket and kind is Kind.FORCE and _AT_A_POINT.search(bracket[2]):
        return Read(
            why="is a load at a point or of a part", mend="Write the load of the whole set, the rest in a note."
        )
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
