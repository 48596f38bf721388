# SPDX-License-Identifier: Apache-2.0
"""Open points: what blocks first, and where it is written."""

from __future__ import annotations

from dataclasses import replace

from rfplan.model.assessment import Assessment
from rfplan.reports.context import Context
from rfplan.reports.sheets import open_points


def rows(assessment: Assessment, context: Context) -> list[list[str]]:
    table = open_points.build(assessment, context).tables[0]
    return [[cell.text for cell in row] for row in table.rows]


def test_what_blocks_stands_first_with_its_place(busy: Assessment, context: Context) -> None:
    told = rows(busy, context)
    assert told[0][:3] == ["blocking", "xp1.ant", "loss"]
    assert told[0][-2:] == ["plan.yaml", "7"]
    assert {row[0] for row in told[1:]} == {"to confirm"}
    assert next(row for row in told if row[1] == "m1")[4] == "P. One"


def test_without_files_the_places_are_dashes(busy: Assessment, context: Context) -> None:
    assert rows(busy, replace(context, where=None))[0][-2:] == ["-", "-"]
