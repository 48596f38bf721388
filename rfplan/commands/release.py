# SPDX-License-Identifier: Apache-2.0
"""rfplan release: file a plan under the letter of its revision, or say what keeps it from that."""

from __future__ import annotations

import shlex
from argparse import Namespace
from collections.abc import Iterator
from pathlib import Path

from rfplan.commands.opening import catalog_folder, refuse
from rfplan.commands.output import complain, progress, say
from rfplan.commands.package import settings
from rfplan.files.problems import ProblemsError
from rfplan.records.released import FOLDER, released_folder
from rfplan.records.revisions import NotReleasedError, release, revisions
from rfplan.reports.outcome import NOT_JUDGED

JUDGED_BY = {"state": "design", "serial": None, "catalog": None}
"""Options that decide which points are open, with what holds where they are not given."""

NAMED = (
    "Names stand in the plan under people, such as  released: {name: N. Name, role: quality, "
    "date: 2026-11-25}"
)

REFUSED = 1
"""The exit code where a plan may not be released as it is."""


def run(options: Namespace) -> int:
    """Write released/LETTER.zip beside the plan, or list what is there."""
    plan = Path(options.plan)
    if options.list_released:
        return _list(plan)
    try:
        path = release(plan, settings(options), catalog_folder(options), progress)
    except ProblemsError as error:
        return refuse(error)
    except NotReleasedError as refusal:
        complain("\n".join([*refusal.reasons, *_way_on(refusal, options), "rfplan: not released"]))
        return REFUSED
    except OSError as error:
        complain(f"rfplan: not released: {error.strerror or error}")
        return NOT_JUDGED
    say(f"{FOLDER}/{path.name} written. Raise revision.letter before the plan is changed again.")
    return 0


def _way_on(refusal: NotReleasedError, options: Namespace) -> Iterator[str]:
    """Say where names stand, and with which command points are accepted by name."""
    if any(reason.startswith("people.") for reason in refusal.reasons):
        yield f"\n{NAMED}"
    if not refusal.acceptable:
        return
    given = [options.plan, *(point.id for point in refusal.acceptable)]
    for name, otherwise in JUDGED_BY.items():
        if (value := getattr(options, name)) != otherwise:
            given += [f"--{name}", value]
    yield "\nTo accept such points as they are, by name, here or by w on each in the workspace:\n"
    yield f"  rfplan accept {shlex.join(given)} --by NAME\n"


def _list(plan: Path) -> int:
    """Print the released revisions, a line each."""
    released = revisions(released_folder(plan))
    lines = (
        f"{one.letter}  {one.status}  {one.state}  {one.date or 'undated'}" for one in released
    )
    say("\n".join(lines) or f"No revision is in {released_folder(plan)}.")
    return 0
