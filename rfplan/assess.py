# SPDX-License-Identifier: Apache-2.0
"""The one judgement: a plan, a catalogue and a rulebook in, an assessment out."""

from __future__ import annotations

from rfplan import rules
from rfplan.analysis.facts import Facts, gather
from rfplan.analysis.open_points import blocking, to_confirm, unbacked
from rfplan.model.assessment import Assessment, PathAssessment
from rfplan.model.catalog import Catalog
from rfplan.model.findings import RANK, Finding, OpenPoint, worst
from rfplan.model.plan import Plan
from rfplan.model.rulebook import Rulebook
from rfplan.rules import (
    acceptances,
    receivers,
    rf315_group_apart,
    rf402_power_at_antenna,
    rf701_waiver_without_finding,
    rf703_acceptance_without_point,
    standing,
    verdicts,
    waivers,
)


def assess(plan: Plan, catalog: Catalog, rulebook: Rulebook) -> Assessment:
    """Return the verdict of a plan in the state it is looked at, with every fact behind it."""
    facts = gather(plan, catalog, rulebook)
    assumed = tuple(to_confirm(facts))
    findings = _findings(facts, assumed)
    paths = tuple(verdicts.path_assessment(facts, id, findings) for id in sorted(facts.chains))
    return Assessment(
        plan=plan,
        catalog=catalog,
        rulebook=rulebook,
        verdict=worst([path.overall for path in paths] + [one.verdict for one in findings]),
        paths=paths,
        cables=facts.runs,
        antennas=standing.antenna_places(facts, findings),
        spacing=standing.spacing_facts(facts, findings),
        findings=findings,
        open_points=_open_points(facts, assumed, paths, findings),
        groups=rf315_group_apart.group_spreads(facts),
        weight=facts.weight,
        air_loads=facts.air_loads,
    )


def _findings(facts: Facts, assumed: tuple[OpenPoint, ...]) -> tuple[Finding, ...]:
    """Everything the rules find, each once, waivers applied, worst first."""
    found = [*rules.findings(facts), *rf703_acceptance_without_point.unused(facts, assumed)]
    once = {finding.id: finding for finding in found}
    unused = rf701_waiver_without_finding.unused(facts, once.values())
    applied = waivers.apply(facts.plan, [*once.values(), *unused])
    return tuple(sorted(applied, key=lambda finding: (RANK[finding.verdict], finding.id)))


def _open_points(
    facts: Facts,
    assumed: tuple[OpenPoint, ...],
    paths: tuple[PathAssessment, ...],
    findings: tuple[Finding, ...],
) -> tuple[OpenPoint, ...]:
    """Blocking points first, each once."""
    undecided = {
        path.id: (
            *(name for band in path.bands for name in band.undecided_by),
            *rf402_power_at_antenna.undecided(facts, path),
            *receivers.undecided(path),
        )
        for path in paths
    }
    found = [*blocking(facts, undecided), *assumed, *unbacked(findings)]
    points = acceptances.accept(facts.plan, found)
    once = {point.id: point for point in reversed(list(points))}
    return tuple(sorted(once.values(), key=lambda point: (not point.blocking, point.id)))
