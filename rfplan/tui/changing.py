# SPDX-License-Identifier: Apache-2.0
"""Changing the plan: moves, cables, ends, ways and waivers, each tried before it is made."""

from __future__ import annotations

from dataclasses import replace
from functools import partial
from time import monotonic
from typing import TYPE_CHECKING

from rfplan.edits import Edit, EditError, MoveAntenna, SetCable
from rfplan.model.airframe import INSIDE, OUTER_HULL
from rfplan.model.assessment import Assessment
from rfplan.model.findings import Finding, Verdict
from rfplan.model.plan import State
from rfplan.reports.wording import said
from rfplan.tui.moving import Moving, on_surface
from rfplan.tui.overlays.accept import AcceptOverlay
from rfplan.tui.overlays.cable_forms import EndsForm, RouteForm
from rfplan.tui.overlays.choice import ChoiceOverlay, Entry
from rfplan.tui.overlays.place_at import PlaceAtOverlay
from rfplan.tui.overlays.waive import WaiveOverlay
from rfplan.tui.present.antenna import Standing
from rfplan.tui.present.cables import Choice, Compared, Trial, compare_pane
from rfplan.tui.present.tags import tag
from rfplan.tui.projection import Sight
from rfplan.tui.runs import Run
from rfplan.tui.sketch import place_of
from rfplan.tui.tokens import Token

if TYPE_CHECKING:
    from rfplan.tui.workspace import Workspace

_STEPS = {"left": (-1.0, 0.0), "right": (1.0, 0.0), "up": (0.0, -1.0), "down": (0.0, 1.0)}


