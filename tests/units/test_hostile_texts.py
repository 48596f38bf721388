# SPDX-License-Identifier: Apache-2.0
"""Any text is read or refused calmly."""

from __future__ import annotations

import random
from collections.abc import Callable

from hypothesis import given
from hypothesis import strategies as st

from rfplan.units import (
    AREA,
    KINDS,
    LENGTH,
    LEVEL,
    RATIO,
    QuantityError,
    parse,
    parse_butt_range,
    parse_date,
    parse_or_missing,
    parse_place,
    parse_range,
    parse_toleranced,
)

READERS: list[Callable[[str], object]] = [
    *(lambda text, kind=kind: parse(text, kind) for kind in KINDS.values()),
    *(lambda text, kind=kind: parse_or_missing(text, kind) for kind in (LENGTH, RATIO)),
    *(lambda text, kind=kind: parse_range(text, kind) for kind in (LENGTH, LEVEL, RATIO, AREA)),
    *(lambda text, kind=kind: parse_toleranced(text, kind) for kind in (LENGTH, LEVEL, RATIO)),
    *(parse_place, parse_butt_range, parse_date),
]


GOOD = ["3.2 m", "10 ft 6 1/2 in", "1.5 .. ? dB", "50 ohm +- 4 %", "60 L10 50 in", "2026-11-25"]


PIECES = [
    *("1", "9" * 20, "9" * 5000, "0", ".", "..", " .. ", " +- ", " ", "  ", "-", "+", "e", "E99"),
    *(",", "m", "in", "ft", "ft ", "dB", "dB/100 ft", "dBm", "W", "%", "?", "none", "L", "R", "/"),
    *("'", '"', "\u2212", "\u03a9", "\uff11", "\u0663", "\x00", "\x1b[2J", "\ud800", "\u202e"),
    *("\n", "\U0001f6e9", "(", "**", "__import__('os')", "{0}", "%s", "nan", "inf", "1_0", "0x1"),
    *("\u00b2", "\u00bd"),
]  # fmt: skip


def hostile_text(chance: random.Random) -> str:
    """Return a random text: pieces of the grammar and rubbish, or a good text with one edit."""
    if chance.random() < 0.6:
        return "".join(chance.choices(PIECES, k=chance.randint(0, 12)))
    good = chance.choice(GOOD)
    at = chance.randrange(len(good))
    return good[:at] + chance.choice(PIECES) + good[at + chance.randint(0, 2) :]


def test_a_hostile_text_is_read_or_refused_and_nothing_else() -> None:
    chance = random.Random(20261125)
    for _ in range(5000):
        text = hostile_text(chance)
        for read in chance.sample(READERS, 6):
            try:
                read(text)
            except QuantityError as error:
                assert error.message
                assert error.expected
                assert str(error).isprintable()


@given(st.text(max_size=80), st.sampled_from(READERS))
def test_any_text_is_read_or_refused(text: str, read: Callable[[str], object]) -> None:
    try:
        read(text)
    except QuantityError as error:
        assert len(str(error)) < 300
