"""The pages, served: where what is written in them is kept, and what is shown of files that were served before."""

from __future__ import annotations

import argparse
import os
from collections.abc import Sequence
from datetime import UTC, datetime
from pathlib import Path
from typing import TYPE_CHECKING

from counterpoise.cli.answer import Answer, needs_one_or_three, today
from counterpoise.errors import Fault, Misuse, Refused

if TYPE_CHECKING:
    from counterpoise.app import Texts
    from counterpoise.app.houses import Houses, Opened
    from counterpoise.app.taking_files import Stands
    from counterpoise.store import Store

MEMORY = "sqlite://"
GONE = "What is written in the pages is gone then"
KEEPS = "counterpoise serve HOUSE keeps it"


def serve(asked: argparse.Namespace) -> Answer:
    """Open the pages: of the files that are named, of what a database holds, or of the demo."""
    from counterpoise.app import demo_texts, judge
    from counterpoise.app.files import read_texts

    if not asked.files:
        if asked.from_files:
            raise Misuse("--from-files names no file.", "counterpoise serve HOUSE --from-files")
        return _serve_kept(asked.db, asked.port) if asked.db else serve_for_now(demo_texts(), asked.port)
    needs_one_or_three(asked.files, "serve")
    texts = read_texts(*asked.files)
    judge(texts, today())  # a document with problems is told here, on the console, before a port is opened
    _needs_free(asked.port)
    store, why_not = _store(asked.db, Path(asked.files[0]))
    return _served(store, asked.port, texts, from_files=asked.from_files, why_not=why_not)


def serve_for_now(texts: Texts, port: int) -> Answer:
    """Serve without keeping anything: the demo, to be played with. It is told in a line, as the tour has no more."""
    from counterpoise.app.houses import Houses
    from counterpoise.store import Store

    _needs_free(port)
    store = Store(MEMORY)
    try:
        houses = Houses(store, today)
        houses.open_files(texts, at=_now())
        _run(houses, port, "/", [], stops=f"Ctrl-C stops it. {GONE}: this is the demo; {KEEPS}")
    finally:
        store.close()
    return Answer("")


def beside(house: Path) -> Path:
    """Where a house is kept unless another file is named: mill/house.yaml in mill/house.kept.db."""
    return house.with_name(f"{house.stem}.kept.db")


def _store(db: str | None, house: Path) -> tuple[Store, str]:
    """Where it is kept; memory alone, with the reason, where nothing can be made beside the house."""
    from counterpoise.store import Store

    if db:
        return Store.in_file(db), ""
    path = beside(house)
    try:
        return Store.in_file(path), ""
    except Refused as error:
        if os.path.lexists(path):  # it may hold what was told as kept: not passed over
            raise Refused(error.says, "Name another with --db FILE.") from None
        return Store(MEMORY), f"{error.says}. Name a file elsewhere: --db FILE"


def _served(store: Store, port: int, texts: Texts, *, from_files: bool = False, why_not: str = "") -> Answer:
    """Take the files in, tell what is shown, and serve."""
    from counterpoise.app.houses import Houses, address_of

    try:
        houses = Houses(store, today)
        opened = houses.open_files(texts, at=_now(), from_files=from_files)
        lines = [*_where(store.file, why_not), *shown(opened, houses.called(opened.name).trouble().splitlines())]
        _run(houses, port, address_of(opened.name), lines)
    finally:
        store.close()
    return Answer("")


def _serve_kept(db: str, port: int) -> Answer:
    """Serve what a database holds; the demo is never written into one."""
    from counterpoise.app.houses import Houses, address_of
    from counterpoise.store import Store

    _needs_free(port)
    store = Store.in_file(db)
    try:
        houses = Houses(store, today)
        names = houses.names()
        held = [f"{called}: http://127.0.0.1:{port}{address_of(name)}" for name, called in names]
        empty = f"No house is kept there yet. Begin one at http://127.0.0.1:{port}/houses"
        first = address_of(names[0][0]) if len(names) == 1 else "/" if houses.has_first() else "/houses"
        _run(houses, port, first, [*_where(store.file, ""), *(held or [empty])])
    finally:
        store.close()
    return Answer("")


