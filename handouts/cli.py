"""Words to and from a terminal. Results on stdout, complaints on stderr.

Exit 0 done, 1 to mend, 2 usage, 3 our bug; 130 stopped with Ctrl-C, 143 ended from outside.
"""

from __future__ import annotations

import argparse
import os
import signal
import sys
from collections.abc import Callable, Mapping, Sequence
from contextlib import suppress
from io import TextIOWrapper
from pathlib import Path
from typing import TYPE_CHECKING, TextIO

from handouts import __version__
from handouts.errors import HandoutsError, KnowledgeError, TemplateError

if TYPE_CHECKING:
    from handouts.problems import Problem
    from handouts.records import Workshop

DONE, TO_MEND, USAGE, OUR_BUG, STOPPED, ENDED = 0, 1, 2, 3, 130, 143
ON_SCREEN = 20
"""Findings told one by one; the rest are counted."""

FILL = "Fill in Name, Cloth and Fibre content; the rest may stay empty."

EXAMPLES = """examples:
  handouts new my-class.xlsx            a workbook to fill
  handouts check my-class.xlsx          what is missing or wrong, cell by cell
  handouts build my-class.xlsx          print-ready pages in output/
  handouts explain my-class.xlsx W3     why the card W3 says what it says
"""


def parser() -> argparse.ArgumentParser:
    """The commands and their options."""
    top = argparse.ArgumentParser(
        prog="handouts",
        description="From a workbook of fabrics to sewing handouts.",
        epilog=EXAMPLES,
        formatter_class=argparse.RawDescriptionHelpFormatter,
    )
    top.add_argument("--version", action="version", version=f"handouts {__version__}")
    top.add_argument("--debug", action="store_true", help="show where our own code failed")
    commands = top.add_subparsers(dest="command", metavar="COMMAND")
    new = commands.add_parser("new", help="write a workbook to fill")
    new.add_argument("path", type=Path)
    new.add_argument("--imperial", action="store_true", help="inches, yards, ounces")
    new.add_argument("--example", action="store_true", help="filled with an example class")
    check = commands.add_parser("check", help="say what is missing or wrong in a workbook")
    check.add_argument("book", type=Path, nargs="?")
    check.add_argument("--marked", type=Path, metavar="COPY", help="write a copy with the cells coloured and commented")
    check.add_argument("--knowledge", action="store_true", help="say what the knowledge base covers instead")
    build = commands.add_parser("build", help="make the pages")
    build.add_argument("book", type=Path)
    build.add_argument("--out", type=Path, default=Path("output"), metavar="DIR")
    build.add_argument("--only", nargs="+", default=[], metavar="CODE", help="only these fabrics")
    build.add_argument("--pages", nargs="+", default=[], metavar="PAGE", help="only these page types")
    build.add_argument(
        "--changed-since", type=Path, metavar="FOLDER", help="shop cards: only those that changed since that build"
    )
    explain = commands.add_parser("explain", help="say why")
    explain.add_argument("book", type=Path)
    explain.add_argument("code", nargs="?", default="")
    explain.add_argument("topic", nargs="?", default="")
    explain.add_argument("--json", action="store_true", help="everything, for a program to read")
    return top


def main(argv: Sequence[str] | None = None) -> int:
    """Runs one command; the exit code."""
    try:
        options = understood(argv)
        if not options.command:
            print(parser().format_help(), end="", flush=True)
            return USAGE
    except BrokenPipeError:
        return nobody_reads()
    try:
        code = COMMANDS[options.command](options)
        print(end="", flush=True)
        return code
    except (KnowledgeError, TemplateError, FileNotFoundError) as error:
        return our_bug(error, options.debug)
    except HandoutsError as error:
        complain(str(error))
        return TO_MEND
    except KeyboardInterrupt:
        complain("Stopped. What was there before is as it was.")
        return STOPPED
    except BrokenPipeError:
        return nobody_reads()
    except OSError as error:
        return refused(error)
    except Exception as error:
        return our_bug(error, options.debug)


def understood(argv: Sequence[str] | None) -> argparse.Namespace:
    """What was asked for. Help and wrong usage are said to the last word before SystemExit goes on its way."""
    try:
        return parser().parse_args(argv)
    except SystemExit:
        print(end="", flush=True)
        raise


def nobody_reads() -> int:
    """Whoever read our words has heard enough (`handouts explain BOOK | head`): the rest goes nowhere."""
    silence(sys.stdout)
    silence(sys.stderr)
    return DONE


def refused(error: OSError) -> int:
    """What the computer would not do: no room left, a name that is too long, a disk that fails."""
    silence(sys.stdout)
    what = f"{error.filename}: " if error.filename else ""
    complain(f"The computer refuses: {what}{error.strerror or error}.")
    return TO_MEND


