"""Headings of a schedule: which field of a set a column holds, in the words of either side of the ocean, and its unit.

What resembles a field and is another thing (a spacing, the capacity of an arbor, a point load) is looked for first.
Source of the words: common practice, no source.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from functools import lru_cache

from counterpoise.units import Kind


@dataclass(frozen=True, slots=True, kw_only=True)
class Field:
    """A field of a set that a column may hold."""

    name: str
    says: str  # goes on from "a word for"
    kind: Kind | None = None  # of a quantity


@dataclass(frozen=True, slots=True, kw_only=True)
class Heading:
    """What a heading says."""

    field: str  # of FIELDS, or "note"
    unit: str
    why: str
    words: str  # normalised, to see repeated headings
    counts: str = "unknown"  # of a posted load: what it is a capacity of


FIELDS: Mapping[str, Field] = {one.name: one for one in (
    Field(name="set", says="the label of a set"),
    Field(name="distance", says="the distance from the plaster line", kind=Kind.LENGTH),
    Field(name="purchase", says="how a set is rigged"),
    Field(name="use", says="what a set is used for"),
    Field(name="batten length", says="the length of the batten", kind=Kind.LENGTH),
    Field(name="line count", says="the number of lift lines", kind=Kind.COUNT),
    Field(name="posted", says="the load that is posted for a set", kind=Kind.FORCE),
    Field(name="low trim", says="the lowest height of the batten", kind=Kind.LENGTH),
    Field(name="high trim", says="the highest height of the batten", kind=Kind.LENGTH),
    Field(name="out of service", says="why a set is out of service"),
    Field(name="batten pipe", says="the pipe that the batten is made of"),
    Field(name="lines at", says="the places where the lift lines meet the batten"),
    Field(name="arbor usable height", says="the height that bricks may fill in the arbor", kind=Kind.LENGTH),
    Field(name="pipe weight", says="the bricks that stay on for the empty batten", kind=Kind.COUNT),
    Field(name="brick", says="the kind of brick that a set takes"),
)}  # fmt: skip
UNITS_OF: Mapping[Kind, tuple[str, ...]] = {
    Kind.LENGTH: ("ft", "in", "ft-in", "m", "cm", "mm"),
    Kind.FORCE: ("lb", "kg", "kN"),
}

NOT_KNOWN = "is not a word this program knows"
_UNIT_WORDS = {
    "ft": "ft", "feet": "ft", "foot": "ft", "'": "ft", "in": "in", "ins": "in", "inch": "in", "inches": "in", '"': "in",
    "ft-in": "ft-in", "ft in": "ft-in", "ft+in": "ft-in", "ft/in": "ft-in", "ft & in": "ft-in", "ft.in": "ft-in",
    "feet and inches": "ft-in", "feet & inches": "ft-in", "feet-inches": "ft-in", "feet inches": "ft-in",
    "feet/inches": "ft-in", "ft and in": "ft-in", "'-\"": "ft-in", "' \"": "ft-in", "'\"": "ft-in", "ft' in\"": "ft-in",
    "m": "m", "metre": "m", "metres": "m", "meter": "m", "meters": "m", "mtr": "m", "mtrs": "m",
    "cm": "cm", "mm": "mm", "millimetres": "mm", "millimeters": "mm", "centimetres": "cm", "centimeters": "cm",
    "lb": "lb", "lbs": "lb", "#": "lb", "pounds": "lb", "kg": "kg", "kgs": "kg", "kilos": "kg", "kilograms": "kg",
    "kn": "kN",
}  # fmt: skip
_TRAILING = frozenset(_UNIT_WORDS) - {"in", "ins", "'", '"', "#", "m", "foot", "'\"", "' \"", "'-\""}
_OF_KIND = {unit: kind for kind, units in UNITS_OF.items() for unit in units}
_HIGH = r"high|hi|out|max|maximum|top|highest|upper|full out|grid"
_LOW = r"low|lo|in|min|minimum|lowest|bottom|lower|full in"
_THING = r"(?: batten| bar| pipe| fly| flying)?(?: trim| dead| height| position| limit| trim height| dead height)s?"
_DATUM = (
    r"(?:the )?(?:pl|p l|plaster(?: ?line)?|setting ?line|sl|(?:proscenium|pros|curtain)(?: line)?|house curtain|iron"
    r"|safety curtain|datum)"
)
_LINES = (
    r"(?:lift |lifting |suspension |pick |wire |drop )?(?:lines|wires|cables|drops|picks|pick ?ups|pick points"
    r"|suspensions|lift points)"
)
_NUMBER = r"(?:no|nr|num|nos|number|id|label)"
_SETS = r"(?:line ?set|line|ls|l s|set|bar|fly ?bar|fly|flying bar|fly line|counterweight|cwt|batten|pipe|barrel)"
_BEFORE = r"(?:previous|prev|last|next|prior|adjacent)(?: .*)?"
_LIMIT = r"(?:max|maximum|allowable|rated|posted|permissible|net|gross|live|total)"
_KIND = r"(?: net| gross| udl)?"
# Field or "note", why where it is a note, and the words; the first rule that fits counts.
_RULES: tuple[tuple[str, str, tuple[str, ...]], ...] = (
    ("note", "a spacing between sets is not a distance from the plaster line",
     (rf"(?:.* )?(?:spacing|gap|between|apart|{_BEFORE}|on cent(?:re|er)s?|o c)",)),
    ("arbor usable height", "",
     (r"(?:arbou?r|cradle|carriage) (?:usable|clear|stack(?:ing)?|brick|weight) (?:height|space|room)",
      r"(?:usable|clear) (?:arbou?r|cradle|carriage) (?:height|space|room)",
      r"(?:usable|clear) height(?: (?:of|in) (?:the )?(?:arbou?r|cradle|carriage))?")),
    ("pipe weight", "",
     (r"(?:batten|pipe|bar) (?:weight|wt) (?:in )?(?:bricks?|plates?)", r"(?:pipe|batten|bar) (?:bricks|plates)",
      r"(?:bricks|plates) (?:of|for) (?:pipe|batten|bar)(?: weight)?")),
    ("brick", "", (r"brick(?: (?:type|kind|size))?", r"(?:type|kind|size) of bricks?")),
    ("lines at", "",
     (rf"{_LINES} at", rf"{_LINES} (?:positions?|locations?|places?)", r"(?:pick|line|lift) (?:positions|locations)",
      rf"(?:positions?|locations?|places?) of (?:the )?{_LINES}")),
    ("note", "it speaks of the arbor, and what an arbor holds is not what a set may carry",
     (r"(?:.* )?(?:arbou?r|cradle|carriage|bucket)s?(?: .*)?",)),
    ("note", "a load at one point or per length is not the load of the whole set",
     (r"(?:.* )?(?:point loads?|pl load|load at a point|per (?:line|point|pick|foot|ft|metre|m)|udl per.*)",)),
    ("note", "it says what is on the set, not what it may carry",
     (r"(?:.* )?(?:pipe weight|bricks?|(?:counter)?weights? on|current (?:load|weight))(?: .*)?",
      r"(?:.* )?(?:hung|own|self) weight(?: .*)?")),
    ("note", "it does not say whether the lowest or the highest trim is meant",
     ("trims?", "trim height", "deads?", "(?:show|playing|working) trim", "height")),
    ("note", "it may mean several things", ("position|location", "side|rail|level")),
    ("batten pipe", "",
     ("batten|pipe|barrel", "(?:batten|pipe|barrel|bar|tube) (?:pipe|size|type|kind|material|tube|dia|diameter|od)s?",
      "(?:pipe|batten) (?:schedule|sch)", "(?:size|type) of (?:batten|pipe|bar|barrel)")),
    ("line count", "",
     (rf"(?:(?:batten|pipe|bar) )?(?:(?:no|number|num|nr|qty|count)(?: of)?|how many) {_LINES}",
      rf"{_LINES}(?: {_NUMBER}| qty| count)?",
      "line count")),
    ("set", "",
     (rf"{_SETS} {_NUMBER}(?: {_NUMBER})?", rf"{_NUMBER}(?: of)? {_SETS}", _NUMBER, "line ?set", "line", "l ?s", "set",
      "(?:fly ?|flying )?bar", "fly", "fly line", "(?:set|line|line ?set|bar) name")),
    ("distance", "",
     (rf"(?:dist|distance|d|depth|setback|upstage|us|u s)(?: \w+)? (?:from|fm|frm|fr|of|off|to|behind) {_DATUM}.*",
      rf"(?:from|fm|frm|off|us of|u s of|upstage of|behind) {_DATUM}", rf"{_DATUM}(?: dist| distance)?",
      rf"(?:dist|distance) {_DATUM}", "(?:dist|distance|depth|setback)(?: us| u s| upstage)?",
      "(?:upstage|us) distance")),
    ("purchase", "",
     ("(?:set |line |bar )?type", "type of set", "purch(?:ase)?(?: type)?", "cwt hemp",
      "(?:sp dp|s d|single double|sgl dbl|sing dbl)(?: purch(?:ase)?)?", "purch(?:ase)? s d",
      "(?:system|rigging)(?: type)?", "mechanism", "operation", "kind", "ratio", "mechanical advantage")),
    ("batten length", "",
     ("(?:batten|pipe|bar|barrel|truss) (?:length|len|lgth|l)",
      "length(?: of (?:the )?(?:batten|pipe|bar|barrel))?")),
    ("posted", "",
     ("(?:.* )?(?:swl|wll|payload|(?:load|weight) limit|(?:safe )?working load(?: limit)?)(?: .*)?",
      rf"{_LIMIT}(?: \w+)? (?:load|capacity|capy|capac|cap|weight|mass|wt){_KIND}",
      rf"(?:set|line|bar|batten|line ?set|load|weight)? ?(?:capacity|capy|capac|cap|load rating){_KIND}",
      "load(?: udl)?|rating",
      "(?:set|line|bar|batten|line ?set|safe) load")),
    ("low trim", "", (rf"(?:{_LOW}){_THING}", "in", "low?", rf"(?:trim|dead|height)s? (?:{_LOW})")),
    ("high trim", "", (rf"(?:{_HIGH}){_THING}", "out", "high", "hi", rf"(?:trim|dead|height)s? (?:{_HIGH})")),
    ("use", "",
     ("(?:permanent |house |dedicated )?use", "used for", "usage", "description", "desc", "assignment",
      "assigned(?: to)?", "item", "drapes?", "(?:soft |house )?goods", "function", "contents",
      "(?:house|current|rep|permanent|perm) hang", "hangs?", "repertory", "rep plot", "permanent", "piece",
      "what", "name", "use description", "description use", "dedicated")),
    ("out of service", "", ("out of (?:service|use|order)", "oos", "locked out", "lock ?out")),
)  # fmt: skip
_COMPILED = tuple((re.compile("|".join(patterns)), field, why) for field, why, patterns in _RULES)
_COUNTS = {"net": "what is hung", "live": "what is hung", "payload": "what is hung", "gross": "batten and all"}
_MARKS = str.maketrans("′’″”“", '\'\'"""')
_BRACKETS = re.compile(r"[(\[]([^)\]]*)[)\]]")
_WORDS = re.compile(r"[^a-z0-9]+")


