# SPDX-License-Identifier: Apache-2.0
"""How the command line is read: nothing is guessed, and what was nearly meant is named."""

from __future__ import annotations

import argparse
import re
from collections.abc import Sequence
from typing import Any, NoReturn

from rfplan.commands.choices import not_one_of
from rfplan.commands.output import complain

NOTHING_JUDGED = 2
"""The exit code of a command line that cannot be understood."""


class Parser(argparse.ArgumentParser):
    """Says what is wrong and what was nearly meant; never guesses a shortened option."""

    def __init__(self, **settings: Any) -> None:
        super().__init__(**settings, allow_abbrev=False)
        self.color = False  # from Python 3.14 on, help would be coloured

    def error(self, message: str) -> NoReturn:
        complain(f"{self.prog}: {message}\n{self.format_usage().rstrip()}")
        self.exit(NOTHING_JUDGED)

    def refuse(self, unknown: str) -> NoReturn:
        """Say that an option or a word is not known here."""
        if unknown.startswith("-"):
            known = dict.fromkeys(re.findall(r"(?<![\w-])--[\w-]+", self.format_help()))
            self.error(not_one_of("option", unknown.partition("=")[0], known))
        self.error(f"{unknown!r} is one word too many")


def one_of(what: str, known: Sequence[str]) -> dict[str, Any]:
    """Return the settings of an option that takes one of some words."""

    def read(word: str) -> str:
        if word not in known:
            raise argparse.ArgumentTypeError(not_one_of(what, word, known))
        return word

    return {"type": read, "metavar": what.upper()}
