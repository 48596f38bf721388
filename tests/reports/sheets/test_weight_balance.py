# SPDX-License-Identifier: Apache-2.0
"""The weight-and-balance sheet: items, sums, the new CG, and what is not known."""

from __future__ import annotations

from dataclasses import replace

import pytest
from demo_plans import DEMOS, assessed
from sample import (
    inch,
    place,
    refitted,
    sample_assessment,
    sample_catalog,
    sample_plan,
    with_airframe,
    with_entry,
)
from sheet_tables import cells_of, rows_of, table_of, values_of

from rfplan.model.assessment import Assessment
from rfplan.model.plan import State, StatedMass
from rfplan.model.record import ById
from rfplan.reports.context import Context
from rfplan.reports.sheet import Sheet
from rfplan.reports.sheets import weight_balance
from rfplan.units import Place, Range


def test_what_comes_out_counts_negative(clean: Assessment, context: Context) -> None:
    rows = rows_of(weight_balance.build(clean, context), "items")
    told = {(row["change"], row["id"]): row for row in rows}
    assert told["removed", "gnss1"]["mass"] == "-0.33"
    assert told["removed", "gnss1"]["moment"] == "-19.18"
    assert told["installed", "gnss1"]["moment"] == "26.46"
    assert told["installed", "w11"]["basis"] == "route"


def test_an_antenna_that_moved_across_only_is_told_with_its_moment_unchanged(
    context: Context,
) -> None:
    def told(at: Place) -> Sheet:
        plan = refitted(sample_plan(), "antennas", "com1", at=at)
        return weight_balance.build(sample_assessment(plan), context)

    aside = told(place(130, -6))
    (row,) = rows_of(aside, "across")
    assert (row["id"], row["fs"], row["was_bl"], row["bl"]) == ("com1", "130.0", "0.0", "-6.0")
    assert row["moment"] == "unchanged"
    assert "com1" not in {row["id"] for row in rows_of(aside, "items")}
    for plain in (told(place(130, 0)), told(place(128, -6))):
        assert rows_of(plain, "across") == []


@pytest.mark.parametrize("demo", DEMOS)
@pytest.mark.parametrize("units", ["in", "mm"])
def test_the_sums_are_the_sums_of_their_rows(demo: str, units: str, context: Context) -> None:
    sheet = weight_balance.build(assessed(demo), replace(context, units=units))
    known = [row for row in cells_of(sheet, "items") if isinstance(row["moment"].value, float)]
    for column in ("mass", "moment"):
        removed, installed, change = values_of(sheet, "sums", column)
        parts = [float(str(row[column].value)) for row in known]
        assert change == pytest.approx(sum(parts))
        assert removed + installed == pytest.approx(change)


def test_the_new_cg_is_told_with_its_range_and_source(clean: Assessment, context: Context) -> None:
    sheet = weight_balance.build(clean, context)
    figures = {row["figure"]: row for row in rows_of(sheet, "balance") if "MAC" not in row["after"]}
    assert figures["empty CG"]["before"] == "94.60 in"
    assert figures["empty CG"]["after"] == "94.60 in"
    first = rows_of(sheet, "judgement")[0]
    assert (first["limit"], first["word"]) == ("90.00 in .. 99.50 in", "PASS")
    assert first["source"] == "invented sheet issue 1 (specification, invented)"


def test_a_cg_outside_its_range_has_the_word_of_the_finding(context: Context) -> None:
    plan = sample_plan()
    assert plan.airframe.weight is not None
    weight = replace(plan.airframe.weight, limits_m=Range(*inch(90.0, 94.0)))
    sheet = weight_balance.build(sample_assessment(with_airframe(plan, weight=weight)), context)
    assert rows_of(sheet, "judgement")[0]["word"] == "FAIL"


def test_a_range_that_nobody_stated_is_not_judged(context: Context) -> None:
    plan = sample_plan()
    assert plan.airframe.weight is not None
    weight = replace(plan.airframe.weight, limits_m=None)
    sheet = weight_balance.build(sample_assessment(with_airframe(plan, weight=weight)), context)
    first = rows_of(sheet, "judgement")[0]
    assert (first["value"], first["limit"], first["word"]) == ("94.60 in", "no range stated", "-")


def test_both_criteria_of_a_negligible_change_are_told(clean: Assessment, context: Context) -> None:
    rows = rows_of(weight_balance.build(clean, context), "judgement")
    told = {row["question"]: row for row in rows}
    assert told["weight change negligible?"]["limit"] == "1.00 lb"
    assert told["shift negligible?"]["limit"] == "below 0.05 % MAC"
    assert told["negligible, both?"]["word"] == "yes"
    assert "from memory" in told["shift negligible?"]["source"]


def test_an_unknown_mass_is_open_and_no_answer_is_given_for_it(context: Context) -> None:
    catalog = with_entry(sample_catalog(), "antennas", "gnss_active", mass_kg=None)
    sheet = weight_balance.build(sample_assessment(catalog=catalog), context)
    open_ = rows_of(sheet, "open")
    assert [(row["item"], row["missing"]) for row in open_] == [("antenna gnss1", "mass")] * 2
    told = {row["question"]: row["word"] for row in rows_of(sheet, "judgement")}
    assert told["empty CG inside its range?"] == "INCOMPLETE"
    assert told["negligible, both?"] == "not known"
    assert "unknown items that would reach it, all at that end of the hull" in told


def test_without_a_stated_weight_the_items_remain(context: Context) -> None:
    assessment = sample_assessment(with_airframe(sample_plan(), weight=None))
    sheet = weight_balance.build(assessment, context)
    assert not table_of(sheet, "balance").rows
    assert table_of(sheet, "items").rows


def test_the_state_found_has_nothing_to_weigh(context: Context) -> None:
    sheet = weight_balance.build(sample_assessment(sample_plan(state=State.FOUND)), context)
    assert not table_of(sheet, "items").rows
    assert values_of(sheet, "sums", "mass") == [0.0, 0.0, 0.0]


def test_bounds_of_all_that_is_unknown_give_a_word_and_a_range(context: Context) -> None:
    catalog = with_entry(sample_catalog(), "connectors", "tnc", mass_kg=None)
    plan = replace(sample_plan(), masses=ById({"tnc": StatedMass(Range(0.010, 0.030), "sheet")}))
    sheet = weight_balance.build(sample_assessment(plan, catalog), context)
    first = rows_of(sheet, "judgement")[0]
    assert (first["value"], first["word"]) == ("94.60 in .. 94.61 in", "PASS, bounded")
    weight = rows_of(sheet, "balance")[0]
    assert weight["within"] == "742.01 lb .. 742.18 lb"
    plugs = [row for row in rows_of(sheet, "items") if row["kind"] == "plugs"]
    assert [row["mass"] for row in plugs] == ["-0.13 .. -0.04", "0.04 .. 0.13"]
    for row in plugs:  # two plugs of 10 to 30 g each
        sign, arm_in = (1 if row["change"] == "installed" else -1), float(row["arm"])
        ends = sorted(sign * 2 * kilograms / 0.45359237 * arm_in for kilograms in (0.010, 0.030))
        assert list(map(float, row["moment"].split(" .. "))) == pytest.approx(ends, abs=0.01)
    assert {row["source"] for row in rows_of(sheet, "open")} == {
        "invented sheet issue 1 (specification, invented)"
    }
