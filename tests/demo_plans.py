# SPDX-License-Identifier: Apache-2.0
"""The demo aircraft read and judged, each state once, for the tests that look at them."""

from __future__ import annotations

from functools import cache
from pathlib import Path

from plan_files import shipped_catalog, shipped_rulebook

from rfplan.assess import assess
from rfplan.files.load import load_plan
from rfplan.model.assessment import Assessment, PathAssessment
from rfplan.model.plan import Plan, State

FOLDER = Path(__file__).resolve().parent.parent / "demo_aircraft"
DEMOS = ("amphibian", "twin")
EVERY_STATE = [(demo, state) for demo in DEMOS for state in State]


@cache
def plan_of(demo: str, state: State = State.DESIGN, serial: str | None = None) -> Plan:
    """Return the plan of a demo aircraft in one state."""
    loaded = load_plan(
        FOLDER / demo,
        catalog=shipped_catalog(),
        rulebook=shipped_rulebook(),
        state=state,
        serial=serial,
    )
    return loaded.plan


def judged(plan: Plan) -> Assessment:
    """Return the assessment of a plan with what ships."""
    return assess(plan, shipped_catalog(), shipped_rulebook())


@cache
def assessed(demo: str, state: State = State.DESIGN, serial: str | None = None) -> Assessment:
    """Return the assessment of a demo aircraft in one state."""
    return judged(plan_of(demo, state, serial))


def path_of(assessment: Assessment, id: str) -> PathAssessment:
    """Return one path of an assessment."""
    return next(path for path in assessment.paths if path.id == id)


def words_of(demo: str) -> str:
    """Return the text of a README on one line."""
    return " ".join((FOLDER / demo / "README.md").read_text("utf-8").split())
