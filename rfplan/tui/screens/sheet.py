# SPDX-License-Identifier: Apache-2.0
"""The Sheet screen: every sheet as it will be filed, and the list of them where there is room."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

from rfplan.reports.outcome import is_draft
from rfplan.reports.sheets import SHEETS
from rfplan.tui.layout import Area, SizeClass
from rfplan.tui.panes import Pane
from rfplan.tui.present.sheet import sheet_pane, sheets_pane
from rfplan.tui.runs import words_cut
from rfplan.tui.screens.part import Part, part

if TYPE_CHECKING:
    from rfplan.tui.workspace import Workspace

LIST_COLUMNS = {SizeClass.MEDIUM: 27, SizeClass.WIDE: 37}


def parts(workspace: Workspace, area: Area, size: SizeClass) -> list[Part]:
    """Return the panes."""
    left_columns = LIST_COLUMNS.get(size, 0)
    left = Area(area.row, 0, area.rows, left_columns)
    right = Area(area.row, left_columns, area.rows, area.columns - left_columns)
    shown = part(right, partial(sheet, workspace))
    return [part(left, partial(sheets, workspace)), shown] if left_columns else [shown]


def sheets(workspace: Workspace, columns: int) -> Pane:
    """Return the list of all sheets."""
    ellipsis = workspace.type.ellipsis
    titles = [(key, words_cut(file.TITLE, columns, ellipsis)) for key, file in SHEETS.items()]
    return sheets_pane(titles, workspace.issuing.key)


def sheet(workspace: Workspace, columns: int) -> Pane:
    """Return the chosen sheet, from its first table on when it is shown for the first time."""
    issuing = workspace.issuing
    told = issuing.rows(columns)
    if issuing.turned:
        issuing.turned = False
        workspace.scroll("sheet").top = told.first_table
    place = f"{list(SHEETS).index(issuing.key) + 1} of {len(SHEETS)}"
    title, draft = SHEETS[issuing.key].TITLE, is_draft(workspace.assessment)
    return sheet_pane(told, title, place, draft=draft)
