# SPDX-License-Identifier: Apache-2.0
"""A look at the files of a session on disk: are they still what was read or saved?"""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING

from rfplan.tui.outcomes import Broken

if TYPE_CHECKING:
    from rfplan.files.saving import PlanFile
    from rfplan.model.plan import Plan


class Watch:
    """Reads files again when their content has changed, and each content only once."""

    def __init__(self) -> None:
        self._seen: tuple[object, PlanFile | Broken] | None = None

    def newer(self, file: PlanFile, plan: Plan) -> PlanFile | Broken | None:
        """Return the file as it is on disk if it, or its airframe, is not as it was."""
        hashes = file.hashes_on_disk()
        if hashes == (file.sha256, file.airframe_sha256):
            self._seen = None
            return None
        if self._seen is None or self._seen[0] != hashes:
            self._seen = (hashes, _read_again(file, plan))
        return self._seen[1]


def names_of_changed(old: PlanFile, new: PlanFile) -> str:
    """Return the names of those files that are not as they were."""
    plan = [old.path.name] if old.sha256 != new.sha256 else []
    same_airframe = old.airframe_sha256 == new.airframe_sha256
    return " and ".join(plan + ([] if same_airframe else [old.airframe_path.name]))


def _read_again(file: PlanFile, plan: Plan) -> PlanFile | Broken:
    from rfplan.files.problems import ProblemsError
    from rfplan.files.saving import open_plan_file

    try:
        return open_plan_file(file.path, file.catalog, file.rulebook, plan.state, plan.serial)
    except ProblemsError as error:
        first = error.problems[0]
        return Broken(replace(first, file=Path(first.file).name).text(), error.problems)
