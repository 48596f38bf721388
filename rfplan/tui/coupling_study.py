# SPDX-License-Identifier: Apache-2.0
"""The interference matrix of one assessment, and the cell of it that is looked at."""

from __future__ import annotations

from dataclasses import dataclass

from rfplan.analysis.facts import Facts
from rfplan.analysis.interference import worst_first
from rfplan.analysis.isolation_models import Rung
from rfplan.model.assessment import Assessment
from rfplan.model.interference import Exposure, Matrix, MatrixCell
from rfplan.reports.cures import Cure, cures
from rfplan.reports.study import facts_of, matrix_of


@dataclass(frozen=True, slots=True)
class Study:
    """A matrix with what it was worked out from, and what would help."""

    assessment: Assessment
    facts: Facts
    matrix: Matrix
    cures: tuple[Cure, ...]
    rung: Rung

    def cell(self, source: str, victim: str) -> MatrixCell | None:
        """Return the cell of two antennas, None where nothing meets."""
        cells = self.matrix.cells
        return next((one for one in cells if (one.source, one.victim) == (source, victim)), None)

    def worst_of(self, antenna: str | None) -> tuple[str, str]:
        """Return the worst cell in which an antenna receives, else sends, else the worst of all."""
        cells = sorted(self.matrix.cells, key=lambda cell: worst_first(cell.worst))
        own = [cell for cell in cells if cell.victim == antenna]
        own += [cell for cell in cells if cell.source == antenna]
        worst = (own or cells)[0]
        return worst.source, worst.victim


def study_of(assessment: Assessment, rung: Rung = Rung.DEFAULT) -> Study:
    """Work the matrix of an assessment out, by one rung of the ladder."""
    facts = facts_of(assessment)
    matrix = matrix_of(assessment, rung)
    return Study(assessment, facts, matrix, cures(matrix, facts), rung)


@dataclass(frozen=True, slots=True)
class Chosen:
    """Two antennas, and one exposure of their cell; None where they have none."""

    source: str
    victim: str
    index: int
    cell: MatrixCell | None

    @property
    def exposure(self) -> Exposure | None:
        """The emission against the limit that is told."""
        if self.cell is None:
            return None
        return self.cell.exposures[min(self.index, len(self.cell.exposures) - 1)]

    @property
    def key(self) -> str:
        """What its entry in a list is called."""
        return exposure_key(self.source, self.victim, self.index)


def exposure_key(source: str, victim: str, index: int = 0) -> str:
    """Return the key of one exposure; ids hold no blanks."""
    return f"{source} {victim} {index}"
