# SPDX-License-Identifier: Apache-2.0
"""The bill of materials: cable by type, plugs with where-used, parts, what comes out."""

from __future__ import annotations

from collections import Counter
from dataclasses import replace

import pytest
from demo_plans import DEMOS, assessed
from sample import sample_assessment, sample_plan
from sheet_tables import cells_of, hostile_plan, rows_of, table_of

from rfplan.model.assessment import Assessment
from rfplan.model.plan import State
from rfplan.reports.context import Context
from rfplan.reports.sheets import bill_of_materials


def test_cable_is_summed_by_type(clean: Assessment, context: Context) -> None:
    (row,) = rows_of(bill_of_materials.build(clean, context), "cable")
    assert (row["type"], row["designation"]) == ("coax_5mm", "Sample 5 mm")
    assert (row["assemblies"], row["cuts"], row["sum"]) == ("1", "w11 92.0", "92.0")
    assert (row["waste"], row["order"]) == ("none stated", "____")


def test_waste_is_added_where_the_policy_states_it(context: Context) -> None:
    plan = sample_plan()
    plan = replace(plan, policy=replace(plan.policy, waste_ratio=0.10))
    (row,) = rows_of(bill_of_materials.build(sample_assessment(plan), context), "cable")
    assert (row["waste"], row["order"]) == ("10 %", "101.2")


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
    assert (row["id"], row["change"], row["part_number"]) == ("gnss1", "moved", "the one found")
    assert [row["id"] for row in rows_of(sheet, "removed")] == ["w11"]


def test_an_antenna_of_another_type_is_ordered_and_the_old_one_comes_out(context: Context) -> None:
    sheet = bill_of_materials.build(assessed("amphibian"), context)
    ordered = {row["id"]: row for row in rows_of(sheet, "antennas")}
    assert (ordered["gnss1"]["change"], ordered["gnss1"]["part_number"]) == ("replaced", "________")
    out = {row["id"]: row["type"] for row in rows_of(sheet, "removed")}
    assert out["gnss1"] == "gnss_l1_old"
    assert "com1" not in out


def test_new_parts_tell_the_paths_that_use_them(context: Context) -> None:
    (row,) = rows_of(bill_of_materials.build(assessed("amphibian"), context), "parts")
    assert (row["id"], row["type"], row["at"], row["paths"]) == (
        "pad1",
        "pad_2db_dc_pass",
        "pl",
        "gnss1",
    )


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
    assert (row["id"], row["paths"]) == ("pad1", "-")
    assert table_of(sheet, "small_parts").rows
