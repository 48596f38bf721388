# SPDX-License-Identifier: Apache-2.0
"""Pads on trial: the smallest that holds, and what is against every other one."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest
from amplified import amplified_catalog, amplified_plan
from sample import SOURCES, refitted, sample_facts, with_port

from rfplan.model.catalog import Catalog, InlinePart, LossSet
from rfplan.model.electrical import PadTrial
from rfplan.model.plan import Part, Plan
from rfplan.model.record import ById
from rfplan.rules.pads import TRIAL, pad_trials
from rfplan.units import NONE, Range


def pad(id: str, loss_db: float, **changes: Any) -> InlinePart:
    """Return an invented pad that passes direct current."""
    part = InlinePart(
        kind="pad",
        title="invented pad",
        id=id,
        plugs=("tnc", "tnc"),
        loss=ById({"nominal": LossSet(loss_db, tolerance_db=0.1, source="sheet")}),
        dc="pass",
        resistance_ohm=0.1,
        sources=SOURCES,
        source="sheet",
    )
    return replace(part, **changes)


def with_pads(*pads: InlinePart) -> Catalog:
    return replace(amplified_catalog(), inline_parts=ById((one.id, one) for one in pads))


def plan(low: float = 2.5, high: float = 6.0, **port: Any) -> Plan:
    """Return the sample whose receiver wants more loss than its cable has."""
    window = ById({"all": Range(low, high)})
    return amplified_plan(loss_db=window, net_gain_db=ById(), **port)


def trials(catalog: Catalog, of: Plan | None = None) -> dict[str, PadTrial]:
    facts = sample_facts(of or plan(), catalog)
    return {trial.pad or "none": trial for trial in pad_trials(facts, "gnss1")}


def test_the_trials_rise_and_the_first_that_holds_is_the_smallest() -> None:
    told = trials(with_pads(pad("p6", 6.0), pad("p1", 1.0), pad("p3", 3.0)))
    assert list(told) == ["none", "p1", "p3", "p6"]
    assert [name for name, trial in told.items() if not trial.reasons] == ["p3"]
    assert "loss in rx: FAIL-LOW" in told["none"].reasons[0]
    assert "loss in rx: FAIL-LOW" in told["p1"].reasons[0]
    assert "loss in rx: FAIL-HIGH" in told["p6"].reasons[0]
    assert [trial.loss_db for trial in told.values()] == [0.0, 1.0, 3.0, 6.0]


@pytest.mark.parametrize(
    ("changes", "reason"),
    [
        ({"dc": "block"}, "it blocks the supply of the antenna"),
        ({"plugs": ("bnc", "bnc")}, "its plugs do not mate with unit and cable"),
        ({"band_hz": Range(100e6, 500e6)}, "it is not made for this band"),
        ({"band_hz": Range(1.0e9, 1.580e9)}, "it is not made for this band"),
        ({"rated_c": Range(-20.0, 85.0)}, "it is not rated for the temperatures of the plan"),
        ({"current_a": 0.030}, "pad is made for 30 mA"),
        ({"resistance_ohm": 10.0}, "supply of the antenna: 4.16 V is below 4.50 V"),
        ({"resistance_ohm": None}, "supply of the antenna: hangs on pad.resistance"),
    ],
)
def test_what_is_against_a_pad_beside_its_loss_is_said(
    changes: dict[str, Any], reason: str
) -> None:
    told = trials(with_pads(pad("pad", 3.0, **changes)))
    assert told["pad"].reasons == (reason,)


def test_a_pad_must_hold_the_net_gain_and_the_carrier_too() -> None:
    limits = {
        "loss_db": ById({"all": Range(2.5, 6.0)}),
        "net_gain_db": ById({"all": Range(22.5, 40.0)}),
    }
    told = trials(with_pads(pad("p3", 3.0)), amplified_plan(**limits))
    assert told["p3"].reasons[0].startswith("net gain in rx: ")
    needy = trials(with_pads(pad("p3", 3.0)), plan(cn0_dbhz=37.0))
    assert needy["p3"].reasons == ("carrier to noise in rx is too low or not known",)


def test_a_pad_that_is_fitted_is_taken_out_before_another_is_tried() -> None:
    catalog = with_pads(pad("p3", 3.0), pad("p1", 1.0))
    bare = trials(catalog)
    fitted = refitted(plan(), "paths", "gnss1", chain=("nav1.gnss", "att", "w11", "gnss1"))
    there = replace(fitted.installation, parts=ById({"att": Part("p1", "p1")}))
    told = trials(catalog, replace(fitted, design=there))
    assert {name: trial.reasons for name, trial in told.items()} == {
        name: trial.reasons for name, trial in bare.items()
    }
    assert [name for name, trial in told.items() if trial.fitted] == ["p1"]
    assert [name for name, trial in bare.items() if trial.fitted] == ["none"]


def test_nothing_is_proposed_for_a_cable_that_the_equipment_fixes() -> None:
    assert trials(with_pads(pad("p3", 3.0)), plan(cable="fixed")) == {}


def test_nothing_is_tried_where_no_window_can_ask_for_a_pad() -> None:
    one_sided = with_port(plan(), "nav1", "gnss", loss_db=ById({"all": Range(NONE, 6.0)}))
    assert trials(with_pads(pad("p3", 3.0)), one_sided) == {}


def test_no_id_of_a_plan_can_be_that_of_the_trial() -> None:
    assert " " in TRIAL
