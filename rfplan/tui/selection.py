# SPDX-License-Identifier: Apache-2.0
"""What is selected, on all screens alike."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from rfplan.model.findings import RANK
from rfplan.model.plan import Plan

if TYPE_CHECKING:
    from rfplan.model.assessment import Assessment


@dataclass(frozen=True, slots=True)
class Selection:
    """A path, an antenna and a finding, each by its id; a path's id for its own failed limits."""

    path: str | None = None
    antenna: str | None = None
    finding: str | None = None

    def within(self, plan: Plan) -> Selection:
        """Return the selection without paths and antennas that a plan does not have."""
        fitted = plan.installation
        path = self.path if self.path in fitted.paths else None
        return Selection(path, self.antenna if self.antenna in fitted.antennas else None)


def worst(assessment: Assessment) -> Selection:
    """Return the selection of the path with the worst word, and of its antenna."""
    path = min(assessment.paths, key=lambda path: RANK[path.overall], default=None)
    return Selection(path.id, path.antenna) if path else Selection()
