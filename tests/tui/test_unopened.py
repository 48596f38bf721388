# SPDX-License-Identifier: Apache-2.0
"""What is shown of a plan that cannot be read, at every size."""

from __future__ import annotations

from pathlib import Path

import pytest
from workspaces import frozen_folder, look_of

from rfplan.tui.runs import text_of, width
from rfplan.tui.unopened import MENDED, Unopened, Unread

LINES = tuple(
    f"plan.yaml:{line}:1: an unknown key {'x' * 70}; expected another" for line in range(99)
)


@pytest.fixture
def unopened(tmp_path: Path) -> Unopened:
    return Unopened(frozen_folder(tmp_path / "kite"), look_of().glyphs)


@pytest.mark.parametrize("size", [(80, 24), (120, 40), (200, 60)])
def test_problems_that_have_no_room_are_counted(unopened: Unopened, size: tuple[int, int]) -> None:
    unopened.unread = Unread(LINES)
    frame = unopened.frame(*size)
    assert {width(row) for row in frame.rows} == {size[0]}
    text = [text_of(row).strip() for row in frame.rows]
    whole = sum(line.startswith("plan.yaml:") for line in text)
    assert f"{len(LINES) - whole} more: rfplan check tells all" in text
    assert text[-2] == MENDED
    assert "edit" not in text[-1]  # it is not known which file to open


def test_a_problem_longer_than_the_screen_is_begun(unopened: Unopened) -> None:
    unopened.unread = Unread((f"plan.yaml:1:1: {'word ' * 2000}",), (Path("plan.yaml"), 1))
    rows = [text_of(row) for row in unopened.frame(80, 24).rows]
    assert rows[3].strip().startswith("plan.yaml:1:1: word")
    assert rows[-2].strip() == MENDED and "E edit file" in rows[-1]


def test_a_small_terminal_gets_its_sentence(unopened: Unopened) -> None:
    unopened.unread = Unread(LINES)
    assert "Terminal is 60 x 18" in text_of(unopened.frame(60, 18).rows[0])


@pytest.mark.parametrize("name", ["plan.yaml", "airframe.yaml", "new.yaml", "elsewhere"])
def test_a_file_that_bears_on_it_and_is_saved_is_seen(
    unopened: Unopened, tmp_path: Path, name: str
) -> None:
    assert not unopened.has_changed()  # nothing was read
    elsewhere = tmp_path / "cable.yaml"
    elsewhere.write_text("")
    unopened.unread = Unread(LINES, files=(elsewhere,))
    unopened.look()
    assert not unopened.has_changed()
    saved = {"elsewhere": elsewhere}.get(name, tmp_path / "kite" / name)
    saved.write_text("# another content\n")
    assert unopened.has_changed()
