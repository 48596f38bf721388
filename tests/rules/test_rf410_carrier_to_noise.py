# SPDX-License-Identifier: Apache-2.0
"""RF410: carrier to noise against what the receiver needs, with every assumption told."""

from __future__ import annotations

from typing import Any

import pytest
from amplified import amplified_catalog, amplified_plan
from rooms import findings
from sample import sample_assessment, sample_rulebook, with_radio

from rfplan.model.catalog import Catalog
from rfplan.model.electrical import Reception
from rfplan.model.findings import Finding, Verdict
from rfplan.model.plan import Plan
from rfplan.model.record import ById
from rfplan.model.rulebook import Band, Carrier, Rulebook
from rfplan.units import NONE, Range


def rules() -> Rulebook:
    band = Band("rx", 1563.42e6, 1587.42e6, Carrier(-128.5, "INVENTED"))
    return with_radio(sample_rulebook(), "gnss_l1", bands=ById({"l1": band}))


def reception(plan: Plan, catalog: Catalog) -> Reception:
    assessment = sample_assessment(plan, catalog, rules())
    return next(path.receiver[0] for path in assessment.paths if path.id == "gnss1")


def found(least: float, **antenna: Any) -> list[Finding]:
    plan = amplified_plan(cn0_dbhz=least)
    return findings("RF410", plan, amplified_catalog(**antenna), rules())


def test_a_signal_that_stands_out_is_fine_and_one_that_does_not_fails() -> None:
    have = reception(amplified_plan(), amplified_catalog()).cn0_dbhz
    assert have is not None
    assert found(have) == []
    (one,) = found(have + 0.1)
    assert (one.verdict, one.unit) == (Verdict.FAIL, "dBHz")
    assert (one.value, one.limit) == (pytest.approx(have), pytest.approx(have + 0.1))


def test_nothing_is_judged_where_nothing_is_needed() -> None:
    plan = amplified_plan(noise_figure_db=None)
    assert findings("RF410", plan, amplified_catalog(), rules()) == []


@pytest.mark.parametrize(
    ("antenna", "port", "name"),
    [
        ({"noise_figure_db": ById()}, {}, "gnss_active.noise_figure"),
        ({}, {"noise_figure_db": None}, "port.noise_figure"),
        ({"amplifier_db": ById()}, {}, "gnss_active.amplifier"),
    ],
)
def test_what_is_missing_for_the_noise_is_named(
    antenna: dict[str, Any], port: dict[str, Any], name: str
) -> None:
    plan = amplified_plan(cn0_dbhz=30.0, net_gain_db=ById(), **port)
    (one,) = findings("RF410", plan, amplified_catalog(**antenna), rules())
    assert one.verdict is Verdict.INCOMPLETE
    assert name in one.text


def test_a_radio_without_a_promised_level_is_named() -> None:
    plan = amplified_plan(cn0_dbhz=30.0)
    (one,) = findings("RF410", plan, amplified_catalog())
    assert "gnss_l1.carrier" in one.text


def test_the_assumptions_stand_in_the_record() -> None:
    one = reception(amplified_plan(), amplified_catalog())
    assert (one.carrier_dbm, one.carrier_source) == (-128.5, "INVENTED")
    assert (one.antenna_dbi, one.antenna_noise_k, one.line_c) == (-4.5, 100.0, 70.0)
    own = reception(amplified_plan(), amplified_catalog(gain_dbi=Range(-2.0, 5.0)))
    assert own.antenna_dbi == -2.0
    assert own.cn0_dbhz == pytest.approx((one.cn0_dbhz or 0.0) + 2.5)


def test_a_passive_antenna_pays_for_its_line_with_noise() -> None:
    passive = ById({"all": Range(NONE, NONE)})
    one = reception(amplified_plan(), amplified_catalog(amplifier_db=passive))
    amplified = reception(amplified_plan(), amplified_catalog())
    assert one.passive
    assert one.noise_figure_db is not None
    assert one.noise_figure_db > 4.0 - (one.net_gain_db[0] or 0.0)
    assert (one.cn0_dbhz or 0.0) < (amplified.cn0_dbhz or 0.0) - 2.0
