# SPDX-License-Identifier: Apache-2.0
"""Places proposed for the antenna on the move: looked for in small steps, tried one by one."""

from __future__ import annotations

from collections.abc import Iterator
from string import ascii_uppercase
from time import monotonic
from typing import TYPE_CHECKING

from rfplan.model.plan import Plan
from rfplan.propose.places import Found, Proposal, search
from rfplan.tui.moving import STEPS, Moving
from rfplan.tui.present.proposals import nothing_free
from rfplan.tui.projection import Point
from rfplan.tui.sketch import place_of
from rfplan.tui.tokens import Token
from rfplan.units import LENGTH, from_unit

if TYPE_CHECKING:
    from rfplan.tui.workspace import Workspace

SEARCHED = ("top", "belly")
"""Surfaces on which places are looked for."""

AT_ONCE_S = 0.1
"""How long a search may take before the screen says that there is one."""


class Proposing:
    """The search for places, and what came of it."""

    def __init__(self, workspace: Workspace) -> None:
        self.workspace = workspace
        self.found = Found("top")
        self._of: tuple[Plan, str] | None = None
        self._search: Iterator[Found] | None = None
        self._began_here = False

    @property
    def waits(self) -> bool:
        """Whether a search is going on."""
        return self._search is not None and self.workspace.moving is not None

    @property
    def proposals(self) -> tuple[Proposal, ...]:
        """What has been found for the antenna on the move, the best first."""
        moving, plan = self.workspace.moving, self.workspace.session.plan
        if moving is None or self._of is None or self.waits:
            return ()
        return self.found.proposals if self._is_of(plan, moving.antenna) else ()

    def _is_of(self, plan: Plan, antenna: str) -> bool:
        return self._of is not None and self._of[0] is plan and self._of[1] == antenna

    def points(self) -> tuple[Point, ...]:
        """Return where the letters stand, those of the side that is looked at."""
        moving = self.workspace.moving
        if moving is None or not (moving.choosing or moving.on == self.found.on):
            return ()
        places = (place_of(one.assessment, moving.antenna) for one in self.proposals)
        return tuple(place.point_m for place in places if place is not None)

    def said(self) -> str:
        """Return what is being done, nothing if nothing is."""
        moving = self.workspace.moving
        if moving is None or not self.waits:
            return ""
        return f"Searching the {self.found.on} for places of {moving.antenna}."

    def start(self) -> None:
        """List the places proposed, and try the best."""
        workspace = self.workspace
        self._began_here = workspace.moving is None
        moving = workspace.moving
        if moving is None:
            antenna = workspace.session.selection.antenna or ""
            moving = Moving.at_rest(workspace.session, antenna, workspace.unit)
        workspace.moving, moving.choosing = moving, True
        self._propose(moving, self._side(moving))

    def next(self) -> None:
        """Try the next place proposed, or the one before; the first time look for them."""
        moving = self.workspace.moving
        assert moving is not None
        if moving.choosing or (self.proposals and moving.on == self.found.on):
            self._step(moving)
        else:
            self._began_here = False
            self._propose(moving, self._side(moving))

    def other_side(self) -> None:
        """Look at the belly after the top, and the other way round."""
        moving = self.workspace.moving
        assert moving is not None
        self._propose(moving, "belly" if self.found.on == "top" else "top")

    def choose(self, letter: str) -> None:
        """Try a place by its letter."""
        moving = self.workspace.moving
        if moving is not None and letter in ascii_uppercase[: len(self.proposals)]:
            self._take(moving, ascii_uppercase.index(letter))

    def why_none(self) -> str:
        """Return why there is no place to take."""
        return "" if self.proposals else "There is no place to accept."

    def free(self) -> None:
        """Leave the list, and let the arrows move the antenna on from where it is."""
        if self.workspace.moving is not None:
            self.workspace.moving.choosing = False

    def stop(self) -> None:
        """End the search without an outcome."""
        self._search = self._of = None
        self.free()
        if self._began_here:
            self.workspace.moving = None
        self.workspace.say("Search stopped.", Token.DIM)

    @staticmethod
    def _side(moving: Moving) -> str:
        return moving.on if moving.on in SEARCHED else "top"

    def _propose(self, moving: Moving, on: str) -> None:
        """Search a side, unless that has been done."""
        session, moving.tried = self.workspace.session, None
        known = self._search is None and self._is_of(session.plan, moving.antenna)
        if known and on == self.found.on:
            self._arrive()
            return
        unit = self.workspace.unit
        step_m = from_unit(STEPS[unit][1], LENGTH, unit)
        self._of, self.found = (session.plan, moving.antenna), Found(on)
        self._search = search(session.assessment, moving.antenna, on, step_m)
        self.work(AT_ONCE_S)

    def work(self, most_s: float) -> None:
        """Search for about so long."""
        until = monotonic() + most_s
        while self._search is not None and monotonic() < until:
            found = next(self._search, None)
            if found is not None:
                self.found = found
            else:
                self._search = None
                self._arrive()

    def _arrive(self) -> None:
        """Try the best place, or say that there is none."""
        moving = self.workspace.moving
        if moving is None:
            return
        if self.proposals:
            self._take(moving, 0)
        elif not moving.choosing:
            words = nothing_free(self.found, moving.antenna, self.workspace.type)
            self.workspace.say(words, Token.NEAR)

    def _step(self, moving: Moving) -> None:
        if self.proposals:
            now = -1 if moving.tried is None else moving.tried
            index = now + self.workspace.looking.way
            self._take(moving, max(0, min(len(self.proposals) - 1, index)))

    def _take(self, moving: Moving, index: int) -> None:
        proposal = self.proposals[index]
        moving.take(proposal.edit, proposal.assessment)
        moving.tried = index
