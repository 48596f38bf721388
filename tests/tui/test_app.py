# SPDX-License-Identifier: Apache-2.0
from __future__ import annotations

import asyncio
import subprocess
import sys
from collections.abc import Awaitable, Callable, Iterator
from contextlib import nullcontext
from pathlib import Path
from threading import Event

import pytest
from textual.pilot import Pilot
from workspaces import PLAN, look_of

from rfplan.reports.sheets import SHEETS
from rfplan.tui.actions import ACTIONS, Mode
from rfplan.tui.app import RfplanApp
from rfplan.tui.composing import DRAWING
from rfplan.tui.request import Request
from rfplan.tui.unopened import Unread
from rfplan.tui.workspace import Message, Workspace

HEAVY = {"numpy", "scipy", "skrf", "pint", "pydantic", "yaml"}
Play = Callable[[RfplanApp, Pilot[int]], Awaitable[None]]


def play(folder: Path | None, script: Play, size: tuple[int, int] = (120, 40)) -> RfplanApp:
    """Run the application without a terminal, with somebody at its keys."""
    app = RfplanApp(Request(folder), look_of())

    async def run() -> None:
        async with app.run_test(size=size) as pilot:
            await script(app, pilot)

    asyncio.run(run())
    if app.workspace is not None:
        app.workspace.session.journal.close(keep=False)
    return app


async def opened(app: RfplanApp, pilot: Pilot[int]) -> Workspace:
    """Wait for the plan."""
    for _ in range(200):
        if app.workspace is not None:
            await pilot.pause()
            return app.workspace
        await pilot.pause(0.02)
    raise AssertionError(app.unopened.unread)


def screen_text(app: RfplanApp) -> list[str]:
    """Return what Textual has on its screen."""
    strips = app.screen._compositor.render_strips()
    return [strip.text for strip in strips]


def test_what_is_shown_first_needs_no_heavy_package() -> None:
    code = "import rfplan.tui.app, rfplan.tui.command, sys; print(*sys.modules)"
    loaded = subprocess.run(
        [sys.executable, "-c", code], capture_output=True, text=True, check=True
    )
    assert not HEAVY & set(loaded.stdout.split())


def test_a_key_pressed_before_the_plan_is_there_is_kept(frozen: Path) -> None:
    async def script(app: RfplanApp, pilot: Pilot[int]) -> None:
        assert app.workspace is None
        await pilot.press("2")
        workspace = await opened(app, pilot)
        assert workspace.screen == "path"

    play(frozen, script)


def test_what_textual_shows_is_the_frame(frozen: Path) -> None:
    async def script(app: RfplanApp, pilot: Pilot[int]) -> None:
        workspace = await opened(app, pilot)
        for key in ("down", "m", "right", "enter", *"2345", "question_mark", "escape"):
            await pilot.press(key)
            await pilot.pause()
            assert workspace.frame is not None
            assert screen_text(app) == workspace.frame.text().split("\n")
            assert app.cursor_position == workspace.frame.cursor

    play(frozen, script)


def test_moving_saving_and_undoing_by_keys(frozen: Path) -> None:
    async def script(app: RfplanApp, pilot: Pilot[int]) -> None:
        workspace = await opened(app, pilot)
        await pilot.press("m", "right", "right", "shift+right", "enter", "ctrl+s")
        assert workspace.session.unsaved == 0
        assert "saved" in (workspace.message.text if workspace.message else "")
        await pilot.press("u")
        assert workspace.session.unsaved == 1
        await pilot.press("ctrl+y")
        assert workspace.session.unsaved == 0

    play(frozen, script)


def test_a_click_places_and_a_drag_takes_along(frozen: Path) -> None:
    async def script(app: RfplanApp, pilot: Pilot[int]) -> None:
        workspace = await opened(app, pilot)
        await pilot.press("m")
        assert workspace.frame is not None
        column, row = workspace.frame.cursor
        await pilot.mouse_down(offset=(column + 4, row))
        await pilot.hover(offset=(column + 9, row))
        await pilot.mouse_up(offset=(column + 9, row))
        await pilot.pause()
        assert workspace.frame.cursor[0] == pytest.approx(column + 9, abs=1)
        assert workspace.placed[DRAWING].area.holds(row, column + 9)

    play(frozen, script)


def test_a_small_terminal_recovers_with_the_move_going_on(frozen: Path) -> None:
    async def script(app: RfplanApp, pilot: Pilot[int]) -> None:
        workspace = await opened(app, pilot)
        await pilot.press("m", "right")
        before = screen_text(app)
        await pilot.resize_terminal(79, 24)
        await pilot.pause()
        assert "rfplan draws from 80 x 24" in " ".join(" ".join(screen_text(app)).split())
        await pilot.resize_terminal(120, 40)
        await pilot.pause()
        assert screen_text(app) == before
        assert workspace.moving is not None

    play(frozen, script)


