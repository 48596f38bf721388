# SPDX-License-Identifier: Apache-2.0
"""Every cited formula with its units and sources, as `rfplan formulas --json` prints it."""

from __future__ import annotations

from importlib import import_module
from pkgutil import iter_modules

import rfplan.physics
from rfplan.sources import Citation, Formula, formulas

FORMAT = "rfplan-formulas/1"


def every_formula() -> tuple[Formula, ...]:
    """Return the formulas of all modules of physics, sorted by dotted name."""
    for module in iter_modules(rfplan.physics.__path__, prefix="rfplan.physics."):
        import_module(module.name)
    return formulas()


def formulas_json() -> dict[str, object]:
    """Return the answer of `rfplan formulas --json`."""
    return {"format": FORMAT, "formulas": [_formula_json(formula) for formula in every_formula()]}


def _formula_json(formula: Formula) -> dict[str, object]:
    return {
        "name": formula.name,
        "parameters": [{"name": p.name, "unit": p.unit} for p in formula.parameters],
        "returns": formula.returns,
        "sources": [_citation_json(citation) for citation in formula.citations],
    }


def _citation_json(citation: Citation) -> dict[str, str]:
    return {
        "document_id": citation.document.key,
        "document": citation.document.title,
        "place": citation.place,
        "source_class": citation.document.source_class,
    }
