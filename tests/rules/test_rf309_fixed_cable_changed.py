# SPDX-License-Identifier: Apache-2.0
"""RF309: cables that the equipment fixes."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest
from rooms import findings
from sample import inch, refitted, sample_plan, sample_rulebook, with_port, with_radio

from rfplan.model.findings import Verdict
from rfplan.model.plan import Plan
from rfplan.model.record import ById
from rfplan.model.rulebook import Rulebook
from rfplan.units import UNKNOWN


def fixed(**changes: Any) -> Plan:
    """Return the sample whose COM cable is fixed by the equipment."""
    return with_port(sample_plan(), "nav1", "com", cable="fixed", **changes)


def commonly_fixed() -> Rulebook:
    """Return the rulebook in which the cable of a COM radio is commonly fixed."""
    return with_radio(sample_rulebook(), "vhf_com", cable="fixed")


def found_with(plan: Plan, **changes: Any) -> Plan:
    """Return a plan in whose state found the COM cable was another."""
    was = replace(plan.found.cables["w21"], **changes)
    return replace(plan, found=replace(plan.found, cables=plan.found.cables.having("w21", was)))


def test_a_free_cable_may_change() -> None:
    assert findings("RF309", found_with(sample_plan(), type="coax_3mm")) == []


def test_a_fixed_cable_as_it_was_found_is_fine() -> None:
    assert findings("RF309", fixed()) == []


def test_another_type_than_was_found_fails_where_the_port_says_fixed() -> None:
    (one,) = findings("RF309", found_with(fixed(), type="coax_3mm"))
    assert one.objects == ("w21",)
    assert one.verdict is Verdict.FAIL
    assert one.text == "w21 was coax_3mm and is now coax_5mm"
    assert "invented sheet" in one.source


def test_where_only_the_kind_of_radio_says_so_it_is_advice() -> None:
    plan = found_with(sample_plan(), type="coax_3mm")
    (one,) = findings("RF309", plan, rulebook=commonly_fixed())
    assert one.verdict is Verdict.ADVICE
    assert one.source_class == "common practice"


def test_the_type_that_the_document_states_decides_whatever_was_found() -> None:
    (one,) = findings("RF309", fixed(cable_type="coax_3mm"))
    assert one.text == "w21 is coax_5mm; the equipment fixes coax_3mm"
    assert findings("RF309", found_with(fixed(cable_type="coax_5mm"), type="coax_3mm")) == []


@pytest.mark.parametrize(
    ("off_in", "count"), [(0.0, 0), (0.49, 0), (-0.49, 0), (0.6, 1), (-0.6, 1)]
)
def test_the_length_that_the_document_states_is_kept_within_half_an_inch(
    off_in: float, count: int
) -> None:
    # the design comes to 76 + 30 + 9 + 12 + 4 = 131 in
    assert len(findings("RF309", fixed(cable_length_m=inch(131 + off_in)))) == count


def test_another_length_than_was_measured_as_found_is_a_change() -> None:
    (one,) = findings("RF309", found_with(fixed(), length_m=inch(128)))
    assert one.text == "w21 does not have the length that was found"
    assert findings("RF309", found_with(fixed(), length_m=inch(131))) == []


def test_a_fixed_cable_that_was_not_there_is_a_change() -> None:
    plan = fixed()
    plan = replace(plan, found=replace(plan.found, cables=ById(), paths=ById()))
    (one,) = findings("RF309", plan)
    assert one.text == "w21 is new, and the equipment fixes this cable"
    assert findings("RF309", with_port(plan, "nav1", "com", cable_type="coax_5mm")) == []


def test_a_cable_of_unknown_length_is_not_the_one_that_is_fixed() -> None:
    plan = refitted(fixed(cable_length_m=inch(131)), "cables", "w21", length_m=UNKNOWN)
    assert len(findings("RF309", plan)) == 1
