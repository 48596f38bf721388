# SPDX-License-Identifier: Apache-2.0
"""One small sheet, and one in which every text tries to be something else."""

from __future__ import annotations

import pytest

from rfplan.reports.cells import decibels, words
from rfplan.reports.sheet import Column, Sheet, Table

ATTACKS = (
    "=HYPERLINK(1)",
    "+1+cmd|'/C calc'!A0",
    "@SUM(A1)",
    "-2+3",
    "\t=1",
    "a|b",
    "<script>x</script>",
    "**bold** _it_ `code` [a](b) ![c](d)",
    "# head",
    "\x1b[2J\u202e",
    'quote " comma , line\nbreak',
    "back\\slash",
    "&lt;",
    "\u4e2d\u6587",
)


def one_column(*texts: str) -> Sheet:
    """Return a sheet that holds some texts in its header, its table and its notes."""
    table = Table("t", "Table", (Column("text", "text"),), tuple((words(one),) for one in texts))
    header = tuple(("label", words(one)) for one in texts)
    return Sheet("k", "Title", header, (table,), texts)


@pytest.fixture
def small() -> Sheet:
    """A sheet with a heading, two columns, two rows and a note."""
    columns = (Column("path", "path"), Column("loss", "loss", "dB", "right"))
    rows = ((words("gnss1"), decibels(2.857)), (words("com1"), decibels(None)))
    table = Table("paths", "Paths", columns, rows)
    return Sheet("small", "Small sheet", (("state", words("design")),), (table,), ("A note.",))


@pytest.fixture
def hostile() -> Sheet:
    """A sheet full of attacks."""
    return one_column(*ATTACKS)
