# SPDX-License-Identifier: Apache-2.0
"""A lossy line that is not terminated in its own impedance, seen from either end."""

from __future__ import annotations

import numpy as np

from rfplan.physics.constants import DB_PER_NEPER
from rfplan.physics.decibel import power_ratio_db
from rfplan.physics.domain import ComplexOrArray, FloatOrArray, at_least, positive
from rfplan.physics.mismatch import reflection_ratio, vswr_from_reflection
from rfplan.sources import (
    MAILING_LIST_2010,
    POZAR_4E,
    SCIKIT_RF,
    TEXTBOOK_TRANSMISSION_LINE,
    cites,
)

_LOSSY_LINE = POZAR_4E.at("eq. 2.92 and 2.93, terminated lossy line")
_RETURN_LOSS = TEXTBOOK_TRANSMISSION_LINE.at("return loss through a lossy line")


@cites(POZAR_4E.at("reflection at a load"), returns="1")
def load_reflection_ratio(load_ohm: ComplexOrArray, line_ohm: float) -> FloatOrArray:
    """Return the size of the reflection at a load.

    Parameters
    ----------
    load_ohm : complex or array
        Impedance of the load. [ohm]
    line_ohm : float
        Characteristic impedance of the line, real. [ohm]

    Returns
    -------
    float or array
        Magnitude of the reflection coefficient. [1]

    Raises
    ------
    ValueError
        If the line impedance is not positive or the load resistance is negative.

    Notes
    -----
    |(ZL - Z0) / (ZL + Z0)|.

    Examples
    --------
    >>> round(float(load_reflection_ratio(40 + 70j, 100.0)), 2)
    0.59
    """
    positive(line_ohm=line_ohm)
    at_least(0.0, load_resistance_ohm=np.asarray(load_ohm).real)
    return np.abs((load_ohm - line_ohm) / (load_ohm + line_ohm))


@cites(POZAR_4E.at("standing-wave ratio of a load"), returns="1")
def load_vswr(load_ohm: ComplexOrArray, line_ohm: float) -> FloatOrArray:
    """Return the standing-wave ratio that a load makes.

    Parameters
    ----------
    load_ohm : complex or array
        Impedance of the load. [ohm]
    line_ohm : float
        Characteristic impedance of the line, real. [ohm]

    Returns
    -------
    float or array
        Voltage standing-wave ratio. [1]

    Raises
    ------
    ValueError
        If the line impedance or the load resistance is not positive.

    Notes
    -----
    (1 + r) / (1 - r) with the reflection at the load.

    Examples
    --------
    >>> round(float(load_vswr(40 + 70j, 100.0)), 2)
    3.87
    """
    return vswr_from_reflection(load_reflection_ratio(load_ohm, line_ohm))


@cites(_LOSSY_LINE, returns="dB")
def line_loss_mismatched_db(loss_db: FloatOrArray, vswr_load: FloatOrArray) -> FloatOrArray:
    """Return the loss of a line with a mismatched load, by the handbook formula.

    Parameters
    ----------
    loss_db : float or array
        Matched loss of the line. [dB]
    vswr_load : float or array
        Standing-wave ratio at the load end. [1]

    Returns
    -------
    float or array
        Power into the line over power into the load. [dB]

    Raises
    ------
    ValueError
        If the loss is negative or a VSWR is below one.

    Notes
    -----
    10 log10((a^2 - r^2) / (a (1 - r^2))) with a = 10^(L / 10) and r at the load. Takes the line
    impedance as real: with a strongly reactive load use `line_loss_exact_db`.

    Examples
    --------
    >>> round(float(line_loss_mismatched_db(3.0, 5.8)), 2)
    5.41
    """
    at_least(0.0, loss_db=loss_db)
    ratio, reflected = 10.0 ** (loss_db / 10.0), reflection_ratio(vswr_load) ** 2
    return 10.0 * np.log10((ratio**2 - reflected) / (ratio * (1.0 - reflected)))


@cites(_LOSSY_LINE, returns="dB")
def additional_loss_db(loss_db: FloatOrArray, vswr_load: FloatOrArray) -> FloatOrArray:
    """Return the loss that the standing wave adds to the matched loss of a line.

    Parameters
    ----------
    loss_db : float or array
        Matched loss of the line. [dB]
    vswr_load : float or array
        Standing-wave ratio at the load end. [1]

    Returns
    -------
    float or array
        Additional loss inside the line. [dB]

    Raises
    ------
    ValueError
        If the loss is negative or a VSWR is below one.

    Notes
    -----
    Zero for a line without loss, whatever the VSWR: a standing wave alone burns nothing.

    Examples
    --------
    >>> round(float(additional_loss_db(3.0, 5.8)), 2)
    2.41
    """
    return line_loss_mismatched_db(loss_db, vswr_load) - loss_db


@cites(SCIKIT_RF.at("notebook Transmission Line Losses"), returns="dB")
def line_loss_exact_db(
    load_ohm: ComplexOrArray,
    line_ohm: ComplexOrArray,
    propagation_per_m: ComplexOrArray,
    length_m: FloatOrArray,
) -> FloatOrArray:
    """Return the loss of a line with any load, with the complex impedance of a lossy line.

    Parameters
    ----------
    load_ohm : complex or array
        Impedance of the load. [ohm]
    line_ohm : complex or array
        Characteristic impedance of the line. [ohm]
    propagation_per_m : complex or array
        Attenuation in nepers and phase in radians, per metre. [1/m]
    length_m : float or array
        Length of the line. [m]

    Returns
    -------
    float or array
        Power into the line over power into the load. [dB]

    Raises
    ------
    ValueError
        If the load resistance is not positive or the length is negative.

    Notes
    -----
    (Rin / RL) |cosh(g l) + (ZL / Z0) sinh(g l)|^2.

    Examples
    --------
    >>> round(float(line_loss_exact_db(50.0, 50.0, 0.1 + 30j, 1.0)), 3)
    0.869
    """
    at_least(0.0, length_m=length_m)
    positive(load_resistance_ohm=np.asarray(load_ohm).real)
    cosh, sinh = np.cosh(propagation_per_m * length_m), np.sinh(propagation_per_m * length_m)
    volts = load_ohm * cosh + line_ohm * sinh
    amperes = cosh + load_ohm / line_ohm * sinh
    input_ratio = np.asarray(volts / amperes).real / np.asarray(load_ohm).real
    return power_ratio_db(input_ratio * np.abs(amperes) ** 2, 1.0)


