# SPDX-License-Identifier: Apache-2.0
"""Powers and their ratios in decibels."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from rfplan.physics.constants import DB_PER_NEPER
from rfplan.physics.domain import FloatOrArray, positive
from rfplan.sources import POZAR_4E, TEXTBOOK_TRANSMISSION_LINE, cites

_DECIBEL = TEXTBOOK_TRANSMISSION_LINE.at("definition of the decibel")


@cites(_DECIBEL, returns="dB")
def power_ratio_db(power_w: FloatOrArray, reference_w: FloatOrArray) -> FloatOrArray:
    """Return how far one power stands above another.

    Parameters
    ----------
    power_w : float or array
        Power of interest. [W]
    reference_w : float or array
        Power it is compared with. [W]

    Returns
    -------
    float or array
        Level; negative where the power is the smaller one. [dB]

    Raises
    ------
    ValueError
        If any power is not positive.

    Notes
    -----
    10 log10(P / P_ref). With input and output of a line as arguments this is its loss.

    Examples
    --------
    >>> round(float(power_ratio_db(25.0, 15.0)), 2)
    2.22
    """
    positive(power_w=power_w, reference_w=reference_w)
    return 10.0 * np.log10(power_w / reference_w)


@cites(_DECIBEL, returns="1")
def ratio_from_db(level_db: FloatOrArray) -> FloatOrArray:
    """Return the power ratio of a level.

    Parameters
    ----------
    level_db : float or array
        Level. [dB]

    Returns
    -------
    float or array
        Power ratio. [1]

    Notes
    -----
    10^(level / 10), the inverse of `power_ratio_db`.

    Examples
    --------
    >>> round(float(ratio_from_db(3.0)), 4)
    1.9953
    """
    return 10.0 ** (level_db / 10.0)


@cites(POZAR_4E.at("decibels and nepers"), returns="dB")
def db_from_neper(attenuation_np: FloatOrArray) -> FloatOrArray:
    """Return an attenuation given in nepers.

    Parameters
    ----------
    attenuation_np : float or array
        Natural logarithm of a voltage ratio. [Np]

    Returns
    -------
    float or array
        The same attenuation. [dB]

    Notes
    -----
    1 Np = 20 / ln 10 dB = 8.686 dB.

    Examples
    --------
    >>> round(float(db_from_neper(1.0)), 3)
    8.686
    """
    return DB_PER_NEPER * attenuation_np


@cites(_DECIBEL, returns="dBm")
def dbm_from_w(power_w: FloatOrArray) -> FloatOrArray:
    """Return a power as a level above one milliwatt.

    Parameters
    ----------
    power_w : float or array
        Power. [W]

    Returns
    -------
    float or array
        Level. [dBm]

    Raises
    ------
    ValueError
        If any power is not positive.

    Notes
    -----
    10 log10(P / 1 mW).

    Examples
    --------
    >>> round(float(dbm_from_w(250.0)), 2)
    53.98
    """
    return power_ratio_db(power_w, 1.0e-3)


@cites(_DECIBEL, returns="W")
def w_from_dbm(level_dbm: FloatOrArray) -> FloatOrArray:
    """Return the power of a level above one milliwatt.

    Parameters
    ----------
    level_dbm : float or array
        Level. [dBm]

    Returns
    -------
    float or array
        Power. [W]

    Notes
    -----
    1 mW times 10^(level / 10).

    Examples
    --------
    >>> float(w_from_dbm(30.0))
    1.0
    """
    return ratio_from_db(level_dbm - 30.0)


@cites(_DECIBEL, returns="dBW")
def dbw_from_w(power_w: FloatOrArray) -> FloatOrArray:
    """Return a power as a level above one watt.

    Parameters
    ----------
    power_w : float or array
        Power. [W]

    Returns
    -------
    float or array
        Level. [dBW]

    Raises
    ------
    ValueError
        If any power is not positive.

    Notes
    -----
    10 log10(P / 1 W).

    Examples
    --------
    >>> round(float(dbw_from_w(125.0)), 2)
    20.97
    """
    return power_ratio_db(power_w, 1.0)


@cites(_DECIBEL, returns="W")
def w_from_dbw(level_dbw: FloatOrArray) -> FloatOrArray:
    """Return the power of a level above one watt.

    Parameters
    ----------
    level_dbw : float or array
        Level. [dBW]

    Returns
    -------
    float or array
        Power. [W]

    Notes
    -----
    1 W times 10^(level / 10). The round pairs printed in rules are not exact: 21.0 dBW is
    printed as 125 W and is 125.9 W.

    Examples
    --------
    >>> round(float(w_from_dbw(21.0)), 1)
    125.9
    """
    return ratio_from_db(level_dbw)


@cites(_DECIBEL, returns="dBm")
def dbm_from_dbw(level_dbw: FloatOrArray) -> FloatOrArray:
    """Return a level above one watt as a level above one milliwatt.

    Parameters
    ----------
    level_dbw : float or array
        Level. [dBW]

    Returns
    -------
    float or array
        The same level. [dBm]

    Notes
    -----
    0 dBW = 30 dBm.

    Examples
    --------
    >>> dbm_from_dbw(-112.0)
    -82.0
    """
    return level_dbw + 30.0


@cites(_DECIBEL, returns="dBm")
def power_sum_dbm(levels_dbm: NDArray[np.float64]) -> FloatOrArray:
    """Return the level of several powers together.

    Parameters
    ----------
    levels_dbm : array
        Levels of signals that do not interfere, along the last axis. [dBm]

    Returns
    -------
    float or array
        Level of the sum; one axis fewer than the input. [dBm]

    Notes
    -----
    Powers are added, so two equal levels give 3.01 dB more. Coherent signals add as voltages:
    not for those.

    Examples
    --------
    >>> round(float(power_sum_dbm(np.array([10.0, 10.0]))), 2)
    13.01
    """
    return dbm_from_w(np.sum(w_from_dbm(levels_dbm), axis=-1))


@cites(_DECIBEL, returns="dBuV")
def dbuv_from_dbm(level_dbm: FloatOrArray, impedance_ohm: float) -> FloatOrArray:
    """Return the voltage of a level across a resistance.

    Parameters
    ----------
    level_dbm : float or array
        Power delivered to the resistance. [dBm]
    impedance_ohm : float
        The resistance. [ohm]

    Returns
    -------
    float or array
        Root-mean-square voltage above one microvolt. [dBuV]

    Raises
    ------
    ValueError
        If the resistance is not positive.

    Notes
    -----
    V = sqrt(P R).

    Examples
    --------
    >>> round(float(dbuv_from_dbm(0.0, 50.0)), 2)
    106.99
    """
    positive(impedance_ohm=impedance_ohm)
    return level_dbm + power_ratio_db(impedance_ohm, 1.0) + 90.0
