# SPDX-License-Identifier: Apache-2.0
"""What every placement rule has to stand: one room, at many places and at the present one."""

from __future__ import annotations

from types import ModuleType

import numpy as np
from sample import place, sample_catalog, sample_facts, sample_rulebook

from rfplan.analysis.facts import Facts
from rfplan.analysis.placement import snap
from rfplan.assess import assess
from rfplan.model.catalog import Catalog
from rfplan.model.findings import Finding
from rfplan.model.plan import Plan
from rfplan.model.rulebook import Rulebook
from rfplan.rules.room import TIE, Room

STATIONS = (60, 72, 80, 88, 101, 110, 119, 130, 150, 170, 230, 260)
BUTT_LINES = (0, -4, 9, -18, 27, 0, 31, -2, 0, 5, -1, 0)


def findings(
    rule: str,
    plan: Plan | None = None,
    catalog: Catalog | None = None,
    rulebook: Rulebook | None = None,
) -> list[Finding]:
    """Return what one rule finds in a plan, waivers applied."""
    facts = sample_facts(plan, catalog, rulebook)
    result = assess(facts.plan, facts.catalog, facts.rulebook)
    return [finding for finding in result.findings if finding.rule == rule]


def room_of(module: ModuleType, facts: Facts, antenna: str) -> Room | None:
    """Return the room of an antenna where it stands."""
    fitted = facts.scene.fitted[antenna]
    room: Room | None = module.room(facts, fitted, fitted.places)
    return room


def assert_same_everywhere(
    module: ModuleType, plan: Plan, antenna: str, *, on: str = "top", catalog: Catalog | None = None
) -> None:
    """Check that room at many places is that at each of them, and the finding at the present."""
    facts = sample_facts(plan, catalog or sample_catalog(), sample_rulebook())
    _assert_vectorised(module, facts, antenna, on)
    _assert_found_where_no_room_is(module, facts, antenna)


def _assert_vectorised(module: ModuleType, facts: Facts, antenna: str, on: str) -> None:
    fitted, scene = facts.scene.fitted[antenna], facts.scene
    rows = [place(fs, bl, 50) for fs, bl in zip(STATIONS, BUTT_LINES, strict=True)]
    many = module.room(facts, fitted, snap(scene.airframe, scene.hull, on, rows))
    assert many.margins.shape == (len(many.constraints), len(rows))
    assert len(set(np.round(many.tightest, 6))) > 1, "the places do not differ"
    for index, row in enumerate(rows):
        alone = module.room(facts, fitted, snap(scene.airframe, scene.hull, on, [row]))
        np.testing.assert_allclose(many.have[:, index], alone.have[:, 0], rtol=0, atol=1e-12)
        np.testing.assert_allclose(many.margins[:, index], alone.margins[:, 0], rtol=0, atol=1e-12)


def _assert_found_where_no_room_is(module: ModuleType, facts: Facts, antenna: str) -> None:
    present = room_of(module, facts, antenna)
    found = {
        frozenset(one.objects): one
        for one in findings(module.RULE.id, facts.plan, facts.catalog, facts.rulebook)
        if antenna in one.objects
    }
    assert present is not None
    assert found, "the plan breaks no such rule"
    for index, constraint in enumerate(present.constraints):
        margin = present.margins[index, 0]
        one = found.get(frozenset(constraint.objects))
        assert (one is None) == (margin >= -TIE)
        if one is not None and np.isfinite(margin):
            assert one.value == present.have[index, 0]
            assert one.limit == present.need[index, 0]
            assert (one.unit, one.strictness) == (present.unit, constraint.strictness)