def shown(opened: Opened, trouble: Sequence[str] = ()) -> list[str]:
    """What is shown of a house whose files were named: of each document where it is not simply as they read."""
    from counterpoise.app.houses import address_of
    from counterpoise.app.taking_files import Why

    texts = f"{address_of(opened.name)}text"
    whys = {one.why for one in opened.stands}
    lines = ["It is another house than those kept there: kept beside them, as one more."] if opened.is_beside else []
    if whys <= {Why.FIRST, Why.SAME}:
        lines.append(f"Shown: {opened.called}, as its {'files read' if opened.stands[1].file else 'file reads'}.")
    elif whys <= {Why.SAME, Why.KEPT}:
        lines.append(f"Shown: {opened.called}, as its file reads; show and hang as they are kept.")
    else:
        lines += [f"Shown: {opened.called}:", *(f"  {one.kind}: {_said(one)}" for one in opened.stands)]
        lines.append(f"Every earlier revision stands below its text, as at {texts}/house.")
    if whys & {Why.WRITTEN, Why.BOTH, Why.MISFIT}:
        lines.append("To show the files as they read: the same again with --from-files. To go on in a file, first "
                     "save the text over it from its page.")  # fmt: skip
    if trouble:
        more = f" And {len(trouble) - 1} more." if len(trouble) > 1 else ""
        lines.append(f"CANNOT BE SHOWN: {trouble[0]}{more} Mend its texts in the pages, or name house, show and hang.")
    return lines


def _said(one: Stands) -> str:
    from counterpoise.app.taking_files import BLANK, Why

    return f"revision {one.number}, " + {
        Why.FIRST: f"read from {one.file}." if one.file else f"{BLANK}.",
        Why.SAME: f"as {one.file} reads.",
        Why.TAKEN: f"taken from {one.file}, which reads otherwise than the one before.",
        Why.HAS: f"taken from {one.file}, which has what was written in the pages, and more.",
        Why.WRITTEN: f"written in the pages since {one.file} was read. The file is as it was, without that.",
        Why.BOTH: f"written in the pages. NOT SHOWN: {one.file}, which reads otherwise than what was read before.",
        Why.MISFIT: f"as kept. NOT SHOWN: {one.file}, which reads otherwise, and does not fit what was written in the "
                    "pages.",
        Why.INSTEAD: f"taken from {one.file}, for what was kept cannot be shown.",
        Why.ASKED: f"taken from {one.file}, as asked.",
        Why.KEPT: "as kept; no file of it is named.",
    }[one.why]  # fmt: skip


def _where(file: str, why_not: str) -> list[str]:
    if not file:
        return [f"NOT KEPT: what is written in the pages is gone when this stops. {why_not}."]
    return [f"Kept in {file}. No other file is changed; the pages save each text as one."]


def _now() -> str:
    return datetime.now(UTC).isoformat(timespec="seconds")


def _run(houses: Houses, port: int, address: str, lines: Sequence[str], stops: str = "Ctrl-C stops it") -> None:
    from counterpoise.web import serve as serve_pages

    print(f"http://127.0.0.1:{port}{address}  ({stops})", *lines, sep="\n", flush=True)
    try:
        serve_pages(houses, port=port)
    except SystemExit as error:  # the server's way to say that it could not begin; its 1 would mean "over" here
        if error.code:
            raise Fault("The pages could not be served; what is printed above says why.") from None


def _needs_free(port: int) -> None:
    import socket

    with socket.socket() as probe:
        probe.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
        try:
            probe.bind(("127.0.0.1", port))
        except OSError as error:
            raise Misuse(f"Port {port} cannot be used: {(error.strerror or str(error)).lower()}",
                         "Name another with --port.") from None  # fmt: skip
