"""The houses that are kept in one store: the first, and those that were drawn from a schedule since."""

from __future__ import annotations

import re
import threading
from collections.abc import Callable
from dataclasses import dataclass
from datetime import date

from counterpoise.app.judge import Texts, judge, with_blanks
from counterpoise.app.taking_files import BLANK, Stands, home_of
from counterpoise.app.workspace import Workspace
from counterpoise.documents import read_house
from counterpoise.errors import Refused
from counterpoise.store import Store

FIRST = "main"
_LONGEST = 40  # characters of a name in an address


@dataclass(frozen=True, slots=True, kw_only=True)
class Opened:
    """A house whose files were named: under which name it is kept, and what is shown of each document."""

    name: str
    called: str
    stands: tuple[Stands, ...]
    is_beside: bool  # it is new here, and other houses are kept already


class Houses:
    """Workspaces by name. Each is opened once."""

    def __init__(self, store: Store, today: Callable[[], date | None] = lambda: None) -> None:
        self._store, self._today = store, today
        self._open: dict[str, Workspace] = {}
        self._lock = threading.Lock()

    def called(self, name: str = FIRST) -> Workspace:
        """The workspace of this name. Refused where none is kept."""
        with self._lock:
            if name not in self._open:
                if name not in self._store.workspaces():
                    said = "No house is kept here yet" if name == FIRST else f"No house {name} is kept here"
                    raise Refused(said, "Open one from the list of houses, or begin one there.")
                self._open[name] = Workspace(self._store, name, today=self._today)
            return self._open[name]

    @property
    def file(self) -> str:
        """The file that they are kept in, "" where all of them go with the process."""
        return self._store.file

    def has_first(self) -> bool:
        """Whether there is a house that is shown where an address names none."""
        return FIRST in self._store.workspaces()

    def names(self) -> tuple[tuple[str, str], ...]:
        """Every house by its name in addresses, with what it calls itself; also one that cannot be shown."""
        return tuple((name, self.called(name).called()) for name in self._store.workspaces())

    def open_files(self, texts: Texts, *, at: str, from_files: bool = False) -> Opened:
        """Take in the files of a house: where it is kept already, else as one more beside the others.

        No house is ever written over another. Raises BadDocument where they cannot be read.
        """
        kept = self._store.workspaces()
        name = home_of(self._store, texts.house, FIRST)
        is_new = name is None
        if name is None:
            name = FIRST if FIRST not in kept else self._free(read_house(texts.house).name)
        space = self.called_new(name) if is_new else self.called(name)
        stands = space.begin(texts, at=at, from_files=from_files)
        return Opened(name=name, called=space.called(), stands=stands, is_beside=is_new and bool(kept))

    def take_in(self, house: str, *, at: str) -> str:
        """Keep a house as one more; its name in addresses. Raises BadDocument where it cannot be read."""
        texts = with_blanks(Texts(house=house))
        judge(texts, self._today())
        name = self._free(read_house(house).name)
        for kind, text, note in (("house", texts.house, "begun here"), ("show", texts.show, BLANK),
                                 ("hang", texts.hang, BLANK)):  # fmt: skip
            self._store.append(name, kind, text, note, base=0, at=at, operation=f"{name}/{kind}/begun")
        return name

    def called_new(self, name: str) -> Workspace:
        """A workspace of this name in which nothing is kept yet."""
        with self._lock:
            self._open[name] = Workspace(self._store, name, today=self._today)
            return self._open[name]

    def _free(self, said: str) -> str:
        plain = re.sub(r"[^a-z0-9]+", "-", said.lower()).strip("-")[:_LONGEST] or "house"
        taken = set(self._store.workspaces())
        return next(name for name in (plain, *(f"{plain}-{n}" for n in range(2, len(taken) + 3))) if name not in taken)


def address_of(name: str) -> str:
    """Where the pages show the house of this name."""
    return "/" if name == FIRST else f"/house/{name}/"
