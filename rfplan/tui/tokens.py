# SPDX-License-Identifier: Apache-2.0
"""Every colour of the workspace, in three themes: dark, light, and plain with attributes only."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum
from types import MappingProxyType
from typing import NamedTuple


class Token(StrEnum):
    """What a piece of text or a line of a drawing is; a theme says how it looks."""

    TEXT = "text"
    BOLD = "bold"
    DIM = "dim"
    FAINT = "faint"
    ACCENT = "accent"
    ON_ACCENT = "on accent"
    PASS = "pass"  # noqa: S105 - a colour, no secret
    NEAR = "near"
    FAIL = "fail"
    WAIVED = "waived"
    INCOMPLETE = "incomplete"
    LINE = "line"
    WING = "wing"
    INNER = "inner"
    HATCH = "hatch"


class Ground(StrEnum):
    """What lies under a cell."""

    BG = "bg"
    PANEL = "panel"
    SEL = "sel"
    ACCENT = "accent"
    HULL = "hull"
    ROOM_1 = "room 1"
    ROOM_2 = "room 2"
    ROOM_3 = "room 3"
    ROOM_4 = "room 4"
    FORBIDDEN = "forbidden"
    FAIL_CELL = "fail cell"
    NEAR_CELL = "near cell"


class Style(NamedTuple):
    """How a cell looks; a colour of None is the terminal's own."""

    fg: str | None = None
    bg: str | None = None
    bold: bool = False
    dim: bool = False
    reverse: bool = False
    underline: bool = False


@dataclass(frozen=True, slots=True)
class Theme:
    """A look for every ink and every ground."""

    name: str
    inks: Mapping[Token, Style]
    grounds: Mapping[Ground, Style]

    def style(self, token: Token, ground: Ground = Ground.BG) -> Style:
        """Return how an ink looks on a ground; attributes of both add up."""
        ink, under = self.inks[token], self.grounds[ground]
        return Style(
            ink.fg,
            under.bg,
            ink.bold or under.bold,
            ink.dim or under.dim,
            ink.reverse or under.reverse,
            ink.underline or under.underline,
        )


PLAIN = Style()

_INKS: dict[Token, tuple[str, str, Style]] = {
    Token.TEXT: ("#cdd6e0", "#1d2733", PLAIN),
    Token.BOLD: ("#f2f6fa", "#0b121a", Style(bold=True)),
    Token.DIM: ("#95a3b2", "#4a5661", PLAIN),
    Token.FAINT: ("#8090a0", "#5c6771", Style(dim=True)),
    Token.ACCENT: ("#7cc0ff", "#07559a", Style(bold=True)),
    Token.ON_ACCENT: ("#0e1319", "#fbfaf6", PLAIN),
    Token.PASS: ("#5fc5a0", "#006449", PLAIN),
    Token.NEAR: ("#e8b84a", "#745100", Style(bold=True, underline=True)),
    Token.FAIL: ("#ff8f68", "#ae083d", Style(bold=True, reverse=True)),
    Token.WAIVED: ("#c9a2e0", "#6a4494", Style(underline=True)),
    Token.INCOMPLETE: ("#a6bdc8", "#2f3b53", PLAIN),
    Token.LINE: ("#a9b8c8", "#3c4a58", PLAIN),
    Token.WING: ("#5f6e7f", "#8a96a2", PLAIN),
    Token.INNER: ("#43505e", "#b4bdc6", Style(dim=True)),
    Token.HATCH: ("#6b5a4e", "#b39a88", Style(dim=True)),
}
"""Ink of the dark theme, of the light theme, attributes of the plain one."""

