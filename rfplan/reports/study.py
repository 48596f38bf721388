# SPDX-License-Identifier: Apache-2.0
"""What is too slow to work out at every edit: the matrix, paths over frequency, pads on trial."""

from __future__ import annotations

from dataclasses import dataclass

from rfplan.analysis.chain_response import response
from rfplan.analysis.facts import Facts, gather
from rfplan.analysis.interference import interference
from rfplan.analysis.isolation_models import Rung
from rfplan.analysis.kept import kept
from rfplan.analysis.mismatched_cables import loaded_line, odd_pieces
from rfplan.analysis.mixing import mixing
from rfplan.model.assessment import Assessment
from rfplan.model.electrical import LoadedLine, OddPiece, PadTrial, Response
from rfplan.model.interference import Matrix
from rfplan.model.mixing import Mixing
from rfplan.rules.pads import pad_trials


@dataclass(frozen=True, slots=True)
class PathStudy:
    """One path over frequency, with its reflections, and with each pad of the catalogue."""

    id: str
    response: Response | None
    line: LoadedLine | None
    pieces: tuple[OddPiece, ...]
    pads: tuple[PadTrial, ...]


@kept
def facts_of(assessment: Assessment) -> Facts:
    """Return the facts that an assessment rests on."""
    return gather(assessment.plan, assessment.catalog, assessment.rulebook)


@kept
def matrix_of(assessment: Assessment, rung: Rung) -> Matrix:
    """Return the interference matrix of an assessment by one rung; several sheets ask for it."""
    return interference(facts_of(assessment), rung)


@kept
def mixing_of(assessment: Assessment) -> Mixing:
    """Return the mixing products of an assessment; several sheets ask for them."""
    return mixing(facts_of(assessment))


@kept
def path_studies(assessment: Assessment) -> tuple[PathStudy, ...]:
    """Return the study of every path of an assessment."""
    facts = facts_of(assessment)
    return tuple(
        PathStudy(
            id=path.id,
            response=response(facts, path.id),
            line=loaded_line(facts, path.id),
            pieces=tuple(odd_pieces(facts, path.id)),
            pads=pad_trials(facts, path.id),
        )
        for path in assessment.paths
    )
