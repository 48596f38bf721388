# SPDX-License-Identifier: Apache-2.0
"""What waive and accept share: read the plan, sign, save, and say what was done or why not."""

from __future__ import annotations

from argparse import Namespace
from collections.abc import Callable, Sequence
from datetime import date
from pathlib import Path

from rfplan.assess import assess
from rfplan.commands.opening import catalog_folder, given_date, refuse
from rfplan.commands.output import complain, say
from rfplan.edits import Edit, EditError
from rfplan.files.load import load_catalog, load_rulebook
from rfplan.files.problems import ProblemsError
from rfplan.files.replacing import NotSavedError
from rfplan.files.saving import open_plan_file
from rfplan.model.assessment import Assessment
from rfplan.model.plan import State
from rfplan.reports.outcome import NOT_JUDGED
from rfplan.reports.signing import Signature

REFUSED = 1
"""The exit code where there is a plan, and it does not let that be signed."""

Sign = Callable[[Assessment, Signature], Sequence[Edit]]


def sign(options: Namespace, edits: Sign) -> int:
    """Judge a plan, make the edits that its assessment leads to, save, and tell each."""
    try:
        return _signed(options, edits)
    except ProblemsError as error:
        return refuse(error)
    except EditError as error:
        complain(f"rfplan: not signed: {error}")
        return REFUSED
    except NotSavedError as error:
        complain(f"rfplan: not saved: {error}")
        return NOT_JUDGED


def _signed(options: Namespace, edits: Sign) -> int:
    day = given_date(options.date)
    signed = Signature(
        who=options.by,
        day=date.fromisoformat(day) if day else date.today(),
        check=options.check,
        role=getattr(options, "role", None),
    )
    file = open_plan_file(
        Path(options.plan),
        load_catalog(catalog_folder(options)),
        load_rulebook(),
        State(options.state),
        options.serial,
    )
    plan = file.loaded.plan
    told: list[str] = []
    for edit in edits(assess(plan, file.catalog, file.rulebook), signed):
        told.append(edit.words(plan))
        plan = edit.apply(plan)
    file.save(plan)
    say("\n".join([*told, f"{file.path.name} saved"]))
    return 0
