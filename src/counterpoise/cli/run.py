"""The way in: words of a command line, a command, an exit code. No library is imported before a command needs it."""

from __future__ import annotations

import argparse
import contextlib
import difflib
import gc
import os
import sys
from collections.abc import Callable, Sequence
from io import TextIOWrapper
from typing import Any, NoReturn

from counterpoise.cli.answer import Answer, Exit
from counterpoise.errors import BadDocument, CounterpoiseError, Misuse, OutOfRange, Refused, Unreadable

_ABOUT = "Checks, plans and prints the hang of a manual counterweight house. It informs a qualified person."
_CODES = (
    "Exit codes: 0 within the limits that were checked, 1 over (or refused), 2 nothing over but something unknown, "
    "64 misuse, 65 bad input, 66 a file cannot be read, 70 a fault of this program, 73 a file cannot be written."
)


def main(argv: Sequence[str] | None = None) -> int:
    """Run one command.

    Args:
        argv: the words after the program's name; those of the process by default.

    Returns:
        The exit code, as `Exit` lists them. Nothing is raised.
    """
    _any_console()
    gc.freeze()  # what is there by now stays; a check of a thousand sets need not look through it again and again
    try:
        words = sys.argv[1:] if argv is None else list(argv)
        answer = _command(words)
    except SystemExit as done:  # argparse has printed its help
        return int(done.code or 0)
    except KeyboardInterrupt:
        return Exit.STOPPED
    except CounterpoiseError as error:
        return _complain(str(error), _code_of(error))
    except Exception as error:  # noqa: BLE001  # the last line of defence: one plain line instead of a traceback
        return _fault(error)
    return _print(answer)


def _command(words: Sequence[str]) -> Answer:
    asked = _parser().parse_args(words)
    answer: Answer = asked.command(asked)
    return answer


class _Parser(argparse.ArgumentParser):
    """Tells of a wrong command line as an error of ours, with the near name."""

    def error(self, message: str) -> NoReturn:
        near = _near(message)
        raise Misuse(f"{message[:1].upper()}{message[1:]}", f"{near}{self.format_usage().strip()}")


def _near(message: str) -> str:
    parts = message.split("'")
    if "invalid choice" not in message or len(parts) < 2:
        return ""
    found = difflib.get_close_matches(parts[1], _COMMANDS, n=1)
    return f"Did you mean {found[0]}? " if found else ""


_COMMANDS = ("check", "explain", "bricks", "steps", "mend", "draw", "sheets",
             "demo", "start", "tour", "serve", "catalogue", "schedule", "schema",
             "json", "yaml", "diff", "renumber", "letgo",
             "call", "changeover", "rehearse")  # fmt: skip


class _Version(argparse.Action):
    """Looks the version up only where it is asked for."""

    def __call__(self, parser: argparse.ArgumentParser, *_: Any) -> None:
        from importlib.metadata import version

        print(f"counterpoise {version('counterpoise')}")
        parser.exit()


