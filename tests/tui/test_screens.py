# SPDX-License-Identifier: Apache-2.0
from __future__ import annotations

import re
from dataclasses import dataclass, field
from itertools import product
from pathlib import Path

import pytest
from golden_text import assert_golden
from workspaces import Seat, frozen_folder, look_of

from rfplan.tui.actions import ScreenId
from rfplan.tui.glyphs import TIERS, Tier
from rfplan.tui.look import Look
from rfplan.tui.runs import changed
from rfplan.tui.screenshot import svg
from rfplan.tui.tokens import ATTRIBUTES_ONLY, DARK, LIGHT, Theme

SIZES = [(80, 24), (120, 40), (200, 60)]
SCENES = {
    "airframe": (),
    "moving": ("m", "right", "right"),
    "room": ("h",),
    "proposed": ("down", "p", "down"),
    "path": ("2",),
    "coupling": (ScreenId.COUPLING.key,),
    "coupling_cell": (ScreenId.COUPLING.key, "enter"),
    "measured": (ScreenId.MEASURED.key,),
    "sheet": (ScreenId.SHEET.key,),
    "changes": ("m", "right", "right", "enter", ScreenId.CHANGES.key),
    "tuned": ("down", "2", "v", "right", "right"),
    "keys": ("?",),
    "place_at": ("g",),
    "cables": ("c",),
    "export": ("x",),
    "reading": (ScreenId.MEASURED.key, "enter", "3", ",", "O", "2"),
    "sweep": (ScreenId.MEASURED.key, "i"),
    "release": (":", *"release", "enter"),
    "waive": ("m", "down", "down", "down", "up", "left", "left", "left", "enter"),
    "read_out": ("r",),
    "palette": (":",),
    "found": ("t", "t"),
}
GOLDEN_SCENES = (*ScreenId, "moving", "proposed", "tuned", "keys", "place_at")
PAIRS = list(product(SCENES, SIZES))
WORDS = ("FAIL-HIGH", "FAIL-LOW", "FAIL", "INCOMPLETE", "WAIVED", "NEAR", "PASS", "ADVICE")
DEMO = Path(__file__).resolve().parents[2] / "demo_aircraft" / "amphibian"


@dataclass
class Shelf:
    """Every screen that was drawn, once for all tests of this file."""

    folder: Path
    drawn: dict[tuple[str, tuple[int, int], str, Tier], Seat] = field(default_factory=dict)

    def seat(
        self, scene: str, size: tuple[int, int], theme: Theme = DARK, tier: Tier = Tier.FULL
    ) -> Seat:
        """Return the seat at which a scene was played."""
        key = (scene, size, theme.name, tier)
        if key not in self.drawn:
            self.drawn[key] = Seat(self.folder, size, look_of(theme, tier))
            self.drawn[key].press(*SCENES[scene])
        return self.drawn[key]

    def text(
        self, scene: str, size: tuple[int, int], theme: Theme = DARK, tier: Tier = Tier.FULL
    ) -> str:
        """Return a scene as text without times."""
        return timeless(self.seat(scene, size, theme, tier).frame.text())


@pytest.fixture(scope="module")
def shelf(tmp_path_factory: pytest.TempPathFactory) -> Shelf:
    return Shelf(frozen_folder(tmp_path_factory.mktemp("shelf")))


def timeless(text: str) -> str:
    """Return a screen with every time of day struck out."""
    return re.sub(r"\b\d\d:\d\d\b", "hh:mm", text)


@pytest.mark.parametrize("scene", GOLDEN_SCENES)
@pytest.mark.parametrize("size", SIZES)
def test_screens_of_the_frozen_plan_are_unchanged(
    shelf: Shelf, scene: str, size: tuple[int, int]
) -> None:
    assert_golden(f"workspace_{scene}_{size[0]}.txt", shelf.text(scene, size))


@pytest.mark.parametrize("scene", SCENES)
@pytest.mark.parametrize("size", [*SIZES, (100, 30), (150, 40), (81, 25)])
def test_every_row_has_exactly_the_columns_of_the_terminal(
    shelf: Shelf, scene: str, size: tuple[int, int]
) -> None:
    seat = shelf.seat(scene, size)
    assert len(seat.frame.rows) == size[1]
    assert all(len(line) == size[0] for line in seat.frame.text().split("\n"))
    column, row = seat.frame.cursor
    assert 0 <= column < size[0]
    assert 0 <= row < size[1]


@pytest.mark.parametrize("scene", SCENES)
@pytest.mark.parametrize("size", SIZES)
def test_first_row_has_the_counts_and_last_row_help(
    shelf: Shelf, scene: str, size: tuple[int, int]
) -> None:
    seat = shelf.seat(scene, size)
    lines = seat.frame.text().split("\n")
    assert re.search(r"\d+ (FAIL|NEAR|WAIVED|PASS)", lines[0])
    assert "?" in lines[-1] or "esc" in lines[-1]


