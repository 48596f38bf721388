# SPDX-License-Identifier: Apache-2.0
"""A small frozen plan, and workspaces on it without a terminal."""

from __future__ import annotations

from dataclasses import dataclass, field
from pathlib import Path

from plan_files import shipped_catalog, shipped_rulebook

from rfplan.files.saving import open_plan_file
from rfplan.model.plan import State
from rfplan.reports.cells import LengthUnit
from rfplan.tui.bars import Frame
from rfplan.tui.composing import compose
from rfplan.tui.glyphs import TIERS, Tier
from rfplan.tui.look import Look
from rfplan.tui.request import Steps
from rfplan.tui.selection import worst
from rfplan.tui.session import Session
from rfplan.tui.tokens import DARK, Theme
from rfplan.tui.workspace import Workspace

AIRFRAME = """\
rfplan: airframe/1
name: Frozen glider                # invented
sources:
  tape: {class: measured, read: invented, who: M. Probe, date: 2026-09-14, with: steel tape}
source: tape
sections:
  unit: in
  rows:
    - [ 10,  4.0, 30.0, 40.0, 2.0]
    - [ 60, 16.0, 20.0, 60.0, 2.5]
    - [120, 16.0, 22.0, 64.0, 2.5]
    - [240,  4.0, 44.0, 56.0, 2.0]
plates:
  fin: {root: [205 0 56 in, 240 0 56 in], tip: [225 0 100 in, 242 0 100 in], thickness: 4 in}
skin:
  hull: {on: all, of: glass, thickness: 2 mm}
zones:
  hatch: {is: hatch, on: top, fs: 84 .. 100 in, bl: L12 .. R12 in, keep_off: 1 in}
route:
  nodes:
    pan: {at: 50 0 44 in, is: panel}
    mid: {at: 110 0 50 in}
    aft: {at: 180 0 52 in}
  segments:
    pan-mid: 62 in
    mid-aft: 72 in
speeds: {vne: 130 kt}
"""

PLAN = """\
rfplan: plan/1
airframe: airframe.yaml
title: a frozen plan for tests     # invented
revision: {letter: A, status: draft, date: 2026-10-01}
people:
  prepared: {name: P. Vorn, role: technician}
sources:
  d1: {class: specification, read: invented, document: data sheet D-1, issue: "2"}
source: d1
spacing:
  gnss_com: {from: gnss, to: vhf_com, min: 36 in, datum: centre, strict: required, source: d1}
units:
  nav:
    title: navigator
    at: 50 0 44 in
    node: pan
    ports:
      gnss: {radio: gnss_l1, plug: tnc, loss: 1.5 .. 6.5 dB, plugs: included}
      com: {radio: vhf_com, plug: bnc, loss: none .. 1.5 dB, plugs: included, power: 10 .. 16 W}
antennas:
  g1:
    found: {type: gnss_l1_active, on: top, at: 130 L4 in, node: mid}
    design: {at: 114 L4 in}
  c1: {type: com_whip, on: top, at: 160 0 in, node: aft}
  c2: {type: com_whip, on: belly, at: 150 0 in, node: aft}
cables:
  wg: {type: rg_400_u, plugs: [tnc, tnc], length: 150 in}      # kept from the survey
  wc: {type: rg_58c_u, plugs: [bnc, bnc], length: 140 in}
paths:
  gnss: {chain: [nav.gnss, wg, g1]}
  com: {chain: [nav.com, wc, c1]}
measurements:                      # taken on the aircraft as built
  m1: {path: gnss, loss: 2.61 dB, at: 1575.42 MHz, temperature: 18 degC, uncertainty: 0.1 dB,
       with: analyser 7 due 2027-03-01, who: P. Vorn, date: 2026-10-02}
  m2: {path: com, loss: 1.90 dB, at: 127 MHz, with: analyser 7 due 2027-03-01, who: P. Vorn}
"""


@dataclass(slots=True)
class Desk:
    """Takes note of what a workspace asks of its terminal."""

    left: int = 0
    repaints: int = 0
    copied: list[str] = field(default_factory=list)
    edited: list[tuple[Path, int]] = field(default_factory=list)
    opened: list[Path] = field(default_factory=list)

    def leave(self) -> None:
        self.left += 1

    def repaint(self) -> None:
        self.repaints += 1

    def edit_file(self, file: Path, line: int) -> None:
        self.edited.append((file, line))

    def copy(self, text: str) -> str:
        self.copied.append(text)
        return "copied.txt"

    def aside(self, steps: Steps) -> None:
        for tell in steps:
            tell()

    def open_plan(self, path: Path) -> None:
        self.opened.append(path)


def frozen_folder(folder: Path) -> Path:
    """Write the frozen plan into a folder and return it."""
    folder.mkdir(parents=True, exist_ok=True)
    (folder / "airframe.yaml").write_text(AIRFRAME, encoding="utf-8")
    (folder / "plan.yaml").write_text(PLAN, encoding="utf-8")
    return folder


def look_of(theme: Theme = DARK, tier: Tier = Tier.FULL, unit: LengthUnit = "in") -> Look:
    """Return a look that no environment decides."""
    return Look(theme, TIERS[tier], unit)


OPEN: list[Session] = []
"""Sessions whose journals are to be closed after a test."""


def open_session(folder: Path) -> Session:
    """Open a plan with what ships, which is read once for all tests."""
    rules = shipped_rulebook()
    session = Session(open_plan_file(folder, shipped_catalog(), rules, State.DESIGN, None))
    session.selection = worst(session.assessment)
    OPEN.append(session)
    return session


class Seat:
    """A workspace with somebody at its keys."""

    def __init__(self, folder: Path, size: tuple[int, int] = (80, 24), look: Look | None = None):
        self.desk = Desk()
        self.size = size
        self.workspace = Workspace(open_session(folder), look or look_of(), self.desk)
        self.frame = self.draw()

    def draw(self) -> Frame:
        """Return the screen as it is now."""
        compose(self.workspace, *self.size)
        self.workspace.finish()
        self.frame = compose(self.workspace, *self.size)
        return self.frame

    def press(self, *keys: str) -> str:
        """Press keys one after the other, and return the screen as text."""
        for key in keys:
            self.workspace.press(key)
            self.draw()
        return self.frame.text()

    def type(self, text: str) -> str:
        """Type a text character by character."""
        return self.press(*text)

    @property
    def sentence(self) -> str:
        """The row that says what is the matter."""
        return self.frame.text().splitlines()[-2].strip()

    @property
    def top(self) -> str:
        """The first row."""
        return self.frame.text().splitlines()[0]
