# SPDX-License-Identifier: Apache-2.0
"""The ground check: every step with what to expect, and blanks to fill in."""

from __future__ import annotations

import re
from dataclasses import replace
from datetime import date

import pytest
from demo_plans import DEMOS, assessed
from plan_files import shipped_catalog, shipped_rulebook
from sample import sample_assessment, sample_plan, sample_rulebook
from sheet_tables import rows_of, table_of

from rfplan.assess import assess
from rfplan.files.table_files import load_rulebook
from rfplan.model.assessment import Assessment
from rfplan.model.plan import AcceptedPoint, State
from rfplan.model.record import ById
from rfplan.reports.context import Context
from rfplan.reports.sheet import Sheet
from rfplan.reports.sheets import ground_check

BLANKS = ("outcome", "initials")
STEP = re.compile(r"(\d{1,2})\.\d+")


@pytest.fixture
def checked(context: Context) -> Sheet:
    """The ground check of the sample with the shipped table of checks."""
    rulebook = replace(sample_rulebook(), ground_checks=load_rulebook().ground_checks)
    return ground_check.build(sample_assessment(rulebook=rulebook), context)


@pytest.mark.parametrize("demo", DEMOS)
def test_steps_rise_and_have_blanks(demo: str, context: Context) -> None:
    sheet = ground_check.build(assessed(demo), context)
    numbers: list[int] = []
    for table in sheet.tables:
        for row in rows_of(sheet, table.key):
            found = STEP.fullmatch(row["step"])
            assert found
            numbers.append(int(found[1]))
            assert all(row[blank] == "________" for blank in BLANKS)
    assert numbers == sorted(numbers)


def test_each_cable_is_checked_for_continuity(checked: Sheet, clean: Assessment) -> None:
    rows = rows_of(checked, "continuity")
    assert [row["object"] for row in rows] == sorted(clean.cables)
    assert rows[0]["do"] == "nav1.gnss to gnss1"


def test_the_bond_limit_is_told_with_its_document(checked: Sheet) -> None:
    rows = rows_of(checked, "bond")
    assert [row["object"] for row in rows] == ["com1", "gnss1", "xpdr1"]
    assert {row["limit"] for row in rows} == {"2.5 mohm"}
    assert "11-188f" in table_of(checked, "bond").title


@pytest.mark.parametrize("demo", DEMOS)
def test_loss_is_read_at_up_to_three_frequencies_with_prediction_and_window(
    demo: str, context: Context
) -> None:
    assessment = assessed(demo)
    rows = rows_of(ground_check.build(assessment, context), "loss")
    for path in assessment.paths:
        if path.id in ("adf", "ltg"):
            continue
        mine = [row for row in rows if row["path"] == path.id]
        assert {row["at"] for row in mine} == {
            f"{one / 1e6:.6f}".rstrip("0").rstrip(".")
            for band in path.bands
            for one in (band.low_hz, band.mid_hz, band.high_hz)
        }
        first, window = path.bands[0].nominal_db[0], path.bands[0].window
        assert mine[0]["expected"] == f"{first:.2f}"
        assert mine[0]["most"] == f"{window.max_db:.2f}"
        assert mine[0]["least"] == ("none" if window.min_db is None else f"{window.min_db:.2f}")


def test_a_line_of_long_waves_is_not_swept_and_its_loss_is_compared_with_nothing(
    context: Context,
) -> None:
    sheet = ground_check.build(assessed("twin"), context)
    for key, column in (("loss", "path"), ("vswr", "object")):
        told = {row[column] for row in rows_of(sheet, key)}
        assert {one.id for one in assessed("twin").paths} - told == {"adf", "ltg"}


def test_a_line_of_which_nothing_is_known_yet_is_read_all_the_same(
    context: Context,
) -> None:
    found = ground_check.build(assessed("amphibian", State.FOUND), context)
    rows = [row for row in rows_of(found, "loss") if row["path"] == "uat"]
    assert {(row["expected"], row["least"], row["most"]) for row in rows} == {("?", "?", "?")}


