"""A document from YAML to JSON and back: the same words in the same order; only comments do not come along."""

from __future__ import annotations

from counterpoise.documents.text import parse
from counterpoise.documents.tree import plain
from counterpoise.documents.writing import as_json_text, as_yaml_text


def to_json(text: str, file: str = "house.yaml") -> str:
    """The document as JSON, every value the string that was written. Raises BadDocument where it has no tree."""
    return as_json_text(plain(parse(text, file)))


def from_json(text: str, file: str = "house.json") -> str:
    """The document as YAML. A number becomes its own characters; null, true and false are refused.

    Raises:
        BadDocument: the text has no tree, or holds a word that is none of a document.
    """
    value = plain(parse(text, file))
    assert not isinstance(value, str)  # a document is a map
    return as_yaml_text(dict(value))  # type: ignore[arg-type]
