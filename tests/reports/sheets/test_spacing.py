# SPDX-License-Identifier: Apache-2.0
"""The spacing sheet: worst margin first, pairs without a rule last."""

from __future__ import annotations

from dataclasses import replace

from rfplan.model.assessment import Assessment
from rfplan.model.findings import Verdict
from rfplan.reports.context import Context
from rfplan.reports.sheet import Cell
from rfplan.reports.sheets import spacing


def rows(assessment: Assessment, context: Context) -> list[dict[str, Cell]]:
    table = spacing.build(assessment, context).tables[0]
    keys = [column.key for column in table.columns]
    return [dict(zip(keys, row, strict=True)) for row in table.rows]


def test_the_worst_margin_stands_first_and_a_pair_without_rule_last(
    busy: Assessment, context: Context
) -> None:
    told = [(row["a"].text, row["b"].text, row["verdict"].text) for row in rows(busy, context)]
    assert told == [
        ("com1", "gnss1", "WAIVED"),
        ("gnss1", "xpdr1", "FAIL"),
        ("com1", "xpdr1", "no rule"),
    ]


def test_a_pair_without_rule_is_dim_and_still_tells_its_distances(
    busy: Assessment, context: Context
) -> None:
    row = rows(busy, context)[-1]
    assert row["verdict"].token == "dim"
    assert (row["centre"].text, row["margin"].text, row["need"].text) == ("14.0", "-", "-")


def test_an_unknown_margin_stands_before_all_known_ones(busy: Assessment, context: Context) -> None:
    unknown = replace(
        busy.spacing[0], a="x1", b="x2", margin_m=None, verdict=Verdict.INCOMPLETE, datum="skin"
    )
    told = rows(replace(busy, spacing=(*busy.spacing, unknown)), context)
    assert told[0]["a"].text == "x1"


def test_a_distance_that_is_too_small_never_prints_like_its_need(
    busy: Assessment, context: Context
) -> None:
    pair = replace(busy.spacing[0], centre_m=0.9143, need_m=0.9144, margin_m=-0.0001)
    row = rows(replace(busy, spacing=(pair,)), context)[0]
    assert (row["centre"].text, row["need"].text, row["margin"].text) == (
        "35.996",
        "36.000",
        "-0.004",
    )
