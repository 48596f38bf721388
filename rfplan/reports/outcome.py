# SPDX-License-Identifier: Apache-2.0
"""What an assessment comes to: exit code, counts of words, and what decided a path."""

from __future__ import annotations

from collections.abc import Iterable

from rfplan.model.assessment import Assessment, BandLoss, PathAssessment
from rfplan.model.findings import RANK, Verdict, worst
from rfplan.rules import rf402_power_at_antenna

NOT_JUDGED = 2
"""The exit code where files or usage left nothing to judge."""

_ISSUED = ("released", "as built", "superseded")


def exit_code(assessment: Assessment, *, strict: bool = False) -> int:
    """Return 1 where anything fails, else 3 where it is incomplete, else 0.

    With `strict` a waived finding counts as failed.
    """
    if assessment.verdict.fails or (strict and waived(assessment)):
        return 1
    return 3 if assessment.verdict is Verdict.INCOMPLETE else 0


def waived(assessment: Assessment) -> int:
    """Return how many findings are waived."""
    return word_counts(finding.verdict for finding in assessment.findings)[Verdict.WAIVED]


def word_counts(verdicts: Iterable[Verdict]) -> dict[Verdict, int]:
    """Return how often each word occurs; every word is there."""
    counts = dict.fromkeys(Verdict, 0)
    for verdict in verdicts:
        counts[verdict] += 1
    return counts


def is_draft(assessment: Assessment) -> bool:
    """Whether a sheet must not be taken for a filed one: not released, failed or incomplete."""
    issued = assessment.plan.revision.status in _ISSUED
    return not issued or assessment.verdict.fails or assessment.verdict is Verdict.INCOMPLETE


def loss_word(path: PathAssessment) -> Verdict:
    """Return the word of the loss alone, NEAR where it passes closely."""
    return Verdict.NEAR if path.loss.near else path.loss.verdict


def own_word(path: PathAssessment) -> Verdict:
    """Return the worst word of a path's own limits, loss, power and sensitivity, without rules."""
    judged = (path.loss, path.transmit, *path.receive)
    return worst(one.verdict for one in judged if one is not None and one.verdict)


def unmet_paths(assessment: Assessment) -> list[PathAssessment]:
    """Return the paths that fail their own limits or lack a figure for them, the worst first."""
    unmet = [p for p in assessment.paths if (w := own_word(p)).fails or w is Verdict.INCOMPLETE]
    return sorted(unmet, key=lambda path: RANK[own_word(path)])


def band_word(band: BandLoss) -> Verdict:
    """Return the word of the loss in one band, NEAR where it passes closely."""
    return Verdict.NEAR if band.near else band.verdict


def decided_by(path: PathAssessment, assessment: Assessment) -> str:
    """Return the rule that made a path worse than its loss; empty where the loss decides."""
    if path.overall is loss_word(path):
        return ""
    for finding in assessment.findings:
        if finding.id in path.findings and finding.verdict is path.overall:
            return finding.name
    return rf402_power_at_antenna.RULE.name