@pytest.mark.parametrize(("scene", "size"), PAIRS)
def test_a_verdict_word_stands_behind_its_sign(
    shelf: Shelf, scene: str, size: tuple[int, int]
) -> None:
    seat = shelf.seat(scene, size)
    text = seat.frame.text()
    glyphs = seat.workspace.look.glyphs
    signs = {glyphs.verdict(word) for word in WORDS}
    for line in text.splitlines()[1:]:
        for match in re.finditer(rf"(?<![\w-])({'|'.join(WORDS)})(?![\w-])", line):
            before = line[: match.start()]
            if "rfplan check" in line or "verdict  " in before[-14:] or scene == "read_out":
                continue
            assert signs & set(before), line


@pytest.mark.parametrize("scene", SCENES)
def test_words_are_whole_at_the_right_edge_of_every_pane(shelf: Shelf, scene: str) -> None:
    text = shelf.text(scene, (80, 24))
    stumps = {word[:cut] for word in WORDS for cut in range(2, len(word))} - {*WORDS, "PA", "AD"}
    for line in text.splitlines():
        assert not stumps & set(re.findall(r"\b[A-Z-]{2,}\b", line)), line


@pytest.mark.parametrize("scene", SCENES)
def test_colours_change_no_character(shelf: Shelf, scene: str) -> None:
    themes = (DARK, LIGHT, ATTRIBUTES_ONLY)
    assert len({shelf.text(scene, (120, 40), theme) for theme in themes}) == 1


@pytest.mark.parametrize(("scene", "size"), PAIRS)
def test_the_ascii_tier_shows_ascii_and_loses_nothing(
    shelf: Shelf, scene: str, size: tuple[int, int]
) -> None:
    full, plain = (shelf.text(scene, size, tier=tier) for tier in (Tier.FULL, Tier.ASCII))
    assert plain.isascii()
    assert plain.count("?") == full.count("?")


@pytest.mark.parametrize("theme", [DARK, LIGHT])
@pytest.mark.parametrize("scene", SCENES)
def test_no_sign_has_the_colour_of_its_ground(shelf: Shelf, scene: str, theme: Theme) -> None:
    for row in shelf.seat(scene, (120, 40), theme).frame.rows:
        for run in row:
            style = theme.style(run.token, run.ground)
            assert not run.text.strip() or style.fg != style.bg


@pytest.mark.parametrize("size", [(79, 24), (80, 23), (60, 18), (20, 5)])
def test_a_small_terminal_gets_one_sentence_and_recovers(
    frozen: Path, size: tuple[int, int]
) -> None:
    seat = Seat(frozen, (120, 40))
    moving = seat.press("m", "right")
    seat.size = size
    small = " ".join(seat.draw().text().split())
    assert small.startswith(f"Terminal is {size[0]} x {size[1]}. rfplan draws from 80 x 24.")
    assert seat.frame.text().count("\n") == size[1] - 1
    seat.size = (120, 40)
    assert seat.draw().text() == moving


@pytest.mark.parametrize("size", SIZES)
def test_the_demo_aircraft_holds_at_every_size(
    size: tuple[int, int],
) -> None:
    seat = Seat(DEMO, size)
    tabs = [(screen.key,) for screen in ScreenId]
    for keys in ((), ("m", "right"), ("escape",), *tabs, ("1", "t", "t"), *tabs):
        text = seat.press(*keys) if keys else seat.frame.text()
        lines = text.split("\n")
        assert all(len(line) == size[0] for line in lines)
        assert "?" in lines[-1]


def test_a_step_changes_few_cells() -> None:
    seat = Seat(DEMO, (200, 60))
    seat.workspace.looking.select_antenna("gnss2")
    seat.press("m")
    cells = []
    for _ in range(9):
        before = seat.frame.rows
        seat.press("right")
        cells.append(sum(s.stop - s.start for s in changed(before, seat.frame.rows)))
    assert sorted(cells)[4] < 400


def test_a_picture_has_a_text_for_each_run_in_its_colours(frozen: Path) -> None:
    seat = Seat(frozen, (100, 30))
    picture = svg(seat.frame, DARK)
    assert picture.startswith("<svg ")
    assert ">design<" in picture
    assert "#e8b84a" in picture
    assert "<script" not in picture


def test_the_room_of_a_plain_terminal_is_told_by_signs(frozen: Path) -> None:
    glyphs = TIERS[Tier.FULL].marking_room()
    seat = Seat(frozen, look=Look(ATTRIBUTES_ONLY, glyphs))
    seat.press("T")
    assert "one theme" in seat.sentence
    assert seat.workspace.look.plain
