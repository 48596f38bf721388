# SPDX-License-Identifier: Apache-2.0
"""Every sign of the workspace in three tiers, since the terminal's font is not ours to choose."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from enum import StrEnum
from types import MappingProxyType


class Tier(StrEnum):
    """How rich the signs are."""

    FULL = "full"
    BLOCKS = "blocks"
    ASCII = "ascii"


@dataclass(frozen=True, slots=True)
class Glyphs:
    """One tier; every sign is one cell wide but the arrow; `bar` and `room` rise from the least."""

    tier: Tier
    passes: str
    near: str
    fails: str
    waived: str
    incomplete: str
    advice: str
    cursor: str
    focus: str
    unsaved: str
    here: str
    was: str
    top: str
    belly: str
    inside: str
    plate: str
    rule: str
    keep_out: str
    bar: str
    limit: str
    minus: str
    arrow: str
    ruling: str
    more: str
    room: str = "    "

    @property
    def ellipsis(self) -> str:
        """What stands for words that are left out."""
        return "..." if self.tier is Tier.ASCII else "…"

    def verdict(self, word: str) -> str:
        """Return the sign of a verdict word; the word itself always stands beside it."""
        return str(getattr(self, _VERDICTS[word]))

    def sign(self, token: str) -> str:
        """Return the sign of what a cell of a sheet says, nothing where it has none."""
        return self.verdict(token) if token in _VERDICTS else ""

    def surface(self, on: str, *, inside: bool = False) -> str:
        """Return the sign of an antenna on a surface; hull sides and plates share one."""
        if inside:
            return self.inside
        return {"top": self.top, "belly": self.belly}.get(on, self.plate)

    def marking_room(self) -> Glyphs:
        """Return the same tier with the room map told by signs, for terminals without tints."""
        return replace(self, room=_ROOM_MARKS)


_VERDICTS = {
    "FAIL-HIGH": "fails",
    "FAIL-LOW": "fails",
    "FAIL": "fails",
    "INCOMPLETE": "incomplete",
    "WAIVED": "waived",
    "NEAR": "near",
    "PASS": "passes",
    "ADVICE": "advice",
    "AGREES": "passes",
    "DIFFERS": "fails",
}
_ROOM_MARKS = ".:oO"

FULL = Glyphs(
    tier=Tier.FULL,
    passes="√",
    near="▲",
    fails="×",  # noqa: RUF001 - a sign of its own, not the letter
    waived="≈",
    incomplete="?",
    advice="i",
    cursor="►",
    focus="▌",
    unsaved="●",
    here="◉",
    was="◌",
    top="●",
    belly="○",
    inside="□",
    plate="◆",
    rule="╱",  # noqa: RUF001 - drawn from corner to corner
    keep_out="╳",  # noqa: RUF001 - drawn from corner to corner
    bar="▏▎▍▌▋▊▉█",
    limit="┃",
    minus="−",  # noqa: RUF001 - as wide as a digit
    arrow="→",
    ruling="─",
    more="↓",
)
BLOCKS = replace(
    FULL,
    tier=Tier.BLOCKS,
    here="■",
    was="o",
    plate="♦",
    rule="/",
    keep_out="░",
    bar="█",
    limit="│",
)
ASCII = Glyphs(
    tier=Tier.ASCII,
    passes="+",
    near="!",
    fails="x",
    waived="w",
    incomplete="?",
    advice="i",
    cursor=">",
    focus=">",
    unsaved="*",
    here="@",
    was="o",
    top="^",
    belly="v",
    inside="#",
    plate="A",
    rule="/",
    keep_out="X",
    bar="#",
    limit="|",
    minus="-",
    arrow="->",
    ruling="-",
    more="v",
    room=_ROOM_MARKS,
)

TIERS: Mapping[Tier, Glyphs] = MappingProxyType(
    {glyphs.tier: glyphs for glyphs in (FULL, BLOCKS, ASCII)}
)

_POOR_TERMINALS = ("linux", "dumb")


def choose_tier(encoding: str, term: str, wanted: Tier | None = None) -> Tier:
    """Return the tier asked for, else the richest that encoding and terminal should bear."""
    if wanted is not None:
        return wanted
    if encoding.lower().replace("-", "").replace("_", "") not in ("utf8", "utf8sig"):
        return Tier.ASCII
    return Tier.BLOCKS if term in _POOR_TERMINALS else Tier.FULL
