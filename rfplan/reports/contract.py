# SPDX-License-Identifier: Apache-2.0
"""The answer of `rfplan check --json`: every key always there, null for what is not known.

Keys may be added; renaming or retyping one needs another number behind the format.
"""

from __future__ import annotations

from collections.abc import Iterable
from typing import Protocol, TypeVar

from rfplan import __version__
from rfplan.analysis.facts import Facts
from rfplan.analysis.isolation_models import Rung
from rfplan.model.assessment import AntennaPlace, Assessment, SpacingFact
from rfplan.model.findings import RANK, Acceptance, Finding, OpenPoint, WaiverNote
from rfplan.model.plan import Plan, Policy
from rfplan.reports.context import Context
from rfplan.reports.contract_isolation import isolation_json
from rfplan.reports.contract_mixing import channel_pairs_json, mixing_json
from rfplan.reports.contract_paths import path_json
from rfplan.reports.contract_receivers import group_json
from rfplan.reports.contract_study import decider_json, study_json
from rfplan.reports.json_text import Json, rounded
from rfplan.reports.outcome import NOT_JUDGED, exit_code, word_counts
from rfplan.reports.study import facts_of, matrix_of, mixing_of, path_studies
from rfplan.reports.wording import said
from rfplan.rules import acceptances, waivers
from rfplan.rules.what_to_measure import what_to_measure

FORMAT = "rfplan-check/1"


class Problem(Protocol):
    """What is wrong in a file, and where."""

    @property
    def file(self) -> str: ...
    @property
    def line(self) -> int: ...
    @property
    def column(self) -> int: ...
    @property
    def key(self) -> str | None: ...
    @property
    def message(self) -> str: ...
    @property
    def expected(self) -> str: ...


def check_json(assessment: Assessment, context: Context, *, strict: bool = False) -> Json:
    """Return everything about an assessment, in SI units, for other programs."""
    plan, facts = assessment.plan, facts_of(assessment)
    mixed = mixing_of(assessment)
    findings = sorted(assessment.findings, key=lambda one: (RANK[one.verdict], one.id))
    return {
        "format": FORMAT,
        "tool": _tool(context.version),
        "inputs": {
            "plan_sha256": context.hashes.plan,
            "catalog_sha256": context.hashes.catalog,
            "rules_sha256": context.hashes.rules,
        },
        "aircraft": _aircraft(plan),
        "state": str(plan.state),
        "revision": _revision(plan),
        "policy": _policy(plan.policy),
        "verdict": str(assessment.verdict),
        "exit_code": exit_code(assessment, strict=strict),
        "counts": _counts(assessment),
        "problems": [],
        "paths": _paths(assessment, facts),
        "antennas": [_antenna(antenna) for antenna in _by_id(assessment.antennas)],
        "spacing": [_spacing(pair) for pair in _in_pairs(assessment.spacing)],
        "isolation": isolation_json(matrix_of(assessment, Rung.DEFAULT)),
        "mixing": mixing_json(mixed.bands),
        "channel_pairs": channel_pairs_json(mixed.channels),
        "findings": [_finding(finding, context) for finding in findings],
        "open_points": [_open_point(point, context) for point in assessment.open_points],
        "groups": [group_json(group) for group in _by_id(assessment.groups)],
        "measure_first": [decider_json(one) for one in what_to_measure(facts, assessment)],
    }


def failed_json(problems: Iterable[Problem], *, version: str = __version__) -> Json:
    """Return the answer where the files could not be read: nothing was judged."""
    words: Json = {str(word): count for word, count in word_counts(()).items()}
    return {
        "format": FORMAT,
        "tool": _tool(version),
        "inputs": dict.fromkeys(("plan_sha256", "catalog_sha256", "rules_sha256")),
        "aircraft": dict.fromkeys(("id", "name", "serial", "variant")),
        "state": None,
        "revision": dict.fromkeys(("letter", "status", "date")),
        "policy": dict.fromkeys(("near_db", "cold_c", "hot_c", "agree_db", "stack")),
        "verdict": None,
        "exit_code": NOT_JUDGED,
        "counts": {
            "paths": words,
            "findings": dict(words),
            "open_blocking": 0,
            "open_to_confirm": 0,
        },
        "problems": [_problem(problem) for problem in problems],
        "paths": [],
        "antennas": [],
        "spacing": [],
        "isolation": [],
        "mixing": [],
        "channel_pairs": [],
        "findings": [],
        "open_points": [],
        "groups": [],
        "measure_first": [],
    }


class _Named(Protocol):
    @property
    def id(self) -> str: ...


_Thing = TypeVar("_Thing", bound=_Named)


def _by_id(things: Iterable[_Thing]) -> list[_Thing]:
    return sorted(things, key=lambda thing: thing.id)


def _paths(assessment: Assessment, facts: Facts) -> list[Json]:
    """Return every path with its study, by id."""
    studies = {study.id: study_json(study) for study in path_studies(assessment)}
    paths = _by_id(assessment.paths)
    return [{**path_json(path, assessment), **studies[path.id]} for path in paths]


