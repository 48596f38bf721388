# SPDX-License-Identifier: Apache-2.0
"""Sessions without a terminal, and what is done to their files behind their back."""

from __future__ import annotations

from pathlib import Path

from plan_files import PLAN, edited, shipped_catalog, shipped_rulebook

from rfplan.edits import MoveAntenna
from rfplan.files.journal import journal_folder
from rfplan.files.saving import open_plan_file
from rfplan.model.plan import Plan, State
from rfplan.tui.session import Session
from rfplan.units import Place

AFT = MoveAntenna("gnss", "top", Place(3.3, 0.0, None))


FORWARD = MoveAntenna("gnss", "top", Place(3.0, 0.0, None))


THEIRS = edited(PLAN, ("    built: {at: 82 0 in}", "    built: {at: 83 0 in}"))


OPENED: list[Session] = []
"""Sessions whose journals are still to be closed."""


def opened(folder: Path, state: State = State.DESIGN) -> Session:
    """Open a session as the command does, but read catalogue and tables only once."""
    file = open_plan_file(folder, shipped_catalog(), shipped_rulebook(), state, None)
    session = Session(file)
    OPENED.append(session)
    return session


def journals() -> list[str]:
    """Return the names of all journals there are."""
    return sorted(path.name for path in journal_folder().glob("*"))


def replace_file(path: Path, text: str) -> None:
    """Save a file as editors do, by a rename."""
    beside = path.with_name("beside")
    beside.write_text(text)
    beside.replace(path)


def taken_over(folder: Path) -> Plan:
    """Return the plan of a new session that takes over what is left behind."""
    session = opened(folder)
    for journal in session.left:
        session.recover(journal)
    session.close(discard=True)
    return session.plan
