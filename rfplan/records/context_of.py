# SPDX-License-Identifier: Apache-2.0
"""What every sheet of an open plan tells beside its assessment, whoever shows it."""

from __future__ import annotations

from pathlib import Path

from rfplan.files.catalog_files import place_in_catalog
from rfplan.files.load import LoadedPlan
from rfplan.model.assessment import Assessment
from rfplan.records.settings import Settings
from rfplan.reports.canonical import hashes_of
from rfplan.reports.context import Context


def context_of(
    assessment: Assessment, loaded: LoadedPlan, settings: Settings, user_folder: Path | None
) -> Context:
    """Return the context of an assessment; the date is the plan's own where none is set."""
    plan = assessment.plan
    own = plan.revision.date

    def where(keys: tuple[str, ...]) -> tuple[str, int, int]:
        """Return file, line and column of a field of the plan, its airframe or the catalogue."""
        if keys[:1] != ("catalog",):
            file, line, column = loaded.line_of(plan.state, keys)
            return _from(Path(loaded.documents[0].file).parent, Path(file)), line, column
        return place_in_catalog(keys[1], keys[2], keys[3:], user_folder)

    return Context(
        hashes=hashes_of(plan, assessment.catalog, assessment.rulebook),
        units=settings.units,
        date=settings.date or (own.isoformat() if own else None),
        plan_file=Path(loaded.documents[0].file).name,
        airframe_file=Path(loaded.documents[1].file).name,
        where=where,
    )


def _from(folder: Path, file: Path) -> str:
    """Name a file from a folder on, so that a sheet reads the same wherever the plan lies."""
    return (file.relative_to(folder) if file.is_relative_to(folder) else file).as_posix()
