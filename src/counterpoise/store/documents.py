"""Documents by revision in SQLite: the text itself, each write known by its operation, each base checked.

One table. A revision is never changed or removed; undoing appends the earlier text and remembers where to go on from.
"""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path
from typing import Any

import sqlalchemy as sa
from sqlalchemy.dialects.sqlite import insert
from sqlalchemy.pool import QueuePool

from counterpoise.errors import Refused

_META = sa.MetaData()
_REVISIONS = sa.Table(
    "revision",
    _META,
    sa.Column("workspace", sa.Text, primary_key=True),
    sa.Column("kind", sa.Text, primary_key=True),
    sa.Column("number", sa.Integer, primary_key=True),
    sa.Column("text", sa.Text, nullable=False),
    sa.Column("note", sa.Text, nullable=False),
    sa.Column("at", sa.Text, nullable=False),
    sa.Column("back", sa.Integer, nullable=False),
    sa.Column("operation", sa.Text, nullable=False, unique=True),
    sqlite_strict=True,
)


class Conflict(Refused):
    """Somebody else has written since the base was read; `latest` is what stands now."""

    def __init__(self, says: str, mend: str, latest: int) -> None:
        super().__init__(says, mend)
        self.latest = latest


@dataclass(frozen=True, slots=True, kw_only=True)
class Revision:
    """One text that was stored. `back` is the revision an undo returns to, 0 where there is none."""

    number: int
    text: str
    note: str
    at: str
    back: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Entry:
    """One line of a document's history: everything of a revision but its text."""

    number: int
    note: str
    at: str


class Store:
    """Documents of workspaces. Make one with an SQLAlchemy URL; `sqlite://` alone is memory. Refused if unusable."""

    def __init__(self, url: str | sa.URL) -> None:
        in_memory = url in {"sqlite://", "sqlite:///:memory:"}
        # one connection for all threads in turn, else each would see a memory of its own
        pool: dict[str, Any] = {"poolclass": QueuePool, "pool_size": 1, "max_overflow": 0,
                                "connect_args": {"check_same_thread": False}}  # fmt: skip
        self._engine = sa.create_engine(url, **(pool if in_memory else {}))
        sa.event.listen(self._engine, "connect", _prepare)
        sa.event.listen(self._engine, "begin", _begin)
        try:
            with self._engine.begin() as connection:
                _META.create_all(connection)
        except sa.exc.DatabaseError as error:
            self.close()
            says = f"The database {self._engine.url.database} cannot be used: {error.orig}"
            mend = "Give a file in a folder that exists and may be written, or one made by this program."
            raise Refused(says, mend) from None

    @classmethod
    def in_file(cls, path: str | Path) -> Store:
        """A store in an SQLite file, made where there is none. Raises Refused where it cannot be used."""
        return cls(sa.URL.create("sqlite", database=str(path)))

    @property
    def file(self) -> str:
        """The file that it is kept in, "" where all of it is in memory and goes with the process."""
        name = self._engine.url.database or ""
        return "" if name == ":memory:" else name

    def close(self) -> None:
        """Let go of the file."""
        self._engine.dispose()

    def workspaces(self) -> tuple[str, ...]:
        """The names under which anything is kept, in alphabetical order."""
        with self._engine.begin() as connection:
            found = connection.execute(sa.select(_REVISIONS.c.workspace).distinct().order_by(_REVISIONS.c.workspace))
            return tuple(found.scalars())

    def latest(self, workspace: str, kind: str) -> Revision | None:
        """The newest revision, None where nothing was stored."""
        with self._engine.begin() as connection:
            return _latest(connection, workspace, kind)

    def history(self, workspace: str, kind: str) -> tuple[Entry, ...]:
        """Every revision, the newest first."""
        asked = sa.select(_REVISIONS.c.number, _REVISIONS.c.note, _REVISIONS.c.at)
        mine = asked.where(_REVISIONS.c.workspace == workspace, _REVISIONS.c.kind == kind)
        with self._engine.begin() as connection:
            found = connection.execute(mine.order_by(_REVISIONS.c.number.desc()))
            return tuple(Entry(number=number, note=note, at=at) for number, note, at in found)

    def revision(self, workspace: str, kind: str, number: int) -> Revision | None:
        """The revision of this number."""
        with self._engine.begin() as connection:
            return _one(connection, _of(workspace, kind).where(_REVISIONS.c.number == number))

    def done(self, workspace: str, kind: str, operation: str) -> Revision | None:
        """What a write of this id stored, None where there was none."""
        with self._engine.begin() as connection:
            return _one(connection, _of(workspace, kind).where(_REVISIONS.c.operation == operation))

    def append(
        self, workspace: str, kind: str, text: str, note: str, *, base: int, operation: str, at: str,
        back: int | None = None,
    ) -> Revision:  # fmt: skip
        """Store a text that was made from revision `base` (0: from nothing).

        Args:
            workspace, kind: whose document, and which.
            text, note: what stands now, and what was changed.
            base: the revision the change was made against.
            operation: the id of this write; a repeat is answered with what the first one stored.
            at: when, as the caller's clock says.
            back: where an undo of this revision returns to; the base by default.

        Raises:
            Conflict: the newest revision is another than `base`.
        """
        with self._engine.begin() as connection:
            done = _one(connection, _of(workspace, kind).where(_REVISIONS.c.operation == operation))
            if done is not None:
                return done
            newest = _latest(connection, workspace, kind)
            now = newest.number if newest else 0
            if now != base:
                says = (f"The {kind} was changed meanwhile: it is at revision {now}, your change was made against "
                        f"revision {base}")  # fmt: skip
                raise Conflict(says, "Look at what stands now, then make the change again.", now)
            row = {"workspace": workspace, "kind": kind, "number": base + 1, "text": text, "note": note, "at": at,
                   "back": base if back is None else back, "operation": operation}  # fmt: skip
            connection.execute(insert(_REVISIONS).values(**row))
            return Revision(number=base + 1, text=text, note=note, at=at, back=int(str(row["back"])))


def _of(workspace: str, kind: str) -> sa.Select[Any]:
    return sa.select(_REVISIONS).where(_REVISIONS.c.workspace == workspace, _REVISIONS.c.kind == kind)


def _latest(connection: sa.Connection, workspace: str, kind: str) -> Revision | None:
    return _one(connection, _of(workspace, kind).order_by(_REVISIONS.c.number.desc()).limit(1))


def _one(connection: sa.Connection, asked: sa.Select[Any]) -> Revision | None:
    row = connection.execute(asked).mappings().first()
    if row is None:
        return None
    return Revision(number=row["number"], text=row["text"], note=row["note"], at=row["at"], back=row["back"])


def _prepare(connection: Any, _record: object) -> None:
    """Readers beside a writer, and no transaction that the driver opens by itself."""
    connection.isolation_level = None
    for pragma in ("journal_mode=wal", "synchronous=normal", "foreign_keys=on", "busy_timeout=5000"):
        connection.execute(f"pragma {pragma}")


def _begin(connection: sa.Connection) -> None:
    """Take the lock at once: a transaction that read first could not write while another does."""
    connection.exec_driver_sql("begin immediate")
