# SPDX-License-Identifier: Apache-2.0
"""What `rfplan check` prints."""

from __future__ import annotations

from rfplan.model.assessment import Assessment
from rfplan.reports.context import Context
from rfplan.reports.sheet import Sheet
from rfplan.reports.sheets import summary


def texts(sheet: Sheet, key: str) -> list[list[str]]:
    table = next(table for table in sheet.tables if table.key == key)
    return [[cell.text for cell in row] for row in table.rows]


def test_the_verdict_is_the_first_line(busy: Assessment, context: Context) -> None:
    label, cell = summary.build(busy, context).header[0]
    assert (label, cell.text, cell.token) == ("verdict", "FAIL", "FAIL")


def test_each_path_is_one_line_with_its_word_first(busy: Assessment, context: Context) -> None:
    assert texts(summary.build(busy, context), "paths") == [
        ["WAIVED", "com1", "PASS", "0.37 .. 0.71 < 2.50 dB", "+1.79 to max", "spacing"],
        ["FAIL", "gnss1", "PASS", "0.50 < 1.22 .. 1.95 < 4.00 dB", "+0.72 to min", "spacing"],
        ["FAIL", "xpdr1", "INCOMPLETE", "? < 1.02 .. 1.64 < 2.00 dB", "+0.36 to max", "spacing"],
    ]


def test_findings_stand_worst_first_and_advice_of_one_rule_shares_a_line(
    busy: Assessment, context: Context
) -> None:
    told = texts(summary.build(busy, context), "findings")
    assert told[0] == ["FAIL", "RF501 spacing", "xpdr1 is 6.0 in from gnss1; needs 12.0 in"]
    assert told[1][0] == "WAIVED (limit not met)"
    assert ["ADVICE", "RF312 tx-beside-rx", "2: w21+w11, w31+w11"] in told


def test_the_last_line_counts_paths_findings_and_open_points(
    busy: Assessment, clean: Assessment, context: Context
) -> None:
    assert summary.build(busy, context).notes[-1] == (
        "paths: 2 FAIL, 1 WAIVED; findings: 1 FAIL, 1 WAIVED, 4 ADVICE; "
        "open points: 1 blocking, 2 to confirm"
    )
    assert summary.build(clean, context).notes[-1] == (
        "paths: 3 PASS; findings: none; open points: 0 blocking, 0 to confirm"
    )
