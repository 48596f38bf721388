# SPDX-License-Identifier: Apache-2.0
"""From a request to a workspace; everything heavy is imported from here on."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from rfplan.files.problems import Problem, ProblemsError
from rfplan.model.plan import State
from rfplan.tui.look import Look
from rfplan.tui.request import Request
from rfplan.tui.session import Session
from rfplan.tui.unopened import Unread
from rfplan.tui.workspace import Terminal, Workspace
from rfplan.units import QuantityError, parse_date


def open_workspace(request: Request, look: Look, terminal: Terminal) -> Workspace | Unread:
    """Return the workspace of a plan, or why it cannot be read."""
    assert request.path is not None
    try:
        date = parse_date(request.date).isoformat() if request.date else None
        session = Session.open(request.path, State(request.state), request.serial, request.catalog)
    except QuantityError as error:
        return Unread((f"--date: {error}",))
    except ProblemsError as error:
        return _unread(error.problems)
    workspace = Workspace(session, look, terminal)
    workspace.issuing.date = date
    return workspace


def _unread(problems: Sequence[Problem]) -> Unread:
    first, files = problems[0], dict.fromkeys(Path(one.file) for one in problems)
    at = (Path(first.file), first.line) if Path(first.file).is_file() else None
    return Unread(tuple(problem.text() for problem in problems), at, tuple(files))
