# SPDX-License-Identifier: Apache-2.0
"""The survey form: in the order of the walk, filled in as far as the plan goes."""

from __future__ import annotations

from dataclasses import replace

import pytest
from demo_plans import DEMOS, assessed
from sample import refitted, sample_assessment, sample_plan, with_airframe, with_port
from sheet_tables import cells_of, rows_of, table_of, values_of

from rfplan.model.assessment import Assessment
from rfplan.model.plan import State
from rfplan.model.record import ById
from rfplan.reports.context import Context
from rfplan.reports.sheets import survey
from rfplan.units import UNKNOWN, Range


@pytest.mark.parametrize("demo", DEMOS)
def test_the_walk_goes_from_nose_to_tail_past_everything(demo: str, context: Context) -> None:
    assessment = assessed(demo, State.FOUND)
    sheet = survey.build(assessment, context)
    stations = values_of(sheet, "walk", "fs")
    assert stations == sorted(stations)
    fitted, nodes = assessment.plan.found, assessment.plan.airframe.route.nodes
    passed = {row["id"] for row in rows_of(sheet, "walk")}
    assert passed == {*fitted.units, *fitted.antennas, *fitted.parts, *nodes}
    assert all(row["read"] == "________" for row in rows_of(sheet, "walk"))


def test_an_antenna_has_the_water_line_of_its_skin(clean: Assessment, context: Context) -> None:
    rows = {row["id"]: row for row in rows_of(survey.build(clean, context), "walk")}
    assert (rows["com1"]["fs"], rows["com1"]["bl"], rows["com1"]["wl"]) == ("130.0", "0.0", "75.0")
    assert rows["com1"]["what"] == "com_whip on top"


def test_a_value_that_is_not_known_stands_out(context: Context) -> None:
    plan = with_port(sample_plan(), "nav1", "gnss", loss_db=ById({"all": Range(UNKNOWN, 4.0)}))
    plan = refitted(plan, "cables", "w21", type="?", length_m=UNKNOWN)
    sheet = survey.build(sample_assessment(plan), context)
    port = next(row for row in cells_of(sheet, "ports") if row["port"].text == "nav1.gnss")
    assert (port["loss"].text, port["loss"].token) == ("? .. 4 dB", "INCOMPLETE")
    cable = next(row for row in cells_of(sheet, "cables") if row["id"].text == "w21")
    assert (cable["type"].text, cable["type"].token, cable["length"].text) == (
        "?",
        "INCOMPLETE",
        "?",
    )


def test_ports_tell_window_power_supply_and_document(context: Context) -> None:
    rows = {
        row["port"]: row for row in rows_of(survey.build(assessed("amphibian"), context), "ports")
    }
    gnss, com = rows["nav1.gnss"], rows["nav1.com"]
    assert (gnss["loss"], gnss["feed"], gnss["power"]) == ("1.5 .. 6.5 dB", "4.7 .. 5.3 V", "-")
    assert (com["loss"], com["power"]) == ("none .. 2.5 dB", "10 .. 16 W")
    assert gnss["document"].startswith("navigator installation data N-114")


def test_cables_tell_what_is_known_and_ask_for_the_rest(context: Context) -> None:
    rows = rows_of(survey.build(assessed("amphibian", State.FOUND), context), "cables")
    told = next(row for row in rows if row["id"] == "w42")
    assert (told["type"], told["from"], told["to"], told["length"], told["age"]) == (
        *("?", "uat.ant", "uat_b", "140.0"),
        "?",
    )
    assert (told["print"], told["state"]) == ("________", "________")


def test_a_segment_that_nobody_measured_is_marked(context: Context) -> None:
    plan = sample_plan()
    route = plan.airframe.route
    open_ = replace(route.segments["p1-flr"], length_m=UNKNOWN)
    other = replace(route, segments=route.segments.having("p1-flr", open_))
    sheet = survey.build(sample_assessment(with_airframe(plan, route=other)), context)
    rows = {row["id"]: row for row in rows_of(sheet, "segments")}
    assert (rows["p1-flr"]["length"], rows["p1-flr"]["known"]) == ("?", "?")
    assert (rows["p1-apl"]["length"], rows["p1-apl"]["known"]) == ("30.0", "yes")


def test_no_segment_is_shorter_than_its_straight_line(clean: Assessment, context: Context) -> None:
    sheet = survey.build(clean, context)
    for row in cells_of(sheet, "segments"):
        assert float(row["length"].text) >= float(row["straight"].text) - 0.5


def test_there_are_empty_lines_for_what_the_plan_does_not_know(
    clean: Assessment, context: Context
) -> None:
    rows = table_of(survey.build(clean, context), "more").rows
    assert len(rows) == 10
    assert {cell.text for row in rows for cell in row} == {"________"}
