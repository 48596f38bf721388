# SPDX-License-Identifier: Apache-2.0
"""rfplan open: the workspace in this terminal, or a picture of one of its screens."""

from __future__ import annotations

import os
import sys
import traceback
from argparse import Namespace
from pathlib import Path

from rfplan.tui.glyphs import Tier
from rfplan.tui.look import Wishes, look_for

NOT_OPENED = 2
NO_TERMINAL = "rfplan: the workspace needs a terminal; without one use  rfplan check PLAN"


def run(options: Namespace) -> int:
    """Open the workspace and return the exit code; refuse in one sentence without a terminal."""
    if options.screenshot:
        from rfplan.tui.screenshot import take

        return take(options)
    if not fit_terminal():
        print(NO_TERMINAL, file=sys.stderr)  # noqa: T201
        return NOT_OPENED
    from rfplan.tui.app import RfplanApp
    from rfplan.tui.request import Request

    for name in ("COLUMNS", "LINES"):  # the terminal knows its size, also after a resize
        os.environ.pop(name, None)
    look = look_for(os.environ, sys.stdout.encoding or "ascii", wishes_of(options))
    catalog = Path(options.catalog) if options.catalog else None
    path = Path(options.plan) if options.plan else None
    app = RfplanApp(Request(path, options.state, options.serial, catalog, options.date), look)
    code = app.run()
    if app.own_fault is not None:
        _tell(app.own_fault)
    return code or 0


def _tell(fault: Exception) -> None:
    """Say calmly that it was not the user's doing, and where the changes are."""
    from rfplan.files.journal import journal_folder

    if os.environ.get("RFPLAN_TRACEBACK"):
        traceback.print_exception(fault)
    words = f"rfplan stopped on a fault of its own: {fault!r}"
    kept = f"Changes that were not saved are in {journal_folder()}; rfplan offers them next time."
    print(f"{words}\n{kept}", file=sys.stderr)  # noqa: T201


def wishes_of(options: Namespace) -> Wishes:
    """Return what the command line asks of the look."""
    tier = Tier(options.glyphs) if options.glyphs else None
    return Wishes(options.theme, tier, options.units)


def fit_terminal() -> bool:
    """Tell whether there is a terminal that can be drawn on."""
    there = sys.stdin.isatty() and sys.stdout.isatty() and sys.stderr.isatty()
    return there and os.environ.get("TERM", "dumb") != "dumb"
