# SPDX-License-Identifier: Apache-2.0
"""The interference sheet: worst first, every number with its model, and what would help."""

from __future__ import annotations

from demo_plans import assessed
from interfering import HARMONICS, gained_catalog, masked_rulebook
from sample import sample_assessment, sample_plan, with_port
from sheet_tables import rows_of

from rfplan.reports.context import Context
from rfplan.reports.cures import reach_m
from rfplan.reports.sheet import Sheet
from rfplan.reports.sheets import interference
from rfplan.reports.study import facts_of


def built(context: Context) -> Sheet:
    """Return the sheet of the sample with entered harmonics."""
    plan = with_port(sample_plan(), "nav1", "com", harmonics_db=HARMONICS)
    assessment = sample_assessment(plan, gained_catalog(), masked_rulebook())
    return interference.build(assessment, context)


def test_what_lacks_most_stands_first(context: Context) -> None:
    rows = rows_of(built(context), "exposures")
    first = rows[0]
    assert (first["source"], first["victim"]) == ("com1", "gnss1")
    assert first["emission"].startswith("harmonic")
    assert first["verdict"] == "TEST"
    known = [row for row in rows if row["margin"] != "?"]
    margins = [float(row["margin"]) for row in known]
    tests = [float(row["margin"]) for row in known if row["verdict"] == "TEST"]
    assert margins[0] == min(margins)
    assert tests == sorted(tests)


def test_every_row_names_its_model_and_how_much_better_it_may_be(context: Context) -> None:
    for row in rows_of(built(context), "exposures"):
        assert row["model"]
        assert row["band"] in ("?", "or more") or " .. " in row["band"]


def test_a_pass_says_what_it_rests_on(context: Context) -> None:
    words = {row["verdict"] for row in rows_of(built(context), "exposures")}
    assert "PASS (bound)" in words


def test_what_lacks_is_told_what_would_help(context: Context) -> None:
    rows = rows_of(built(context), "helps")
    assert rows[0]["missing"] != "?"
    assert float(rows[0]["below"]) > 95.0


def test_a_distance_that_would_do_is_told_where_the_aircraft_is_long_enough(
    context: Context,
) -> None:
    design = assessed("amphibian")
    rows = rows_of(interference.build(design, context), "helps")
    reach_in = reach_m(facts_of(design)) / 0.0254
    assert rows[0]["away"] == "too far"
    told = [row for row in rows if row["away"] not in ("too far", "-")]
    assert told
    assert all(float(row["apart"]) < float(row["away"]) <= reach_in for row in told)


def test_the_notes_say_where_the_limits_hold_and_that_test_is_no_verdict(
    context: Context,
) -> None:
    notes = " ".join(built(context).notes)
    assert "ahead of the amplifier" in notes
    assert "TEST is no verdict" in notes
