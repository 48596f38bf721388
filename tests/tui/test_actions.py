# SPDX-License-Identifier: Apache-2.0
from __future__ import annotations

from itertools import product

import pytest

from rfplan.tui.actions import ACTIONS, Mode, ScreenId, actions_for, key_name
from rfplan.tui.bars import key_row, keys_for
from rfplan.tui.overlays.reading import rows_of_keys
from rfplan.tui.runs import text_of

PLACES = list(product(ScreenId, Mode))
WAY_OUT = {
    Mode.LOOKING: "q quit",
    Mode.MOVING: "esc put back",
    Mode.PROPOSED: "esc put back",
    Mode.SEARCHING: "esc stop",
}


@pytest.mark.parametrize(("screen", "mode"), PLACES)
def test_no_two_commands_of_one_screen_share_a_key(screen: ScreenId, mode: Mode) -> None:
    keys = [key for action in actions_for(screen, mode) for key in action.keys]
    assert len(keys) == len(set(keys))


def test_ids_are_unique() -> None:
    assert len({action.id for action in ACTIONS}) == len(ACTIONS)


@pytest.mark.parametrize(("screen", "mode"), PLACES)
def test_the_help_of_a_screen_has_every_command_with_its_label(
    screen: ScreenId, mode: Mode
) -> None:
    lines = "\n".join(text_of(row) for row in rows_of_keys(screen, mode))
    for action in actions_for(screen, mode):
        assert action.label in lines
        assert action.all_keys in lines


@pytest.mark.parametrize(("screen", "mode"), PLACES)
def test_the_help_holds_on_the_smallest_screen_without_scrolling(
    screen: ScreenId, mode: Mode
) -> None:
    assert len(rows_of_keys(screen, mode)) <= 15


@pytest.mark.parametrize(
    ("screen", "mode"), [place for place in PLACES if list(actions_for(*place))]
)
def test_the_key_row_always_has_help_and_the_way_out_and_no_part_of_an_entry(
    screen: ScreenId, mode: Mode
) -> None:
    if mode is not Mode.LOOKING and screen is not ScreenId.AIRFRAME:
        return
    whole = {f"{key.shown} {key.label}" for key in keys_for(screen, mode)}
    for columns in range(80, 201):
        text = text_of(key_row(keys_for(screen, mode), columns)[0])
        assert len(text) == columns
        assert {entry.strip() for entry in text.split("  ") if entry.strip()} <= whole
        assert "? keys" in text
        assert WAY_OUT[mode] in text


@pytest.mark.parametrize(
    ("key", "name"), [("ctrl+s", "^s"), ("escape", "esc"), ("+", "+"), ("shift+tab", "S-tab")]
)
def test_keys_are_written_as_people_write_them(key: str, name: str) -> None:
    assert key_name(key) == name