@lru_cache(maxsize=4096)
def heading(text: str) -> Heading:
    """What a heading says of its column; `note` where no field has such a name."""
    plain = text.lower().translate(_MARKS)
    unit, words = _unit_in(plain)
    for pattern, field, why in _COMPILED:
        if pattern.fullmatch(words):
            counts = next((what for word, what in _COUNTS.items() if word in words.split()), "unknown")
            known = FIELDS.get(field)
            fits = known is None or (known.kind is not None and _OF_KIND.get(unit) is known.kind)
            said = f'"{text}" is a word for {known.says}' if known else f'"{text}": {why}'
            return Heading(field=field, unit=unit if fits else "", why=said, words=words, counts=counts)
    why = f'"{text}" {NOT_KNOWN}' if words else "the column has no heading"
    if words.startswith(("note", "remark", "comment")):
        why = f'"{text}" is a word for notes'
    return Heading(field="note", unit=unit, why=why, words=words)


def unit_word(text: str) -> str:
    """The unit a text names and nothing else, "" where it does not."""
    return _UNIT_WORDS.get(text.lower().strip(" ()[].").replace("′", "'").replace("″", '"'), "")


def _unit_in(plain: str) -> tuple[str, str]:
    """The unit in a heading: in brackets, after a comma or as its last word; and the words without it."""
    unit = ""
    for inside in _BRACKETS.findall(plain):
        named = unit_word(inside.removeprefix("in ").strip())
        if named:
            unit = named
            plain = plain.replace(f"({inside})", " ").replace(f"[{inside}]", " ")
    plain = _BRACKETS.sub(r" \1 ", plain).strip(" .:,")
    head, _, last = plain.replace(",", " ").rpartition(" ")
    if not unit and head:
        before = head.removesuffix(" in").rstrip(" -–/,")
        alone = plain.rpartition(",")[2].strip() if "," in plain else ""
        if last in _TRAILING or (last == "m" and before) or unit_word(alone):
            unit, plain = unit_word(alone) or _UNIT_WORDS[last], before
    words = plain.replace("#", " no ").replace("№", " no ")
    words = words.replace("l/s", "ls").replace("u/s", "us").replace("c/w", "cwt")
    return unit, _WORDS.sub(" ", words).strip()
