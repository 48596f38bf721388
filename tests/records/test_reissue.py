# SPDX-License-Identifier: Apache-2.0
"""Sheets are issued anew only where a cell below the heading differs."""

from __future__ import annotations

from dataclasses import replace

from sample import refitted, sample_assessment, sample_plan

from rfplan.records.reissue import reissue_table, reissues


def test_equal_plans_need_no_sheet_anew() -> None:
    assert list(reissues(sample_assessment(), sample_assessment(), "in")) == []


def test_what_only_the_heading_tells_asks_for_no_sheet() -> None:
    retitled = sample_assessment(replace(sample_plan(), title="another title"))
    assert [one.key for one in reissues(sample_assessment(), retitled, "in")] == []


def test_sheets_that_tell_of_a_change_are_named_with_their_tables() -> None:
    plan = refitted(sample_plan(), "cables", "w11", length_m=4.0)
    changed = {
        one.key: one.tables for one in reissues(sample_assessment(), sample_assessment(plan), "in")
    }
    assert {"loss_budget", "cut_list"} <= set(changed)
    assert "cautions" not in changed
    assert all(changed.values())


def test_the_table_has_a_row_for_each_of_them() -> None:
    plan = refitted(sample_plan(), "cables", "w11", length_m=4.0)
    before, after = sample_assessment(), sample_assessment(plan)
    table = reissue_table(before, after, "mm")
    assert [row[0].text for row in table.rows] == [one.key for one in reissues(before, after, "mm")]
