# SPDX-License-Identifier: Apache-2.0
"""Assessments that sheets are built from: one in which nothing is wrong, one with everything."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

import pytest
from sample import (
    inch,
    place,
    refitted,
    sample_assessment,
    sample_catalog,
    sample_plan,
    sample_rulebook,
    with_port,
)

from rfplan.model.assessment import Assessment
from rfplan.model.plan import Accepted, FindingRef, Measurement, Plan, Waiver
from rfplan.model.record import ById
from rfplan.reports.canonical import hashes_of
from rfplan.reports.context import Context
from rfplan.units import UNKNOWN, Range


@pytest.fixture
def context() -> Context:
    """The context of the sample, in inches, with every field on line 7 of the plan."""
    hashes = hashes_of(sample_plan(), sample_catalog(), sample_rulebook())
    return Context(
        hashes,
        version="0.0.test",
        date="2026-11-26",
        plan_file="plan.yaml",
        airframe_file="airframe.yaml",
        where=lambda keys: ("plan.yaml", 7, len(keys)),
    )


def busy_plan() -> Plan:
    """Return the sample with a waived and a failed spacing, an unknown limit and a reading."""
    plan = refitted(sample_plan(), "antennas", "com1", at=place(100, 0))
    plan = refitted(plan, "antennas", "xpdr1", on="top", at=place(86, 0))
    plan = with_port(plan, "xp1", "ant", loss_db=ById({"all": Range(UNKNOWN, 2.0)}))
    waiver = Waiver(
        finding=FindingRef("RF501", ("com1", "gnss1")),
        reason="no free place further aft",
        who="E. Three",
        date=date(2026, 11, 25),
        accepted=Accepted("20.0 in", "36.0 in"),
    )
    reading = Measurement(
        "gnss1", 1.62, plan.state, at_hz=1575.42e6, vswr=1.4, with_="analyser 7", who="P. One"
    )
    return replace(
        plan,
        waivers=ById({"v1": waiver}),
        measurements=ById({"m1": reading}),
        spacing=plan.spacing.having(
            "gnss_lband",
            replace(plan.spacing["gnss_com"], id="gnss_lband", to="lband", min_m=inch(12)),
        ),
    )


@pytest.fixture
def clean() -> Assessment:
    """The sample, in which no rule finds anything."""
    return sample_assessment()


@pytest.fixture
def busy() -> Assessment:
    """The sample with something to say on every sheet."""
    return sample_assessment(busy_plan())