def test_four_lines_to_one_antenna_are_one_radio_to_check(context: Context) -> None:
    sheet = ground_check.build(assessed("twin"), context)
    (traffic,) = [row for row in rows_of(sheet, "systems") if row["step"].startswith("12.")]
    assert traffic["object"] == "tas"
    others = [row["object"] for row in rows_of(sheet, "others")]
    assert others == ["dme", "ralt_t", "satcom", "tas", "xpdr1", "xpdr2"]


@pytest.mark.parametrize("path", ["adf", "ltg", "satcom", "ralt_r", "ralt_t"])
def test_every_radio_beside_has_its_own_check(path: str, context: Context) -> None:
    rows = rows_of(ground_check.build(assessed("twin"), context), "systems")
    own = [row for row in rows if row["object"] == path and "at one time" not in row["do"]]
    assert [row["step"].split(".")[0] for row in own] == ["13"]


def test_the_supply_is_expected_as_computed_at_the_plug(context: Context) -> None:
    assessment = assessed("amphibian")
    rows = rows_of(ground_check.build(assessment, context), "supply")
    assert [row["object"] for row in rows] == ["gnss1", "gnss2", "gnss3"]
    feed = next(path.feed for path in assessment.paths if path.id == "gnss1")
    assert feed is not None
    low, high = feed.antenna_v
    assert rows[0]["expect"] == f"{low:.2f} .. {high:.2f} V"
    assert rows[0]["limit"] == "4.5 .. 5.5 V"


def test_vswr_is_expected_better_at_the_unit_than_at_the_antenna(context: Context) -> None:
    rows = rows_of(ground_check.build(assessed("amphibian"), context), "vswr")
    com = next(row for row in rows if row["object"] == "com1")
    assert 1.0 < float(com["expect"]) < 2.5
    assert com["limit"] == "none stated"


def test_each_com_is_keyed_on_its_channels_with_each_gnss_they_reach_watched(
    context: Context,
) -> None:
    sheet = ground_check.build(assessed("amphibian"), context)
    rows = rows_of(sheet, "key_down")
    assert {row["com"] for row in rows} == {"com1", "com2"}
    mine = [row for row in rows if row["com"] == "com1"]
    assert [row["channel"] for row in mine if row["seen_gnss1"] == "________"] == [
        "118.000",
        "121.175",
        "121.185",
        "131.275",
        "131.285",
    ]
    only_l5 = [row for row in mine if row["seen_gnss1"] == "-" != row["seen_gnss3"]]
    assert [row["channel"] for row in only_l5] == ["130.715", "130.725"]
    beside = {row["channel"]: row["others"] for row in mine if row["seen_gnss3"] == "-"}
    assert beside == {"122.250": "uat", "128.675": "satcom", "128.750": "xpdr"}
    assert next(row["carrier"] for row in mine if row["channel"] == "121.185") == "121.18333"
    title = table_of(sheet, "key_down").title
    assert "for 35 s" in title
    assert "from memory" in title


def test_the_elt_cable_comes_off_and_each_gnss_runs_alone(context: Context) -> None:
    sheet = ground_check.build(assessed("amphibian"), context)
    assert [row["do"] for row in rows_of(sheet, "elt_off")] == ["key com1", "key com2"]
    assert [row["object"] for row in rows_of(sheet, "alone")] == ["gnss1", "gnss2", "gnss3"]


def test_step_14_watches_gnss_while_the_satellite_terminal_transmits(context: Context) -> None:
    rows = rows_of(ground_check.build(assessed("amphibian"), context), "others")
    assert [row["object"] for row in rows] == ["satcom", "uat", "xpdr"]
    assert all(row["step"].startswith("14.") for row in rows)


