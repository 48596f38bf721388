# SPDX-License-Identifier: Apache-2.0
"""Rows that tell the same of several paths are one, and of no path that is not among them."""

from __future__ import annotations

from dataclasses import replace

from hypothesis import given
from hypothesis import strategies as st
from interfering import exposure, facts_with

from rfplan.analysis.interference import interference
from rfplan.reports.alike import alike

ONE = exposure(interference(facts_with()), "com1", "gnss1")
meetings = st.lists(
    st.tuples(st.sampled_from("abc"), st.sampled_from("xyz"), st.sampled_from([1.0, 2.0])),
    unique=True,
)


@given(meetings)
def test_every_meeting_is_told_once_and_no_other(told: list[tuple[str, str, float]]) -> None:
    things = [replace(ONE, source=a, victim=x, margin_db=db) for a, x, db in told]
    rows = alike(things, lambda one: one, lambda one: one.margin_db)
    spread = [(a, x, row.one.margin_db) for row in rows for a in row.sources for x in row.victims]
    assert sorted(spread) == sorted(told)


def test_ports_of_one_antenna_that_tell_the_same_are_one_row_in_the_place_of_the_first() -> None:
    told = [("a", "x", 1.0), ("a", "y", 2.0), ("b", "x", 1.0), ("a", "z", 1.0), ("b", "z", 1.0)]
    things = [replace(ONE, source=a, victim=x, margin_db=db) for a, x, db in told]
    rows = alike(things, lambda one: one, lambda one: one.margin_db)
    assert [row[:2] for row in rows] == [(("a", "b"), ("x", "z")), (("a",), ("y",))]
