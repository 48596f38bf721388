# SPDX-License-Identifier: Apache-2.0
"""Limits of the shipped masks: levels read, and when FAIL is certain."""

from __future__ import annotations

import numpy as np
import pytest

from rfplan.analysis.gnss_limits import bearable_at
from rfplan.files.table_files import load_rulebook

MASKS = load_rulebook().gnss_masks
CW, SATCOM, NOISE = (MASKS.masks[id] for id in ("cw", "cw_satcom", "noise_like"))

READ_DBM = {
    1525.0: -12.0,
    1575.42: -120.5,
    1595.42: -89.5,
    1610.0: -30.0,
    1618.0: -12.0,
    2000.0: 21.5,
}
"""Test levels of the national standard that was read, by MHz, no satcom."""


@pytest.mark.parametrize("mhz", READ_DBM)
def test_the_mask_meets_every_test_level_that_was_read(mhz: float) -> None:
    found = bearable_at(CW, np.array([mhz * 1e6]))
    assert found.limit_dbm[0] == found.fail_above_dbm[0] == READ_DBM[mhz]


def test_where_mask_and_test_level_disagree_the_lower_counts() -> None:
    assert bearable_at(CW, np.array([1555.42e6])).limit_dbm[0] == pytest.approx(-93.7, abs=0.1)


def test_satcom_on_board_raises_the_limit_above_the_band() -> None:
    at = np.array([1626.0e6])
    assert bearable_at(SATCOM, at).limit_dbm[0] == pytest.approx(8.0, abs=1.5)
    assert bearable_at(SATCOM, at).limit_dbm[0] <= 8.0
    assert bearable_at(CW, at).limit_dbm[0] < bearable_at(SATCOM, at).limit_dbm[0]


def test_rows_that_were_not_read_decide_no_fail() -> None:
    at = np.array([127.5e6, 1090e6, 1450e6])
    found = bearable_at(CW, at)
    assert found.limit_dbm == pytest.approx([25.5, 25.5, 1.05], abs=0.05)
    assert np.isinf(found.fail_above_dbm).all()


def test_between_two_levels_read_only_more_than_both_is_a_fail() -> None:
    found = bearable_at(CW, np.array([1580.0e6, 1614.0e6]))
    assert found.fail_above_dbm.tolist() == [-89.5, -12.0]
    assert (found.limit_dbm < found.fail_above_dbm).all()


def test_no_level_that_fails_lies_below_the_limit() -> None:
    for mask in (CW, SATCOM):
        found = bearable_at(mask, np.linspace(1.0e8, 3.0e9, 4001))
        assert (found.fail_above_dbm >= found.limit_dbm - 1e-9).all()


def test_noise_is_limited_by_its_bandwidth() -> None:
    found = bearable_at(NOISE, np.array([500.0, 1e5, 1e7, 5e7]))
    assert found.limit_dbm == pytest.approx([-120.5, -110.5, -104.342, -89.5], abs=1e-3)
    assert np.isfinite(found.fail_above_dbm).all()


def test_acquisition_is_six_decibels_tighter() -> None:
    assert MASKS.tightenings["acquisition"].loss_db == 6.0
    limit_dbm = bearable_at(CW, np.array([1575.42e6])).limit_dbm[0]
    assert limit_dbm - MASKS.tightenings["acquisition"].loss_db == pytest.approx(-126.5)


def test_damaged_rows_are_marked() -> None:
    assert {corner.status for corner in CW.corners if corner.frequency_hz < 1.5e9} == {
        "unconfirmed"
    }
    assert MASKS.pulses["burnout"].status == "unconfirmed"
