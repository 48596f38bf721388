# SPDX-License-Identifier: Apache-2.0
"""Limits at a receiver's antenna: the mask at its worst, pulses, what a port states."""

from __future__ import annotations

import numpy as np
import pytest
from interfering import HARMONICS, facts_with, masked_rulebook
from sample import sample_catalog, sample_plan, with_entry, with_port

from rfplan.analysis.bearable import Allowed, Limit, limits
from rfplan.analysis.emissions import emissions, receivers
from rfplan.analysis.gnss_limits import bearable_at
from rfplan.model.catalog import Catalog
from rfplan.model.interference import NOISE, Harm, Together
from rfplan.model.plan import Plan
from rfplan.model.record import ById
from rfplan.units import NONE, UNKNOWN, Range

MASKS = masked_rulebook().gnss_masks


def told(
    plan: Plan,
    source: str,
    victim: str,
    order: int = 1,
    together: Together = Together.YES,
    rise_db: float | None = None,
    catalog: Catalog | None = None,
) -> list[tuple[Limit, ...]]:
    """Return the limits of one emission at one receiver."""
    facts = facts_with(plan, catalog)
    listening = receivers(facts)
    receiver = next(one for one in listening if one.path == victim)
    emission = next(
        one
        for one in emissions(facts, listening)
        if (one.path, one.order) == (source, order) and one.heard_by in ("", receiver.radio.family)
    )
    return list(limits(emission, receiver, Allowed(MASKS, noise_rise_db=rise_db), together))


def test_no_frequency_of_a_harmonic_has_a_lower_limit_than_the_points_looked_at() -> None:
    plan = with_port(sample_plan(), "nav1", "com", harmonics_db=HARMONICS)
    (masked,) = told(plan, "com1", "gnss1", 13)
    grid_hz = np.linspace(13 * 117.975e6, 13 * 137e6, 2001)
    lowest_dbm = bearable_at(MASKS.masks["cw"], grid_hz).limit_dbm.min() - 6.0
    assert min(limit.limit_dbm for limit in masked if limit.limit_dbm is not None) == lowest_dbm


def test_fail_is_never_certain_between_corners_that_were_not_read() -> None:
    plan = with_port(sample_plan(), "nav1", "com", harmonics_db=HARMONICS)
    (masked,) = told(plan, "com1", "gnss1", 13)
    by_hz = {round(limit.frequency_hz / 1e4): limit.fail_above_dbm for limit in masked}
    assert by_hz[157542] == -120.5
    assert by_hz[156542] == -12.0


def test_the_carrier_of_a_com_is_held_against_mask_and_burnout() -> None:
    harms = [found[0].harm for found in told(sample_plan(), "com1", "gnss1")]
    assert harms == [Harm.MASK, Harm.DAMAGE]


def test_what_need_not_work_meanwhile_is_checked_for_damage_only() -> None:
    for together in (Together.SUPPRESSED, Together.NOT_REQUIRED):
        for victim in ("gnss1", "xpdr1"):
            found = told(sample_plan(), "com1", victim, together=together)
            assert [one.harm for limits in found for one in limits[:1]] == [Harm.DAMAGE]


def test_a_stated_overload_is_carried_out_to_the_antenna_in_band_only() -> None:
    plan = with_port(sample_plan(), "xp1", "ant", overload_dbm=-20.0)
    ((limit, *_),) = told(plan, "com1", "xpdr1")
    assert limit.limit_dbm == pytest.approx(-20.0)
    assert limit.harm is Harm.OVERLOAD


@pytest.mark.parametrize(
    ("amplifier_db", "limit_dbm", "decides"),
    [
        (Range(NONE, NONE), -20.0, True),
        (Range(20.0, 30.0), -50.0, False),
        (Range(20.0, UNKNOWN), None, False),
    ],
)
def test_an_amplifier_lowers_a_stated_overload_by_its_most_and_decides_no_fail(
    amplifier_db: Range, limit_dbm: float | None, decides: bool
) -> None:
    plan = with_port(sample_plan(), "xp1", "ant", overload_dbm=-20.0, noise_figure_db=9.0)
    amplified = ById({"all": amplifier_db})
    catalog = with_entry(sample_catalog(), "antennas", "xpdr_stub", amplifier_db=amplified)
    ((overload, *_),) = told(plan, "com1", "xpdr1", catalog=catalog)
    assert (overload.limit_dbm, overload.fail_above_dbm is not None) == (limit_dbm, decides)
    ((noise, *_),) = told(plan, "com1", "xpdr1", NOISE, catalog=catalog)
    assert (noise.limit_dbm is not None) == decides


