# SPDX-License-Identifier: Apache-2.0
"""The answer about formulas can be called by name."""

from __future__ import annotations

import json
from importlib import import_module

from rfplan.reports.formulas import every_formula, formulas_json


def test_every_name_leads_to_the_function_it_names() -> None:
    for formula in every_formula():
        module, _, name = formula.name.rpartition(".")
        assert getattr(import_module(module), name) is formula.function


def test_the_answer_is_json_and_lists_every_formula_once() -> None:
    answer = json.loads(json.dumps(formulas_json()))
    names = [entry["name"] for entry in answer["formulas"]]
    assert names == [formula.name for formula in every_formula()]
    assert len(set(names)) == len(names)
