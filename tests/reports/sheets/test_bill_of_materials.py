# SPDX-License-Identifier: Apache-2.0
"""The bill of materials: cable by type, plugs with where-used, parts, what comes out."""

from __future__ import annotations

from collections import Counter
from dataclasses import replace
from typing import Any

import pytest
from demo_plans import DEMOS, assessed
from sample import IN, refitted, sample_assessment, sample_installation, sample_plan
from sheet_tables import cells_of, hostile_plan, rows_of, table_of, values_of

from rfplan.model.assessment import Assessment
from rfplan.model.plan import Installation, Part, Plan, State
from rfplan.model.record import ById
from rfplan.reports.context import Context
from rfplan.reports.sheet import Sheet
from rfplan.reports.sheets import bill_of_materials
from rfplan.reports.since_found import AS_FOUND, antenna_change
from rfplan.units import UNKNOWN


def test_cable_is_summed_by_type(clean: Assessment, context: Context) -> None:
    (row,) = rows_of(bill_of_materials.build(clean, context), "cable")
    assert (row["type"], row["designation"]) == ("coax_5mm", "Sample 5 mm")
    assert (row["assemblies"], row["cuts"], row["sum"]) == ("1", "w11 92.0", "92.0")
    assert (row["waste"], row["spool"]) == ("none stated", "not stated")
    assert (row["spools"], row["order"]) == ("-", "____")


def test_waste_is_added_where_the_policy_states_it(context: Context) -> None:
    (row,) = rows_of(ordered(context, waste_ratio=0.10), "cable")
    assert (row["waste"], row["order"]) == ("10 %", "101.2")


def ordered(context: Context, plan: Plan | None = None, **policy: Any) -> Sheet:
    """Return the sheet of a plan under another policy."""
    plan = plan or sample_plan()
    told = replace(plan, policy=replace(plan.policy, **policy))
    return bill_of_materials.build(sample_assessment(told), context)


def of_length(length_in: float) -> ById[float]:
    """Return one length of spool for cables of every type."""
    return ById({"all": length_in * IN})


def test_whole_spools_are_ordered_where_the_policy_states_their_length(context: Context) -> None:
    sheet = ordered(context, spool_m=of_length(1200.0))
    (row,) = rows_of(sheet, "cable")
    assert (row["spool"], row["spools"], row["order"]) == ("1200.0", "1", "1200.0")
    (spool,) = rows_of(sheet, "spools")
    assert (spool["cuts"], spool["left"]) == ("w11 92.0", "1108.0")


def test_a_spool_of_its_own_type_goes_before_that_of_every_type(context: Context) -> None:
    lengths = of_length(1200.0).having("coax_5mm", 200.0 * IN)
    (row,) = rows_of(ordered(context, spool_m=lengths), "cable")
    assert (row["spool"], row["order"]) == ("200.0", "200.0")


def test_waste_that_no_spool_has_left_takes_a_spool_more(context: Context) -> None:
    sheet = ordered(context, spool_m=of_length(100.0), waste_ratio=0.10)
    (row,) = rows_of(sheet, "cable")
    assert (row["spools"], row["order"]) == ("2", "200.0")
    assert [spool["cuts"] for spool in rows_of(sheet, "spools")] == ["w11 92.0", "-"]


def test_a_piece_that_no_spool_holds_is_named_and_nothing_is_ordered(context: Context) -> None:
    sheet = ordered(context, spool_m=of_length(91.0))
    (row,) = rows_of(sheet, "cable")
    assert (row["spools"], row["order"]) == ("w11 longer than one", "?")
    assert not rows_of(sheet, "spools")


def test_a_length_that_is_not_known_leaves_the_order_open(context: Context) -> None:
    plan = refitted(sample_plan(), "cables", "w11", drops_m=(UNKNOWN, UNKNOWN))
    (row,) = rows_of(ordered(context, plan, spool_m=of_length(1200.0)), "cable")
    assert (row["cuts"], row["sum"]) == ("w11 ?", "?")
    assert (row["spools"], row["order"]) == ("?", "?")


def test_the_pieces_of_the_amphibian_are_each_cut_from_one_spool(context: Context) -> None:
    sheet = bill_of_materials.build(assessed("amphibian"), context)
    (cable,) = cells_of(sheet, "cable")
    cut = [one for row in rows_of(sheet, "spools") for one in row["cuts"].split(", ")]
    assert sorted(cut) == sorted(cable["cuts"].text.split(", "))
    left = sum(values_of(sheet, "spools", "left"))
    assert left == pytest.approx(float(str(cable["order"].value)) - float(str(cable["sum"].value)))


@pytest.mark.parametrize("demo", DEMOS)
def test_the_sums_are_those_of_the_cut_list(demo: str, context: Context) -> None:
    assessment = assessed(demo)
    for row in cells_of(bill_of_materials.build(assessment, context), "cable"):
        ids = [one.split()[0] for one in row["cuts"].text.split(", ")]
        cuts = [terms.cut_m for one in ids if (terms := assessment.cables[one].terms)]
        assert len(cuts) == len(ids) == row["assemblies"].value
        assert row["sum"].value == pytest.approx(sum(cuts) / 0.0254)


