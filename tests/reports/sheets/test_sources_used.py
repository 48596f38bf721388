# SPDX-License-Identifier: Apache-2.0
"""Sources used: every document with how well it is known, and what rests on it."""

from __future__ import annotations

from demo_plans import assessed
from sample import sample_assessment
from sheet_tables import rows_of

from rfplan.model.assessment import Assessment
from rfplan.reports.context import Context
from rfplan.reports.formulas import every_formula
from rfplan.reports.sheets import sources_used
from rfplan.reports.sources_told import formulas_called


def test_a_source_of_the_plan_tells_what_rests_on_it(context: Context) -> None:
    rows = rows_of(sources_used.build(assessed("amphibian"), context), "plan")
    told = {row["name"]: row for row in rows}
    assert told["n114"]["document"].startswith("navigator installation data N-114")
    assert told["n114"]["used"].startswith("nav1, nav2, spacing gnss_com")
    assert told["design"]["known"] == "assumed"


def test_a_source_that_nothing_rests_on_is_left_out(context: Context) -> None:
    rows = rows_of(sources_used.build(assessed("twin"), context), "airframe")
    assert {row["name"] for row in rows} == {"drawing", "manual", "survey"}


def test_catalogue_entries_in_use_and_no_others_are_told(context: Context) -> None:
    assessment = assessed("amphibian")
    rows = rows_of(sources_used.build(assessment, context), "catalog")
    told = {row["name"] for row in rows}
    fitted = assessment.plan.installation
    assert {one.type for one in fitted.antennas.values()} <= told
    assert {one.type for one in fitted.cables.values()} <= told
    assert "rg_213_u" not in told
    memory = [row for row in rows if row["name"] == "rg_400_u" and "memory" in row["document"]]
    assert memory


def test_a_document_of_the_tables_is_never_better_known_than_it_is(context: Context) -> None:
    rows = rows_of(sources_used.build(assessed("amphibian"), context), "tables")
    told = {row["document"]: row["known"] for row in rows}
    assert told["FAA AC 20-138 series, VHF interference test"] == "from memory"
    assert told["14 CFR 91.171"] == "read in a copy"


def test_formulas_are_those_an_assessment_reaches(clean: Assessment, context: Context) -> None:
    names = {row["name"] for row in rows_of(sources_used.build(clean, context), "formulas")}
    assert {"new_cg_m", "moment_change_kg_m", "support_count", "largest_bend_radius_m"} <= names
    assert "conduit_bore_m" not in names
    assert len(formulas_called()) < len(every_formula())


def test_the_sample_names_the_one_sheet_it_rests_on(context: Context) -> None:
    rows = rows_of(sources_used.build(sample_assessment(), context), "plan")
    assert [row["name"] for row in rows] == ["sheet"]
