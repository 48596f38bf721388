# SPDX-License-Identifier: Apache-2.0
"""The loss of a path from plug to plug, its tolerance, and the power that is left."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from rfplan.physics.decibel import ratio_from_db
from rfplan.physics.domain import FloatOrArray, at_least, positive
from rfplan.physics.mismatch import mismatch_loss_db
from rfplan.sources import (
    COMMON_PRACTICE,
    MIL_PRF_39012,
    POWER_SENSOR_MANUAL,
    TEXTBOOK_TRANSMISSION_LINE,
    cites,
)

_MATCHED_LINE = TEXTBOOK_TRANSMISSION_LINE.at("attenuation of a matched line")
_MATED_PAIR = MIL_PRF_39012.at("4.6.24, insertion loss of a mated pair")


@cites(_MATCHED_LINE, _MATED_PAIR, returns="dB")
def path_loss_db(
    attenuation_db_per_m: FloatOrArray,
    length_m: FloatOrArray,
    pair_loss_db: FloatOrArray = 0.0,
    mated_pairs: int = 0,
) -> FloatOrArray:
    """Return the matched loss of one cable with the mated pairs at and between its ends.

    Parameters
    ----------
    attenuation_db_per_m : float or array
        Attenuation of the cable at frequency and temperature. [dB/m]
    length_m : float or array
        Electrical length, plug plane to plug plane, service loops included. [m]
    pair_loss_db : float or array
        Insertion loss of one mated pair, plug in jack. [dB]
    mated_pairs : int
        Number of mated pairs that count. [1]

    Returns
    -------
    float or array
        Loss, positive; shape of the broadcast inputs. [dB]

    Raises
    ------
    ValueError
        If any argument is negative.

    Notes
    -----
    A pair is counted once, not once for the plug and once for the jack. A cable between two
    units has two pairs, one at each end.

    Examples
    --------
    >>> round(float(path_loss_db(0.52, 4.0, 0.05, 2)), 2)
    2.18
    """
    at_least(0.0, attenuation_db_per_m=attenuation_db_per_m, length_m=length_m)
    at_least(0.0, pair_loss_db=pair_loss_db, mated_pairs=float(mated_pairs))
    return attenuation_db_per_m * length_m + mated_pairs * pair_loss_db


@cites(COMMON_PRACTICE.at("allowance for the ageing of a cable"), returns="dB")
def ageing_allowance_db(loss_db: FloatOrArray, ageing_ratio: FloatOrArray) -> FloatOrArray:
    """Return what the loss of a cable is allowed to grow by as it ages.

    Parameters
    ----------
    loss_db : float or array
        The most that the cable loses as new, at frequency and temperature. [dB]
    ageing_ratio : float or array
        The growth that is allowed for, as a share of that loss. [1]

    Returns
    -------
    float or array
        Allowance on top of the loss; shape of the broadcast inputs. [dB]

    Raises
    ------
    ValueError
        If any argument is negative.

    Notes
    -----
    Moisture, a jacket that gives off its plasticizer and a corroding braid raise the attenuation
    per metre, so a share of the loss in dB is allowed, not a fixed number. How large it is
    depends on the jacket, the place and the years: no figure ships, the plan states it.

    Examples
    --------
    >>> round(float(ageing_allowance_db(3.20, 0.10)), 2)
    0.32
    """
    at_least(0.0, loss_db=loss_db, ageing_ratio=ageing_ratio)
    return loss_db * ageing_ratio


@cites(_MATCHED_LINE, returns="dB/m")
def measured_attenuation_db_per_m(loss_db: FloatOrArray, length_m: FloatOrArray) -> FloatOrArray:
    """Return the attenuation of a cable from the loss of a known length.

    Parameters
    ----------
    loss_db : float or array
        Matched loss over that length. [dB]
    length_m : float or array
        The length. [m]

    Returns
    -------
    float or array
        Attenuation; shape of the broadcast inputs. [dB/m]

    Raises
    ------
    ValueError
        If a loss is negative or a length is not positive.

    Notes
    -----
    A table entry per 100 ft is the loss of 30.48 m.

    Examples
    --------
    >>> round(float(measured_attenuation_db_per_m(3.30, 30.48)), 4)
    0.1083
    """
    at_least(0.0, loss_db=loss_db)
    positive(length_m=length_m)
    return loss_db / length_m


@cites(_MATED_PAIR, returns="dB")
def pair_dissipation_db(insertion_loss_db: FloatOrArray, vswr: FloatOrArray) -> FloatOrArray:
    """Return the part of a connector's insertion loss that is turned into heat.

    Parameters
    ----------
    insertion_loss_db : float or array
        Insertion loss of the mated pair as its specification states it. [dB]
    vswr : float or array
        Standing-wave ratio of the same mated pair. [1]

    Returns
    -------
    float or array
        Dissipation, at least zero; shape of the broadcast inputs. [dB]

    Raises
    ------
    ValueError
        If a loss is negative or a VSWR is below one.

    Notes
    -----
    The specified insertion loss contains reflection and dissipation, so the mismatch loss of
    the pair is taken off. Where both figures are limits the difference can fall below zero;
    it is then zero.

    Examples
    --------
    >>> round(float(pair_dissipation_db(0.20, 1.30)), 3)
    0.125
    >>> float(pair_dissipation_db(0.05, 1.30))
    0.0
    """
    at_least(0.0, insertion_loss_db=insertion_loss_db)
    return np.maximum(0.0, insertion_loss_db - mismatch_loss_db(vswr))


@cites(POWER_SENSOR_MANUAL.at("root sum of squares"), returns="dB")
def root_sum_square_db(deviations_db: NDArray[np.float64]) -> FloatOrArray:
    """Return the combined deviation of independent parts.

    Parameters
    ----------
    deviations_db : array
        Tolerance of each part, along the last axis. [dB]

    Returns
    -------
    float or array
        Combined tolerance; one axis fewer than the input. [dB]

    Notes
    -----
    sqrt(a^2 + b^2 + ...). Holds for independent parts only: one reel used twice is one part.

    Examples
    --------
    >>> float(root_sum_square_db(np.array([0.3, 0.4])))
    0.5
    """
    combined_db: FloatOrArray = np.linalg.norm(deviations_db, axis=-1)
    return combined_db


@cites(_MATCHED_LINE, returns="W")
def power_after_loss_w(power_w: FloatOrArray, loss_db: FloatOrArray) -> FloatOrArray:
    """Return the power at the far end of a path.

    Parameters
    ----------
    power_w : float or array
        Power into the path. [W]
    loss_db : float or array
        Loss of the path. [dB]

    Returns
    -------
    float or array
        Power out of the path; shape of the broadcast inputs. [W]

    Raises
    ------
    ValueError
        If a power or a loss is negative.

    Notes
    -----
    P 10^(-L / 10).

    Examples
    --------
    >>> round(float(power_after_loss_w(250.0, 2.5)), 2)
    140.59
    """
    at_least(0.0, power_w=power_w, loss_db=loss_db)
    return power_w * ratio_from_db(-loss_db)


@cites(_MATCHED_LINE, returns="W")
def power_lost_w(power_w: FloatOrArray, loss_db: FloatOrArray) -> FloatOrArray:
    """Return the power that a path turns into heat.

    Parameters
    ----------
    power_w : float or array
        Power into the path. [W]
    loss_db : float or array
        Loss of the path. [dB]

    Returns
    -------
    float or array
        Power lost; shape of the broadcast inputs. [W]

    Raises
    ------
    ValueError
        If a power or a loss is negative.

    Notes
    -----
    P (1 - 10^(-L / 10)).

    Examples
    --------
    >>> round(float(power_lost_w(100.0, 5.441)), 1)
    71.4
    """
    return power_w - power_after_loss_w(power_w, loss_db)
