# SPDX-License-Identifier: Apache-2.0
"""The workspace in a terminal: keys and clicks in, changed cells out; nothing is judged here."""

from __future__ import annotations

from collections.abc import Callable
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING

from textual import events
from textual.app import App
from textual.geometry import Offset, Size

from rfplan.tui.aside import Told, follow
from rfplan.tui.bars import Frame
from rfplan.tui.face import Face, Surface
from rfplan.tui.look import Look
from rfplan.tui.outside import edit_outside, heed_ending, keep_copy, show_cursor, signature
from rfplan.tui.request import Request, Steps
from rfplan.tui.typed import name_of
from rfplan.tui.unopened import QUIT, Unopened, Unread

if TYPE_CHECKING:
    from rfplan.tui.workspace import Workspace

OWN_FAULT, ENDED = 70, 143
POLL_S, PAUSE_S = 1.0, 0.01


class RfplanApp(App[int], inherit_bindings=False):
    """The terminal side of a workspace; every key goes by the table of actions."""

    ENABLE_COMMAND_PALETTE = False
    CSS = "Surface { overflow: hidden; } .plain { background: ansi_default; }"

    def __init__(self, request: Request, look: Look) -> None:
        super().__init__(ansi_color=look.plain)
        self.request = request
        self.look = look
        self.face = Face(look.theme)
        self.workspace: Workspace | None = None
        self.unopened = Unopened(request.path, look.glyphs)
        self.own_fault: Exception | None = None
        self._seen: object = None
        self._button_down = False

    def get_default_screen(self) -> Surface:
        """Return a screen without keys of its own."""
        return Surface(self.face)

    def on_mount(self) -> None:
        self.screen.set_class(self.look.plain, "plain")
        if self.request.path is not None:
            self.call_after_refresh(self._read)
        self.set_interval(POLL_S, self._poll)

    def on_ready(self) -> None:
        if show_cursor(self):
            heed_ending(partial(self.leave, ENDED))
        self._show()

    def on_resize(self, event: events.Resize) -> None:
        self._show(event.size)

    def _read(self) -> None:
        self.run_worker(self._open, thread=True, exclusive=True, group="read")

    def _open(self) -> None:
        """Read and judge the plan, in a thread of its own."""
        from rfplan.tui.opening import open_workspace

        self.unopened.look()
        result = open_workspace(self.request, self.look, self)
        self.call_from_thread(self._opened, result)

    def _opened(self, result: Workspace | Unread) -> None:
        if isinstance(result, Unread):
            self.unopened.unread = result
        elif self.workspace is not None:  # it was read twice, by a key and by a look at the files
            result.session.close()
        else:
            self.workspace, self._seen = result, None
            result.filing.opened()
            for key in self.unopened.waiting:
                self._show()
                result.press(key)
        self._show()

    def _show(self, size: Size | None = None) -> None:
        """Draw the screen and put the cursor where it belongs."""
        frame = self._frame(*(size or self.size))
        theme = self.look.theme if self.workspace is None else self.workspace.look.theme
        self.cursor_position = Offset(*frame.cursor)
        self.face.show(frame, theme)
        if self.workspace is not None and self.workspace.waits:
            self.set_timer(PAUSE_S, lambda: self._answer(lambda w: w.work()))

    def _frame(self, columns: int, rows: int) -> Frame:
        if self.workspace is not None:
            from rfplan.tui.composing import compose

            return compose(self.workspace, columns, rows)
        return self.unopened.frame(columns, rows)

    def on_key(self, event: events.Key) -> None:
        event.stop()
        event.prevent_default()
        key = name_of(event)
        if self.workspace is not None:
            self._answer(lambda w: w.press(key))
        elif key in QUIT and self.unopened.may_end:
            self.exit(2 if self.unopened.unread else 0)
        elif self.unopened.unread is None:
            self.unopened.waiting.append(key)
        elif key == "E" and self.unopened.unread.at:
            self.unopened.said = edit_outside(self, *self.unopened.unread.at)
            show_cursor(self)
            self._read()
            self._show()

    def on_paste(self, event: events.Paste) -> None:
        self._answer(lambda w: w.paste(event.text))

    def on_mouse_down(self, event: events.MouseDown) -> None:
        self._button_down = event.button == 1
        if self._button_down:
            self._answer(lambda w: w.click(event.screen_x, event.screen_y))

    def on_mouse_up(self, event: events.MouseUp) -> None:
        self._button_down = False

    def on_mouse_move(self, event: events.MouseMove) -> None:
        if self._button_down:
            self._answer(lambda w: w.drag(event.screen_x, event.screen_y))

    def on_mouse_scroll_down(self, event: events.MouseScrollDown) -> None:
        self._answer(lambda w: w.wheel(event.screen_x, event.screen_y, 1))

    def on_mouse_scroll_up(self, event: events.MouseScrollUp) -> None:
        self._answer(lambda w: w.wheel(event.screen_x, event.screen_y, -1))

    def _answer(self, do: Callable[[Workspace], object]) -> None:
        """Let the workspace do something and show it; a fault of our own ends in good order."""
        if self.workspace is None:
            return
        try:
            do(self.workspace)
            self._show()
        except Exception as fault:
            self.own_fault = fault
            self.exit(OWN_FAULT)

    def _poll(self) -> None:
        if self.workspace is not None:
            self.run_worker(self._look_at_disk, thread=True, exclusive=True, group="poll")
        elif self.unopened.has_changed():
            self._read()

    def _look_at_disk(self) -> None:
        """Tell from time and size whether a file may have changed, away from the keys."""
        if self.workspace is None:
            return
        seen = signature(self.workspace.session.file)
        if seen != self._seen:
            self.call_from_thread(self._answer, lambda w: w.filing.look_at_disk())
        self._seen = seen

    def leave(self, code: int = 0) -> None:
        """End; the journal stays if something is unsaved."""
        if self.workspace is not None:
            self.workspace.session.close()
        self.exit(code)

    def repaint(self) -> None:
        """Send everything again."""
        self.screen.refresh(layout=True)
        self.face.send_all()

    def edit_file(self, file: Path, line: int) -> None:
        """Leave the screen to the editor of the user until it ends."""
        assert self.workspace is not None
        self.workspace.say(edit_outside(self, file, line))
        show_cursor(self)
        self.workspace.filing.look_at_disk()

    def aside(self, steps: Steps) -> None:
        """Let something that takes long be done while the keys go on."""
        self.run_worker(partial(follow, self, steps), thread=True, group="aside")

    def on_told(self, event: Told) -> None:
        self._answer(lambda _: event.tell())

    def copy(self, text: str) -> str:
        """Put a text on the clipboard of the terminal and into a file."""
        self.copy_to_clipboard(text)
        return keep_copy(text)

    def open_plan(self, path: Path) -> None:
        """Close this plan and read another."""
        if self.workspace is not None:
            self.workspace.session.close()
        self.workspace, self.request = None, Request(path)
        self.unopened = Unopened(path, self.look.glyphs)
        self._read()
        self._show()
