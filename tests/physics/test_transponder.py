# SPDX-License-Identifier: Apache-2.0
"""Transponder limits as limits of the line, both ways round."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from rfplan.physics import transponder

POWERS = st.floats(70.0, 600.0)
LIMITS = st.floats(18.0, 27.0)


@given(POWERS, LIMITS)
def test_the_largest_loss_leaves_no_margin(power: float, minimum: float) -> None:
    loss = transponder.max_line_loss_db(power, minimum)
    if loss >= 0.0:
        assert transponder.transmit_margin_db(power, loss, minimum) == pytest.approx(0, abs=1e-9)


@given(POWERS, LIMITS, st.floats(0.0, 6.0))
def test_margin_is_allowed_loss_less_loss(power: float, minimum: float, loss: float) -> None:
    allowed = transponder.max_line_loss_db(power, minimum)
    margin = transponder.transmit_margin_db(power, loss, minimum)
    assert margin == pytest.approx(allowed - loss, abs=1e-9)


@given(st.floats(-80.0, -70.0), st.floats(-78.0, -69.0))
def test_the_loss_of_a_sensitivity_limit_brings_the_unit_to_it(unit: float, limit: float) -> None:
    loss = transponder.sensitivity_line_loss_db(unit, limit)
    if loss >= 0.0:
        assert transponder.antenna_sensitivity_dbm(unit, loss) == pytest.approx(limit)


def test_a_unit_of_125_w_has_no_allowance_for_a_line() -> None:
    assert transponder.max_line_loss_db(125.0, 21.0) < 0.0
    assert round(float(transponder.max_line_loss_db(125.0, 21.0)), 1) == 0.0


def test_the_line_of_3_db_is_the_unit_of_250_w() -> None:
    assert transponder.max_line_loss_db(250.0, 21.0) == pytest.approx(3.0, abs=0.03)


def test_a_negative_loss_is_refused() -> None:
    with pytest.raises(ValueError, match="loss_db"):
        transponder.antenna_power_dbw(250.0, -1.0)