def _tool(version: str) -> Json:
    return {"name": "rfplan", "version": version}


def _aircraft(plan: Plan) -> Json:
    return {
        "id": plan.airframe.id or plan.id,
        "name": plan.airframe.name,
        "serial": plan.serial,
        "variant": plan.variant,
    }


def _revision(plan: Plan) -> Json:
    revision = plan.revision
    return {
        "letter": revision.letter,
        "status": revision.status,
        "date": revision.date.isoformat() if revision.date else None,
    }


def _policy(policy: Policy) -> Json:
    cold_c, hot_c = policy.temperature_c.known()
    return {
        "near_db": rounded(policy.near_db),
        "cold_c": rounded(cold_c),
        "hot_c": rounded(hot_c),
        "agree_db": rounded(policy.agree_db),
        "stack": str(policy.stack),
    }


def _counts(assessment: Assessment) -> Json:
    paths = word_counts(path.overall for path in assessment.paths)
    findings = word_counts(finding.verdict for finding in assessment.findings)
    blocking = sum(point.blocking for point in assessment.open_points)
    return {
        "paths": {str(word): count for word, count in paths.items()},
        "findings": {str(word): count for word, count in findings.items()},
        "open_blocking": blocking,
        "open_to_confirm": len(assessment.open_points) - blocking,
    }


def _antenna(antenna: AntennaPlace) -> Json:
    fs_m, bl_m, wl_m = antenna.point_m
    return {
        "id": antenna.id,
        "type": antenna.type,
        "surface": antenna.surface,
        "fs_m": rounded(fs_m),
        "bl_m": rounded(bl_m),
        "wl_m": rounded(wl_m),
        "normal": [rounded(part) for part in antenna.normal],
        "zone": list(antenna.zones),
        "overall": str(antenna.overall),
        "inside": antenna.inside,
    }


def _in_pairs(pairs: Iterable[SpacingFact]) -> list[SpacingFact]:
    return sorted(pairs, key=lambda pair: (pair.a, pair.b))


def _spacing(pair: SpacingFact) -> Json:
    return {
        "a": pair.a,
        "b": pair.b,
        "centre_m": rounded(pair.centre_m),
        "edge_m": rounded(pair.edge_m),
        "skin_m": rounded(pair.skin_m),
        "need_m": rounded(pair.need_m),
        "datum": pair.datum,
        "margin_m": rounded(pair.margin_m),
        "strictness": None if pair.strictness is None else str(pair.strictness),
        "rule": pair.rule,
        "verdict": None if pair.verdict is None else str(pair.verdict),
    }


def _finding(finding: Finding, context: Context) -> Json:
    file, line, column = _place(finding.where, context)
    return {
        "id": finding.id,
        "rule": finding.rule,
        "name": finding.name,
        "strictness": str(finding.strictness),
        "objects": list(finding.objects),
        "state": str(finding.state),
        "value": rounded(finding.value),
        "limit": rounded(finding.limit),
        "unit": finding.unit,
        "text": said(finding, context.units),
        "remedy": finding.remedy,
        "source": finding.source,
        "source_class": finding.source_class,
        "verdict": str(finding.verdict),
        "waiver": None if finding.waiver is None else _waiver(finding.waiver),
        "bound": waivers.binding_of(finding),
        "paths": list(finding.paths),
        "file": file,
        "line": line,
        "column": column,
    }


def _place(
    where: tuple[str, ...], context: Context
) -> tuple[str, int, int] | tuple[None, None, None]:
    """Return where an entry stands, if it is known."""
    return context.where(where) if where and context.where else (None, None, None)


def _waiver(note: WaiverNote) -> Json:
    return {
        "id": note.id,
        "who": note.who,
        "date": note.date,
        "reason": note.reason,
        "reopened": note.reopened,
        "unbound": note.unbound,
        "approved_data": note.approved_data,
        "check": note.check,
        "accepted": note.accepted and {"have": note.accepted.have, "need": note.accepted.need},
    }


def _open_point(point: OpenPoint, context: Context) -> Json:
    file, line, _ = _place(point.where, context)
    return {
        "id": point.id,
        "blocking": point.blocking,
        "object": point.object,
        "field": point.field,
        "file": file,
        "line": line,
        "text": point.text,
        "who": point.who,
        "accepted": point.acceptance and _acceptance(point.acceptance),
        "bound": acceptances.binding_of(point),
    }


def _acceptance(acceptance: Acceptance) -> Json:
    return {
        "who": acceptance.who,
        "date": acceptance.date,
        "reopened": acceptance.reopened,
        "unbound": acceptance.unbound,
        "check": acceptance.check,
    }


def _problem(problem: Problem) -> Json:
    return {
        "file": problem.file,
        "line": problem.line,
        "column": problem.column,
        "key": problem.key,
        "message": problem.message,
        "expected": problem.expected,
    }
