# SPDX-License-Identifier: Apache-2.0
"""The workspace without a terminal: what is open and shown, and what keys and clicks do to it."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path
from typing import Protocol

from rfplan.model.assessment import Assessment
from rfplan.reports.cells import LengthUnit
from rfplan.reports.wrapping import wrapped
from rfplan.tui.actions import Mode, ScreenId, action_of_key
from rfplan.tui.bars import Frame, Hit
from rfplan.tui.changing import Changing
from rfplan.tui.coupling import Coupling
from rfplan.tui.filing import Filing
from rfplan.tui.issuing import Issuing
from rfplan.tui.layout import Area, ViewKind
from rfplan.tui.look import Look
from rfplan.tui.looking import Looking
from rfplan.tui.measuring import Measuring
from rfplan.tui.moving import Moving
from rfplan.tui.overlays.overlay import Overlay
from rfplan.tui.panes import Item, Pane, Scroll
from rfplan.tui.present.antenna import Standing, sentence
from rfplan.tui.present.tags import Type
from rfplan.tui.proposing import Proposing
from rfplan.tui.request import Steps
from rfplan.tui.runs import Row, Run, width
from rfplan.tui.session import Session
from rfplan.tui.showing import Showing
from rfplan.tui.sketch import Sketch
from rfplan.tui.tokens import Token
from rfplan.tui.tuning import Tuning

BETWEEN_KEYS_S, SEARCHING_S = 0.02, 0.05
"""How long work goes on between keys, and while the only key is the one that ends a search."""

DRAWING = "drawing"
"""The pane that is the drawing."""


_HINTS = {
    Mode.LOOKING: "",
    Mode.MOVING: "enter places the antenna, esc puts it back.",
    Mode.PROPOSED: "enter accepts the place, esc puts the antenna back.",
    Mode.SEARCHING: "Searching; esc stops.",
}
"""What is said of a key that has to wait."""


class Terminal(Protocol):
    """What the workspace asks of whoever shows it."""

    def leave(self) -> None:
        """End the program."""

    def repaint(self) -> None:
        """Send the whole screen again."""

    def edit_file(self, file: Path, line: int) -> None:
        """Open an editor at a line, and come back when it has ended."""

    def copy(self, text: str) -> str:
        """Put a text on the clipboard, and return where it can be found if that is refused."""

    def aside(self, steps: Steps) -> None:
        """Let something that takes long go on beside the keys, and tell each step of it."""

    def open_plan(self, path: Path) -> None:
        """Close this plan and open another."""


@dataclass(slots=True)
class Message:
    """What the sentence row says until the next key."""

    text: str
    token: Token = Token.TEXT


@dataclass(slots=True)
class Placed:
    """A pane where it was drawn last."""

    area: Area
    pane: Pane | None
    entries: dict[int, Item]


class Workspace:
    """One plan at work on its screens."""

    session: Session
    terminal: Terminal
    looking: Looking
    showing: Showing
    changing: Changing
    coupling: Coupling
    proposing: Proposing
    tuning: Tuning
    filing: Filing
    issuing: Issuing
    measuring: Measuring

    def __init__(self, session: Session, look: Look, terminal: Terminal) -> None:
        self.session = session
        self.look = look
        self.terminal = terminal
        self.screen = ScreenId.AIRFRAME
        self.overlay: Overlay | None = None
        self.moving: Moving | None = None
        self.message: Message | None = None
        self.banner = ""
        self.sketch = Sketch()
        self.single: ViewKind | None = None
        self.findings_on_top = False
        self.placed: dict[str, Placed] = {}
        self.frame: Frame | None = None
        self.looking = Looking(self)
        self.showing = Showing(self)
        self.changing = Changing(self)
        self.coupling = Coupling(self)
        self.proposing = Proposing(self)
        self.tuning = Tuning(self)
        self.filing = Filing(self)
        self.issuing = Issuing(self)
        self.measuring = Measuring(self)
        self._scrolls: dict[tuple[ScreenId, str], Scroll] = {}

    @property
    def mode(self) -> Mode:
        """What the keys are for."""
        if self.moving is None:
            return Mode.LOOKING
        if self.proposing.waits:
            return Mode.SEARCHING
        return Mode.PROPOSED if self.moving.choosing else Mode.MOVING

    @property
    def waits(self) -> bool:
        """Whether something is still to be worked out between keys."""
        return self.changing.waits or self.proposing.waits

    def work(self) -> None:
        """Work a little on what is still to be worked out, so that no key waits long."""
        self.changing.work(BETWEEN_KEYS_S)
        self.proposing.work(SEARCHING_S)

    def finish(self) -> None:
        """Work out everything that is still to be."""
        while self.waits:
            self.work()

    @property
    def assessment(self) -> Assessment:
        """What is shown: the plan as it is, or as it would be with the antenna on the move."""
        moving = self.moving
        if moving is None or moving.assessment is None:
            return self.session.assessment
        return moving.assessment

    @property
    def type(self) -> Type:
        """What rows are set with."""
        return Type(self.look.glyphs, self.look.unit)

    @property
    def unit(self) -> LengthUnit:
        """The unit of lengths on the screen."""
        return self.look.unit

    @property
    def standing(self) -> Standing:
        """The selected antenna as it is looked at."""
        return self._standing(self.assessment)

    def _standing(self, assessment: Assessment) -> Standing:
        chosen = self.session.selection
        antenna = chosen.antenna or ""
        fitted = assessment.plan.installation.antennas.get(antenna)
        types = self.session.file.catalog.antennas
        title = ""
        if fitted is not None:
            own = fitted.title or ""
            known = types[fitted.type].title if fitted.type in types else fitted.type
            title = f"{known}, {own}" if own else known
        was = self.moving.was if self.moving is not None else None
        return Standing(assessment, antenna, chosen.path, was, title)

    def sentence(self, columns: int) -> Row:
        """Return what the plan comes to for what is selected, in words."""
        return self.sentence_of(self.assessment, columns)

    def sentence_of(self, assessment: Assessment, columns: int) -> Row:
        """Return the same for another assessment."""
        return sentence(self._standing(assessment), columns, self.type)

    def verdict_rows(self, assessment: Assessment, columns: int) -> list[Row]:
        """Return the same over as many rows as it takes."""
        *lead, told = self.sentence_of(assessment, 10_000)
        first = wrapped(told.text, max(1, columns - width(lead)))[0]
        rest = told.text[len(first) :].strip()
        more = wrapped(rest, columns) if rest else []
        return [[*lead, Run(first)], *([Run(line)] for line in more)]

    def say(self, text: str, token: Token = Token.TEXT) -> None:
        """Let the sentence row say something until the next key."""
        self.message = Message(text, token) if text else None

    def told(self) -> Row:
        """Return the message, or how far something is that takes long; nothing without either."""
        if self.message is not None:
            return [Run(self.message.text, self.message.token)]
        return [Run(self.issuing.progress, Token.DIM)] if self.issuing.progress else []

    def said(self, columns: int) -> Row:
        """Return the sentence row; a banner keeps it until the files can be read again."""
        if self.banner:
            return [Run(self.banner, Token.FAIL)]
        if told := self.told():
            return told
        if searching := self.proposing.said():
            return [Run(searching, Token.DIM)]
        own = {
            ScreenId.COUPLING: self.coupling.sentence,
            ScreenId.MEASURED: self.measuring.sentence,
            ScreenId.SHEET: self.issuing.sentence,
        }.get(self.screen, self.sentence)
        return self.looking.finding_row(columns) or own(columns)

    def scroll(self, pane: str) -> Scroll:
        """Return how far a pane of this screen is scrolled."""
        return self._scrolls.setdefault((self.screen, pane), Scroll())

    def press(self, key: str) -> None:
        """Do what a key is for; a question whether to place an antenna stands for one key."""
        if self.moving is not None and key != "enter":
            self.moving.asked = False
        if key == "ctrl+l":
            self.terminal.repaint()
        elif self.overlay is not None:
            self._press_overlay(self.overlay, key)
        else:
            self.message = None
            self.looking.key = key
            action = action_of_key(key, self.screen, self.mode)
            if action is not None:
                self._run(action.run, action.refusal(self))
            elif action_of_key(key, self.screen, Mode.LOOKING):
                self.say(_HINTS[self.mode], Token.DIM)

    def _press_overlay(self, overlay: Overlay, key: str) -> None:
        self.message = None
        screen = next((one for one in ScreenId if one.key == key), None)
        if key == "escape":
            overlay.escape()
        elif screen is not None and not overlay.types:
            self.show(screen)
        else:
            overlay.press(key)

    def show(self, screen: ScreenId) -> None:
        """Show a screen, past an overlay that only tells; any other one has to be ended first."""
        overlay = self.overlay
        if overlay is not None and not overlay.passing:
            words = f"esc closes this first; then {screen.key} shows {screen.label}."
            self.say(words, Token.DIM)
            return
        self.overlay = None
        self.press(screen.key)

    def _run(self, deed: Callable[[Workspace], object], refusal: str) -> None:
        if refusal:
            self.say(refusal, Token.DIM)
        else:
            deed(self)

    def run(self, id: str) -> None:
        """Do what an action of the table is for, as if its key had been pressed."""
        from rfplan.tui.actions import ACTIONS

        action = next(one for one in ACTIONS if one.id == id)
        self._run(action.run, action.refusal(self))

    def paste(self, text: str) -> None:
        """Take text that was pasted."""
        if self.overlay is not None:
            self.overlay.paste(text)

    def click(self, column: int, row: int) -> None:
        """Do what a cell is for."""
        hit = next((hit for hit in self._hits() if hit.area.holds(row, column)), None)
        if hit is not None:
            self.message = None
            hit.press()
        elif self.overlay is None:
            self.message = None
            self.looking.click(column, row)

    def drag(self, column: int, row: int) -> None:
        """Take the antenna on the move along."""
        if self.overlay is None and self.moving is not None:
            self.looking.click(column, row)

    def wheel(self, column: int, row: int, down: int) -> None:
        """Scroll the pane under a cell, or look closer at the drawing."""
        if self.overlay is not None:
            self.overlay.press("down" if down > 0 else "up")
        else:
            self.looking.wheel(column, row, down)

    def _hits(self) -> list[Hit]:
        return self.frame.hits if self.frame is not None else []
