"""JSON Schema of house, show and hang, made from the fields that are declared: for editors and for programs.

The patterns are loose: a document that this program reads is valid, and what the schema lets pass may still be refused.
"""

from __future__ import annotations

import dataclasses
from collections.abc import Mapping
from dataclasses import MISSING, dataclass, field
from typing import Any

from counterpoise import catalogue
from counterpoise.documents import fields as f
from counterpoise.documents.hang import Hang
from counterpoise.documents.house import House, SourceNote
from counterpoise.documents.line_set import LineSet
from counterpoise.documents.show import Show
from counterpoise.errors import Misuse
from counterpoise.units import Kind

KINDS: Mapping[str, type[Any]] = {"house": House, "show": Show, "hang": Hang}
_DIALECT = "https://json-schema.org/draft/2020-12/schema"
_DIGIT = "[0-9.½⅓⅔¼¾⅕⅖⅗⅘⅙⅚⅛⅜⅝⅞]"
_ABOUT = "(?:[~≈]|[Aa]bout|[Aa]pprox(?:imately|\\.)?|[Cc](?:irc)?a\\.?)?\\s*"
_ONE = "(?!.*\\.\\.)"  # no range
_SOURCE = "\\s*(?:@.*)?$"
# Units that tell a length from a weight; of other kinds only that there is a unit, which the reader judges.
_UNITS = {
    Kind.LENGTH: "(?:'|\"|[′’‘″”“´`]|[Ff]t|[Ff]oot|[Ff]eet|[Ii]n|[Yy]d|[Yy]ard|m|M)",
    Kind.MASS: "(?:[Ll]b|[Pp]ound|[Oo]z|[Oo]unce|[Kk]g|[Kk]ilo|g|G|#)",
    Kind.FORCE: "(?:[Ll]b|[Pp]ound|[Oo]z|[Oo]unce|[Kk]g|[Kk]ilo|[Kk]ip|N|newton|#)",
}
_PLACE = "(?:[Cc]/?[Ll]|[Cc]ent(?:re|er)|℄|[Ss][LlRr]|[Ss]tage (?:left|right))"
_LIKE = {
    Kind.LENGTH: "42 ft 6 in or 3.8 m", Kind.MASS: "20 lb or 9 kg", Kind.FORCE: "500 lb or 2.2 kN",
    Kind.LINE_MASS: "2.72 lb/ft or 3.56 kg/m", Kind.AREA_MASS: "16 oz/yd2 or 500 g/m2",
    Kind.STRESS: "21,000 psi or 235 MPa", Kind.FLOOR_LOAD: "75 psf or 5 kN/m2", Kind.MOMENT: "735 lb-ft or 1 kN m",
    Kind.SECOND_MOMENT: "12 in4 or 500 cm4", Kind.ANGLE: "30 deg", Kind.RATIO: "80 %, 1/180 or 8", Kind.COUNT: "12",
}  # fmt: skip


def schema_of(kind: str) -> dict[str, Any]:
    """The JSON Schema (2020-12) of a house, a show or a hang.

    Raises:
        Misuse: there is no document of that kind.
    """
    if kind not in KINDS:
        raise Misuse(f'There is no document called "{kind}".', f"There are {', '.join(KINDS)}.")
    maker = _Maker()
    root = maker.record(KINDS[kind])
    properties = root["properties"]
    properties["counterpoise"] = {"const": f"{kind} 1", "description": "What this file is: the first line."}
    told = "Where figures come from, named once and pointed at with @name."
    properties["sources"] = _map_of(maker.refer(SourceNote), told)
    if kind == "house":
        told = "Fields that many sets share; a set takes them with `kind: name`."
        properties["kinds"] = _map_of(maker.kind_of_set(), told)
    if kind in ("house", "show"):
        properties["catalogue"] = maker.catalogue()
    return {"$schema": _DIALECT, "title": f"counterpoise {kind} 1", **root, "$defs": dict(sorted(maker.defs.items()))}