def test_noise_may_rise_by_what_the_plan_allows_and_by_1_db_where_it_is_silent() -> None:
    """kT0 is -173.98 dBm/Hz; 1 dB more noise is 5.87 dB below it, 3.01 dB more is as much again."""
    plan = with_port(sample_plan(), "xp1", "ant", noise_figure_db=9.0)
    ((limit, *_),) = told(plan, "com1", "xpdr1", NOISE)
    line_db = next(one.line_db for one in receivers(facts_with(plan)) if one.path == "xpdr1")
    assert limit.harm is Harm.NOISE
    assert limit.limit_dbm == pytest.approx(-173.975 + 9.0 - 5.868 + line_db, abs=0.002)
    assert limit.fail_above_dbm is None
    ((entered, *_),) = told(plan, "com1", "xpdr1", NOISE, rise_db=10.0 * np.log10(2.0))
    assert entered.limit_dbm == pytest.approx(-173.975 + 9.0 + line_db, abs=0.002)
    assert entered.fail_above_dbm == entered.limit_dbm


def test_noise_without_a_noise_figure_has_no_limit() -> None:
    ((limit, *_),) = told(sample_plan(), "com1", "xpdr1", NOISE)
    assert (limit.harm, limit.limit_dbm, limit.fail_above_dbm) == (Harm.NOISE, None, None)


def test_wide_noise_is_held_against_the_strictest_part_of_the_gnss_table() -> None:
    """Between 1 and 20 MHz the table is straight: -110.5 + 13 (B - 1) / 19 dBm, B in MHz.

    Less 10 log B that is least at B = 19 / 13 times 10 log e, 6.347 MHz: -174.87 dBm in 1 Hz;
    acquisition takes 6 dB off.
    """
    ((limit, *_),) = told(sample_plan(), "com1", "gnss1", NOISE)
    assert limit.harm is Harm.MASK
    assert limit.limit_dbm == pytest.approx(-110.5 + 13.0 * 5.347 / 19.0 - 68.026 - 6.0, abs=0.01)
    assert limit.fail_above_dbm is None


def test_noise_counts_only_where_both_must_work_together() -> None:
    for together in (Together.SUPPRESSED, Together.NOT_REQUIRED):
        assert told(sample_plan(), "com1", "gnss1", NOISE, together=together) == []


def test_a_harmonic_in_the_band_of_a_receiver_may_lift_its_noise_within_its_bandwidth() -> None:
    """The 8th of 128.75 MHz is 1030 MHz; 8 MHz take in 69.03 dB more than 1 Hz."""
    plan = with_port(sample_plan(), "nav1", "com", harmonics_db=ById({"8": 70.0}))
    ((silent,),) = told(plan, "com1", "xpdr1", 8)
    assert (silent.harm, silent.frequency_hz) == (Harm.IN_BAND, 1030e6)
    assert (silent.limit_dbm, silent.fail_above_dbm) == (None, None)
    plan = with_port(plan, "xp1", "ant", noise_figure_db=9.0, bandwidth_hz=8e6)
    ((limit,),) = told(plan, "com1", "xpdr1", 8)
    ((noise, *_),) = told(plan, "com1", "xpdr1", NOISE)
    assert limit.limit_dbm == pytest.approx((noise.limit_dbm or 0.0) + 69.031, abs=0.001)
    assert limit.fail_above_dbm is None
    ((entered,),) = told(plan, "com1", "xpdr1", 8, rise_db=1.0)
    assert entered.fail_above_dbm == entered.limit_dbm == limit.limit_dbm


def test_a_harmonic_beside_every_band_of_a_receiver_does_nothing_to_it() -> None:
    plan = with_port(sample_plan(), "nav1", "com", harmonics_db=ById({"9": 70.0}))
    assert told(plan, "com1", "xpdr1", 9) == []
