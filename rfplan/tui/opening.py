# SPDX-License-Identifier: Apache-2.0
"""From a request to a workspace; everything heavy is imported from here on."""

from __future__ import annotations

from rfplan.files.problems import ProblemsError
from rfplan.model.plan import State
from rfplan.tui.look import Look
from rfplan.tui.request import Request
from rfplan.tui.session import Session
from rfplan.tui.workspace import Terminal, Workspace
from rfplan.units import QuantityError, parse_date


def open_workspace(request: Request, look: Look, terminal: Terminal) -> Workspace | str:
    """Return the workspace of a plan, or in one sentence why it cannot be read."""
    assert request.path is not None
    try:
        date = parse_date(request.date).isoformat() if request.date else None
        session = Session.open(request.path, State(request.state), request.serial, request.catalog)
    except QuantityError as error:
        return f"--date: {error}  q quits"
    except ProblemsError as error:
        more = len(error.problems) - 1
        tail = f" (and {more} more: rfplan check)" if more else ""
        return f"{error.problems[0].text()}{tail}  q quits"
    workspace = Workspace(session, look, terminal)
    workspace.issuing.date = date
    return workspace
