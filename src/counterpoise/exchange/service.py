"""Words in notes that say a set is not to be used, or that it is no counterweight set.

Plain words are taken; all others are shown to the reader. Source of the words: common practice, no source.
"""

from __future__ import annotations

import re

_WORDS = (
    r"(?:do not use|don'?t use|not to be used|out of (?:service|order|use)|o\.?o\.?s\.?|not in (?:service|use)"
    r"|(?:red )?tagged out|locked[ -]?out|decommissioned|condemned)"
)
_SPEAKS = re.compile(rf"(?<!\w){_WORDS}(?!\w)", re.IGNORECASE)
_PLAIN = re.compile(
    rf"(?:(?:this |the )?(?:set|line ?set|bar)(?: is)? |currently |now |is )*{_WORDS}"
    r"(?:\W*(?:since|until|till|pending|per|due|because|see|by order)\b.*)?\W*",
    re.IGNORECASE,
)
# What takes it back, or says it of something else or of some uses only.
_TAKEN_BACK = re.compile(
    r"\b(?:was|were|no longer|not out|back in|back on|returned|repaired|fixed|formerly|previously|cleared|if|when"
    r"|unless|above|over|without|except|more than|only|ok|okay)\b",
    re.IGNORECASE,
)
_BEGINS = re.compile(
    r"\W*(?:no|n|not|none|nil|ok|okay|in (?:service|use)|back|repaired|fixed|cleared|returned)\b", re.IGNORECASE
)
_PARTED = re.compile(r"[.;:!,()]+(?:\s|\Z)|\s[-–—/]\s")
_HANGS = re.compile(r"\b(?:dead[ -]?(?:hung|hang)|hemp|spot ?lines?|rope set)\b", re.IGNORECASE)

_TWINS = re.compile(
    r"\b(?:(?:2|two) (?:sets|lines|bars) )?(?:tied|married|paired|twinned|coupled|ganged|tandem|twin)\b"
    r"(?: (?:together|to|with|of))*",
    re.IGNORECASE,
)


def says_out_of_service(text: str) -> bool:
    """True where words say plainly, and of the whole set, that it is not to be used."""
    if _SPEAKS.search(text) is None or _TAKEN_BACK.search(text):
        return False
    return any(_PLAIN.fullmatch(part.strip(" *-!")) for part in (text, *_PARTED.split(text)))


def takes_it_back(text: str) -> bool:
    """True where words under a heading of service begin by saying that the set is in it, and go on."""
    return _BEGINS.match(text) is not None and not says_out_of_service(text)


def speaks_of_service(text: str) -> bool:
    """True where words speak of being out of service at all."""
    return _SPEAKS.search(text) is not None


def speaks_of_hanging(text: str) -> str:
    """The words that speak of hemp or of a dead-hung batten, "" where there are none."""
    found = _HANGS.search(text)
    return found.group() if found else ""


def speaks_of_twins(text: str) -> str:
    """The words that speak of sets flown as one, "" where there are none."""
    found = _TWINS.search(text)
    return found.group() if found else ""
