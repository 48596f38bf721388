# SPDX-License-Identifier: Apache-2.0
"""The bibliography is complete, honest, and every formula cites it."""

from __future__ import annotations

import inspect
import re
from importlib import import_module
from pkgutil import iter_modules

import pytest

import rfplan.physics
import rfplan.sources
from rfplan.reports.formulas import every_formula, formulas_json
from rfplan.sources import (
    AC_43_13_1B,
    DOCUMENTS,
    OWN_COMPUTATION,
    POZAR_4E,
    Document,
    Formula,
    SourceClass,
    citation,
    cites,
    formulas,
    source_of,
)

FORMULAS = every_formula()
NAMES = [formula.name for formula in FORMULAS]


def returned_units(function: object) -> str:
    """Return the unit at the end of the Returns section."""
    section = (inspect.getdoc(function) or "").partition("Returns\n-------\n")[2]
    units = re.findall(r"\[([^\]]+)\]$", section.partition("\n\n")[0])
    return units[-1] if units else ""


def test_every_document_is_a_constant_of_its_own_key() -> None:
    for key, document in DOCUMENTS.items():
        assert getattr(rfplan.sources, key) is document
        assert re.fullmatch(r"[A-Z][A-Z0-9_]*", key)


def test_titles_of_documents_are_unique() -> None:
    titles = [document.title for document in DOCUMENTS.values()]
    assert len(set(titles)) == len(titles)


def test_a_citation_of_a_file_is_key_and_place() -> None:
    found = citation("AC_43_13_1B 11-96a")
    assert found.document is AC_43_13_1B
    assert found.place == "11-96a"
    assert found.text() == "FAA AC 43.13-1B CHG 1, 11-96a"


@pytest.mark.parametrize("key", sorted(DOCUMENTS))
def test_a_reference_reads_back_as_the_same_citation(key: str) -> None:
    for place in ("", "3.2 (a), note 1"):
        cited = DOCUMENTS[key].at(place)
        assert citation(cited.reference) == cited


def test_a_document_without_a_place_is_its_title() -> None:
    assert citation("OWN_COMPUTATION").text() == OWN_COMPUTATION.title


def test_an_unknown_document_is_refused_with_the_nearest_keys() -> None:
    with pytest.raises(LookupError, match=r"no document 'AC_43_13_1C'.*did you mean AC_43_13_1B"):
        citation("AC_43_13_1C 11-96a")


def test_a_key_like_no_other_is_refused_without_a_guess() -> None:
    with pytest.raises(LookupError, match=r"no document 'QQQQ' in the bibliography$"):
        citation("QQQQ 1")


def test_every_source_class_has_its_own_words() -> None:
    words = [source_class.words for source_class in SourceClass]
    assert len(set(words)) == len(SourceClass)
    assert AC_43_13_1B.source_class.words == "read in a copy"


def test_documents_that_were_never_open_are_not_called_read() -> None:
    unread = {"AC_20_138", "AC_43_13_2B_CH3", "MIL_DTL_17", "MIL_PRF_39012_SHEETS", "RTCA_MOPS"}
    for key in unread:
        assert DOCUMENTS[key].source_class is SourceClass.MEMORY
    for key in ("POZAR_4E", "AS50881", "ASTM_F2639", "NASA_8739_4", "ITU_P525", "MIL_C_17_28C"):
        assert DOCUMENTS[key].source_class is SourceClass.SECOND_HAND


def test_cites_leaves_the_function_alone_and_records_its_source() -> None:
    def doubled_m(length_m: float) -> float:
        """Return twice a length.

        Parameters
        ----------
        length_m : float
            Length. [m]
        """
        return 2.0 * length_m

    place = POZAR_4E.at("nowhere")
    assert cites(place, returns="m")(doubled_m) is doubled_m
    try:
        assert source_of(doubled_m) == (place,)
        (entry,) = (formula for formula in formulas() if formula.function is doubled_m)
        assert [(p.name, p.unit) for p in entry.parameters] == [("length_m", "m")]
        assert entry.returns == "m"
    finally:
        rfplan.sources._REGISTRY.pop(f"{__name__}.{doubled_m.__qualname__}")


def test_a_function_without_a_source_is_told_so() -> None:
    with pytest.raises(LookupError, match="cites no source"):
        source_of(returned_units)


def test_formulas_are_sorted_by_name() -> None:
    assert sorted(NAMES) == NAMES
    assert len(NAMES) >= 70


@pytest.mark.parametrize("formula", FORMULAS, ids=NAMES)
def test_every_parameter_of_a_formula_states_its_unit(formula: Formula) -> None:
    signature = inspect.signature(formula.function)
    assert [parameter.name for parameter in formula.parameters] == list(signature.parameters)


@pytest.mark.parametrize("formula", FORMULAS, ids=NAMES)
def test_the_unit_a_formula_returns_is_the_one_it_documents(formula: Formula) -> None:
    assert formula.returns
    assert returned_units(formula.function) == formula.returns


@pytest.mark.parametrize("formula", FORMULAS, ids=NAMES)
def test_every_formula_cites_documents_of_the_bibliography(formula: Formula) -> None:
    assert formula.citations
    for cited in formula.citations:
        assert DOCUMENTS[cited.document.key] is cited.document


def test_every_public_function_of_physics_is_a_cited_formula() -> None:
    not_formulas = {"rfplan.physics.domain"}
    for found in iter_modules(rfplan.physics.__path__, "rfplan.physics."):
        module = import_module(found.name)
        for name, function in inspect.getmembers(module, inspect.isfunction):
            own = function.__module__ == found.name and not name.startswith("_")
            if own and found.name not in not_formulas:
                assert f"{found.name}.{name}" in NAMES


def test_the_answer_about_formulas_names_units_and_sources() -> None:
    answer = formulas_json()
    assert answer["format"] == "rfplan-formulas/1"
    entries = answer["formulas"]
    assert isinstance(entries, list)
    loss = next(e for e in entries if e["name"] == "rfplan.physics.free_space.free_space_loss_db")
    assert loss["parameters"] == [
        {"name": "frequency_hz", "unit": "Hz"},
        {"name": "distance_m", "unit": "m"},
    ]
    assert loss["returns"] == "dB"
    assert loss["sources"][0]["document_id"] == "ITU_P525"
    assert loss["sources"][0]["source_class"] == "second_hand"


def test_a_document_is_frozen() -> None:
    with pytest.raises(AttributeError):
        AC_43_13_1B.title = "other"  # type: ignore[misc]
    assert isinstance(AC_43_13_1B, Document)