def test_a_change_on_disk_is_seen_without_a_key(frozen: Path) -> None:
    async def script(app: RfplanApp, pilot: Pilot[int]) -> None:
        workspace = await opened(app, pilot)
        await pilot.pause(1.2)
        (frozen / "new.yaml").write_text(PLAN.replace("at: 114 L4 in", "at: 118 L4 in"))
        (frozen / "new.yaml").replace(frozen / "plan.yaml")
        for _ in range(150):
            await pilot.pause(0.02)
            if workspace.message is not None and "changed on disk" in workspace.message.text:
                return
        raise AssertionError("not seen")

    play(frozen, script)


def test_a_file_broken_outside_after_saving_is_told_without_a_key(frozen: Path) -> None:
    async def script(app: RfplanApp, pilot: Pilot[int]) -> None:
        workspace = await opened(app, pilot)
        await pilot.press("m", "right", "enter", "ctrl+s")
        with (frozen / "plan.yaml").open("a") as stream:
            stream.write("foo: bar\n")
        for _ in range(150):
            await pilot.pause(0.02)
            if "plan.yaml:" in screen_text(app)[-2]:
                break
        assert "plan.yaml:" in screen_text(app)[-2]
        assert "saved" not in screen_text(app)[0]
        assert workspace.banner

    play(frozen, script)


def test_a_plan_with_a_fault_is_told_with_its_line_and_q_quits(frozen: Path) -> None:
    (frozen / "plan.yaml").write_text(PLAN.replace("on: belly", "on: nowhere"))

    async def script(app: RfplanApp, pilot: Pilot[int]) -> None:
        await unread(app, pilot)
        assert any("plan.yaml:" in line for line in screen_text(app))
        await pilot.press("q")

    assert play(frozen, script).return_value == 2


async def unread(app: RfplanApp, pilot: Pilot[int]) -> Unread:
    """Wait for the problems of the plan."""
    for _ in range(100):
        await pilot.pause(0.02)
        if app.unopened.unread is not None:
            return app.unopened.unread
    raise AssertionError("no problem was told")


def test_a_plan_with_faults_shows_them_all_and_is_opened_once_it_is_mended(frozen: Path) -> None:
    (frozen / "plan.yaml").write_text(f"{PLAN.replace('on: belly', 'on: nowhere')}foo: bar\n")

    async def script(app: RfplanApp, pilot: Pilot[int]) -> None:
        told = await unread(app, pilot)
        shown = "".join(screen_text(app))
        assert "The plan cannot be read: 2 problems" in shown
        assert all(line[-30:] in shown.replace("  ", "") for line in told.lines)
        assert "E edit file" in shown and "q quit" in shown
        await pilot.press("m")  # a key that nothing waits for
        (frozen / "airframe.yaml").touch()
        (frozen / "new.yaml").write_text(PLAN)
        (frozen / "new.yaml").replace(frozen / "plan.yaml")
        workspace = await opened(app, pilot)
        assert workspace.moving is None
        await pilot.pause(0.1)
        assert "Paths" in "".join(screen_text(app))
        await pilot.press("q")

    assert play(frozen, script, size=(80, 24)).return_value == 0


