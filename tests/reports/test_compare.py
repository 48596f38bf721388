# SPDX-License-Identifier: Apache-2.0
"""Two assessments side by side: what changed, in which order, and what never counts."""

from __future__ import annotations

from dataclasses import replace

import pytest
from sample import (
    inch,
    place,
    refitted,
    sample_airframe,
    sample_assessment,
    sample_plan,
    with_port,
)

from rfplan.model.airframe import Panel, Segment
from rfplan.model.assessment import Assessment
from rfplan.model.plan import Plan, State
from rfplan.model.record import ById
from rfplan.reports.compare import compare
from rfplan.units import NONE, Range


def differences(before: Plan, after: Plan) -> dict[str, list[list[str]]]:
    sheet = compare(sample_assessment(before), sample_assessment(after))
    return {
        table.key: [[cell.text for cell in row] for row in table.rows] for table in sheet.tables
    }


def test_a_plan_does_not_differ_from_itself() -> None:
    told = differences(sample_plan(), sample_plan())
    assert list(told) == ["verdicts", "findings", "losses", "lengths", "changes"]
    assert not any(told.values())


def test_found_against_design_tells_verdicts_findings_and_fields() -> None:
    told = differences(sample_plan(state=State.FOUND), sample_plan())
    assert told["verdicts"] == [
        ["plan", "verdict", "FAIL-LOW", "PASS"],
        ["path gnss1", "overall", "FAIL-LOW", "PASS"],
    ]
    assert [row[:5] for row in told["findings"]] == [
        ["RF201 outside-skin-demanded", "gnss1", "cleared", "FAIL", "-"],
        ["RF204 behind-opaque-skin", "gnss1", "cleared", "ADVICE", "-"],
    ]
    assert ["antenna gnss1", "on", "glareshield", "top"] in told["changes"]
    assert ["antenna gnss1", "at", "58 L7 54 in", "80 0 in"] in told["changes"]
    assert ["cable w11", "length", "31 in", "-"] in told["changes"]
    assert ["cable w11", "cut length", "-", "92.0"] in told["lengths"]
    assert told["losses"][0][0] == "path gnss1"


def test_the_heading_names_both_sides_with_state_and_verdict() -> None:
    before = sample_assessment(sample_plan(state=State.FOUND))
    header = dict(compare(before, sample_assessment()).header)
    assert header["before"].text == "sample@found, revision A: FAIL-LOW"
    assert (header["after"].text, header["after"].token) == (
        "sample@design, revision A: PASS",
        "PASS",
    )


def test_a_finding_can_appear_and_change_its_word(busy: Assessment) -> None:
    forth = compare(sample_assessment(), busy)
    table = next(table for table in forth.tables if table.key == "findings")
    appeared = [[cell.text for cell in row[:5]] for row in table.rows]
    assert appeared[0] == ["RF501 spacing", "xpdr1, gnss1", "appeared", "-", "FAIL"]
    unwaived = sample_assessment(replace(busy.plan, waivers=ById()))
    again = compare(unwaived, busy)
    table = next(table for table in again.tables if table.key == "findings")
    assert [[cell.text for cell in row[:5]] for row in table.rows] == [
        ["RF501 spacing", "gnss1, com1", "changed", "FAIL", "WAIVED"]
    ]


@pytest.mark.parametrize("section", ["units", "antennas", "cables", "paths"])
def test_the_order_of_things_never_counts(section: str) -> None:
    plan = sample_plan()
    things = getattr(plan.design, section)
    backwards = replace(plan.design, **{section: ById(reversed(list(things.items())))})
    assert not any(differences(plan, replace(plan, design=backwards)).values())


def test_another_way_to_write_a_length_never_counts() -> None:
    plan = refitted(sample_plan(), "cables", "w11", retermination_m=0.1 + 0.2)
    other = refitted(sample_plan(), "cables", "w11", retermination_m=0.3)
    assert not any(differences(plan, other).values())


def test_a_changed_limit_is_told_by_port_and_key() -> None:
    after = with_port(sample_plan(), "nav1", "gnss", loss_db=ById({"all": Range(0.6, NONE)}))
    assert differences(sample_plan(), after)["changes"] == [
        ["unit nav1", "ports.gnss.loss.all", "0.5 .. 4 dB", "0.6 .. none dB"]
    ]


def test_a_change_too_small_for_the_usual_digits_shows_more_of_them() -> None:
    after = refitted(sample_plan(), "antennas", "com1", at=place(130.000001, 0))
    assert differences(sample_plan(), after)["changes"] == [
        ["antenna com1", "at", "130 0 in", "130.000001 0 in"]
    ]


def test_what_is_gone_and_what_is_new_has_no_other_side() -> None:
    plan = sample_plan()
    renamed = ById(
        {("w12" if id == "w11" else id): cable for id, cable in plan.design.cables.items()}
    )
    path = replace(plan.design.paths["gnss1"], chain=("nav1.gnss", "w12", "gnss1"))
    design = replace(plan.design, cables=renamed, paths=plan.design.paths.having("gnss1", path))
    told = differences(plan, replace(plan, design=design))
    assert ["cable w11", "type", "coax_5mm", "-"] in told["changes"]
    assert ["cable w12", "type", "-", "coax_5mm"] in told["changes"]
    assert ["path gnss1", "chain", "nav1.gnss, w11, gnss1", "nav1.gnss, w12, gnss1"] in told[
        "changes"
    ]
    assert ["cable w12", "cut length", "-", "92.0"] in told["lengths"]
    assert not told["verdicts"]


def test_a_changed_route_is_told_with_the_lengths_it_moves() -> None:
    airframe = sample_airframe()
    segments = airframe.route.segments.having("p1-apl", Segment(inch(32), "sheet"))
    longer = replace(airframe, route=replace(airframe.route, segments=segments))
    told = differences(sample_plan(), sample_plan(airframe=longer))
    assert told["changes"] == [["segment p1-apl", "length", "30 in", "32 in"]]
    assert ["cable w11", "cut length", "92.0", "94.0"] in told["lengths"]


def test_the_order_of_skin_counts_since_the_first_that_fits_wins() -> None:
    panels = {"hull": Panel("all", "aluminium"), "nose": Panel("top", "aluminium")}
    one = sample_plan(airframe=sample_airframe(skin=ById(panels)))
    other_way = ById(reversed(list(panels.items())))
    other = sample_plan(airframe=sample_airframe(skin=other_way))
    assert differences(one, other)["changes"] == [["skin", "order", "hull, nose", "nose, hull"]]