class Changing:
    """Everything that changes the plan."""

    def __init__(self, workspace: Workspace) -> None:
        self.workspace = workspace
        self._compared: tuple[tuple[Assessment, str, str], Compared] | None = None

    def do(self, edit: Edit) -> bool:
        """Make an edit and say so."""
        try:
            words = self.workspace.session.do(edit)
        except EditError as error:
            self.workspace.say(f"{error}.", Token.NEAR)
            return False
        self._say_done(words or "Nothing changes.")
        return True

    def _say_done(self, words: str) -> None:
        trouble = self.workspace.session.journal.trouble
        if trouble:
            words = f"The journal cannot be written: {trouble}. Save soon. {words}"
        self.workspace.say(words, Token.NEAR if trouble else Token.TEXT)

    def undo(self) -> None:
        """Take the last change back."""
        self.workspace.say(f"undone: {self.workspace.session.undo()}. U redoes")

    def redo(self) -> None:
        """Make the change again that was undone last."""
        self.workspace.say(f"redone: {self.workspace.session.redo()}")

    # moving

    def move(self) -> None:
        """Take the selected antenna up."""
        antenna = self.workspace.session.selection.antenna
        assert antenna is not None
        self.workspace.moving = Moving.start(self.workspace.session, antenna, self.workspace.unit)
        if self.workspace.session.plan.state is State.FOUND:
            self.workspace.say("This changes what was found. q puts it back.", Token.NEAR)

    def nudge(self, steps: int) -> None:
        """Go some steps the way of the key."""
        right, down = _STEPS[self.workspace.looking.key.rpartition("+")[2]]
        moving = self.workspace.moving
        if moving is not None:
            self._try(partial(moving.nudge, right * steps, down * steps))

    def move_to_sight(self, sight: Sight) -> None:
        """Go to a place that was clicked."""
        if self.workspace.moving is not None:
            self._try(partial(self.workspace.moving.to_sight, sight))

    def _try(self, move: partial[None]) -> None:
        try:
            move()
        except EditError as error:
            self.workspace.say(f"{error}.", Token.NEAR)

    def next_step(self) -> None:
        """Take another size of step."""
        if self.workspace.moving is not None:
            self.workspace.moving.next_step()

    def place(self) -> bool:
        """Place the antenna; a required rule that breaks asks for a second enter."""
        moving = self.workspace.moving
        if moving is None:
            return False
        broken = moving.objection()
        if broken is not None and not moving.asked:
            moving.asked = True
            words = f"{broken.verdict} {said(broken, self.workspace.unit)}"
            self.workspace.say(f"enter again places it: {words}", Token.FAIL)
            return False
        self.workspace.moving = None
        return self.do(moving.edit)

    def put_back(self) -> None:
        """Leave the antenna where it was."""
        moving = self.workspace.moving
        self.workspace.moving = None
        if moving is not None:
            self.workspace.say(f"{moving.antenna} put back", Token.DIM)

    def place_at(self) -> None:
        """Type where the antenna is to stand."""
        started = self.workspace.moving is None
        if started:
            self.move()
        moving = self.workspace.moving
        assert moving is not None
        self.workspace.overlay = PlaceAtOverlay(self.workspace, moving, started=started)

    def choose_side(self) -> None:
        """Choose another surface, each with its verdict."""
        if self.workspace.moving is None:
            self.move()
        moving = self.workspace.moving
        assert moving is not None
        surfaces = [*OUTER_HULL, *self.workspace.session.plan.airframe.plates, *INSIDE]
        entries = [self._side_entry(moving, on) for on in surfaces]
        title = f"{moving.antenna} on which side?"
        self.workspace.overlay = ChoiceOverlay(
            self.workspace, title, entries, at=surfaces.index(moving.on)
        )

    def _side_entry(self, moving: Moving, on: str) -> Entry:
        place = place_of(self.workspace.assessment, moving.antenna)
        wl_m = place.point_m[2] if place is not None else 0.0
        plan = self.workspace.session.plan
        name = Run(on.replace("_", " ").ljust(14))
        try:
            edit = MoveAntenna(moving.antenna, on, on_surface(plan, on, moving.at, wl_m))
            assessment = self.workspace.session.preview(edit)
        except EditError as error:
            return Entry([name, Run(str(error))], partial(moving.to_side, on), str(error))
        path = Standing(
            assessment, moving.antenna, self.workspace.session.selection.path
        ).chosen_path
        there = place_of(assessment, moving.antenna)
        verdict = path.overall if path else (there.overall if there else Verdict.PASS)
        return Entry([name, *tag(verdict, self.workspace.look.glyphs)], partial(moving.to_side, on))

    # cables

    @property
    def assembly(self) -> str:
        """The assembly of the selected path whose cable is compared: the one that is free."""
        path = self.workspace.standing.chosen_path
        if path is None or not path.cables:
            return ""
        chosen = self.workspace.looking.cursors.get("assembly", "")
        if chosen in path.cables:
            return chosen
        return path.loss.varying_cable or path.cables[0]

    def why_no_cable(self) -> str:
        """Return why there is no cable to change."""
        return "" if self.assembly else "The selected path has no cable."

    def compared(self) -> Compared | None:
        """Return every cable of the catalogue in the assembly, as far as `work` has tried them."""
        path, assembly = self.workspace.standing.chosen_path, self.assembly
        if path is None or not assembly:
            return None
        now = self.workspace.session.assessment
        wanted = (now, assembly, path.id)
        if self._compared is None or self._compared[0] != wanted:
            self._compared = wanted, self._untried(now, assembly, path.id)
        return self._compared[1]

    def _untried(self, now: Assessment, assembly: str, path: str) -> Compared:
        present = now.plan.installation.cables[assembly].type
        cables = self.workspace.session.file.catalog.cables
        trials = [Trial(type, cables[type], now if type == present else None) for type in cables]
        if present not in cables:
            trials.insert(0, Trial(present, next(iter(cables.values())), now))
        return Compared(assembly, path, present, tuple(trials))

    @property
    def waits(self) -> bool:
        """Whether cables are still to be tried."""
        return self._compared is not None and any(t.waits for t in self._compared[1].trials)

    def work(self, most_s: float) -> None:
        """Try cables for about so long."""
        until = monotonic() + most_s
        while self.waits and monotonic() < until:
            self._try_next()

    def _try_next(self) -> None:
        assert self._compared is not None
        wanted, compared = self._compared
        trials = list(compared.trials)
        index = next(index for index, trial in enumerate(trials) if trial.waits)
        trials[index] = self._tried(compared.assembly, trials[index])
        self._compared = wanted, replace(compared, trials=tuple(trials))

    def _tried(self, assembly: str, trial: Trial) -> Trial:
        try:
            assessment = self.workspace.session.preview(SetCable(assembly, trial.type))
        except EditError as error:
            return replace(trial, refusal=str(error))
        return replace(trial, assessment=assessment)

    def choose_cable(self) -> None:
        """Choose another cable from a list with live verdicts."""
        compared = self.compared()
        if compared is None:
            return
        self.workspace.finish()
        compared = self.compared() or compared
        choice = Choice(compared.present, self.workspace.looking.pinned)
        pane = compare_pane(compared, choice, 72, self.workspace.type)
        trials = {trial.type: trial for trial in compared.trials}
        entries = [
            Entry(item.rows[0], partial(self._set_cable, item.key), trials[item.key].refusal)
            for item in pane.items
        ]
        title = f"Cable of {compared.assembly} in {compared.path}"
        self.workspace.overlay = ChoiceOverlay(
            self.workspace, title, entries, head=[Run("  "), *pane.head[0]]
        )

    def apply_cable(self) -> None:
        """Take the cable under the cursor of the comparison."""
        compared = self.compared()
        cursor = self.workspace.looking.cursors.get("compare", "")
        if compared is None:
            return
        chosen = next((trial for trial in compared.trials if trial.type == cursor), None)
        if chosen is None or chosen.type == compared.present:
            self.workspace.say("That cable is there already; choose another row.", Token.DIM)
        elif chosen.refusal:
            self.workspace.say(chosen.refusal, Token.NEAR)
        else:
            self._set_cable(chosen.type)

    def _set_cable(self, type: str) -> None:
        self.do(SetCable(self.assembly, type))

    def choose_ends(self) -> None:
        """Type other plugs."""
        self.workspace.overlay = EndsForm(self.workspace, self.assembly)

    def choose_route(self) -> None:
        """Type another way."""
        self.workspace.overlay = RouteForm(self.workspace, self.assembly)

    # waivers

    def _waivable(self) -> Finding | None:
        """The selected finding if it fails, else the worst one of what is selected."""
        chosen, assessment = self.workspace.session.selection, self.workspace.assessment
        failing = [one for one in assessment.findings if one.verdict is Verdict.FAIL]
        if chosen.finding is not None:
            return next((one for one in failing if one.id == chosen.finding), None)
        about = (chosen.antenna, chosen.path)
        return next(
            (one for one in failing if {*one.objects, *one.paths} & {*about}),
            None,
        )

    def why_not_waived(self) -> str:
        """Return why there is nothing to waive or to accept."""
        if self._waivable() is not None or self.workspace.looking.point is not None:
            return ""
        chosen = self.workspace.session.selection
        if chosen.finding is not None:
            return "Nothing to waive: only a FAIL of a rule can be accepted."
        return f"Nothing to waive: {chosen.antenna or 'the plan'} has no finding that fails."

    def waive(self) -> None:
        """Accept a finding by name and with a reason, an open point by name."""
        finding, point = self._waivable(), self.workspace.looking.point
        if point is not None:
            self.workspace.overlay = AcceptOverlay(self.workspace, point)
        elif finding is not None:
            self.workspace.overlay = WaiveOverlay(self.workspace, finding)
