# SPDX-License-Identifier: Apache-2.0
"""The documents and formulas that the numbers of a plan rest on, and how well each is known."""

from __future__ import annotations

from collections.abc import Iterable

from rfplan.model.assessment import Assessment
from rfplan.reports.cells import listed, words
from rfplan.reports.context import Context
from rfplan.reports.heading import sheet
from rfplan.reports.sheet import Cell, Field, Sheet, Table, table, text_field
from rfplan.reports.sources_told import (
    Used,
    airframe_documents,
    catalog_documents,
    formulas_called,
    plan_documents,
    table_documents,
)
from rfplan.sources import Formula

KEY = "sources_used"
TITLE = "Sources used"

LIMITS = (
    "A document is named with how well it was read: read in a copy, second hand, from memory, "
    "common practice. Nothing from memory was read. Formulas are those the analysis calls, "
    "whether or not this plan has a number from each.",
)


def build(assessment: Assessment, context: Context) -> Sheet:
    """Return what the plan, the airframe, the catalogue, the tables and the formulas rest on."""
    return sheet(
        assessment,
        context,
        KEY,
        TITLE,
        _documents("plan", "Documents of the plan", "source", plan_documents(assessment)),
        _documents(
            "airframe", "Documents of the airframe", "source", airframe_documents(assessment)
        ),
        _documents("catalog", "Catalogue entries in use", "entry", catalog_documents(assessment)),
        _documents("tables", "Shipped tables in use", "", table_documents(assessment)),
        _formulas(),
        limits=LIMITS,
    )


def _documents(key: str, title: str, named: str, rows: Iterable[Used]) -> Table:
    name = text_field("name", named, _name)
    fields: list[Field[Used]] = [
        *([name] if named else []),
        text_field("document", "document", lambda one: words(one.document)),
        text_field("known", "class", lambda one: words(one.known)),
        text_field("used", "used for", lambda one: listed(one.used)),
    ]
    return table(key, title, fields, rows)


def _name(used: Used) -> Cell:
    return words(used.name)


def _formulas() -> Table:
    fields: list[Field[Formula]] = [
        text_field("name", "formula", lambda one: words(one.name.rpartition(".")[2])),
        text_field("topic", "topic", _topic),
        text_field("source", "source", _citations),
        text_field("known", "class", lambda one: listed(dict.fromkeys(_classes(one)))),
    ]
    return table("formulas", "Formulas", fields, formulas_called())


def _citations(formula: Formula) -> Cell:
    return words("; ".join(each.text() for each in formula.citations))


def _topic(formula: Formula) -> Cell:
    return words(formula.name.rpartition(".")[0].rpartition(".")[2].replace("_", " "))


def _classes(formula: Formula) -> list[str]:
    return [each.document.source_class.words for each in formula.citations]
