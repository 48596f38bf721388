# SPDX-License-Identifier: Apache-2.0
"""Lines for continued airworthiness: place, access, interval, what to look for."""

from __future__ import annotations

from demo_plans import assessed
from sheet_tables import rows_of

from rfplan.model.assessment import Assessment
from rfplan.model.plan import State
from rfplan.reports.context import Context
from rfplan.reports.sheets import continued_airworthiness


def test_every_antenna_has_its_place_and_the_way_to_it(context: Context) -> None:
    assessment = assessed("amphibian")
    rows = {
        row["id"]: row
        for row in rows_of(continued_airworthiness.build(assessment, context), "antennas")
    }
    assert set(rows) == set(assessment.plan.installation.antennas)
    gnss = rows["gnss1"]
    assert (gnss["fs"], gnss["bl"], gnss["wl"]) == ("98.0", "-13.0", "70.5")
    assert (gnss["change"], gnss["access"]) == ("replaced", "roof front left")


def test_an_interval_is_told_only_where_a_rule_states_one(context: Context) -> None:
    sheet = continued_airworthiness.build(assessed("amphibian"), context)
    told = {row["id"]: row["interval"] for row in rows_of(sheet, "antennas")}
    assert told["elt_t"].startswith("12 months, 14 CFR 91.207")
    assert told["xpdr_b"].startswith("24 months, 14 CFR 91.413")
    assert told["gnss1"] == told["com1"] == "________"
    assert {row["interval"] for row in rows_of(sheet, "cables")} == {"________"}


def test_every_cable_tells_what_replaces_it(clean: Assessment, context: Context) -> None:
    rows = rows_of(continued_airworthiness.build(clean, context), "cables")
    assert [row["id"] for row in rows] == list(clean.cables)
    first = rows[0]
    assert (first["type"], first["plugs"], first["length"]) == ("coax_5mm", "tnc, tnc", "92.0")
    assert (first["ends"], first["way"]) == ("nav1.gnss, gnss1", "p1, apl, rf1")


def test_a_ground_plane_that_nobody_verified_says_so(context: Context) -> None:
    design = continued_airworthiness.build(assessed("amphibian"), context)
    assert {row["verified"] for row in rows_of(design, "planes")} == {"nobody yet"}
    built = continued_airworthiness.build(assessed("amphibian", State.BUILT), context)
    told = {row["id"]: row["verified"] for row in rows_of(built, "planes")}
    assert told["foil_com1"] == "K. Lindevar 1.6 mohm to the base"


def test_each_kind_of_thing_has_its_care(clean: Assessment, context: Context) -> None:
    rows = rows_of(continued_airworthiness.build(clean, context), "care")
    assert {row["kind"] for row in rows} >= {"antenna outside", "cable", "ground plane"}
    assert all(row["look_for"] and row["removal"] and row["replacement"] for row in rows)
