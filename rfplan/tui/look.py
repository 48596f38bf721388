# SPDX-License-Identifier: Apache-2.0
"""How the workspace looks on this terminal: theme, signs, unit."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace

from rfplan.reports.cells import LengthUnit
from rfplan.tui.glyphs import TIERS, Glyphs, Tier, choose_tier
from rfplan.tui.tokens import ATTRIBUTES_ONLY, DARK, LIGHT, Theme

_NEXT = {DARK.name: LIGHT, LIGHT.name: DARK}


@dataclass(frozen=True, slots=True)
class Look:
    """What a terminal can show, and what its user chose."""

    theme: Theme
    glyphs: Glyphs
    unit: LengthUnit = "in"

    @property
    def plain(self) -> bool:
        """Whether the terminal gets attributes only, and no colours."""
        return self.theme is ATTRIBUTES_ONLY

    def in_next_theme(self) -> Look:
        """Return the look in light after dark, and in dark after light."""
        return replace(self, theme=_NEXT.get(self.theme.name, self.theme))


@dataclass(frozen=True, slots=True)
class Wishes:
    """What the command line asks for; None leaves it to the terminal."""

    theme: str | None = None
    tier: Tier | None = None
    unit: LengthUnit = "in"


def look_for(environ: Mapping[str, str], encoding: str, wishes: Wishes) -> Look:
    """Return the look for a terminal as its environment describes it."""
    glyphs = TIERS[choose_tier(encoding, environ.get("TERM", ""), wishes.tier)]
    if not has_colours(environ):
        return Look(ATTRIBUTES_ONLY, glyphs.marking_room(), wishes.unit)
    return Look(LIGHT if wishes.theme == LIGHT.name else DARK, glyphs, wishes.unit)


def has_colours(environ: Mapping[str, str]) -> bool:
    """Tell whether the terminal shows our own colours: 256 of them or more, and none forbidden."""
    if "NO_COLOR" in environ:
        return False
    wanted = environ.get("TEXTUAL_COLOR_SYSTEM", "auto")
    if wanted != "auto":
        return wanted in ("256", "truecolor")
    deep = environ.get("COLORTERM", "").lower() in ("truecolor", "24bit")
    return deep or "256color" in environ.get("TERM", "")