def test_the_offset_of_a_moved_gnss_antenna_is_computed(context: Context) -> None:
    rows = rows_of(ground_check.build(assessed("amphibian"), context), "systems")
    offsets = {row["object"]: row["expect"] for row in rows if "offset" in row["do"]}
    assert set(offsets) == {"gnss1", "gnss2"}
    told = "98.0 in aft of the nose, 13.0 in left of it; moved 23.0 in aft, from 7.0 in left of it"
    assert offsets["gnss1"] == told
    assert "on the centre line" in offsets["gnss2"]


def test_an_antenna_that_stayed_needs_no_new_offset(context: Context) -> None:
    rows = rows_of(ground_check.build(assessed("twin"), context), "systems")
    assert not [row for row in rows if "offset" in row["do"]]


@pytest.mark.parametrize(("demo", "zones"), [("amphibian", 2), ("twin", 4)])
def test_every_door_and_hatch_is_moved(demo: str, zones: int, context: Context) -> None:
    rows = rows_of(ground_check.build(assessed(demo), context), "moving")
    assert len([row for row in rows if row["step"].startswith("17.")]) == zones


def test_what_the_aircraft_does_not_have_is_left_out(checked: Sheet) -> None:
    assert not table_of(checked, "elt_off").rows
    assert not table_of(checked, "alone").rows
    assert not table_of(checked, "moving").rows
    assert {row["object"] for row in rows_of(checked, "systems")} == {"xpdr1", "com1", "gnss1"}


def test_without_a_table_of_checks_only_what_is_computed_remains(
    clean: Assessment, context: Context
) -> None:
    sheet = ground_check.build(clean, context)
    assert not table_of(sheet, "bond").rows
    assert not table_of(sheet, "key_down").rows
    assert table_of(sheet, "loss").rows


def test_the_state_found_is_checked_without_any_offset(context: Context) -> None:
    sheet = ground_check.build(sample_assessment(sample_plan(state=State.FOUND)), context)
    assert not [row for row in rows_of(sheet, "systems") if "offset" in row["do"]]


def test_isolation_is_measured_before_a_com_may_damage_a_receiver(context: Context) -> None:
    sheet = ground_check.build(assessed("amphibian"), context)
    rows = [row for row in rows_of(sheet, "vswr") if "isolation" in row["do"]]
    assert rows[0]["object"] == "com1 to com2"
    assert rows[0]["limit"] == "10.71 dB at least"
    assert all(row["step"].startswith("6.") for row in rows)


def test_receivers_that_only_a_trial_decides_are_watched_too(context: Context) -> None:
    sheet = ground_check.build(assessed("amphibian"), context)
    first = next(row for row in rows_of(sheet, "key_down") if row["channel"] == "118.000")
    assert {"vor", "marker", "xpdr"} <= set(first["others"].split(", "))
    uat = next(row for row in rows_of(sheet, "others") if row["object"] == "uat")
    assert "watch also com1, com2" in uat["do"]


def test_what_waivers_and_acceptances_ask_for_is_a_step(
    checked: Sheet, busy: Assessment, context: Context
) -> None:
    assert not any(table.key == "compensating" for table in checked.tables if table.rows)
    plan = assessed("amphibian").plan
    (point, *_) = (one for one in assessed("amphibian").open_points if one.accepts)
    accepted = AcceptedPoint("T. Four", date(2026, 11, 25), check="measure the finished cable")
    waived = replace(plan.waivers["v1"], check="watch both navigators")
    asking = replace(
        plan,
        waivers=plan.waivers.having("v1", waived),
        accepted=ById({point.id: accepted}),
    )
    sheet = ground_check.build(assess(asking, shipped_catalog(), shipped_rulebook()), context)
    steps = [
        (row["step"], row["object"], row["do"], row["source"])
        for row in rows_of(sheet, "compensating")
    ]
    assert steps == [
        ("20.1", "satcom, gnss1", "watch both navigators", f"waiver v1 by {waived.who}"),
        ("20.2", point.id, "measure the finished cable", "acceptance by T. Four"),
    ]
