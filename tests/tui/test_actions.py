# SPDX-License-Identifier: Apache-2.0
from __future__ import annotations

from itertools import product

import pytest

from rfplan.tui.actions import ACTIONS, TABS, Mode, ScreenId, actions_for, key_name
from rfplan.tui.bars import Note, key_row, keys_for, tab_spans, tabs, top_bar
from rfplan.tui.overlays.reading import rows_of_keys
from rfplan.tui.runs import Row, Run, text_of, width

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
        if action not in TABS:
            assert action.label in lines
            assert action.all_keys in lines
    assert (f"1 .. {len(TABS)}" in lines) == (mode is Mode.LOOKING)


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


@pytest.mark.parametrize("screen", ScreenId)
@pytest.mark.parametrize("columns", [80, 95, 120, 200])
def test_every_tab_is_told_whole_with_its_key_and_lies_where_it_is_clicked(
    screen: ScreenId, columns: int
) -> None:
    row = text_of(tabs(screen, columns))
    for each, start, stop in tab_spans(columns):
        assert row[start:stop].strip() == f"{each.key} {each.label}"
    assert [one.keys for one in TABS] == [(each.key,) for each in ScreenId]


def row_of(*texts: str) -> list[Row]:
    return [[Run(text)] for text in texts]


SIX_TABS = row_of("1 Airframe 2 Path 3 Coupling 4 Measured 5 Sheet 6 Changes")[0]
UNSAVED = Note("left", row_of("* 3 unsaved", "* 3"))
STATE = Note("left", row_of("design"))


@pytest.mark.parametrize(
    ("worst", "kept"),
    [("x 2 FAIL", "* 3 unsaved"), ("? 12 INCOMPLETE", "* 3")],
)
def test_beside_six_tabs_the_worst_count_and_what_is_unsaved_always_fit(
    worst: str, kept: str
) -> None:
    notes = [Note("right", row_of(worst)), UNSAVED, STATE, Note("right", row_of("+ 5 PASS"))]
    bar = top_bar(SIX_TABS, notes, 80)
    assert width(bar) == 80
    assert f" {kept} " in text_of(bar)
    assert text_of(bar).rstrip().endswith(worst)


def test_what_stands_first_in_the_first_row_stays_longest() -> None:
    notes = [Note("right", row_of("x 2 FAIL")), UNSAVED, STATE, Note("left", row_of("a name"))]
    shown = [text_of(top_bar(SIX_TABS, notes, columns)) for columns in range(80, 110)]
    seen = [[word in one for word in ("FAIL", "* 3", "design", "a name")] for one in shown]
    assert all(told == sorted(told, reverse=True) for told in seen)
    assert seen[-1] == [True] * 4