_GROUNDS: dict[Ground, tuple[str, str, Style]] = {
    Ground.BG: ("#0e1319", "#fbfaf6", PLAIN),
    Ground.PANEL: ("#131a22", "#f3f1ea", PLAIN),
    Ground.SEL: ("#1a2633", "#e4ebf2", Style(bold=True)),
    Ground.ACCENT: ("#7cc0ff", "#07559a", Style(reverse=True)),
    Ground.HULL: ("#141b24", "#f3f2ec", PLAIN),
    Ground.ROOM_1: ("#14222d", "#eaf2ee", PLAIN),
    Ground.ROOM_2: ("#142f38", "#d5e9e2", PLAIN),
    Ground.ROOM_3: ("#163b41", "#bfe1d6", PLAIN),
    Ground.ROOM_4: ("#18474a", "#a9d9c7", PLAIN),
    Ground.FORBIDDEN: ("#1b1a1c", "#efe9e2", PLAIN),
    Ground.FAIL_CELL: ("#3a211b", "#f8dde4", PLAIN),
    Ground.NEAR_CELL: ("#33290f", "#f7ebcb", PLAIN),
}
"""Ground of the dark theme, of the light theme, attributes of the plain one."""


def _theme(name: str, column: int) -> Theme:
    """Pick one colour column of both tables."""
    return Theme(
        name,
        MappingProxyType({token: Style(fg=str(row[column])) for token, row in _INKS.items()}),
        MappingProxyType({ground: Style(bg=str(row[column])) for ground, row in _GROUNDS.items()}),
    )


DARK = _theme("dark", 0)
LIGHT = _theme("light", 1)
ATTRIBUTES_ONLY = Theme(
    "plain",
    MappingProxyType({token: row[2] for token, row in _INKS.items()}),
    MappingProxyType({ground: row[2] for ground, row in _GROUNDS.items()}),
)
"""For 16 colours or NO_COLOR; the room map is then told by `Glyphs.room`."""

THEMES: Mapping[str, Theme] = MappingProxyType(
    {theme.name: theme for theme in (DARK, LIGHT, ATTRIBUTES_ONLY)}
)

_VERDICTS = frozenset({Token.PASS, Token.NEAR, Token.FAIL, Token.WAIVED, Token.INCOMPLETE})
_ON_THE_DRAWING = _VERDICTS | {Token.TEXT, Token.BOLD, Token.ACCENT}
_ANY_TEXT = _ON_THE_DRAWING | {Token.DIM, Token.FAINT}

TEXT_ON: Mapping[Ground, frozenset[Token]] = MappingProxyType(
    {
        Ground.BG: _ANY_TEXT,
        Ground.PANEL: _ANY_TEXT,
        Ground.SEL: _ANY_TEXT,
        Ground.ACCENT: frozenset({Token.ON_ACCENT}),
        Ground.HULL: _ANY_TEXT,
        Ground.ROOM_1: _ON_THE_DRAWING,
        Ground.ROOM_2: _ON_THE_DRAWING,
        Ground.ROOM_3: _ON_THE_DRAWING,
        Ground.ROOM_4: _ON_THE_DRAWING,
        Ground.FORBIDDEN: _ANY_TEXT,
        Ground.FAIL_CELL: frozenset({Token.FAIL, Token.TEXT, Token.BOLD}),
        Ground.NEAR_CELL: frozenset({Token.NEAR, Token.TEXT, Token.BOLD}),
    }
)
"""Which inks may carry text on which ground; line, wing, inner and hatch never carry text."""

_BY_WORD = {
    "": Token.TEXT,
    "dim": Token.DIM,
    "FAIL-HIGH": Token.FAIL,
    "FAIL-LOW": Token.FAIL,
    "FAIL": Token.FAIL,
    "INCOMPLETE": Token.INCOMPLETE,
    "WAIVED": Token.WAIVED,
    "NEAR": Token.NEAR,
    "PASS": Token.PASS,
    "ADVICE": Token.DIM,
    "AGREES": Token.PASS,
    "DIFFERS": Token.FAIL,
    "DRAFT": Token.FAIL,
}


def token_of(word: str) -> Token:
    """Return the ink of a verdict word, or of the token that a cell of a sheet carries."""
    return _BY_WORD[word]
