# SPDX-License-Identifier: Apache-2.0
"""The receivers of a loss budget: gain, noise, supply, new plugs and matched groups."""

from __future__ import annotations

import pytest
from amplified import amplified_catalog, amplified_plan
from sample import refitted, sample_assessment, sample_plan

from rfplan.model.assessment import Assessment
from rfplan.model.plan import Group
from rfplan.model.record import ById
from rfplan.reports.context import Context
from rfplan.reports.sheet import Cell, Table
from rfplan.reports.sheets import loss_budget


def row(assessment: Assessment, context: Context, key: str) -> dict[str, Cell]:
    """Return the first row of a table of the loss budget."""
    tables: dict[str, Table] = {
        one.key: one for one in loss_budget.build(assessment, context).tables
    }
    keys = [column.key for column in tables[key].columns]
    return dict(zip(keys, tables[key].rows[0], strict=True))


@pytest.fixture
def amplified() -> Assessment:
    return sample_assessment(amplified_plan(), amplified_catalog())


def test_net_gain_stands_between_its_window_with_the_temperature_of_its_noise(
    amplified: Assessment, context: Context
) -> None:
    told = row(amplified, context, "gain")
    (band,) = amplified.paths[1].receiver
    assert (told["path"].text, told["band"].text, told["antenna"].text) == (
        "gnss1",
        "rx",
        "amplified",
    )
    assert told["net_least"].value == band.net_gain_db[0]
    assert (told["window_min"].text, told["window_max"].text) == ("20.00", "32.00")
    assert told["figure"].value == band.noise_figure_db
    assert (told["line"].text, told["verdict"].text) == ("70", "PASS")
    assert (told["cn0"].text, told["cn0_least"].text, told["assumed"].text) == ("?", "none", "-")


def test_supply_is_told_in_volts_and_milliamperes(amplified: Assessment, context: Context) -> None:
    told = row(amplified, context, "supply")
    assert (told["port_least"].text, told["min"].text, told["max"].text) == ("4.70", "4.50", "5.50")
    assert (told["current_least"].text, told["current_most"].text) == ("20.0", "45.0")
    assert (told["watch_min"].text, told["watch_max"].text) == ("10.0", "60.0")
    assert told["verdict"].text == "PASS"


def test_margins_after_new_plugs_fall_in_equal_steps(
    amplified: Assessment, context: Context
) -> None:
    told = row(amplified, context, "reterminations")
    margins = [float(told[f"after_{cuts}"].value) for cuts in (0, 1, 2)]  # type: ignore[arg-type]
    assert margins[0] - margins[1] == pytest.approx(margins[1] - margins[2], rel=0.01)
    assert margins[0] > margins[1]
    assert (told["cable"].text, told["cut"].text, told["slack"].text) == ("w11", "2.0", "2")


def test_a_group_is_told_in_inches_nanoseconds_and_degrees(context: Context) -> None:
    plan = sample_plan(groups=ById({"pair": Group(length_m=0.0508, source="sheet")}))
    for id, length_m in (("w21", 3.0), ("w31", 3.0254)):
        changes = {"length_m": length_m, "group": "pair", "tolerance_m": 0.0}
        plan = refitted(plan, "cables", id, retermination_m=None, **changes)
    told = row(sample_assessment(plan), context, "groups")
    assert (told["length"].text, told["length_max"].text) == ("1.0", "2.0")
    assert (told["delay"].text, told["delay_max"].text) == ("0.122", "none")
    assert told["phase"].text == "47.8"


def test_an_element_tells_its_impedance_and_a_cable_its_attenuation(
    amplified: Assessment, context: Context
) -> None:
    told = row(amplified, context, "elements")
    assert (told["kind"].text, told["ohm"].text, told["per_m"].text) == ("mated pair", "50", "-")
    cable = next(item for item in amplified.paths[0].chain if item.kind == "cable")
    assert cable.attenuation_db_per_m == pytest.approx(0.172, abs=0.005)
