# SPDX-License-Identifier: Apache-2.0
"""RF308: open ports of splitters."""

from __future__ import annotations

from dataclasses import replace
from typing import Literal

from rooms import findings
from sample import sample_plan

from rfplan.model.findings import Verdict
from rfplan.model.plan import Part, Path, Plan
from rfplan.model.record import ById


def split(**ports: Literal["terminated", "open"]) -> Plan:
    """Return the sample with the GNSS path through port a of a splitter."""
    plan = sample_plan()
    part = Part("split_2", "apl", ById(ports))
    chain = Path(("nav1.gnss", "w11", "sp.a", "w21", "gnss1"))
    fitted = replace(plan.design, parts=ById({"sp": part}), paths=ById({"gnss1": chain}))
    return replace(plan, design=fitted)


def test_a_port_that_is_used_or_terminated_is_fine() -> None:
    assert findings("RF308") == []
    assert findings("RF308", split(b="terminated")) == []


def test_an_open_port_is_named_whether_it_is_said_or_not() -> None:
    for plan in (split(), split(b="open")):
        (one,) = findings("RF308", plan)
        assert one.objects == ("sp.b",)
        assert one.text == "sp.b is open"
        assert one.verdict is Verdict.ADVICE
