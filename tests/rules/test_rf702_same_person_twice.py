# SPDX-License-Identifier: Apache-2.0
"""RF702: one person in two roles."""

from __future__ import annotations

from dataclasses import replace

from rooms import findings
from sample import sample_plan

from rfplan.model.findings import Verdict
from rfplan.model.plan import Person, Plan
from rfplan.model.record import ById


def signed(*names: str) -> Plan:
    """Return the sample signed by these people."""
    roles = ("prepared", "checked", "released")
    people = ById((role, Person(name)) for role, name in zip(roles, names, strict=False))
    return replace(sample_plan(), people=people)


def test_different_people_are_fine_and_nobody_yet_is_nobody_twice() -> None:
    assert findings("RF702") == []
    assert findings("RF702", signed("?", "?", "?")) == []


def test_a_name_in_two_roles_is_advised_against() -> None:
    (one,) = findings("RF702", signed("P. One", "C. Two", "P. One"))
    assert one.objects == ("prepared", "released")
    assert one.text == "P. One signs as prepared and released"
    assert one.verdict is Verdict.ADVICE
