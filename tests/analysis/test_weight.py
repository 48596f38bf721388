# SPDX-License-Identifier: Apache-2.0
"""What came out and went in since the state found, and what it adds up to."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest
from demo_plans import EVERY_STATE, assessed
from sample import (
    IN,
    inch,
    place,
    refitted,
    sample_catalog,
    sample_facts,
    sample_plan,
    with_airframe,
    with_entry,
)

from rfplan.analysis.weight import BETWEEN_ENDS
from rfplan.model.catalog import Catalog
from rfplan.model.plan import GroundPlane, Part, Plan, State, StatedMass
from rfplan.model.record import ById
from rfplan.model.weight import WeightChange, WeightItem
from rfplan.units import UNKNOWN, Range


def change(plan: Plan | None = None, **entry: Any) -> WeightChange:
    return sample_facts(plan or sample_plan(), entry.get("catalog")).weight


def items(told: WeightChange) -> dict[tuple[str, str, bool], WeightItem]:
    return {(item.kind, item.id, item.installed): item for item in told.items}


def test_what_did_not_change_is_not_listed() -> None:
    assert change(sample_plan(state=State.FOUND)).items == ()
    told = {(item.kind, item.id) for item in change().items}
    assert told == {("antenna", "gnss1"), ("cable", "w11"), ("plugs", "tnc")}


def test_an_antenna_that_moves_comes_out_at_the_old_station_and_goes_in_at_the_new() -> None:
    told = items(change())
    out, into = told["antenna", "gnss1", False], told["antenna", "gnss1", True]
    assert (out.arm_m, into.arm_m) == (pytest.approx(58 * IN), pytest.approx(80 * IN))
    assert (out.change_kg, into.change_kg) == (-0.150, 0.150)


def test_a_cable_without_a_way_counts_midway_between_its_ends() -> None:
    out = items(change())["cable", "w11", False]
    assert out.basis == BETWEEN_ENDS
    assert out.arm_m == pytest.approx((62 + 58) / 2 * IN)
    assert out.mass_kg == pytest.approx(31 * IN * 0.070)


def test_a_cable_counts_along_its_segments_with_what_lies_at_its_ends() -> None:
    # p1 62, apl 66, rf1 80; 30 and 36 in along the structure; drops 6 and 3, loops 6 and 6, spare 4
    pieces = [(30, 64.0), (36, 73.0), (6 + 6 + 2, 62.0), (3 + 6 + 2, 80.0)]
    arm = sum(size * at for size, at in pieces) / sum(size for size, _ in pieces)
    into = items(change())["cable", "w11", True]
    assert into.basis == "route"
    assert into.arm_m == pytest.approx(arm * IN)


def test_the_mass_of_a_cable_is_that_of_the_cut_list() -> None:
    facts = sample_facts()
    assert items(facts.weight)["cable", "w11", True].mass_kg == facts.runs["w11"].mass_kg


def test_plugs_of_one_type_count_together_at_the_mean_of_their_ends() -> None:
    told = items(change())
    out, into = told["plugs", "tnc", False], told["plugs", "tnc", True]
    assert (out.count, out.mass_kg) == (2, 0.030)
    assert out.arm_m == pytest.approx((62 + 58) / 2 * IN)
    assert into.arm_m == pytest.approx((62 + 80) / 2 * IN)


def test_the_sums_are_those_of_the_items() -> None:
    told = change()
    assert told.change_kg == pytest.approx(sum(item.change_kg or 0.0 for item in told.items))
    assert told.moment_kg_m == pytest.approx(sum(item.moment_kg_m or 0.0 for item in told.items))
    before = told.before
    assert before is not None
    assert told.empty_kg == pytest.approx(before.empty_kg + told.change_kg)
    moment = before.empty_kg * before.cg_m + told.moment_kg_m
    assert told.cg_m == pytest.approx(moment / (before.empty_kg + told.change_kg))


def test_an_unknown_mass_is_open_and_in_no_sum() -> None:
    catalog = with_entry(sample_catalog(), "antennas", "gnss_active", mass_kg=None)
    told, known = change(catalog=catalog), change()
    assert [item.id for item in told.unknown] == ["gnss1", "gnss1"]
    assert all(item.change_kg is None and item.moment_kg_m is None for item in told.unknown)
    both = 0.150 * (80 - 58) * IN
    assert told.moment_kg_m == pytest.approx(known.moment_kg_m - both)


def test_a_cable_of_unknown_length_or_type_has_no_mass() -> None:
    told = change(refitted(sample_plan(), "cables", "w11", length_m=UNKNOWN))
    assert items(told)["cable", "w11", True].mass_kg is None


def test_parts_units_and_foil_count_at_their_places() -> None:
    plan = sample_plan()
    foil = GroundPlane("copper foil", "top", Range(*inch(70.0, 90.0)), Range(*inch(-10.0, 10.0)))
    design = replace(
        plan.design,
        parts=ById({"pad1": Part("pad_3db", at="rf2")}),
        ground_planes=ById({"foil": foil}),
        units=plan.design.units.having(
            "xp1", replace(plan.design.units["xp1"], at=place(100, 0, 50), mass_kg=1.5)
        ),
    )
    told = items(change(replace(plan, design=design)))
    assert told["part", "pad1", True].arm_m == pytest.approx(130 * IN)
    assert told["ground plane", "foil", True].arm_m == pytest.approx(80 * IN)
    assert told["ground plane", "foil", True].mass_kg is None
    assert told["unit", "xp1", False].mass_kg is None
    assert told["unit", "xp1", True].moment_kg_m == pytest.approx(1.5 * 100 * IN)


def test_without_a_stated_weight_there_is_no_new_cg() -> None:
    told = change(with_airframe(sample_plan(), weight=None))
    assert (told.before, told.empty_kg, told.cg_m) == (None, None, None)
    assert told.change_kg > 0.0


def test_a_change_that_outweighs_the_aircraft_has_no_cg() -> None:
    plan = sample_plan()
    weight = plan.airframe.weight
    assert weight is not None
    told = change(with_airframe(plan, weight=replace(weight, empty_kg=0.0)))
    assert told.cg_m is None


def test_a_cable_found_without_a_length_is_laid_to_be_weighed() -> None:
    plan = sample_plan()
    found = replace(plan.found.cables["w11"], length_m=None, drops_m=None)
    antenna = replace(plan.found.antennas["gnss1"], on="top", at=place(66, 0))
    other = replace(
        plan.found,
        cables=plan.found.cables.having("w11", found),
        antennas=plan.found.antennas.having("gnss1", antenna),
    )
    out = items(change(replace(plan, found=other)))["cable", "w11", False]
    assert out.mass_kg is not None
    assert out.basis == "route"


@pytest.mark.parametrize(("demo", "state"), EVERY_STATE)
def test_the_demo_aircraft_move_by_less_than_a_tenth_of_their_range(
    demo: str, state: State
) -> None:
    told = assessed(demo, state).weight
    assert told.before is not None and told.before.limits_m is not None and told.cg_m is not None
    low, high = told.before.limits_m.known()
    assert abs(told.cg_m - told.before.cg_m) < 0.1 * (high - low)
    assert bool(told.items) is (state is not State.FOUND)


def unweighed(**masses: Range) -> tuple[Plan, Catalog]:
    """Return the sample whose plugs nobody weighed, with what the plan says of masses."""
    stated = ById((id, StatedMass(span, "sheet")) for id, span in masses.items())
    catalog = with_entry(sample_catalog(), "connectors", "tnc", mass_kg=None)
    return replace(sample_plan(), masses=stated), catalog


def test_bounds_of_what_is_not_known_bound_weight_and_cg() -> None:
    # two plugs came out at FS 60, two went in at FS 71, each of 10 to 30 g
    plan, catalog = unweighed(tnc=Range(0.010, 0.030))
    told = change(plan, catalog=catalog)
    assert [item.id for item in told.unknown] == ["tnc", "tnc"]
    assert [item.change_within_kg for item in told.unknown] == [(-0.06, -0.02), (0.02, 0.06)]
    assert told.empty_kg is not None and told.cg_m is not None and told.before is not None
    assert told.empty_within_kg == (
        pytest.approx(told.empty_kg - 0.04),
        pytest.approx(told.empty_kg + 0.04),
    )
    assert told.cg_within_m is not None
    ends = [
        (told.empty_kg * told.cg_m - out * 60 * IN + into * 71 * IN) / (told.empty_kg - out + into)
        for out in (0.02, 0.06)
        for into in (0.02, 0.06)
    ]
    assert told.cg_within_m == (pytest.approx(min(ends)), pytest.approx(max(ends)))


def test_a_mass_that_the_plan_states_whole_is_known() -> None:
    plan, catalog = unweighed(tnc=Range(0.015, 0.015))
    told = change(plan, catalog=catalog)
    assert (told.unknown, told.cg_within_m) == ((), None)
    assert told.cg_m == pytest.approx(change().cg_m)


def test_a_thing_of_its_own_goes_before_its_type_and_the_catalogue_before_both() -> None:
    plan, catalog = unweighed(tnc=Range(0.010, 0.030), gnss_active=Range(9.0, 9.0))
    told = items(change(plan, catalog=catalog))
    assert told["antenna", "gnss1", True].mass_kg == 0.150
    catalog = with_entry(catalog, "antennas", "gnss_active", mass_kg=None)
    plan = replace(plan, masses=plan.masses.having("gnss1", StatedMass(Range(0.2, 0.2), "sheet")))
    assert items(change(plan, catalog=catalog))["antenna", "gnss1", True].mass_kg == 0.2


def test_one_thing_without_bounds_leaves_all_without() -> None:
    plan, catalog = unweighed(tnc=Range(0.010, 0.030))
    catalog = with_entry(catalog, "antennas", "gnss_active", mass_kg=None)
    told = change(plan, catalog=catalog)
    assert (told.empty_within_kg, told.cg_within_m) == (None, None)
