"""Where a document is being read: every problem is noted there and reading goes on, so that all are told at once."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Any

from counterpoise.documents.known import Source
from counterpoise.documents.text import Fields, Node, Scalar
from counterpoise.errors import Problem
from counterpoise.units import shown


@dataclass
class Desk:
    """Where a document is being read: its file, the sources it names, and the problems found so far."""

    file: str
    sources: dict[str, Source]
    problems: list[Problem]
    made: dict[int, Fields] = field(default_factory=dict)  # id of a record that was read -> where it stands
    read: dict[tuple[int, type[Any]], Any] = field(default_factory=dict)  # a part of a kind is read once for all sets

    lost: set[int] = field(default_factory=set)  # ids of nodes that were not read, or not all of them
    hints: dict[str, str] = field(default_factory=dict)  # path -> what to write, where it is known better than a reader
    of_text: int = field(init=False)  # how many of the problems are those of the text itself

    def __post_init__(self) -> None:
        self.of_text = len(self.problems)

    def node_of(self, one: object) -> Fields:
        """Where a record that was read here stands.

        One that could not be read is left out of its list, so counting along the list would point at a neighbour.
        """
        return self.made[id(one)]

    def has_lost(self, node: Fields, *names: str) -> bool:
        """True where one of these fields was not read whole: what is missing then says nothing."""
        return any(id(node.fields[name]) in self.lost for name in names if name in node.fields)

    def refuse(self, node: Node | None, path: str, says: str, mend: str) -> None:
        """Note a problem and go on; the document is refused at the end with all of them."""
        line, column = (node.line, node.column) if node else (1, 1)
        value = shown(node.text) if isinstance(node, Scalar) else None
        self.problems.append(
            Problem(file=self.file, line=line, column=column, path=path, value=value, says=says, mend=mend)
        )


class Skip(Exception):
    """A value could not be read; its problem is noted already."""
