# SPDX-License-Identifier: Apache-2.0
"""The one table of what can be done: it feeds the keys, the key row, the help and the palette."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from enum import StrEnum
from typing import TYPE_CHECKING, TypeAlias

if TYPE_CHECKING:
    from rfplan.tui.workspace import Workspace

Deed: TypeAlias = "Callable[[Workspace], object]"
Reason: TypeAlias = "Callable[[Workspace], str]"


class Mode(StrEnum):
    """What the keys are for at the moment."""

    LOOKING = "looking"
    MOVING = "moving"
    PROPOSED = "proposed"
    SEARCHING = "searching"


class ScreenId(StrEnum):
    """The screens, in the order of their tabs."""

    AIRFRAME = "airframe"
    PATH = "path"
    COUPLING = "coupling"
    MEASURED = "measured"
    SHEET = "sheet"
    CHANGES = "changes"

    @property
    def label(self) -> str:
        """What stands on its tab."""
        return self.value.capitalize()

    @property
    def key(self) -> str:
        """The key that shows it: its place among the tabs."""
        return str(list(ScreenId).index(self) + 1)


EVERY_SCREEN = tuple(ScreenId)
LOOKING = (Mode.LOOKING,)
MOVING = (Mode.MOVING,)
BOTH = (Mode.LOOKING, Mode.MOVING)
PROPOSED = (Mode.PROPOSED,)
SEEING = (*BOTH, Mode.PROPOSED)
ALWAYS = tuple(Mode)
DRAWN = (ScreenId.AIRFRAME,)
OF_PATHS = (ScreenId.AIRFRAME, ScreenId.PATH)
OF_PAIRS = (ScreenId.COUPLING,)
NOT_OF_PAIRS = tuple(screen for screen in ScreenId if screen not in OF_PAIRS)
OF_READINGS = (ScreenId.MEASURED,)
OPENED_BY_ENTER = tuple(screen for screen in NOT_OF_PAIRS if screen not in OF_READINGS)


def _allowed(_: Workspace) -> str:
    return ""


MOST_KEY_COLUMNS = 10
"""Keys that are longer together are written as what stands for them."""


@dataclass(frozen=True, slots=True)
class Action:
    """Something a key does; `priority` 1 stays longest in the key row, 0 is not in it.

    On the screens of `first_on` it stays before all others.
    """

    id: str
    keys: tuple[str, ...]
    label: str
    group: str
    run: Deed
    screens: tuple[ScreenId, ...] = EVERY_SCREEN
    modes: tuple[Mode, ...] = LOOKING
    priority: int = 0
    refusal: Reason = _allowed
    shown: str = ""
    first_on: tuple[ScreenId, ...] = ()

    @property
    def keys_shown(self) -> str:
        """The keys as they are written on a screen."""
        return self.shown or self.all_keys

    @property
    def all_keys(self) -> str:
        """All of its keys, or what stands for many."""
        names = " ".join(key_name(key) for key in self.keys)
        return self.shown if len(self.keys) > 2 or len(names) > MOST_KEY_COLUMNS else names


_NAMES = {
    "escape": "esc",
    "question_mark": "?",
    "pageup": "pgup",
    "pagedown": "pgdn",
    " ": "space",
    "delete": "del",
}


def key_name(key: str) -> str:
    """Return a key as people write it: '^s', 'esc', 'S-tab'."""
    if len(key) == 1:
        return _NAMES.get(key, key)
    head, plus, last = key.rpartition("+")
    name = _NAMES.get(last or key, last or key)
    prefix = {"ctrl": "^", "shift": "S-"}.get(head, f"{head}{plus}")
    return f"{prefix}{name}"


MOVE_ABOUT, CHANGE, SEE, FILES = "Move about", "Change", "See", "Files"


def _show(screen: ScreenId) -> Action:
    def go(workspace: Workspace) -> None:
        workspace.looking.go_to(screen)

    return Action(f"screen-{screen.key}", (screen.key,), screen.label, MOVE_ABOUT, go)


TABS = tuple(map(_show, ScreenId))
"""A key for each tab."""

# fmt: off
ACTIONS: tuple[Action, ...] = (
    *TABS,
    Action("pane", ("tab", "shift+tab"), "next pane", MOVE_ABOUT, lambda w: w.looking.next_pane()),
    Action("cursor", ("up", "k", "down", "j"), "up and down", MOVE_ABOUT,
           lambda w: w.looking.go(1), shown="up dn j k"),
    Action("page", ("pageup", "pagedown"), "page", MOVE_ABOUT, lambda w: w.looking.page()),
    Action("ends-of-list", ("home", "end"), "first, last", MOVE_ABOUT,
           lambda w: w.looking.go(10_000)),
    Action("along", ("left", "right"), "along hull", MOVE_ABOUT, lambda w: w.looking.along(),
           DRAWN),
    Action("across", ("left", "right"), "receiver", MOVE_ABOUT,
           lambda w: w.coupling.across(w.looking.way), OF_PAIRS),
    Action("tune", ("left", "right"), "frequency", MOVE_ABOUT, lambda w: w.tuning.step(),
           (ScreenId.PATH,), priority=5, refusal=lambda w: w.tuning.why_no_curve()),
    Action("band-edge", ("shift+left", "shift+right"), "band edge", MOVE_ABOUT,
           lambda w: w.tuning.edge(), (ScreenId.PATH,),
           refusal=lambda w: w.tuning.why_no_curve(), shown="S-arrows"),
    Action("find", ("/",), "find", MOVE_ABOUT, lambda w: w.showing.find(), priority=9),
    Action("finding", ("n", "N"), "next finding", MOVE_ABOUT, lambda w: w.looking.next_finding(),
           priority=4, refusal=lambda w: w.looking.why_no_finding()),
    Action("open-entry", ("enter",), "open", MOVE_ABOUT, lambda w: w.looking.enter(),
           OPENED_BY_ENTER),
    Action("open-cell", ("enter",), "cell", MOVE_ABOUT, lambda w: w.coupling.open_cell(), OF_PAIRS,
           priority=1, refusal=lambda w: w.coupling.why_no_cell()),
    Action("back", ("escape",), "back", MOVE_ABOUT, lambda w: w.looking.back()),
    Action("move", ("m",), "move", CHANGE, lambda w: w.changing.move(), DRAWN, priority=2,
           refusal=lambda w: w.looking.why_no_antenna(), shown="m"),
    Action("move-receiver", ("m",), "move receiver", CHANGE, lambda w: w.coupling.move_receiver(),
           OF_PAIRS, priority=2, refusal=lambda w: w.coupling.why_no_cell()),
    Action("place-at", ("g",), "type FS, BL", CHANGE, lambda w: w.changing.place_at(), DRAWN, BOTH,
           priority=5, refusal=lambda w: w.looking.why_no_antenna()),
    Action("side", ("S",), "other side", CHANGE, lambda w: w.changing.choose_side(), DRAWN, BOTH,
           priority=8, refusal=lambda w: w.looking.why_no_antenna()),
    Action("cable", ("c",), "cable", CHANGE, lambda w: w.changing.choose_cable(), OF_PATHS,
           priority=6, refusal=lambda w: w.changing.why_no_cable()),
    Action("ends", ("e",), "ends", CHANGE, lambda w: w.changing.choose_ends(), OF_PATHS,
           priority=10, refusal=lambda w: w.changing.why_no_cable()),
    Action("route", ("l",), "lay", CHANGE, lambda w: w.changing.choose_route(), OF_PATHS,
           priority=11, refusal=lambda w: w.changing.why_no_cable()),
    Action("enter-survey", ("a",), "enter", CHANGE, lambda w: w.issuing.enter_survey(),
           (ScreenId.SHEET,), priority=2, refusal=lambda w: w.issuing.why_no_survey()),
    Action("record", ("enter",), "record", CHANGE, lambda w: w.measuring.record(), OF_READINGS,
           priority=1, refusal=lambda w: w.measuring.why_none()),
    Action("add-reading", ("a",), "add", CHANGE, lambda w: w.measuring.add(), OF_READINGS,
           priority=2, refusal=lambda w: w.measuring.why_none()),
    Action("remove-reading", ("delete",), "remove", CHANGE, lambda w: w.measuring.remove(),
           OF_READINGS, priority=5, refusal=lambda w: w.measuring.why_no_reading()),
    Action("read-sweep", ("i",), "read a sweep", CHANGE, lambda w: w.measuring.read_sweep(),
           OF_READINGS, priority=3, refusal=lambda w: w.measuring.why_none()),
    Action("waive", ("w",), "waive", CHANGE, lambda w: w.changing.waive(), priority=12,
           refusal=lambda w: w.changing.why_not_waived()),
    Action("undo", ("u", "ctrl+z"), "undo", CHANGE, lambda w: w.changing.undo(), priority=7,
           refusal=lambda w: "" if w.session.undo_words else "Nothing to undo.", shown="u"),
    Action("redo", ("U", "ctrl+y"), "redo", CHANGE, lambda w: w.changing.redo(),
           refusal=lambda w: "" if w.session.redo_words else "Nothing to redo.", shown="U"),
    Action("arrows", ("left", "right", "up", "down"), "move", CHANGE, lambda w: w.changing.nudge(1),
           DRAWN, MOVING, priority=1, shown="arrows"),
    Action("far", ("shift+left", "shift+right", "shift+up", "shift+down"), "move 5 steps", CHANGE,
           lambda w: w.changing.nudge(5), DRAWN, MOVING, shown="S-arrows"),
    Action("place", ("enter",), "place", CHANGE, lambda w: w.changing.place(), DRAWN, MOVING,
           priority=2),
    Action("put-back", ("escape", "q"), "put back", CHANGE, lambda w: w.changing.put_back(), DRAWN,
           MOVING, shown="esc"),
    Action("step", ("s",), "step size", CHANGE, lambda w: w.changing.next_step(), DRAWN, MOVING,
           priority=4),
    Action("proposed", ("p",), "proposed", CHANGE, lambda w: w.proposing.start(), DRAWN,
           BOTH, priority=5, refusal=lambda w: w.looking.why_no_antenna()),
    Action("next-proposed", ("]", "["), "next place", CHANGE, lambda w: w.proposing.next(),
           DRAWN, MOVING, priority=6, shown="[ ]"),
    Action("try", ("up", "k", "[", "down", "j", "]"), "try", CHANGE, lambda w: w.proposing.next(),
           DRAWN, PROPOSED, priority=1, shown="up dn"),
    Action("accept", ("enter",), "accept", CHANGE, lambda w: w.changing.place(), DRAWN, PROPOSED,
           priority=2, refusal=lambda w: w.proposing.why_none()),
    Action("keep", ("escape", "q"), "put back", CHANGE, lambda w: w.changing.put_back(), DRAWN,
           PROPOSED, shown="esc"),
    Action("proposed-side", ("S",), "other side", CHANGE, lambda w: w.proposing.other_side(), DRAWN,
           PROPOSED, priority=3),
    Action("move-on", ("m",), "move on", CHANGE, lambda w: w.proposing.free(), DRAWN,
           PROPOSED, priority=4),
    Action("stop", ("escape", "q"), "stop", CHANGE, lambda w: w.proposing.stop(), DRAWN,
           (Mode.SEARCHING,), shown="esc"),
    Action("pin", (" ",), "pin", CHANGE, lambda w: w.looking.pin(), (ScreenId.PATH,), priority=8),
    Action("apply", ("a",), "apply", CHANGE, lambda w: w.changing.apply_cable(), (ScreenId.PATH,),
           priority=3, refusal=lambda w: w.changing.why_no_cable()),
    Action("assembly", ("]", "["), "next assembly", SEE, lambda w: w.looking.next_assembly(),
           (ScreenId.PATH,), refusal=lambda w: w.changing.why_no_cable()),
    Action("sheet", ("]", "["), "other sheet", SEE, lambda w: w.issuing.next_sheet(),
           (ScreenId.SHEET,), priority=1, shown="[ ]", first_on=(ScreenId.SHEET,)),
    Action("curve", ("v",), "curve", SEE, lambda w: w.tuning.swap(), (ScreenId.PATH,), priority=13,
           refusal=lambda w: w.tuning.why_no_swap()),
    Action("view", ("v",), "view", SEE, lambda w: w.showing.next_view(), DRAWN, SEEING,
           priority=13),
    Action("room", ("h",), "room map", SEE, lambda w: w.showing.toggle_room(), DRAWN, SEEING,
           priority=12, refusal=lambda w: w.showing.why_no_room()),
    Action("closer", ("+", "="), "closer", SEE, lambda w: w.showing.zoom(1.5), DRAWN, SEEING,
           shown="+"),
    Action("hide-passes", ("f",), "without PASS", SEE, lambda w: w.coupling.hide_passes(), OF_PAIRS,
           priority=5),
    Action("rung", ("]", "["), "other rung", SEE, lambda w: w.coupling.next_rung(w.looking.way),
           OF_PAIRS, priority=12, shown="[ ]"),
    Action("list", ("v",), "list, matrix", SEE, lambda w: w.coupling.swap(), OF_PAIRS, priority=6,
           refusal=lambda w: w.coupling.why_no_swap()),
    Action("wider", ("-",), "wider", SEE, lambda w: w.showing.zoom(1 / 1.5), DRAWN, SEEING),
    Action("whole", ("0",), "whole", SEE, lambda w: w.showing.zoom_home(), DRAWN, SEEING),
    Action("state", ("t",), "state", SEE, lambda w: w.showing.next_state()),
    Action("read-out", ("r",), "read-out", SEE, lambda w: w.showing.read_out()),
    Action("copy", ("y",), "copy", SEE, lambda w: w.showing.copy(), first_on=(ScreenId.SHEET,)),
    Action("theme", ("T",), "theme", SEE, lambda w: w.showing.next_theme(), modes=ALWAYS,
           refusal=lambda w: w.showing.why_no_theme()),
    Action("repaint", ("ctrl+l",), "repaint", SEE, lambda w: w.terminal.repaint(), modes=ALWAYS),
    Action("keys", ("?",), "keys", SEE, lambda w: w.showing.show_keys(), modes=ALWAYS),
    Action("commands", (":", "ctrl+p"), "commands", SEE, lambda w: w.showing.show_commands(),
           modes=SEEING, priority=14, shown=":"),
    Action("save", ("ctrl+s",), "save", FILES, lambda w: w.filing.save(), priority=3),
    Action("export", ("x",), "export", FILES, lambda w: w.issuing.export(), priority=15,
           refusal=lambda w: w.issuing.why_busy(), first_on=(ScreenId.SHEET,)),
    Action("release", (), "release", FILES, lambda w: w.issuing.ask_release(),
           refusal=lambda w: w.issuing.why_busy()),
    Action("save-as", (), "save as", FILES, lambda w: w.filing.save_as()),
    Action("open", ("o",), "open a plan", FILES, lambda w: w.filing.open_other()),
    Action("edit", ("E",), "edit file", FILES, lambda w: w.filing.edit_file()),
    Action("quit", ("q", "ctrl+q"), "quit", FILES, lambda w: w.filing.quit(), shown="q"),
)
# fmt: on

_WAY_OUT = {
    Mode.LOOKING: "quit",
    Mode.MOVING: "put-back",
    Mode.PROPOSED: "keep",
    Mode.SEARCHING: "stop",
}


def actions_for(screen: ScreenId, mode: Mode) -> Iterator[Action]:
    """Yield what can be done on a screen."""
    return (one for one in ACTIONS if screen in one.screens and mode in one.modes)


def action_of_key(key: str, screen: ScreenId, mode: Mode) -> Action | None:
    """Return what a key does on a screen."""
    return next((one for one in actions_for(screen, mode) if key in one.keys), None)


def row_of_keys(screen: ScreenId, mode: Mode) -> list[Action]:
    """Return what stands in the key row, the most important first; help and the way out lead."""
    here = list(actions_for(screen, mode))
    always = [one for one in here if one.id in ("keys", _WAY_OUT[mode])]
    told = [one for one in here if one.priority or screen in one.first_on]
    listed = sorted(told, key=lambda one: (screen not in one.first_on, one.priority or 99))
    return [*always, *listed]
