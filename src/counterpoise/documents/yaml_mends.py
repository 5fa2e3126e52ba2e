"""What to do about a text that the YAML parser does not take, in words for one who never heard of YAML."""

from __future__ import annotations

import re

# What the parser says, the characters it may have stopped at ("" for any), and the mend. The first that fits is told.
_MENDS = (
    ("start any token", "\t", "Indent with spaces: a tab is not read there."),
    ("start any token", "|>", "Write it on one line, without the | or >."),
    ("start any token", "", "Put a value that begins with @, % or ` in double quotes."),
    ("comment or line break", "", "Write it on one line, without the | or >."),
    ("mapping keys are not allowed", "", "If it is not known, write unknown; a ? on its own is not read."),
    ("expected node content", "?", "If it is not known, write unknown; a ? on its own is not read."),
    ("expected node content", "", "Write the value; one that begins with # or - goes in double quotes."),
    ("mapping values are not allowed", "", "Put a value that holds a colon in double quotes; indent fields alike."),
    ("sequence entries are not allowed", "", "Put a value that begins with - in double quotes."),
    ("could not find expected ':'", "", "Look at the line above too: is its colon missing, or the space after it?"),
    ("expected ',' or '}'", "", "Close the { }, and put a value that holds : or # in double quotes."),
    ("expected ',' or ']'", "", "Close the [ ], and put a value that holds : or # in double quotes."),
    ("unexpected end of stream", "", "Close the quotes: a value that begins with a quote ends with it."),
    ("invalid Unicode", "", "Write the character itself."),
    ("unknown escape", "", 'Inside double quotes write \\" for an inch mark and \\\\ for a backslash.'),
    ("expected key", "", "Indent the fields of one block alike, and put nothing after a closing quote."),
    ("document start", "", "Keep one document: take `...` and what follows it out."),
    ("scanning a tag", "", "Put a value that begins with ! in double quotes."),
    ("scanning an a", "", "Put a value that begins with & or * in double quotes."),
    ("nesting depth", "", "Close the brackets."),
)


# A ? that stands for a value: behind a colon, a dash, a comma or a bracket, with nothing of a word after it.
_BARE_QUESTION = re.compile(r"(?m)(?:(?<=[:,] )|(?<=- )|(?<=[\[{,])|^)[ \t]*\?(?=[ \t]*(?:$|[,\]}\r]|[ \t]#))")


def without_questions(text: str, begin: int = 0) -> tuple[str, frozenset[int]]:
    """The text with a letter for each ? that stands for a value, and their offsets; YAML takes it for something else.

    A ? in words or in a comment may be among them: only where a value begins there was one found.
    """
    found = frozenset(one.end() - 1 for one in _BARE_QUESTION.finditer(text, begin))
    signs = list(text) if found else []
    for at in found:
        signs[at] = "u"
    return "".join(signs) or text, found


def mend_for(said: str, at: str) -> str:
    """The mend.

    Args:
        said: the parser's own words.
        at: the character it stopped at, "" at the end of the text.
    """
    for words, stood, mend in _MENDS:
        if words in said and (not stood or (at and at in stood)):
            return mend
    return "Check indentation (spaces, no tabs), colons and quotes near here."
