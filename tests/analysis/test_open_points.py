# SPDX-License-Identifier: Apache-2.0
"""What is left open: blocking where it decides a verdict, else to confirm."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest
from sample import (
    MHZ,
    SOURCES,
    place,
    refitted,
    sample_assessment,
    sample_catalog,
    sample_plan,
    sample_rulebook,
    with_airframe,
    with_entry,
    with_port,
    with_radio,
)

from rfplan.model.catalog import AttenuationPoint, AttenuationSet, Catalog
from rfplan.model.findings import OpenPoint, Verdict
from rfplan.model.plan import (
    FindingRef,
    GroundPlane,
    Measurement,
    Person,
    Plan,
    State,
    StatedMass,
    Waiver,
)
from rfplan.model.record import ById
from rfplan.model.rulebook import Strictness
from rfplan.model.source import Source
from rfplan.units import NONE, UNKNOWN, Range


def points(plan: Plan | None = None, catalog: Catalog | None = None) -> dict[str, OpenPoint]:
    """Return the open points of an assessment by id."""
    return {point.id: point for point in sample_assessment(plan, catalog).open_points}


def test_a_plan_in_which_all_is_known_leaves_nothing_open() -> None:
    assert points() == {}


@pytest.mark.parametrize(
    ("changes", "id"),
    [
        ({"type": "?"}, "w11.type"),
        ({"length_m": UNKNOWN}, "w11.length"),
        ({"loops_m": (UNKNOWN, 0.1)}, "w11.loops"),
        ({"avoid": ("apl",)}, "w11.route"),
    ],
)
def test_an_unknown_that_decides_a_path_blocks_and_says_where_it_is_written(
    changes: dict[str, Any], id: str
) -> None:
    point = points(refitted(sample_plan(), "cables", "w11", **changes))[id]
    assert point.blocking
    assert point.where == ("cables", "w11", id.partition(".")[2])
    assert "gnss1" in point.text


def test_a_limit_not_yet_known_blocks_at_its_port() -> None:
    plan = with_port(sample_plan(), "nav1", "gnss", loss_db=ById({"all": Range(UNKNOWN, 4.0)}))
    point = points(plan)["nav1.gnss.loss"]
    assert point.blocking
    assert point.where == ("units", "nav1", "ports", "gnss", "loss")


def test_an_entry_of_the_catalogue_blocks_in_its_own_file() -> None:
    rows = tuple(AttenuationPoint(f * MHZ, 0.015 * f**0.5) for f in (10, 100, 400))
    short = ById({"nominal": AttenuationSet(points=rows, source="sheet")})
    catalog = with_entry(sample_catalog(), "cables", "coax_5mm", attenuation=short)
    point = points(catalog=catalog)["coax_5mm.attenuation"]
    assert point.blocking
    assert point.where == ("catalog", "cables", "coax_5mm", "attenuation")


def test_a_plug_that_nobody_knows_blocks_at_the_port() -> None:
    plan = refitted(sample_plan(), "cables", "w11", plugs=("?", "tnc"))
    plan = with_port(plan, "nav1", "gnss", plug=None)
    assert points(plan)["nav1.gnss.plug"].blocking


def test_a_point_that_blocks_several_paths_is_listed_once() -> None:
    catalog = with_entry(sample_catalog(), "connectors", "bnc", loss=ById())
    found = [point for point in sample_assessment(catalog=catalog).open_points if point.blocking]
    assert len(found) == len({point.id for point in found})


def test_blocking_points_come_first() -> None:
    plan = refitted(sample_plan(), "cables", "w11", length_m=UNKNOWN)
    plan = with_port(plan, "nav1", "com", source=None)
    blocking = [point.blocking for point in sample_assessment(plan).open_points]
    assert blocking == [True, False, False]


# ----- power and sensitivity


@pytest.mark.parametrize(
    ("changes", "field"),
    [
        ({"power_w": Range(UNKNOWN, UNKNOWN)}, "power"),
        ({"power_w": Range(200.0, UNKNOWN)}, "power"),
        ({"sensitivity_dbm": ById({"all": Range(UNKNOWN, -74.0)})}, "sensitivity"),
    ],
)
def test_a_level_that_is_not_known_and_has_limits_leaves_the_path_incomplete(
    changes: dict[str, Any], field: str
) -> None:
    plan = with_port(sample_plan(), "xp1", "ant", **changes)
    result = sample_assessment(plan)
    assert result.verdict is Verdict.INCOMPLETE
    (finding,) = result.findings
    assert (finding.rule, finding.objects) == ("RF402", ("xp1.ant",))
    assert finding.paths == ("xpdr1",)
    assert points(plan)[f"xp1.ant.{field}"].blocking


def test_a_class_that_decides_and_is_not_known_blocks() -> None:
    # 135 W less 1.5 dB is 19.8 dBW: enough for 18.5 and not for 21.0
    rulebook = sample_rulebook()
    low = replace(
        rulebook.radios["transponder"].classes["high"], antenna_power_w=Range(70.0, 500.0)
    )
    classes = rulebook.radios["transponder"].classes.having("low", low)
    plan = with_port(sample_plan(), "xp1", "ant", class_=None, power_w=Range(135.0, 135.0))
    result = sample_assessment(plan, rulebook=with_radio(rulebook, "transponder", classes=classes))
    assert result.verdict is Verdict.INCOMPLETE
    assert [point.id for point in result.open_points] == ["xp1.ant.class"]


def test_an_unknown_length_that_only_power_depends_on_is_named() -> None:
    plan = refitted(sample_plan(), "cables", "w31", length_m=UNKNOWN)
    plan = with_port(plan, "xp1", "ant", loss_db=ById({"all": Range(NONE, NONE)}))
    assert points(plan)["w31.length"].blocking


def test_levels_that_are_not_given_are_to_confirm() -> None:
    plan = with_port(sample_plan(), "xp1", "ant", power_w=None, sensitivity_dbm=ById())
    found = points(plan)
    assert sorted(found) == ["xp1.ant.power", "xp1.ant.sensitivity"]
    assert not any(point.blocking for point in found.values())


# ----- to confirm


def test_a_loss_from_memory_is_to_confirm_once_for_each_entry() -> None:
    memory = SOURCES.having("sheet", Source("assumed", read="memory", document="handbook"))
    found = points(catalog=with_entry(sample_catalog(), "cables", "coax_5mm", sources=memory))
    assert list(found) == ["coax_5mm.loss"]
    assert not found["coax_5mm.loss"].blocking
    assert "handbook" in found["coax_5mm.loss"].text


def test_an_extrapolated_loss_is_to_confirm() -> None:
    rows = tuple(AttenuationPoint(f * MHZ, 0.015 * f**0.5) for f in (10, 100, 1000))
    short = ById({"nominal": AttenuationSet(points=rows, source="sheet")})
    catalog = with_entry(sample_catalog(), "cables", "coax_5mm", attenuation=short)
    assert not points(catalog=catalog)["coax_5mm.loss"].blocking


def test_estimated_drops_are_to_confirm_until_the_cable_is_measured() -> None:
    estimated = refitted(sample_plan(), "cables", "w11", drops_m=None)
    assert list(points(estimated)) == ["w11.drops"]
    assert points(refitted(estimated, "cables", "w11", length_m=2.3)) == {}


@pytest.mark.parametrize(("verified", "open_"), [(None, True), ("?", True), ("P. One", False)])
def test_a_ground_plane_is_to_confirm_until_somebody_verified_it(
    verified: str | None, open_: bool
) -> None:
    plane = GroundPlane("copper foil", "top", Range(1.9, 2.2), Range(-0.2, 0.2), verified)
    plan = sample_plan()
    plan = replace(plan, design=replace(plan.design, ground_planes=ById({"foil": plane})))
    assert ("foil.verified" in points(plan)) is open_


def test_limits_without_document_or_from_memory_are_to_confirm() -> None:
    without = points(with_port(sample_plan(), "nav1", "gnss", source=None))
    assert list(without) == ["nav1.gnss.source"]
    plan = replace(sample_plan(), sources=SOURCES.having("mind", Source("assumed", read="memory")))
    assert list(points(with_port(plan, "nav1", "gnss", source="mind"))) == ["nav1.gnss.source"]


def reading(**changes: Any) -> Plan:
    """Return the sample with one reading of the GNSS path."""
    one = Measurement(
        "gnss1",
        1.65,
        State.DESIGN,
        at_hz=1575.42 * MHZ,
        temperature_c=20.0,
        uncertainty_db=0.1,
        who="P. One",
    )
    return replace(sample_plan(), measurements=ById({"m1": replace(one, **changes)}))


def test_a_reading_without_temperature_or_uncertainty_and_a_stale_one_are_to_confirm() -> None:
    assert points(reading()) == {}
    assert list(points(reading(temperature_c=None))) == ["m1.temperature"]
    assert list(points(reading(uncertainty_db=None))) == ["m1.temperature"]
    stale = points(reading(bound="00000000"))["m1.bound"]
    assert (stale.blocking, stale.who, stale.where) == (False, "P. One", ("measurements", "m1"))


def test_a_waiver_without_approved_data_is_to_confirm() -> None:
    plan = refitted(sample_plan(), "antennas", "com1", at=place(110, 0))
    waiver = Waiver(FindingRef("RF501", ("com1", "gnss1")), "checked", "A. Three")
    with_waiver = replace(plan, waivers=ById({"v1": waiver}))
    assert points(with_waiver)["v1.approved_data"].who == "A. Three"
    backed = replace(waiver, approved_data="letter 12")
    assert points(replace(plan, waivers=ById({"v1": backed}))) == {}
    elsewhere = replace(waiver, state=State.FOUND)
    assert points(replace(plan, waivers=ById({"v1": elsewhere}))) == {}


def test_a_waiver_of_advice_needs_no_approved_data() -> None:
    plan = refitted(sample_plan(), "antennas", "com1", at=place(110, 0))
    advice = replace(plan.spacing["gnss_com"], strict=Strictness.ADVICE)
    waiver = Waiver(FindingRef("RF501", ("com1", "gnss1")), "checked", "A. Three")
    plan = replace(plan, spacing=ById({"gnss_com": advice}), waivers=ById({"v1": waiver}))
    noted = [one for one in sample_assessment(plan).findings if one.waiver is not None]
    assert [one.rule for one in noted] == ["RF501"]
    assert points(plan) == {}


def test_a_role_without_a_name_is_to_confirm() -> None:
    plan = replace(sample_plan(), people=ById({"checked": Person("?")}))
    assert list(points(plan)) == ["checked.name"]


def test_an_airframe_without_a_never_exceed_speed_is_asked_for_it_once() -> None:
    plan = refitted(sample_plan(), "antennas", "com1", at=place(140, 0))
    point = points(with_airframe(plan, speeds=None))["speeds.vne"]
    assert not point.blocking
    assert point.where == ("airframe", "speeds")
    assert "the drag of com1, gnss1 is not computed" in point.text


def test_the_speed_is_not_asked_for_while_every_antenna_stays() -> None:
    plan = sample_plan(state=State.FOUND)
    assert "speeds.vne" not in points(with_airframe(plan, speeds=None))


def test_an_antenna_that_goes_up_is_asked_for_its_frontal_area() -> None:
    catalog = with_entry(sample_catalog(), "antennas", "gnss_active", frontal_area_m2=None)
    point = points(catalog=catalog)["gnss_active.frontal_area"]
    assert point.where == ("catalog", "antennas", "gnss_active", "frontal_area")
    assert "the drag of gnss1" in point.text


@pytest.mark.parametrize(
    ("span", "class_", "fields"),
    [
        (None, "", ["weight.mass"]),
        (Range(0.010, 0.030), "measured", ["weight.masses"]),
        (Range(0.015, 0.015), "assumed", ["weight.masses"]),
        (Range(0.015, 0.015), "measured", []),
    ],
)
def test_a_mass_that_is_only_bounded_or_assumed_waits_to_be_weighed(
    span: Range | None, class_: Any, fields: list[str]
) -> None:
    stated = {} if span is None else {"tnc": StatedMass(span, "scale")}
    plan = replace(sample_plan(), masses=ById(stated))
    plan = replace(plan, sources=SOURCES.having("scale", Source(class_ or "measured")))
    catalog = with_entry(sample_catalog(), "connectors", "tnc", mass_kg=None)
    told = points(plan, catalog)
    assert list(told) == fields
    assert not any(point.blocking for point in told.values())
