# SPDX-License-Identifier: Apache-2.0
"""The command line: words to options, one command called, its exit code returned."""

from __future__ import annotations

import argparse
import atexit
import gc
import importlib
import os
import sys
import traceback
from collections.abc import Container, Sequence
from pathlib import Path

from rfplan import __version__
from rfplan.commands.choices import not_one_of
from rfplan.commands.options import add_commands
from rfplan.commands.output import complain, settle
from rfplan.commands.parsing import Parser

OWN_FAULT = 70
INTERRUPTED = 130

OBJECTS_BETWEEN_COLLECTIONS = 100_000
"""Made before Python looks which of them nobody uses; its own 700 suit a program that stays."""

FAULT_HINT = "Your files are as they were. RFPLAN_TRACEBACK=1 shows where it happened."
ABOUT = "Plan antenna moves and budget RF cable loss on light aircraft."
EXIT_CODES = """\
exit codes: 0 meets the entered limits (waived findings are counted in the last line)
            1 a limit is not met     2 nothing could be judged     3 a deciding value is missing
A planning aid: equipment and airframe data, licensed practice and the local authority prevail."""

ELSEWHERE = {"open": "rfplan.tui.command"}
"""Commands that do not live in rfplan.commands, and go on for hours."""


def _meant(arguments: Sequence[str], commands: Container[str]) -> list[str]:
    """Put `open` before a path that stands for it, or where there is nothing but a terminal."""
    words = list(arguments)
    streams = (sys.stdin, sys.stdout)  # None where the shell has closed one
    if not words and all(stream is not None and stream.isatty() for stream in streams):
        return ["open"]
    if words and words[0] not in commands and os.path.exists(words[0]):
        return ["open", *words]
    return words


def parser() -> tuple[Parser, dict[str, Parser]]:
    """Return the parser of the whole command line, and those of its commands by name."""
    top = Parser(
        prog="rfplan",
        description=ABOUT,
        epilog=EXIT_CODES,
        formatter_class=argparse.RawDescriptionHelpFormatter,
    )
    top.add_argument("--version", action="version", version=f"rfplan {__version__}")
    commands = top.add_subparsers(dest="command", metavar="COMMAND", parser_class=Parser)
    add_commands(commands)
    return top, commands.choices


def _options(arguments: Sequence[str]) -> argparse.Namespace:
    """Return the options of one command; words behind an option still belong to its list."""
    top, commands = parser()
    arguments = _meant(arguments, commands)
    first = next((word for word in arguments if not word.startswith("-")), None)
    if first is not None and first not in commands:
        top.error(not_one_of("command", first, commands))
    options, left = top.parse_known_args(arguments)
    items = getattr(options, getattr(options, "list", ""), None)
    while items is not None and left and not left[0].startswith("-"):
        items.append(left.pop(0))
    if left:
        commands.get(options.command, top).refuse(left[0])
    if options.command is None:
        top.print_help()
        top.exit()
    if getattr(options, "format", "") is None:
        options.format = _format_by_ending(options, commands[options.command])
    if _ending(options) not in ("", wanted := getattr(options, "ending", _ending(options))):
        commands[options.command].error(f"{options.output}: the file is written as .{wanted} only")
    return options


def _ending(options: argparse.Namespace) -> str:
    """Return the ending of the file to write, '' where there is none."""
    return Path(getattr(options, "output", "") or "").suffix.lower().removeprefix(".")


def _format_by_ending(options: argparse.Namespace, command: Parser) -> str:
    """Return the format that the ending of the file to write stands for; text without a file."""
    ending = _ending(options)
    told = {"": "text", "txt": "text", "markdown": "md", "htm": "html"}
    format = told.get(ending, ending)
    if format not in options.formats:
        wanted = not_one_of("format", ending, options.formats)
        command.error(f"{options.output}: {wanted}; --format names one for any ending")
    return format


def _run(options: argparse.Namespace) -> int:
    """Run a command; a fault of rfplan's own is told calmly and has an exit code of its own."""
    if options.command not in ELSEWHERE:
        _collect_seldom()
    try:
        own = f"rfplan.commands.{options.command}"
        command = importlib.import_module(ELSEWHERE.get(options.command, own))
        code: int = command.run(options)
    except Exception as fault:
        if os.environ.get("RFPLAN_TRACEBACK"):
            traceback.print_exc()
        complain(f"rfplan stopped on a fault of its own: {fault!r}\n{FAULT_HINT}")
        return OWN_FAULT
    return code


def _collect_seldom() -> None:
    """Look seldom for memory to free, and never at the end: a command makes much that stays."""
    gc.set_threshold(OBJECTS_BETWEEN_COLLECTIONS)
    atexit.register(gc.freeze)


def main(arguments: Sequence[str] | None = None) -> int:
    """Run one command and return its exit code."""
    try:
        return _run(_options(sys.argv[1:] if arguments is None else arguments))
    except KeyboardInterrupt:
        return INTERRUPTED
    finally:
        settle()