def test_the_editor_mends_a_plan_that_cannot_be_read(
    frozen: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    (frozen / "plan.yaml").write_text(f"{PLAN}foo: bar\n")
    given: list[tuple[Path, int]] = []

    def mend(_: RfplanApp, file: Path, line: int) -> str:
        given.append((file, line))
        file.write_text(PLAN)
        return ""

    monkeypatch.setattr("rfplan.tui.app.edit_outside", mend)

    async def script(app: RfplanApp, pilot: Pilot[int]) -> None:
        await unread(app, pilot)
        await pilot.press("E")
        await opened(app, pilot)
        assert given == [(frozen / "plan.yaml", len(PLAN.splitlines()) + 1)]
        await pilot.press("q")

    play(frozen, script)


def test_without_a_plan_it_says_how_to_open_one() -> None:
    async def script(app: RfplanApp, pilot: Pilot[int]) -> None:
        assert any("Nothing open." in line for line in screen_text(app))
        await pilot.press("q")

    assert play(None, script).return_value == 0


def test_quitting_with_changes_asks_and_discarding_leaves_no_journal(
    frozen: Path, tmp_path: Path
) -> None:
    async def script(app: RfplanApp, pilot: Pilot[int]) -> None:
        workspace = await opened(app, pilot)
        await pilot.press("m", "right", "enter", "q")
        assert workspace.overlay is not None
        await pilot.press("d")

    assert play(frozen, script).return_value == 0
    assert not list((tmp_path / "state").rglob("*.jsonl"))


def test_paste_goes_into_the_field(frozen: Path) -> None:
    from textual import events

    async def script(app: RfplanApp, pilot: Pilot[int]) -> None:
        workspace = await opened(app, pilot)
        await pilot.press("g", "ctrl+u")
        app.post_message(events.Paste("118 L6 in"))
        await pilot.pause()
        assert any("118 L6 in" in line for line in screen_text(app))
        assert workspace.moving is not None

    play(frozen, script)


def test_a_search_goes_on_between_keys(frozen: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("rfplan.tui.proposing.AT_ONCE_S", 0.0)

    async def script(app: RfplanApp, pilot: Pilot[int]) -> None:
        workspace = await opened(app, pilot)
        await pilot.press("p")
        for _ in range(200):
            if workspace.mode is Mode.PROPOSED:
                break
            await pilot.pause(0.02)
        await pilot.pause()
        assert any("best first" in line for line in screen_text(app))

    play(frozen, script)


def test_the_editor_is_called_without_a_shell(
    frozen: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    called: list[list[str]] = []
    monkeypatch.setenv("VISUAL", "ed --quiet")
    monkeypatch.setattr(RfplanApp, "suspend", lambda _: nullcontext())
    monkeypatch.setattr(subprocess, "run", lambda words, check: called.append(words))

    async def script(app: RfplanApp, pilot: Pilot[int]) -> None:
        await opened(app, pilot)
        await pilot.press("E")

    play(frozen, script)
    assert called[0][:2] == ["ed", "--quiet"]
    assert called[0][2].startswith("+")
    assert called[0][3].endswith("plan.yaml")


def test_a_fault_of_its_own_ends_in_good_order(
    frozen: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def fail(_: Workspace, __: str) -> None:
        raise RuntimeError("made up")

    async def script(app: RfplanApp, pilot: Pilot[int]) -> None:
        await opened(app, pilot)
        monkeypatch.setattr(Workspace, "press", fail)
        await pilot.press("m")

    app = play(frozen, script)
    assert app.return_value == 70
    assert str(app.own_fault) == "made up"


@pytest.mark.parametrize("key", ["ctrl+q", "q"])
def test_no_key_gets_past_the_question_about_unsaved_changes(frozen: Path, key: str) -> None:
    async def script(app: RfplanApp, pilot: Pilot[int]) -> None:
        workspace = await opened(app, pilot)
        await pilot.press("m", "right", "enter", key)
        await pilot.pause()
        assert app.is_running
        assert workspace.overlay is not None
        await pilot.press("escape", "u", "q")

    play(frozen, script)


def test_every_key_of_the_table_arrives_under_its_name(frozen: Path) -> None:
    typed: list[str] = []
    keys = {key for action in ACTIONS for key in action.keys} - {"ctrl+l"}
    named = {
        "?": "question_mark",
        "/": "slash",
        ":": "colon",
        "+": "plus",
        "=": "equals_sign",
        "-": "minus",
        "[": "left_square_bracket",
        "]": "right_square_bracket",
        " ": "space",
    }

    async def script(app: RfplanApp, pilot: Pilot[int]) -> None:
        workspace = await opened(app, pilot)
        workspace.press = typed.append  # type: ignore[method-assign]
        for key in sorted(keys):
            await pilot.press(named.get(key, key))

    play(frozen, script)
    assert typed == sorted(keys)


async def until(said: Callable[[], bool], pilot: Pilot[int]) -> None:
    """Wait for something to be so."""
    for _ in range(250):
        if said():
            return
        await pilot.pause(0.02)
    raise AssertionError("it never was")


def test_an_export_goes_on_beside_the_keys_and_says_how_far_it_is(
    frozen: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    go_on = Event()

    def slowly(*_: object) -> Iterator[str]:
        yield "1 of 2 sheets"
        assert go_on.wait(10.0)
        yield "2 of 2 sheets"

    async def script(app: RfplanApp, pilot: Pilot[int]) -> None:
        workspace = await opened(app, pilot)
        monkeypatch.setattr("rfplan.tui.issuing.carried_out", slowly)
        await pilot.press("x", "enter")
        await until(lambda: any("Writing 1 of 2 sheets." in row for row in screen_text(app)), pilot)
        await pilot.press("2", "x")
        assert workspace.screen == "path"
        assert "Wait for it." in (workspace.message.text if workspace.message else "")
        go_on.set()
        await until(lambda: "written in" in (workspace.message or Message("")).text, pilot)
        assert workspace.issuing.progress == ""

    play(frozen, script)


def test_files_are_there_when_it_says_so(frozen: Path) -> None:
    async def script(app: RfplanApp, pilot: Pilot[int]) -> None:
        workspace = await opened(app, pilot)
        await pilot.press("x", "a", "enter")
        await until(lambda: "files written in" in (workspace.message or Message("")).text, pilot)
        assert len(list((frozen / "sheets_A_design").iterdir())) == len(SHEETS) + 2

    play(frozen, script)


def test_a_fault_of_its_own_beside_the_keys_ends_in_good_order(
    frozen: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def fail(*_: object) -> Iterator[str]:
        yield "1 of 1 sheets"
        raise RuntimeError("made up")

    async def script(app: RfplanApp, pilot: Pilot[int]) -> None:
        await opened(app, pilot)
        monkeypatch.setattr("rfplan.tui.issuing.carried_out", fail)
        await pilot.press("x", "enter")
        await until(lambda: app.own_fault is not None, pilot)

    app = play(frozen, script)
    assert app.return_value == 70
    assert str(app.own_fault) == "made up"