@dataclass
class _Maker:
    """Makes the schema of one document; what stands in it more than once is named under `$defs`."""

    defs: dict[str, Any] = field(default_factory=dict)

    def record(self, shape: type[Any]) -> dict[str, Any]:
        """A map of declared fields."""
        declared = [one for one in dataclasses.fields(shape) if "reader" in one.metadata]
        needed = [f.word_of(one.name) for one in declared if not _may_be_left_out(one)]
        properties = {f.word_of(one.name): self._field(one) for one in declared}
        properties["source"] = {"type": "string", "description": "The source of every bare figure in this block."}
        if shape is LineSet:
            told = "The kind whose fields this set takes."
            properties["kind"] = self._named("words", _WORDS) | {"description": told}
        made = {"type": "object", "description": _doc(shape), "properties": properties, "additionalProperties": False}
        return made | ({"required": needed} if needed else {})

    def refer(self, shape: type[Any]) -> dict[str, Any]:
        """A reference to the record, which is made when it is first asked for."""
        if shape.__name__ not in self.defs:
            self.defs[shape.__name__] = {}
            self.defs[shape.__name__] = self.record(shape)
        return {"$ref": f"#/$defs/{shape.__name__}"}

    def kind_of_set(self) -> dict[str, Any]:
        """Any fields of a set."""
        self.refer(LineSet)
        made = dict(self.defs["LineSet"])
        made["properties"] = {name: one for name, one in made["properties"].items() if name not in ("set", "kind")}
        del made["required"]
        self.defs["Kind"] = made | {"description": "Fields of a set that many sets share."}
        return {"$ref": "#/$defs/Kind"}

    def catalogue(self) -> dict[str, Any]:
        """Own rows beside the published ones: family, name, figures."""
        families = {}
        for name in catalogue.families():
            figures = {word: self._figure(kind, ranges=True, signed=True)
                       for word, kind in catalogue.kinds_of(name).items()}  # fmt: skip
            row = {"type": "object", "properties": figures}
            families[name] = {"type": "object", "additionalProperties": row, "description": catalogue.about(name)}
        return {"type": "object", "properties": families, "additionalProperties": False,
                "description": "Rows of makers' sheets, named as those of the catalogue are."}  # fmt: skip

    def _field(self, one: dataclasses.Field[Any]) -> dict[str, Any]:
        reader, metadata = one.metadata["reader"], one.metadata
        none = "none" in metadata or _has_default(one)
        reads = getattr(reader, "reads", {})
        made = self._value(reader, none)
        told = []
        if "kind" in reads:
            told += [f"{_capital(reads['kind'].value)}, like {_LIKE[reads['kind']]}."]
            told += ["May be a range."] * reads["ranges"] + ["With its sign."] * reads["signed"]
        elif "along" in reads:
            told += ["Place from the centre line, like 6' SL, CL or 12' SR."]
        elif "record" in reads:
            told += [_doc(reads["record"])]
        if isinstance(metadata.get("blank"), Kind):
            told += ["`none`: there is no such part. Left out: not known." if none else "Left out: not known."]
        elif one.default not in (MISSING, "", None, ()) and isinstance(one.default, str):
            told += [f"Left out: {one.default}."]
        elif _has_default(one):
            told += ["May be left out."]
        return made | {"description": " ".join(told)} if told else made

    def _value(self, reader: Any, none: bool) -> dict[str, Any]:
        reads = getattr(reader, "reads", {})
        if reader is f.day:
            return {"type": "string", "pattern": "^[0-9]{4}-[0-9]{2}-[0-9]{2}$" if not none else
                    "^(?:none|[0-9]{4}-[0-9]{2}-[0-9]{2})$"}  # fmt: skip
        if "kind" in reads:
            return self._figure(reads["kind"], none=none, **{k: v for k, v in reads.items() if k != "kind"})
        if "choice" in reads:
            return {"enum": [*reads["choice"], *(["none"] if none and "none" not in reads["choice"] else [])]}
        if "along" in reads:
            words = f"{_ONE}\\s*(?:[Uu]nknown|{'none|' if none else ''}[^@]*{_PLACE}[^@]*)"
            return self._named("place" + " or none" * none, {"type": "string", "pattern": f"^{words}{_SOURCE}"})
        if not reads:
            return self._named("words", _WORDS)
        made = self._holder(reads)
        return {"anyOf": [made, {"const": "none"}]} if none else made

    def _holder(self, reads: Mapping[str, Any]) -> dict[str, Any]:
        if "items" in reads:
            return {"type": "array", "items": self._value(reads["items"], False)}
        if "named" in reads:
            return {"type": "object", "additionalProperties": self._value(reads["named"], False)}
        whole = self.refer(reads["record"])
        if "word" not in reads:
            return whole
        alone = next(one for one in dataclasses.fields(reads["record"]) if f.word_of(one.name) == reads["word"])
        return {"anyOf": [self._value(alone.metadata["reader"], False), whole]}

    def _figure(
        self, kind: Kind, *, none: bool = False, above_zero: bool = False, ranges: bool = False, signed: bool = False
    ) -> dict[str, Any]:  # fmt: skip
        """Words that begin as a figure of the kind does; a number only where none needs a unit."""
        sign = "[-+\u2212\u2010\u2011]?\\s*" if signed else ""
        bare = kind in (Kind.RATIO, Kind.COUNT)
        unit = "" if bare else _UNITS.get(kind, "[A-Za-z%°#]")
        ways = ["[Uu]nknown", f"{_ABOUT}{sign}{_DIGIT}[^@]*" + (f"{unit}[^@]*" if unit else "")]
        ways += ["none"] * none + ([] if above_zero or bare else ["0(?:\\.0+)?"])
        begin = "^" if ranges else f"^{_ONE}"
        made: dict[str, Any] = {"type": "string", "pattern": f"{begin}\\s*(?:{'|'.join(ways)}){_SOURCE}"}
        if bare:
            made["type"] = ["string", "integer" if kind is Kind.COUNT else "number"]
            made["minimum"] = 0
        elif not above_zero:
            made = {"anyOf": [made, {"const": 0}]}
        marks = {"more than 0": above_zero, "range": ranges, "signed": signed, "none": none}
        return self._named(", ".join([kind.value, *(word for word, on in marks.items() if on)]), made)

    def _named(self, name: str, made: dict[str, Any]) -> dict[str, Any]:
        word = name.replace(",", "").replace(" ", "-")
        self.defs.setdefault(word, made)
        return {"$ref": f"#/$defs/{word}"}


_WORDS = {"type": ["string", "number"], "minLength": 1}


def _map_of(value: dict[str, Any], told: str) -> dict[str, Any]:
    return {"type": "object", "additionalProperties": value, "description": told}


def _may_be_left_out(one: dataclasses.Field[Any]) -> bool:
    return _has_default(one) or "blank" in one.metadata


def _has_default(one: dataclasses.Field[Any]) -> bool:
    return one.default is not MISSING or one.default_factory is not MISSING


def _doc(shape: type[Any]) -> str:
    return " ".join((shape.__doc__ or "").split())


def _capital(words: str) -> str:
    return words[:1].upper() + words[1:]