def silence(stream: TextIO | None) -> None:
    """What the stream still holds goes nowhere, so that the end of the program does not trip over it."""
    with suppress(OSError, ValueError, AttributeError):  # None where there is no screen
        os.dup2(os.open(os.devnull, os.O_WRONLY), stream.fileno())  # type: ignore[union-attr]


def our_bug(error: Exception, debug: bool) -> int:
    """A fault of ours: one sentence, and the trace only when asked for."""
    if debug:
        raise error
    complain(f"Something in handouts itself is broken, not in your workbook: {type(error).__name__}: {error}")
    complain("Run it again with --debug before the command and send us what it says.")
    return OUR_BUG


def complain(text: str) -> None:
    """One line on stderr."""
    print(text, file=sys.stderr)


def tell(problems: Sequence[Problem]) -> None:
    """The first findings one by one, worst first, and the number of the rest."""
    for found in problems[:ON_SCREEN]:
        complain(f"{found}" if found.severity != "note" else f"note: {found}")
    if len(problems) > ON_SCREEN:
        complain(f"… and {len(problems) - ON_SCREEN} more. `handouts check BOOK --marked COPY` shows each in its cell.")


def waits(problems: Sequence[Problem]) -> int:
    """1 when a finding has to be mended before a build, else 0."""
    return TO_MEND if any(found.severity != "note" for found in problems) else DONE


def load(book: Path) -> Workshop:
    """The workbook, read and advised."""
    from handouts import pipeline

    return pipeline.load_workshop(book)


def run_new(options: argparse.Namespace) -> int:
    """`handouts new PATH`."""
    from handouts import pipeline

    pipeline.new_book(options.path, imperial=options.imperial, example=options.example)
    then = f"Its pages: handouts build {options.path}" if options.example else FILL
    print(f"Written: {options.path}. {then}")
    return DONE


def run_check(options: argparse.Namespace) -> int:
    """`handouts check BOOK` or `handouts check --knowledge`."""
    from handouts import pipeline

    if options.knowledge:
        print(pipeline.coverage())
        return DONE
    if options.book is None:
        complain("Which workbook? Like: handouts check my-class.xlsx")
        return USAGE
    checked = pipeline.check(options.book)
    tell(checked.problems)
    if options.marked:
        pipeline.mark(options.book, options.marked, checked.problems)
        print(f"Written: {options.marked}. Your own workbook was not touched.")
    wrong = sum(found.severity != "note" for found in checked.problems)
    fabrics = "1 fabric" if checked.fabrics == 1 else f"{checked.fabrics} fabrics"
    print(f"{fabrics} read. {wrong} to mend, {len(checked.problems) - wrong} to note.")
    return waits(checked.problems)


def run_build(options: argparse.Namespace) -> int:
    """`handouts build BOOK`."""
    from handouts import pipeline

    workshop = pipeline.load_workshop(options.book, options.pages)
    if waits(workshop.problems):
        tell(workshop.problems)
        complain("Nothing was built. Mend this and run it again.")
        return TO_MEND
    built = pipeline.build(workshop, options.out, options.only, options.pages, options.changed_since)
    tell(built.problems)
    print("\n".join(str(path) for path in built.files))
    if options.changed_since:
        same, whole = built.unchanged, len(workshop.fabrics)
        print(f"{same} of {whole} shop cards say what they said in {options.changed_since}: not printed again.")
    print(f"{len(built.files)} files in {built.folder}, {len(built.problems)} to note.")
    return DONE


def run_explain(options: argparse.Namespace) -> int:
    """`handouts explain BOOK [CODE [TOPIC]]`."""
    from handouts import pipeline, telling

    workshop = load(options.book)
    if options.json:
        print(telling.as_json(workshop))
        return waits(workshop.problems)
    tell(workshop.problems)
    lines = pipeline.explain(workshop, options.code, options.topic)
    print("\n".join(lines))
    return waits(workshop.problems)


COMMANDS: Mapping[str, Callable[[argparse.Namespace], int]] = {
    "new": run_new,
    "check": run_check,
    "build": run_build,
    "explain": run_explain,
}


def run() -> None:
    """The `handouts` command. Its words are the same bytes in every locale, also into a file on Windows."""
    for stream in (sys.stdout, sys.stderr):
        if isinstance(stream, TextIOWrapper):  # None where there is no screen
            stream.reconfigure(encoding="utf-8", errors="backslashreplace")
    signal.signal(signal.SIGTERM, lambda *_: sys.exit(ENDED))  # unfinished files are cleared away
    sys.exit(main())
