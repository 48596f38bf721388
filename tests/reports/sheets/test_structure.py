# SPDX-License-Identifier: Apache-2.0
"""The structure note: the load of the air, the skin that holds it, and what both rest on."""

from __future__ import annotations

from dataclasses import replace

import pytest
from sample import (
    inch,
    place,
    refitted,
    sample_airframe,
    sample_assessment,
    sample_catalog,
    sample_plan,
    with_airframe,
    with_entry,
)
from sheet_tables import cells_of, rows_of, table_of

from rfplan.model.airframe import Panel, Speeds
from rfplan.model.assessment import Assessment
from rfplan.model.plan import State
from rfplan.model.record import ById
from rfplan.reports.context import Context
from rfplan.reports.sheets import structure

KNOT_M_PER_S = 1852 / 3600


def moved() -> Assessment:
    """Return the sample at 150 kt with its COM whip moved aft, known as a bluff 0.1 ft2."""
    catalog = with_entry(
        sample_catalog(), "antennas", "com_whip", frontal_area_m2=0.1 * 0.3048**2, shape="bluff"
    )
    plan = refitted(sample_plan(), "antennas", "com1", at=place(140, 0))
    return sample_assessment(
        with_airframe(plan, speeds=Speeds(150 * KNOT_M_PER_S, "sheet")), catalog
    )


def test_each_antenna_that_came_down_or_went_up_has_its_drag(context: Context) -> None:
    rows = rows_of(structure.build(moved(), context), "loads")
    told = {(row["change"], row["id"]): row for row in rows}
    assert set(told) == {("removed", "com1"), ("installed", "com1"), ("installed", "gnss1")}
    # 0.00327 x 0.1 ft2 x (172.62 mph)^2
    com = told["installed", "com1"]
    assert (com["fs"], com["area"], com["drag"]) == ("140.0", "14.4", "9.74")
    assert com["source"] == "invented sheet issue 1 (specification, invented)"
    assert told["installed", "gnss1"]["shape"] == "not stated: bluff"


def test_forces_are_newtons_beside_millimetres(context: Context) -> None:
    (row,) = (
        row
        for row in cells_of(structure.build(moved(), replace(context, units="mm")), "loads")
        if row["id"].text == "com1" and row["change"].text == "installed"
    )
    assert (row["drag"].unit, row["area"].unit) == ("N", "cm2")
    assert row["drag"].value == pytest.approx(9.7437 * 4.44822, rel=1e-4)


def test_an_antenna_stands_on_the_first_panel_that_fits(context: Context) -> None:
    foil = Panel("top", "carbon", thickness_m=inch(0.125))
    skin = ById({"patch": foil, **sample_airframe().skin})
    plan = with_airframe(sample_plan(), skin=skin)
    (row,) = rows_of(structure.build(sample_assessment(plan), context), "attachment")
    assert (row["id"], row["skin"], row["thickness"]) == ("gnss1", "carbon", "0.125")
    assert (row["base"], row["doubler"]) == ("3.0 x 2.0", "________")


def test_speed_and_formulas_tell_how_well_they_are_known(
    clean: Assessment, context: Context
) -> None:
    speed, blade, bluff = rows_of(structure.build(moved(), context), "basis")
    assert (speed["value"], speed["source"]) == (
        "150 kt",
        "invented sheet issue 1 (specification, invented)",
    )
    assert "chapter 3, as remembered" in blade["source"]
    assert "(from memory)" in bluff["source"]


def test_without_a_stated_speed_no_drag_is_told(context: Context) -> None:
    assessment = sample_assessment(with_airframe(sample_plan(), speeds=None))
    sheet = structure.build(assessment, context)
    assert rows_of(sheet, "loads")[0]["drag"] == "?"
    assert rows_of(sheet, "basis")[0]["value"] == "not stated"
    assert [point.id for point in assessment.open_points] == ["speeds.vne"]


def test_in_the_state_found_there_is_nothing_to_hold(context: Context) -> None:
    sheet = structure.build(sample_assessment(sample_plan(state=State.FOUND)), context)
    assert not table_of(sheet, "loads").rows
    assert not table_of(sheet, "attachment").rows
