# SPDX-License-Identifier: Apache-2.0
from __future__ import annotations

import unicodedata
from dataclasses import asdict

import pytest

from rfplan.model.findings import Verdict
from rfplan.tui.dots import BIT, characters
from rfplan.tui.glyphs import ASCII, BLOCKS, FULL, TIERS, Glyphs, Tier, choose_tier


def signs(glyphs: Glyphs) -> str:
    return "".join(str(value) for name, value in asdict(glyphs).items() if name != "tier")


def test_every_sign_of_the_ascii_tier_is_ascii() -> None:
    assert signs(ASCII).isascii()
    assert characters(Tier.ASCII).isascii()


@pytest.mark.parametrize("glyphs", TIERS.values(), ids=lambda glyphs: glyphs.tier)
def test_no_sign_is_wide_or_invisible(glyphs: Glyphs) -> None:
    for sign in signs(glyphs) + characters(glyphs.tier):
        assert unicodedata.east_asian_width(sign) not in ("W", "F"), sign
        assert sign.isprintable(), hex(ord(sign))


@pytest.mark.parametrize("glyphs", TIERS.values(), ids=lambda glyphs: glyphs.tier)
def test_verdicts_that_differ_have_signs_that_differ(glyphs: Glyphs) -> None:
    by_sign: dict[str, set[str]] = {}
    for verdict in Verdict:
        by_sign.setdefault(glyphs.verdict(verdict), set()).add(verdict)
    assert sorted(map(len, by_sign.values())) == [1, 1, 1, 1, 1, 3]
    assert by_sign[glyphs.fails] == {Verdict.FAIL, Verdict.FAIL_HIGH, Verdict.FAIL_LOW}


@pytest.mark.parametrize("glyphs", TIERS.values(), ids=lambda glyphs: glyphs.tier)
def test_an_antenna_shows_on_which_surface_it_stands(glyphs: Glyphs) -> None:
    shown = [
        glyphs.surface("top"),
        glyphs.surface("belly"),
        glyphs.surface("fin"),
        glyphs.surface("cabin", inside=True),
        glyphs.here,
        glyphs.was,
    ]
    assert len(set(shown)) == 6
    assert glyphs.surface("left") == glyphs.surface("wing") == glyphs.plate


@pytest.mark.parametrize(
    ("encoding", "term", "tier"),
    [
        ("utf-8", "xterm-256color", Tier.FULL),
        ("UTF_8", "tmux", Tier.FULL),
        ("utf-8", "linux", Tier.BLOCKS),
        ("ascii", "xterm", Tier.ASCII),
        ("latin-1", "linux", Tier.ASCII),
        ("", "", Tier.ASCII),
    ],
)
def test_the_tier_follows_encoding_and_terminal(encoding: str, term: str, tier: Tier) -> None:
    assert choose_tier(encoding, term) is tier


def test_a_wanted_tier_wins() -> None:
    assert choose_tier("ascii", "linux", Tier.FULL) is Tier.FULL


def test_room_can_be_told_without_tints() -> None:
    assert FULL.room.strip() == ""
    assert FULL.marking_room().room == BLOCKS.marking_room().room == ASCII.room == ".:oO"


def test_braille_has_a_character_for_each_pattern() -> None:
    drawn = characters(Tier.FULL)
    assert len(set(drawn)) == 256
    assert drawn[0] == " "
    assert drawn[0xFF] == "⣿"


def pattern(*rows: str) -> int:
    return sum(
        bit
        for row, bits in zip(rows, BIT, strict=True)
        for sign, bit in zip(row, bits, strict=True)
        if sign == "#"
    )


@pytest.mark.parametrize(
    ("rows", "stroke"),
    [
        (("..", "##", "..", ".."), "-"),
        (("..", "#.", ".#", ".."), "-"),
        (("..", "..", "..", "##"), "_"),
        ((".#", ".#", "#.", "#."), "/"),
        (("#.", "#.", ".#", ".#"), "\\"),
        (("#.", "#.", "#.", "#."), "|"),
        ((".#", "..", "..", ".."), "'"),
        (("..", "..", "..", "#."), "."),
        (("##", "##", "##", "##"), "+"),
        (("..", "..", "..", ".."), " "),
    ],
)
def test_an_ascii_stroke_runs_the_way_its_dots_run(rows: tuple[str, ...], stroke: str) -> None:
    assert characters(Tier.ASCII)[pattern(*rows)] == stroke


def test_half_blocks_fill_the_half_that_has_dots() -> None:
    drawn = characters(Tier.BLOCKS)
    upper, lower = pattern("..", ".#", "..", ".."), pattern("..", "..", "#.", "..")
    assert [drawn[code] for code in (0, upper, lower, upper | lower)] == [" ", "▀", "▄", "█"]
