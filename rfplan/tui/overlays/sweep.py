# SPDX-License-Identifier: Apache-2.0
"""The files of a measured sweep, what they say beside the plan, and their loss as a reading."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

from rfplan.analysis.sweep_study import PathSweeps, SweepStudy, study
from rfplan.analysis.sweeps import SweepError
from rfplan.analysis.swept_loss import loss_at_db
from rfplan.analysis.swept_match import unit_vswr_at
from rfplan.edits import EditError
from rfplan.files.problems import ProblemsError
from rfplan.files.touchstone import PORTS, read_sweep
from rfplan.model.sweep import Sweep
from rfplan.reports.cells import decibels, frequency, number
from rfplan.reports.study import facts_of
from rfplan.reports.sweep_report import DC_FIRST, sweep_sheet
from rfplan.tui.bars import Key
from rfplan.tui.overlays.files import PathForm
from rfplan.tui.overlays.form import Asked, told_text
from rfplan.tui.overlays.overlay import Body
from rfplan.tui.overlays.reading import ReadingOverlay
from rfplan.tui.overlays.reading_form import ReadingForm, Taken
from rfplan.tui.present.readings import Entry
from rfplan.tui.present.sheet import sheet_rows
from rfplan.tui.runs import Row
from rfplan.tui.tokens import Token
from rfplan.tui.typed_quantity import typed_quantity
from rfplan.units import TEMPERATURE

if TYPE_CHECKING:
    from rfplan.tui.workspace import Workspace

LABELS = (
    "sweep, .s2p or .s1p",
    "far end open, .s1p",
    "far end short, .s1p",
    "temperature degC",
)
SHEET_COLUMNS = 74


class SweepForm(PathForm):
    """One file of two ports; of one port, the antenna on, and for the loss the open and shorted."""

    done_label = "read"
    label_columns = 21
    endings = tuple(PORTS)

    def __init__(self, workspace: Workspace, entry: Entry) -> None:
        title = f"Sweep of {entry.path.id}"
        super().__init__(workspace, title, [Asked(label) for label in LABELS])
        self.entry = entry

    @property
    def folder(self) -> Path:
        return self.workspace.session.file.path.resolve().parent

    def lead(self, columns: int) -> list[Row]:
        return [*told_text(DC_FIRST, columns, Token.TEXT), []]

    def done(self) -> None:
        try:
            sweeps = self._sweeps()
        except (EditError, ProblemsError) as error:
            self.fault = str(error).splitlines()[0]
            return
        told = study(facts_of(self.entry.assessment), sweeps)
        self.workspace.overlay = SweepOverlay(self.workspace, self.entry, told)

    def _sweeps(self) -> PathSweeps:
        """Read what is typed; raises EditError or ProblemsError."""
        first, far_open, far_short = (self.text(index) for index in range(3))
        if not first:
            raise EditError("a sweep is needed: .s2p, or .s1p with the antenna on")
        if bool(far_open) != bool(far_short):
            raise EditError("for the loss of a .s1p both are needed, far end open and shorted")
        sweep, *ends = (self._read(name) for name in (first, far_open, far_short) if name)
        return PathSweeps(
            path=self.entry.path.id,
            sweep=sweep,
            far_ends=(ends[0], ends[1]) if ends else None,
            temperature_c=typed_quantity(self.text(3), TEMPERATURE, "degC", "17"),
        )

    def _read(self, name: str) -> Sweep:
        return read_sweep(self.folder / Path(name).expanduser(), name)


class SweepOverlay(ReadingOverlay):
    """The sheet of a sweep; enter takes its loss and its VSWR into a reading."""

    passing = False

    def __init__(self, workspace: Workspace, entry: Entry, told: SweepStudy) -> None:
        context = workspace.issuing.context(entry.assessment)
        sheet = sweep_sheet(entry.assessment, context, told)
        rows = sheet_rows(sheet, SHEET_COLUMNS, workspace.type)
        super().__init__(workspace, f"Sweep of {entry.path.id}", rows.rows)
        self.top = rows.first_table
        self.entry = entry
        self.told = told
        self.loss, self.refusal = _loss(told, entry.at_hz)
        vswr = unit_vswr_at(told.sweeps.sweep, entry.at_hz)
        self.vswr = "" if vswr is None else number(vswr, "", digits=2).text

    @property
    def offered(self) -> str:
        """What can be taken, '' if nothing."""
        loss, vswr = f"{self.loss} dB" * bool(self.loss), f"VSWR {self.vswr}" * bool(self.vswr)
        return " and ".join(filter(None, (loss, vswr)))

    @property
    def own_keys(self) -> list[Key]:
        keys = super().own_keys
        return [Key("enter", f"take {self.offered}"), *keys] if self.offered else keys

    def body(self, columns: int, rows: int) -> Body:
        at = f"{frequency(self.entry.at_hz).text} MHz"
        offer = f"enter takes {self.offered} at {at} as a reading." if self.offered else ""
        told = told_text(offer, columns, Token.TEXT)
        told += [] if self.loss else told_text(self.refusal, columns, Token.NEAR)
        body = super().body(columns, rows - len(told))
        return Body([*told, *body.rows], body.cursor)

    def press(self, key: str) -> None:
        if key == "enter" and self.offered:
            taken = Taken(self.loss, self.vswr, self.told.sweeps.temperature_c)
            self.workspace.overlay = ReadingForm(self.workspace, self.entry, taken=taken)
        else:
            super().press(key)


def _loss(told: SweepStudy, at_hz: float) -> tuple[str, str]:
    """Return the loss at a frequency as it is recorded, or why there is none."""
    if told.curve is None:
        return "", "No loss to take: a sweep of one port with the antenna on tells the match."
    try:
        return decibels(loss_at_db(told.curve, at_hz)).text, ""
    except SweepError as error:
        return "", f"No loss to take: {error}."
