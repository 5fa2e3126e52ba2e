"""Questions about words: one about cells that are empty, and one for each word that is not understood."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from counterpoise.exchange.parts import near_pipes
from counterpoise.exchange.rows import Book
from counterpoise.exchange.said import Question

MOST_WORDS = 12  # asked about, those of most cells first; others are told among what was not understood
MOST_LABELS = 6  # of sets, named in a question
RIGGED = ("single", "double", "hemp", "dead-hung", "note")  # what a word about the rigging of a set may mean


def questions_of_words(book: Book, every: Mapping[str, str]) -> Iterator[Question]:
    """What is asked of a table that was read. Nothing here keeps a house from being written."""
    if book.silent and "purchase" not in every:
        yield _silent(book)
    often = sorted(book.unread.items(), key=lambda one: -len(one[1][1]))
    for (name, _), (word, labels) in often[:MOST_WORDS]:
        options = RIGGED if name == "purchase" else (*near_pipes(word), "note")
        if len(options) > 1:
            cells = f"{len(labels)} cells say" if len(labels) > 1 else "1 cell says"
            says = f'{cells} "{word[:60]}" under {name} ({_some(labels)}): what is it?'
            yield Question(about=name, says=says, options=options, cells=len(labels), must=False, word=word)


def _silent(book: Book) -> Question:
    """How many sets do not say their purchase: those of empty cells, and those that say something else."""
    count = sum(book.silent.values())
    said = [_cells(cells, f"say {word}" if word else "are empty") for word, cells in book.silent.items()]
    apart = sum(len(labels) for (name, _), (_, labels) in book.unread.items() if name == "purchase")
    more = f" Asked by themselves: {apart} that say what is not understood." if apart else ""
    do = "does" if count == 1 else "do"
    says = f"{count} of {len(book.sets)} sets {do} not say single or double purchase: {', '.join(said)}."
    return Question(
        about="purchase", says=f"{says} What are they?{more}", options=("single", "double"), cells=count, must=False
    )


def _cells(count: int, what: str) -> str:
    one = what.replace("say ", "says ", 1).replace("are empty", "is empty")
    return f"{count} {what}" if count > 1 else f"1 {one}"


def _some(labels: list[str]) -> str:
    more = f" and {len(labels) - MOST_LABELS} more" if len(labels) > MOST_LABELS else ""
    return f"set{'s' if len(labels) > 1 else ''} {', '.join(labels[:MOST_LABELS])}{more}"
