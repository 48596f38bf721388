# SPDX-License-Identifier: Apache-2.0
"""RF703: acceptances of open points that are not there."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

import pytest
from rooms import findings
from sample import sample_catalog, sample_plan, with_entry

from rfplan.model.findings import Verdict
from rfplan.model.plan import AcceptedPoint, Plan, State
from rfplan.model.record import ById
from rfplan.model.source import Source


def accepting(*ids: str) -> Plan:
    """Return the sample with acceptances of open points."""
    entry = AcceptedPoint("A. Three", date(2026, 11, 20))
    return replace(sample_plan(), accepted=ById(dict.fromkeys(ids, entry)))


REMEMBERED = with_entry(
    sample_catalog(),
    "cables",
    "coax_5mm",
    sources=ById({"sheet": Source("assumed", document="a handbook", read="memory")}),
)
"""The catalogue of the sample with a cable whose loss is to be confirmed."""


def test_a_point_that_is_there_answers_until_nothing_is_open_any_more() -> None:
    assert findings("RF703", accepting("coax_5mm.loss"), REMEMBERED) == []
    assert len(findings("RF703", accepting("coax_5mm.loss"))) == 1


def test_an_entry_that_answers_nothing_is_named_and_never_fails() -> None:
    (one,) = findings("RF703", accepting("coax_5mm.loss", "coax_5mm.los"), REMEMBERED)
    assert one.objects == ("coax_5mm.los",)
    assert one.verdict is Verdict.ADVICE
    assert one.text == "accepted coax_5mm.los speaks of an open point that is not there"
    assert one.where == ("accepted", "coax_5mm.los")
    assert one.remedy.endswith("only if no state has such a point")  # another one may need it


@pytest.mark.parametrize("state", [State.FOUND, State.BUILT])
def test_only_the_design_is_looked_at(state: State) -> None:
    assert findings("RF703", replace(accepting("coax_5mm.los"), state=state)) == []
