# SPDX-License-Identifier: Apache-2.0
"""RF201: antennas inside where the port accepts the outside skin only."""

from __future__ import annotations

import pytest
from rooms import findings, room_of
from sample import place, refitted, sample_facts, sample_plan, with_port

from rfplan.analysis.placement import snap
from rfplan.model.findings import Verdict
from rfplan.model.plan import Plan
from rfplan.model.rulebook import Strictness
from rfplan.rules import rf201_outside_skin_demanded as rf201


def inside() -> Plan:
    """Return the sample with its GNSS antenna on the glareshield, as it was found."""
    return refitted(sample_plan(), "antennas", "gnss1", on="glareshield", at=place(58, -7, 54))


def test_an_antenna_on_the_outside_skin_is_fine() -> None:
    assert findings("RF201") == []


def test_an_antenna_inside_fails_and_the_ports_document_says_so() -> None:
    (one,) = findings("RF201", inside())
    assert one.objects == ("gnss1",)
    assert (one.strictness, one.verdict) == (Strictness.REQUIRED, Verdict.FAIL)
    assert (one.value, one.limit) == (0.0, 1.0)
    assert "invented sheet" in one.source
    assert one.paths == ("gnss1",)


def test_a_port_that_does_not_demand_it_accepts_an_antenna_inside() -> None:
    assert findings("RF201", with_port(inside(), "nav1", "gnss", mounting=None)) == []


@pytest.mark.parametrize(("on", "margin"), [("top", 0.0), ("belly", 0.0), ("cabin", -1.0)])
def test_room_depends_on_the_surface_and_not_on_the_place(on: str, margin: float) -> None:
    facts = sample_facts()
    fitted, scene = facts.scene.fitted["gnss1"], facts.scene
    places = snap(scene.airframe, scene.hull, on, [place(80, 0, 50), place(90, 5, 50)])
    room = rf201.room(facts, fitted, places)
    assert room is not None
    assert room.margins.tolist() == [[margin, margin]]
    assert room_of(rf201, facts, "com1") is None