@cites(TEXTBOOK_TRANSMISSION_LINE.at("impedance of a low-loss line"), returns="ohm")
def lossy_impedance_ohm(
    line_ohm: FloatOrArray,
    conductor_db_per_m: FloatOrArray,
    dielectric_db_per_m: FloatOrArray,
    phase_rad_per_m: FloatOrArray,
) -> ComplexOrArray:
    """Return the complex impedance of a line from its loss.

    Parameters
    ----------
    line_ohm : float or array
        Impedance that the data sheet states. [ohm]
    conductor_db_per_m : float or array
        Attenuation in the conductors. [dB/m]
    dielectric_db_per_m : float or array
        Attenuation in the dielectric. [dB/m]
    phase_rad_per_m : float or array
        Phase constant of the line. [rad/m]

    Returns
    -------
    complex or array
        Characteristic impedance, capacitive where the conductors lose more. [ohm]

    Raises
    ------
    ValueError
        If an attenuation is negative, or impedance or phase constant not positive.

    Notes
    -----
    Z0 (1 - j (ac - ad) / b) with the attenuations in nepers: to first order of the loss in a
    wavelength. Below a few megahertz the internal inductance of the conductors counts too.

    Examples
    --------
    >>> complex(lossy_impedance_ohm(50.0, 0.5, 0.1, 30.0)).imag.__round__(4)
    -0.0768
    """
    positive(line_ohm=line_ohm, phase_rad_per_m=phase_rad_per_m)
    at_least(0.0, conductor_db_per_m=conductor_db_per_m, dielectric_db_per_m=dielectric_db_per_m)
    excess_np = (conductor_db_per_m - dielectric_db_per_m) / DB_PER_NEPER
    return line_ohm * (1.0 - 1j * excess_np / phase_rad_per_m)


@cites(_RETURN_LOSS, MAILING_LIST_2010.at("shorted line"), returns="dB")
def return_loss_at_unit_db(
    load_return_loss_db: FloatOrArray, loss_db: FloatOrArray
) -> FloatOrArray:
    """Return the return loss that the unit sees through a line.

    Parameters
    ----------
    load_return_loss_db : float or array
        Return loss at the antenna end; zero for an open or a short. [dB]
    loss_db : float or array
        Matched loss of the line. [dB]

    Returns
    -------
    float or array
        Return loss at the unit end. [dB]

    Raises
    ------
    ValueError
        If any argument is negative.

    Notes
    -----
    RL + 2 L: the wave passes the line twice. A long line makes any antenna look good.

    Examples
    --------
    >>> return_loss_at_unit_db(0.0, 9.0)
    18.0
    """
    at_least(0.0, load_return_loss_db=load_return_loss_db, loss_db=loss_db)
    return load_return_loss_db + 2.0 * loss_db


@cites(_RETURN_LOSS, returns="dB")
def return_loss_at_load_db(
    unit_return_loss_db: FloatOrArray, loss_db: FloatOrArray
) -> FloatOrArray:
    """Return the return loss at the antenna from a reading at the unit, the line matched.

    Parameters
    ----------
    unit_return_loss_db : float or array
        Return loss read at the unit end. [dB]
    loss_db : float or array
        Matched loss of the line. [dB]

    Returns
    -------
    float or array
        Return loss at the antenna end, not below zero. [dB]

    Raises
    ------
    ValueError
        If any argument is negative.

    Notes
    -----
    RL - 2 L, and zero where the line alone explains more than the reading: then the line hides
    the antenna and the reading says nothing about it. A plug that reflects adds to the wave from
    the antenna or takes from it, by its phase: two of VSWR 1.1 on 2 dB of line make an antenna of
    2.30 look like 1.7 to 3.1.

    Examples
    --------
    >>> float(return_loss_at_load_db(18.0, 3.0))
    12.0
    """
    at_least(0.0, unit_return_loss_db=unit_return_loss_db, loss_db=loss_db)
    return np.maximum(0.0, unit_return_loss_db - 2.0 * loss_db)


@cites(_RETURN_LOSS, returns="dB")
def one_port_loss_db(
    open_return_loss_db: FloatOrArray, short_return_loss_db: FloatOrArray
) -> FloatOrArray:
    """Return the loss of a line measured from one end, far end open and then shorted.

    Parameters
    ----------
    open_return_loss_db : float or array
        Return loss with the far end open. [dB]
    short_return_loss_db : float or array
        Return loss with the far end shorted. [dB]

    Returns
    -------
    float or array
        One-way matched loss. [dB]

    Raises
    ------
    ValueError
        If any argument is negative.

    Notes
    -----
    A quarter of the sum: each reading is twice the loss, and the mean of the two takes out most
    of the ripple of the near connector. Disconnect direct current first.

    Examples
    --------
    >>> one_port_loss_db(6.2, 5.8)
    3.0
    """
    at_least(0.0, open_return_loss_db=open_return_loss_db)
    at_least(0.0, short_return_loss_db=short_return_loss_db)
    return (open_return_loss_db + short_return_loss_db) / 4.0