@pytest.mark.parametrize("demo", DEMOS)
def test_every_new_cable_has_two_plugs_and_each_is_used_once(demo: str, context: Context) -> None:
    sheet = bill_of_materials.build(assessed(demo), context)
    used = Counter(
        one.split()[0] for row in rows_of(sheet, "plugs") for one in row["used"].split(", ")
    )
    made = [one.split()[0] for row in rows_of(sheet, "cable") for one in row["cuts"].split(", ")]
    assert used == Counter(dict.fromkeys(made, 2))
    for row in cells_of(sheet, "plugs"):
        assert row["count"].value == len(row["used"].text.split(", "))


def test_an_antenna_that_only_moves_is_not_ordered_and_does_not_come_out(
    clean: Assessment, context: Context
) -> None:
    sheet = bill_of_materials.build(clean, context)
    (row,) = rows_of(sheet, "antennas")
    told = row["ids"], row["change"], row["count"], row["part_number"]
    assert told == ("gnss1", "moved", "1", "the one found")
    assert [row["id"] for row in rows_of(sheet, "removed")] == ["w11"]


def test_an_antenna_of_another_type_is_ordered_and_the_old_one_comes_out(context: Context) -> None:
    sheet = bill_of_materials.build(assessed("amphibian"), context)
    (row,) = [row for row in rows_of(sheet, "antennas") if row["type"] == "gnss_l1_active"]
    told = row["ids"], row["change"], row["count"], row["part_number"]
    assert told == ("gnss1, gnss2", "replaced", "2", "________")
    assert row["paths"] == "gnss1, gnss2"
    out = {row["id"]: row["type"] for row in rows_of(sheet, "removed")}
    assert out["gnss1"] == "gnss_l1_old"
    assert "com1" not in out


def test_new_parts_tell_the_paths_that_use_them(context: Context) -> None:
    (row,) = rows_of(bill_of_materials.build(assessed("amphibian"), context), "parts")
    assert (row["type"], row["count"]) == ("pad_2db_dc_pass", "1")
    assert (row["ids"], row["change"], row["paths"]) == ("pad1 at pl", "new", "gnss1")


def test_foil_has_its_size_and_clamps_their_count(context: Context) -> None:
    rows = rows_of(bill_of_materials.build(assessed("amphibian"), context), "small_parts")
    assert rows[0]["size"] == "38.0 x 40.0 in"
    counted = {row["item"]: row["count"] for row in rows}
    assert counted["label sleeve"] == "16"
    assert counted["doubler"] == "____"


def test_a_cable_with_a_stated_length_that_stays_is_not_ordered(context: Context) -> None:
    sheet = bill_of_materials.build(assessed("amphibian"), context)
    ordered = " ".join(row["cuts"] for row in rows_of(sheet, "cable"))
    assert "w61" not in ordered
    assert "w31" not in ordered


def test_in_the_state_found_nothing_is_ordered(context: Context) -> None:
    sheet = bill_of_materials.build(sample_assessment(sample_plan(state=State.FOUND)), context)
    assert all(not table.rows for table in sheet.tables)


def test_a_part_that_no_path_uses_is_still_ordered(context: Context) -> None:
    sheet = bill_of_materials.build(sample_assessment(hostile_plan()), context)
    (row,) = rows_of(sheet, "parts")
    assert (row["ids"], row["paths"]) == ("pad1 at rf1", "-")
    assert table_of(sheet, "small_parts").rows


def test_a_part_that_only_goes_elsewhere_is_counted_but_not_ordered(context: Context) -> None:
    def fitted(at: str, *more: str) -> Installation:
        parts = {id: Part("pad_3db", at=at) for id in ("pad1", *more)}
        return replace(sample_installation(), parts=ById(parts))

    plan = sample_plan(found=fitted("p1"), design=fitted("rf1", "pad2", "pad3"))
    sheet = bill_of_materials.build(sample_assessment(plan), context)
    rows = rows_of(sheet, "parts")
    assert "pad1" not in [row["id"] for row in rows_of(sheet, "removed")]
    assert [(row["change"], row["count"], row["part_number"]) for row in rows] == [
        ("changed", "1", "the one found"),
        ("new", "2", "________"),
    ]


@pytest.mark.parametrize("demo", DEMOS)
def test_each_antenna_that_is_not_as_found_is_counted_once(demo: str, context: Context) -> None:
    assessment = assessed(demo)
    plan = assessment.plan
    counts = values_of(bill_of_materials.build(assessment, context), "antennas", "count")
    fitted = plan.installation.antennas
    assert sum(counts) == sum(antenna_change(id, plan) != AS_FOUND for id in fitted)
