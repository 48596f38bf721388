# SPDX-License-Identifier: Apache-2.0
"""The real thing: a terminal, real keys, real bytes."""

from __future__ import annotations

import os
import shutil
import signal
import subprocess
import sys
import time
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

import pytest

from rfplan.reports.sheets import SHEETS
from rfplan.tui.actions import ScreenId

THOROUGH = os.environ.get("RFPLAN_THOROUGH") == "1"

pytestmark = [
    pytest.mark.thorough,
    pytest.mark.skipif(not THOROUGH, reason="long; RFPLAN_THOROUGH=1 runs it, with tmux"),
]

PATIENCE_S = 15.0


@dataclass(frozen=True, slots=True)
class Tmux:
    """One terminal in a server of its own."""

    socket: Path

    def do(self, *words: str) -> str:
        """Run one tmux command."""
        tmux = shutil.which("tmux")
        assert tmux is not None, "tmux is missing"
        command = [tmux, "-S", str(self.socket), "-f", "/dev/null", *words]
        return subprocess.run(command, capture_output=True, text=True, check=True).stdout

    def start(self, command: str, size: tuple[int, int]) -> None:
        """Start a shell command in a terminal that stays when it ends."""
        columns, rows = map(str, size)
        self.do("new-session", "-d", "-x", columns, "-y", rows, "sh")
        self.do("set", "-g", "remain-on-exit", "on")
        self.do("send-keys", command, "Enter")

    def screen(self) -> str:
        """Return what is on the screen."""
        return self.do("capture-pane", "-p")

    def keys(self, *keys: str) -> None:
        """Press keys."""
        self.do("send-keys", *keys)

    def wait(self, words: str) -> str:
        """Wait until something is on the screen."""
        until = time.monotonic() + PATIENCE_S
        while time.monotonic() < until:
            if words in (screen := self.screen()):
                return screen
            time.sleep(0.05)
        raise AssertionError(f"{words!r} never came:\n{self.screen()}")


@pytest.fixture
def tmux(tmp_path: Path) -> Iterator[Tmux]:
    terminal = Tmux(tmp_path / "tmux")
    yield terminal
    subprocess.run(
        ["tmux", "-S", str(terminal.socket), "kill-server"], capture_output=True, check=False
    )


def command(folder: Path, *environ: str) -> str:
    """Return the shell line that opens a plan."""
    state = f"XDG_STATE_HOME={folder.parent / 'state'}"
    root = Path(__file__).resolve().parents[2]
    settings = " ".join(["COLORTERM=truecolor", state, f"PYTHONPATH={root}", *environ])
    return f"{settings} {sys.executable} -m rfplan {folder}; echo ended with $?"


@pytest.mark.parametrize("size", [(80, 24), (120, 40), (200, 60)])
def test_keys_move_save_and_undo(tmux: Tmux, frozen: Path, size: tuple[int, int]) -> None:
    tmux.start(command(frozen), size)
    tmux.wait("opened")
    assert tmux.do("display", "-p", "#{cursor_flag}").strip() == "1"
    tmux.keys("m", "Right", "Right")
    tmux.wait("FS 164.0")
    tmux.keys("S-Right")
    tmux.wait("FS 174.0")
    tmux.keys("Enter", "C-s")
    tmux.wait("saved plan.yaml, 1 change")
    tmux.keys("u")
    tmux.wait("1 unsaved")
    tmux.keys("r")
    tmux.wait("Read-out")
    tmux.keys("q")
    tmux.keys("C-s")
    tmux.wait("saved plan.yaml, 1 change")
    tmux.keys("q")
    tmux.wait("ended with 0")
    assert tmux.do("display", "-p", "#{cursor_flag}").strip() == "1"


