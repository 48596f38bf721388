# SPDX-License-Identifier: Apache-2.0
"""A sheet as JSON: text beside value, rounded, nothing raw for a terminal."""

from __future__ import annotations

import json

from rfplan.reports.cells import decibels
from rfplan.reports.formats import json as writer
from rfplan.reports.sheet import Column, Sheet, Table


def test_a_small_sheet_has_text_and_value_of_each_cell(small: Sheet) -> None:
    assert json.loads(writer.write(small)) == {
        "format": "rfplan-sheet/1",
        "sheet": "small",
        "title": "Small sheet",
        "header": [{"label": "state", "text": "design", "value": "design", "unit": ""}],
        "tables": [
            {
                "key": "paths",
                "title": "Paths",
                "columns": [
                    {"key": "path", "title": "path", "unit": ""},
                    {"key": "loss", "title": "loss", "unit": "dB"},
                ],
                "rows": [
                    [
                        {"text": "gnss1", "value": "gnss1", "unit": ""},
                        {"text": "2.86", "value": 2.857, "unit": "dB"},
                    ],
                    [
                        {"text": "com1", "value": "com1", "unit": ""},
                        {"text": "?", "value": None, "unit": ""},
                    ],
                ],
            }
        ],
        "notes": ["A note."],
    }


def test_values_are_rounded_to_six_decimals() -> None:
    table = Table("t", "T", (Column("a", "a", "dB"),), ((decibels(1 / 3),),))
    sheet = writer.sheet_json(Sheet("k", "K", (), (table,), ()))
    assert '"value": 0.333333' in json.dumps(sheet)


def test_a_hostile_sheet_is_ascii_and_loses_nothing(hostile: Sheet) -> None:
    written = writer.write(hostile)
    assert written.isascii()
    assert "\x1b" not in written
    assert "\u4e2d\u6587" in json.loads(written)["notes"]
