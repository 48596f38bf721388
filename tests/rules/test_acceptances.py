# SPDX-License-Identifier: Apache-2.0
"""Open points accepted by name: as they are, and no longer when the value changes."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from typing import Any

import pytest
from sample import place, refitted, sample_assessment, sample_catalog, sample_plan, with_entry

from rfplan.model.catalog import Catalog
from rfplan.model.findings import Acceptance, OpenPoint
from rfplan.model.plan import AcceptedPoint, GroundPlane, Measurement, Person, Plan
from rfplan.model.record import ById
from rfplan.model.source import Source
from rfplan.rules.acceptances import binding_of
from rfplan.units import UNKNOWN, Range

DAY = date(2026, 11, 25)


def accepted(plan: Plan, id: str, **changes: Any) -> Plan:
    """Return a plan in which somebody accepts an open point."""
    return replace(plan, accepted=ById({id: replace(AcceptedPoint("C. Two", DAY), **changes)}))


def point(plan: Plan, id: str, catalog: Catalog | None = None) -> OpenPoint:
    """Return one open point of a plan."""
    points = sample_assessment(plan, catalog).open_points
    return next(one for one in points if one.id == id)


def standing(plan: Plan, id: str, catalog: Catalog | None = None) -> Acceptance:
    """Return how the acceptance of a point stands."""
    told = point(plan, id, catalog).acceptance
    assert told is not None
    return told


def recalled(**changes: Any) -> Catalog:
    """Return the sample's catalogue with its cable remembered, and changed."""
    source = ById({"sheet": Source("assumed", document="a handbook", read="memory")})
    return with_entry(sample_catalog(), "cables", "coax_5mm", sources=source, **changes)


def test_a_point_accepted_by_hand_holds_and_is_marked_unbound() -> None:
    plan = accepted(sample_plan(), "coax_5mm.loss")
    told = standing(plan, "coax_5mm.loss", recalled())
    assert told == Acceptance("C. Two", "2026-11-25", reopened=False, unbound=True)


def test_a_point_is_bound_to_its_value_and_reopens_with_another() -> None:
    bound = binding_of(point(sample_plan(), "coax_5mm.loss", recalled()))
    plan = accepted(sample_plan(), "coax_5mm.loss", bound=bound)
    told = standing(plan, "coax_5mm.loss", recalled())
    assert (told.reopened, told.unbound) == (False, False)
    nominal = recalled().cables["coax_5mm"].attenuation["nominal"]
    wider = ById({"nominal": replace(nominal, tolerance_ratio=0.10)})
    assert standing(plan, "coax_5mm.loss", recalled(attenuation=wider)).reopened
    assert not standing(plan, "coax_5mm.loss", recalled(jacket="FEP")).reopened


def foil(**changes: Any) -> Plan:
    """Return the sample with foil that nobody has verified."""
    plane = GroundPlane("copper foil", "top", Range(1.8, 2.2), Range(-0.3, 0.3))
    plan = sample_plan()
    planes = ById({"foil": replace(plane, **changes)})
    return replace(plan, design=replace(plan.design, ground_planes=planes))


def port(**changes: Any) -> Plan:
    """Return the sample with a port whose limits rest on memory."""
    plan = sample_plan()
    unit = plan.design.units["nav1"]
    told = replace(unit.ports["com"], source="book", **changes)
    sources = plan.sources.having("book", Source("specification", document="B", read="memory"))
    plan = replace(plan, sources=sources)
    return refitted(plan, "units", "nav1", ports=unit.ports.having("com", told))


def drops(at_in: float) -> Plan:
    """Return the sample with a drop that follows from where an antenna stands."""
    plan = refitted(sample_plan(), "cables", "w21", drops_m=None)
    return refitted(plan, "antennas", "com1", at=place(at_in, 0))


def read(loss_db: float) -> Plan:
    """Return the sample with a reading of which the temperature is not known."""
    plan = sample_plan()
    reading = Measurement("gnss1", loss_db, plan.state, at_hz=1575.42e6, uncertainty_db=0.1)
    return replace(plan, measurements=ById({"m1": reading}))


@pytest.mark.parametrize(
    ("id", "before", "after"),
    [
        ("foil.verified", foil(), foil(fs_m=Range(1.9, 2.2))),
        ("nav1.com.source", port(), port(loss_db=ById({"all": Range(UNKNOWN, 2.4)}))),
        ("w21.drops", drops(131.0), drops(132.0)),
        ("m1.temperature", read(1.6), read(1.7)),
    ],
)
def test_each_point_is_bound_to_what_it_is_about(id: str, before: Plan, after: Plan) -> None:
    bound = binding_of(point(before, id))
    assert not standing(accepted(before, id, bound=bound), id).reopened
    assert standing(accepted(after, id, bound=bound), id).reopened


@pytest.mark.parametrize("who", ["", " ", "?"])
def test_nobody_accepts_nothing(who: str) -> None:
    plan = accepted(foil(), "foil.verified", who=who)
    assert point(plan, "foil.verified").acceptance is None


def test_neither_what_blocks_nor_a_missing_name_can_be_accepted() -> None:
    plan = refitted(sample_plan(), "cables", "w11", type="?")
    plan = replace(plan, people=ById({"checked": Person("?")}))
    for id in ("w11.type", "checked.name"):
        one = point(accepted(plan, id), id)
        assert (binding_of(one), one.acceptance) == (None, None)
