# SPDX-License-Identifier: Apache-2.0
"""One file that holds a judged plan with all it rests on, the same bytes wherever it is made."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

from rfplan.files.load import load_catalog, load_plan, load_rulebook
from rfplan.records.container import pack
from rfplan.records.inputs import gathered
from rfplan.records.judging import Tell, contents, untold
from rfplan.records.settings import Settings


def package(
    plan: Path, settings: Settings, user_folder: Path | None = None, tell: Tell = untold
) -> bytes:
    """Return the package of a plan, a file or its folder; ProblemsError if it cannot be judged.

    Serial and date are the plan's own where the settings name none; `tell` is told each sheet.
    """
    catalog = load_catalog(user_folder)
    loaded = load_plan(
        plan,
        catalog=catalog,
        rulebook=load_rulebook(),
        state=settings.state,
        serial=settings.serial,
    )
    day = loaded.plan.revision.date
    settled = replace(
        settings,
        plan=Path(loaded.documents[0].file).name,
        serial=loaded.plan.serial,
        date=settings.date or (day.isoformat() if day else None),
    )
    return pack(contents(gathered(loaded, catalog, user_folder), settled, tell=tell))