def _parser() -> argparse.ArgumentParser:
    from counterpoise.cli import commands
    from counterpoise.cli.bricks import bricks as share_bricks
    from counterpoise.cli.call import add_commands as add_calls
    from counterpoise.cli.catalogue import catalogue as show_catalogue
    from counterpoise.cli.documents import KINDS, add_commands
    from counterpoise.cli.letgo import add_arguments as add_letgo, letgo
    from counterpoise.cli.rehearse import add_rehearse
    from counterpoise.cli.schedule import add_arguments, schedule as read_schedule
    from counterpoise.cli.serve import serve as serve_pages
    from counterpoise.cli.steps import add_arguments as add_steps, steps as say_steps

    top = _Parser(prog="counterpoise", description=_ABOUT, epilog=_CODES, allow_abbrev=False)
    top.add_argument("--version", action=_Version, nargs=0, help="tell which this is, and stop")
    every = top.add_subparsers(title="commands", metavar="COMMAND", required=True, parser_class=_Parser)

    def add(name: str, says: str, does: Callable[..., Answer] | None = None) -> argparse.ArgumentParser:
        one = every.add_parser(name, help=says, description=says, epilog=_CODES, allow_abbrev=False)
        one.set_defaults(command=does or getattr(commands, name))
        return one

    check = add("check", "judge a hang, or a house alone: findings, every set, what was not checked")
    check.add_argument("files", metavar="FILE", nargs="+", help="HOUSE, or HOUSE SHOW HANG")
    check.add_argument("--json", action="store_true", help="print data instead (see: counterpoise schema check)")
    explain = _three_files(add("explain", "tell how one figure came about; without a KEY, list the keys"))
    explain.add_argument("key", metavar="KEY", nargs="?", help="of a figure, as in 2/loft block/4")
    add_steps(_three_files(add("steps", "say the steps of one set, for deck, bridge and rail", say_steps)))
    share = _three_files(
        add("bricks", "share the stock of bricks among all sets, and say what to ask for", share_bricks)
    )
    share.add_argument("--json", action="store_true", help="print data instead (see: counterpoise schema bricks)")
    mend = _three_files(add("mend", "tell the smallest changes that clear what is over, each tried out"))
    mend.add_argument("set", metavar="SET", nargs="?", help="of this set only")
    mend.add_argument("--json", action="store_true", help="print data instead")
    draw = add("draw", "draw a house, or one set of it, as an SVG file")
    draw.add_argument("files", metavar="FILE", nargs="+", help="HOUSE, or HOUSE SHOW HANG")
    draw.add_argument("--out", metavar="SVG", required=True, help="the file to write")
    draw.add_argument("--set", metavar="SET", help="along the batten of this set")
    draw.add_argument("--dark", action="store_true", help="light ink on dark")
    sheets = _three_files(add("sheets", "write the paper of a load-in: bridge.pdf"))
    sheets.add_argument("--out", metavar="DIR", required=True, help="folder to write to")
    sheets.add_argument("--revision", default="", help="number or name printed on the sheet")
    demo = add("demo", "write an invented house, show and hang to try things on")
    demo.add_argument("directory", metavar="DIR")
    start = add("start", "write a house to fill in: its sets, and each figure to find out in its place")
    start.add_argument("house", metavar="HOUSE", help="the file to write, as in house.yaml")
    start.add_argument("--name", required=True, help="of the house")
    start.add_argument("--sets", type=_a_count, required=True, metavar="N", help="how many sets it has")
    start.add_argument("--units", choices=("us", "metric"), default="us", help="us (by default) or metric")
    start.add_argument("--purchase", choices=("single", "double"), default="single", help="of most of its sets")
    tour = add("tour", "write the demo, tell what is found there, and serve it")
    tour.add_argument("directory", metavar="DIR")
    _port(tour)
    tour.add_argument("--no-serve", action="store_true", help="tell and stop")
    serve = add("serve", "open the pages for a browser on this machine; the demo by default", serve_pages)
    serve.add_argument("files", metavar="FILE", nargs="*", help="HOUSE, or HOUSE SHOW HANG")
    _port(serve)
    serve.add_argument("--db", metavar="FILE", help="where to keep what is written; by default beside the house")
    serve.add_argument(
        "--from-files", action="store_true", help="show the files as they read, whatever was written since"
    )
    catalogue = add("catalogue", "show published sizes; every figure with its source", show_catalogue)
    catalogue.add_argument("family", metavar="FAMILY", nargs="?", help="as in pipe; without one, list the families")
    catalogue.add_argument("name", metavar="NAME", nargs="?", help='of one row, as in "1-1/2 in schedule 40"')
    catalogue.add_argument(
        "--json", action="store_true", help="print data instead (see: counterpoise schema catalogue)"
    )
    add_arguments(add("schedule", "turn a line schedule (spreadsheet, CSV) into a house file", read_schedule))
    add_commands(add)
    add_letgo(_three_files(add("letgo", "tell speed and energy of a set that is let go, for a risk file", letgo)))
    add_calls(add)
    add_rehearse(add)
    schema = add("schema", "print the JSON Schema of a document, or of what a command prints with --json")
    schema.add_argument(
        "of",
        nargs="?",
        default="check",
        choices=("check", "bricks", "steps", "letgo", "call", "rehearse", "catalogue", "schedule", "diff", *KINDS),
        metavar="OF",
        help="check (or nothing), bricks, steps, letgo, call, rehearse, catalogue, schedule, diff, house, show, hang",
    )
    return top


def _three_files(parser: argparse.ArgumentParser) -> argparse.ArgumentParser:
    for name in ("house", "show", "hang"):
        parser.add_argument(name, metavar=name.upper(), help=f"the {name} file")
    return parser


def _port(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("--port", type=_a_port, default=8500, metavar="N", help="of 127.0.0.1 (8500)")


def _a_port(words: str) -> int:
    if words.isascii() and words.isdigit() and len(words) < 6 and 0 < int(words) < 65536:
        return int(words)
    raise argparse.ArgumentTypeError(f"a port is a number from 1 to 65535, not {words}")


def _a_count(words: str) -> int:
    if words.isascii() and words.isdigit() and 0 < int(words[:4]) < 1000 and len(words) < 4:
        return int(words)
    raise argparse.ArgumentTypeError(f"a number of sets is from 1 to 999, not {words}")


def _code_of(error: CounterpoiseError) -> Exit:
    from counterpoise.app.files import CannotRead, CannotWrite

    kinds: tuple[tuple[type[CounterpoiseError], Exit], ...] = (
        (Misuse, Exit.MISUSE), (BadDocument, Exit.BAD_INPUT), (OutOfRange, Exit.BAD_INPUT),
        (Unreadable, Exit.BAD_INPUT), (CannotRead, Exit.CANNOT_READ), (CannotWrite, Exit.CANNOT_WRITE),
        (Refused, Exit.CANNOT_WRITE),
    )  # fmt: skip
    return next((code for kind, code in kinds if isinstance(error, kind)), Exit.FAULT)


def _fault(error: Exception) -> int:
    if os.environ.get("COUNTERPOISE_TRACE") == "1":
        import traceback

        traceback.print_exception(error)
        return Exit.FAULT
    said = " ".join(f"{type(error).__name__}: {error}".split())[:200]
    return _complain(f"counterpoise: a fault of this program, not of your files ({said}). No figure is given. "
                     "Set COUNTERPOISE_TRACE=1 and report what it then prints.", Exit.FAULT)  # fmt: skip


def _complain(words: str, code: Exit) -> int:
    with contextlib.suppress(OSError):
        print(words, file=sys.stderr, flush=True)
    return code


def _print(answer: Answer) -> int:
    try:
        if answer.words:
            print(answer.words, flush=True)
    except BrokenPipeError:
        # The reader (`head`) has what it wanted. Python flushes once more on leaving: let it flush into nothing.
        with contextlib.suppress(OSError, ValueError):
            os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
    except OSError as error:
        return _complain(f"The answer could not be printed: {error.strerror}.", Exit.CANNOT_WRITE)
    return answer.code


def _any_console() -> None:
    """A console that lacks a sign prints ? in its place; it must not stop the answer."""
    for stream in (sys.stdout, sys.stderr):
        if isinstance(stream, TextIOWrapper):
            stream.reconfigure(errors="replace")
