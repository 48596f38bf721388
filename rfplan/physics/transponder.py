# SPDX-License-Identifier: Apache-2.0
"""Limits of a transponder at the antenna end of its line, turned into limits of the line."""

from __future__ import annotations

from rfplan.physics.decibel import dbw_from_w
from rfplan.physics.domain import FloatOrArray, at_least
from rfplan.sources import CFR_14_43_F, CFR_14_43_F_C, CHH_ELS_010, cites

_POWER = CFR_14_43_F.at("(d)")
_SENSITIVITY = CFR_14_43_F_C.at("(c)")


@cites(_POWER, CHH_ELS_010.at("peak power"), returns="dB")
def max_line_loss_db(unit_power_w: FloatOrArray, minimum_dbw: FloatOrArray) -> FloatOrArray:
    """Return the largest loss that leaves enough power at the antenna.

    Parameters
    ----------
    unit_power_w : float or array
        Least peak power of the unit at its connector. [W]
    minimum_dbw : float or array
        Least peak power at the antenna end of the line. [dBW]

    Returns
    -------
    float or array
        Largest loss; negative where the unit has no allowance for any line. [dB]

    Raises
    ------
    ValueError
        If the power is not positive.

    Notes
    -----
    10 log10(P) - minimum. The round 125 W of the rule is 20.97 dBW, so a rule that compares
    rounds to 0.1 dB.

    Examples
    --------
    >>> round(float(max_line_loss_db(250.0, 21.0)), 3)
    2.979
    """
    return dbw_from_w(unit_power_w) - minimum_dbw


@cites(_POWER, returns="dBW")
def antenna_power_dbw(unit_power_w: FloatOrArray, loss_db: FloatOrArray) -> FloatOrArray:
    """Return the peak power at the antenna end of the line.

    Parameters
    ----------
    unit_power_w : float or array
        Peak power of the unit at its connector. [W]
    loss_db : float or array
        Loss of the line. [dB]

    Returns
    -------
    float or array
        Peak power at the antenna. [dBW]

    Raises
    ------
    ValueError
        If the power is not positive or the loss negative.

    Notes
    -----
    10 log10(P) - L. Least power with the largest loss for the lower limit; most power with the
    smallest loss for the upper one.

    Examples
    --------
    >>> round(float(antenna_power_dbw(250.0, 2.5)), 2)
    21.48
    """
    at_least(0.0, loss_db=loss_db)
    return dbw_from_w(unit_power_w) - loss_db


@cites(_POWER, returns="dB")
def transmit_margin_db(
    unit_power_w: FloatOrArray, loss_db: FloatOrArray, minimum_dbw: FloatOrArray
) -> FloatOrArray:
    """Return the room between the power at the antenna and its lower limit.

    Parameters
    ----------
    unit_power_w : float or array
        Least peak power of the unit at its connector. [W]
    loss_db : float or array
        Largest loss of the line. [dB]
    minimum_dbw : float or array
        Least peak power at the antenna end of the line. [dBW]

    Returns
    -------
    float or array
        Margin, positive is good. [dB]

    Raises
    ------
    ValueError
        If the power is not positive or the loss negative.

    Notes
    -----
    10 log10(P) - L - minimum.

    Examples
    --------
    >>> round(float(transmit_margin_db(125.0, 1.0, 21.0)), 2)
    -1.03
    """
    return antenna_power_dbw(unit_power_w, loss_db) - minimum_dbw


@cites(_SENSITIVITY, returns="dBm")
def antenna_sensitivity_dbm(unit_dbm: FloatOrArray, loss_db: FloatOrArray) -> FloatOrArray:
    """Return the minimum trigger level referred to the antenna end of the line.

    Parameters
    ----------
    unit_dbm : float or array
        Minimum trigger level of the unit at its connector. [dBm]
    loss_db : float or array
        Loss of the line. [dB]

    Returns
    -------
    float or array
        Minimum trigger level at the antenna. [dBm]

    Raises
    ------
    ValueError
        If the loss is negative.

    Notes
    -----
    The line makes the installation less sensitive: level + L.

    Examples
    --------
    >>> antenna_sensitivity_dbm(-77.0, 3.0)
    -74.0
    """
    at_least(0.0, loss_db=loss_db)
    return unit_dbm + loss_db


@cites(_SENSITIVITY, returns="dB")
def sensitivity_line_loss_db(unit_dbm: FloatOrArray, limit_dbm: FloatOrArray) -> FloatOrArray:
    """Return the loss at which the trigger level at the antenna meets a limit.

    Parameters
    ----------
    unit_dbm : float or array
        Minimum trigger level of the unit at its connector. [dBm]
    limit_dbm : float or array
        Limit of the trigger level at the antenna end. [dBm]

    Returns
    -------
    float or array
        Loss: the largest for the upper limit, the smallest for the lower one; negative where
        no line can meet it. [dB]

    Notes
    -----
    limit - level. The window of the rule has two sides.

    Examples
    --------
    >>> sensitivity_line_loss_db(-77.0, -69.0)
    8.0
    """
    return limit_dbm - unit_dbm
