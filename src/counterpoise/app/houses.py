"""The houses that are kept in one store: the first, and those that were drawn from a schedule since."""

from __future__ import annotations

import re
import threading
from collections.abc import Callable
from datetime import date

from counterpoise.app.judge import Texts, judge, with_blanks
from counterpoise.app.workspace import Workspace
from counterpoise.documents import read_house
from counterpoise.errors import Refused
from counterpoise.store import Store

FIRST = "main"
_LONGEST = 40  # characters of a name in an address


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
                if name != FIRST and name not in self._store.workspaces():
                    raise Refused(f"No house {name} is kept here", "Open one from the list of houses.")
                self._open[name] = Workspace(self._store, name, today=self._today)
            return self._open[name]

    def names(self) -> tuple[tuple[str, str], ...]:
        """Every house by its name in addresses, with what it calls itself."""
        return tuple((name, self.called(name).now().result.house.name) for name in self._store.workspaces())

    def take_in(self, house: str, *, at: str) -> str:
        """Keep a house as one more; its name in addresses. Raises BadDocument where it cannot be read."""
        texts = with_blanks(Texts(house=house))
        judge(texts, self._today())
        name = self._free(read_house(house).name)
        self.called_new(name).begin(texts, at=at)
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