@pytest.mark.parametrize("size", [(80, 24), (120, 40), (200, 60)])
def test_a_reading_is_recorded_and_a_sheet_exported(
    tmux: Tmux, frozen: Path, size: tuple[int, int]
) -> None:
    tmux.start(command(frozen), size)
    tmux.wait("opened")
    tmux.keys(ScreenId.MEASURED.key, "Home", "Enter")
    tmux.wait("Reading m2 of com as built")
    tmux.keys("1", ".", "1", "0")
    tmux.wait("AGREES")
    tmux.keys("Enter")
    tmux.wait("com measured 1.10 dB at 127.00 MHz")
    tmux.keys("C-s")
    tmux.wait("saved plan.yaml, 1 change")
    tmux.keys(ScreenId.SHEET.key)
    tmux.wait("every copy says DRAFT")
    tmux.keys("]", "[", "PageDown", "x", "a")
    count = len(SHEETS) + 2
    tmux.wait(f"{count} of {count} marked")
    tmux.keys("Enter")
    tmux.wait(f"{count} files written in")
    tmux.keys("q")
    tmux.wait("ended with 0")
    assert len(list((frozen / "sheets_A_design").iterdir())) == count
    assert "loss: 1.1 dB" in (frozen / "plan.yaml").read_text("utf-8")


def test_a_window_too_small_says_so_and_comes_back(tmux: Tmux, frozen: Path) -> None:
    tmux.start(command(frozen), (120, 40))
    tmux.wait("opened")
    tmux.do("resize-window", "-x", "79", "-y", "24")
    tmux.wait("rfplan draws from 80 x 24")
    tmux.do("resize-window", "-x", "120", "-y", "40")
    tmux.wait("Frozen glider")
    tmux.keys("q")
    tmux.wait("ended with 0")


def process_of(tmux: Tmux) -> int:
    """Return the process that runs in the shell of the terminal."""
    shell = tmux.do("display", "-p", "#{pane_pid}").strip()
    return int(Path(f"/proc/{shell}/task/{shell}/children").read_text().split()[0])


def test_what_was_changed_is_offered_after_a_kill(tmux: Tmux, frozen: Path) -> None:
    tmux.start(command(frozen), (80, 24))
    tmux.wait("opened")
    tmux.keys("m", "Right", "Enter")
    tmux.wait("1 unsaved")
    os.kill(process_of(tmux), signal.SIGKILL)
    tmux.wait("ended with")
    tmux.do("respawn-pane", "-k", "sh")
    tmux.keys(command(frozen), "Enter")
    tmux.wait("Found 1 change")
    tmux.keys("Enter")
    tmux.wait("1 unsaved")


def test_the_terminal_is_as_before_when_the_system_ends_it(tmux: Tmux, frozen: Path) -> None:
    tmux.start(command(frozen), (80, 24))
    tmux.wait("opened")
    os.kill(process_of(tmux), signal.SIGTERM)
    tmux.wait("ended with 143")
    assert tmux.do("display", "-p", "#{cursor_flag} #{alternate_on}").split() == ["1", "0"]
    tmux.keys("stty -a", "Enter")
    assert " icanon" in tmux.wait("icanon")


@pytest.mark.parametrize("environ", [("NO_COLOR=1",), ("TERM=linux", "COLORTERM=")])
def test_without_colours_it_is_still_there(
    tmux: Tmux, frozen: Path, environ: tuple[str, ...]
) -> None:
    tmux.start(command(frozen, *environ), (80, 24))
    tmux.wait("opened")
    assert "NEAR" in tmux.screen()
    coloured = tmux.do("capture-pane", "-p", "-e")
    assert "[38;2;" not in coloured
    assert "[48;2;" not in coloured


def test_idle_it_writes_nothing(tmux: Tmux, frozen: Path, tmp_path: Path) -> None:
    tmux.start(command(frozen), (120, 40))
    tmux.wait("opened")
    time.sleep(1.0)
    log = tmp_path / "bytes"
    tmux.do("pipe-pane", "-O", f"cat > {log}")
    time.sleep(8.0)
    tmux.do("pipe-pane")
    assert log.read_bytes() == b""
