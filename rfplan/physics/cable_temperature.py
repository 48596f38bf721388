# SPDX-License-Identifier: Apache-2.0
"""How the attenuation of a cable changes with temperature."""

from __future__ import annotations

import numpy as np

from rfplan.physics.constants import COPPER_PER_K, ROOM_TEMPERATURE_C
from rfplan.physics.domain import FloatOrArray, at_least
from rfplan.sources import CATV_TIP, NBS_HANDBOOK_100, RECALLED, cites

_COPPER = RECALLED.at("temperature coefficient of annealed copper, 0.00393 per kelvin")
_EMPIRICAL_PER_F = 0.0011


@cites(_COPPER, NBS_HANDBOOK_100.at("resistivity of copper"), returns="1")
def resistance_factor_ratio(temperature_c: FloatOrArray) -> FloatOrArray:
    """Return the resistance of copper over its resistance at 20 degC.

    Parameters
    ----------
    temperature_c : float or array
        Temperature of the conductor. [degC]

    Returns
    -------
    float or array
        Factor on a direct-current resistance. [1]

    Raises
    ------
    ValueError
        If a temperature is below -200 degC, where the straight line no longer holds.

    Notes
    -----
    1 + 0.00393 (T - 20).

    Examples
    --------
    >>> round(float(resistance_factor_ratio(70.0)), 4)
    1.1965
    """
    at_least(-200.0, temperature_c=temperature_c)
    return 1.0 + COPPER_PER_K * (temperature_c - ROOM_TEMPERATURE_C)


@cites(_COPPER, CATV_TIP.at("slope of the attenuation"), returns="1")
def temperature_factor_ratio(temperature_c: FloatOrArray) -> FloatOrArray:
    """Return the conductor loss at a temperature over the conductor loss at 20 degC.

    Parameters
    ----------
    temperature_c : float or array
        Temperature of the cable. [degC]

    Returns
    -------
    float or array
        Factor on the conductor part of the attenuation. [1]

    Raises
    ------
    ValueError
        If a temperature is below -200 degC.

    Notes
    -----
    sqrt(1 + 0.00393 (T - 20)): at radio frequency the current flows in the skin, whose
    resistance goes with the root of the resistivity.

    Examples
    --------
    >>> round(float(temperature_factor_ratio(70.0)), 3)
    1.094
    """
    return np.sqrt(resistance_factor_ratio(temperature_c))


@cites(_COPPER, returns="1/K")
def temperature_slope_per_k(temperature_c: FloatOrArray) -> FloatOrArray:
    """Return the relative change of conductor loss for one kelvin.

    Parameters
    ----------
    temperature_c : float or array
        Temperature of the cable. [degC]

    Returns
    -------
    float or array
        Slope of `temperature_factor_ratio` over its value. [1/K]

    Raises
    ------
    ValueError
        If a temperature is below -200 degC.

    Notes
    -----
    Half the coefficient of copper over the resistance factor; 0.197 % per kelvin at 20 degC.

    Examples
    --------
    >>> round(float(temperature_slope_per_k(20.0)), 6)
    0.001965
    """
    return COPPER_PER_K / 2.0 / resistance_factor_ratio(temperature_c)


@cites(_COPPER, returns="dB/m")
def attenuation_at_temperature_db_per_m(
    attenuation_db_per_m: FloatOrArray,
    dielectric_db_per_m: FloatOrArray,
    temperature_c: FloatOrArray,
) -> FloatOrArray:
    """Return the attenuation of a cable at a temperature.

    Parameters
    ----------
    attenuation_db_per_m : float or array
        Whole attenuation at 20 degC. [dB/m]
    dielectric_db_per_m : float or array
        Its dielectric part, which temperature leaves alone. [dB/m]
    temperature_c : float or array
        Temperature of the cable. [degC]

    Returns
    -------
    float or array
        Attenuation; shape of the broadcast inputs. [dB/m]

    Raises
    ------
    ValueError
        If the dielectric part is negative or exceeds the whole, or a temperature is below
        -200 degC.

    Notes
    -----
    (a - a_d) sqrt(1 + 0.00393 (T - 20)) + a_d. The change of the dielectric itself is not
    covered: no source.

    Examples
    --------
    >>> round(float(attenuation_at_temperature_db_per_m(0.5, 0.1, 70.0)), 4)
    0.5375
    """
    conductor_db_per_m = attenuation_db_per_m - dielectric_db_per_m
    at_least(0.0, dielectric_db_per_m=dielectric_db_per_m, conductor_db_per_m=conductor_db_per_m)
    return conductor_db_per_m * temperature_factor_ratio(temperature_c) + dielectric_db_per_m


@cites(CATV_TIP.at("attenuation versus temperature"), returns="1")
def empirical_temperature_factor_ratio(temperature_c: FloatOrArray) -> FloatOrArray:
    """Return the factor on the whole attenuation that cable-television practice uses.

    Parameters
    ----------
    temperature_c : float or array
        Temperature of the cable. [degC]

    Returns
    -------
    float or array
        Factor on the attenuation at 68 degF. [1]

    Raises
    ------
    ValueError
        If a temperature is below -200 degC.

    Notes
    -----
    1 + 0.0011 (T - 68) with T in degF. Kept as the independent check of
    `temperature_factor_ratio`, which decides.

    Examples
    --------
    >>> round(float(empirical_temperature_factor_ratio(37.7778)), 5)
    1.0352
    """
    at_least(-200.0, temperature_c=temperature_c)
    return 1.0 + _EMPIRICAL_PER_F * 1.8 * (temperature_c - ROOM_TEMPERATURE_C)
