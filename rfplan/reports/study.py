# SPDX-License-Identifier: Apache-2.0
"""What is too slow to work out at every edit: paths over frequency, and pads on trial."""

from __future__ import annotations

from dataclasses import dataclass

from rfplan.analysis.chain_response import response
from rfplan.analysis.facts import Facts, gather
from rfplan.analysis.mismatched_cables import loaded_line, odd_pieces
from rfplan.model.assessment import Assessment
from rfplan.model.electrical import LoadedLine, OddPiece, PadTrial, Response
from rfplan.rules.pads import pad_trials


@dataclass(frozen=True, slots=True)
class PathStudy:
    """One path over frequency, with its reflections, and with each pad of the catalogue."""

    id: str
    response: Response | None
    line: LoadedLine | None
    pieces: tuple[OddPiece, ...]
    pads: tuple[PadTrial, ...]


def facts_of(assessment: Assessment) -> Facts:
    """Return the facts that an assessment rests on, gathered anew."""
    return gather(assessment.plan, assessment.catalog, assessment.rulebook)


def path_studies(assessment: Assessment, facts: Facts) -> tuple[PathStudy, ...]:
    """Return the study of every path of an assessment."""
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
