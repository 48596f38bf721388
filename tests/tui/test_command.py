# SPDX-License-Identifier: Apache-2.0
from __future__ import annotations

import re
from pathlib import Path

import pytest
from command_line import Run

from rfplan.tui.actions import ScreenId
from rfplan.tui.glyphs import Tier
from rfplan.tui.look import Wishes, look_for
from rfplan.tui.tokens import ATTRIBUTES_ONLY, DARK, LIGHT


def test_without_a_terminal_it_refuses_in_one_sentence_and_names_the_check(
    rfplan: Run, frozen: Path
) -> None:
    answer = rfplan(str(frozen))
    assert answer.code == 2
    assert answer.out == ""
    assert answer.err.count("\n") == 1
    assert "rfplan check" in answer.err


def test_open_is_the_same_command(rfplan: Run, frozen: Path) -> None:
    assert rfplan("open", str(frozen)) == rfplan(str(frozen))


def test_a_screenshot_is_a_grid_of_text_and_an_svg(
    rfplan: Run, frozen: Path, tmp_path: Path
) -> None:
    name = tmp_path / "shot"
    answer = rfplan(str(frozen), "--screenshot", str(name), "--size", "80x24", "--keys", "2")
    assert answer.code == 0
    lines = Path(f"{name}.txt").read_text(encoding="utf-8").splitlines()
    assert len(lines) == 24
    assert all(len(line) == 80 for line in lines)
    assert "compare cables" in "\n".join(lines)
    assert Path(f"{name}.svg").read_text(encoding="utf-8").startswith("<svg ")


def test_a_screenshot_says_what_is_wrong_with_a_plan(rfplan: Run, tmp_path: Path) -> None:
    answer = rfplan("open", str(tmp_path), "--screenshot", str(tmp_path / "shot"))
    assert answer.code == 2
    assert "plan.yaml" in answer.err


def test_the_date_that_is_asked_for_stands_on_the_sheets(
    rfplan: Run, frozen: Path, tmp_path: Path
) -> None:
    keys = f"{ScreenId.SHEET.key} home"
    asked = ("--screenshot", str(tmp_path / "shot"), "--size", "80x40", "--keys", keys)
    assert rfplan(str(frozen), *asked, "--date", "2027-02-03").code == 0
    shown = Path(f"{tmp_path / 'shot'}.txt").read_text(encoding="utf-8")
    assert re.search(r"date +2027-02-03", shown)
    answer = rfplan(str(frozen), *asked, "--date", "3.2.2027")
    assert answer.code == 2
    assert "--date: '3.2.2027' is not a date" in answer.err


@pytest.mark.parametrize("size", ["80", "axb", "0x0", "80x24x3"])
def test_a_size_is_columns_x_rows(rfplan: Run, frozen: Path, tmp_path: Path, size: str) -> None:
    answer = rfplan(str(frozen), "--screenshot", str(tmp_path / "shot"), "--size", size)
    assert answer.code == 2
    assert "120x40" in answer.err


TRUE = {"TERM": "xterm-256color", "COLORTERM": "truecolor"}


@pytest.mark.parametrize(
    ("environ", "theme"),
    [
        (TRUE, DARK),
        ({"TERM": "xterm-256color"}, DARK),
        ({"TERM": "linux"}, ATTRIBUTES_ONLY),
        ({"TERM": "screen"}, ATTRIBUTES_ONLY),
        ({**TRUE, "NO_COLOR": ""}, ATTRIBUTES_ONLY),
        ({**TRUE, "TEXTUAL_COLOR_SYSTEM": "standard"}, ATTRIBUTES_ONLY),
    ],
)
def test_colours_are_ours_where_the_terminal_has_them(
    environ: dict[str, str], theme: object
) -> None:
    assert look_for(environ, "utf-8", Wishes()).theme is theme


def test_wishes_win() -> None:
    look = look_for(TRUE, "utf-8", Wishes("light", Tier.ASCII, "mm"))
    assert look.theme is LIGHT
    assert look.glyphs.tier is Tier.ASCII
    assert look.unit == "mm"


def test_a_terminal_that_is_not_utf_8_gets_ascii() -> None:
    assert look_for(TRUE, "ascii", Wishes()).glyphs.tier is Tier.ASCII
