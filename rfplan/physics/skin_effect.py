# SPDX-License-Identifier: Apache-2.0
"""Current in the skin of a conductor, and the least attenuation that a cable of a size can have."""

from __future__ import annotations

import numpy as np

from rfplan.physics.constants import (
    COPPER_S_PER_M,
    DB_PER_NEPER,
    VACUUM_IMPEDANCE_OHM,
    VACUUM_PERMEABILITY_H_PER_M,
)
from rfplan.physics.domain import FloatOrArray, at_least, positive, within
from rfplan.sources import POZAR_4E, TEXTBOOK_TRANSMISSION_LINE, cites


@cites(POZAR_4E.at("skin depth"), returns="m")
def skin_depth_m(frequency_hz: FloatOrArray, conductivity_s_per_m: FloatOrArray) -> FloatOrArray:
    """Return the depth at which the current in a conductor has fallen to 1 / e.

    Parameters
    ----------
    frequency_hz : float or array
        Frequency. [Hz]
    conductivity_s_per_m : float or array
        Conductivity of a metal that is not magnetic. [S/m]

    Returns
    -------
    float or array
        Skin depth. [m]

    Raises
    ------
    ValueError
        If any argument is not positive.

    Notes
    -----
    1 / sqrt(pi f mu0 sigma).

    Examples
    --------
    >>> round(1e6 * float(skin_depth_m(1.0e9, 5.813e7)), 3)
    2.087
    """
    positive(frequency_hz=frequency_hz, conductivity_s_per_m=conductivity_s_per_m)
    per_m2 = np.pi * frequency_hz * VACUUM_PERMEABILITY_H_PER_M * conductivity_s_per_m
    return 1.0 / np.sqrt(per_m2)


@cites(POZAR_4E.at("surface resistance"), returns="ohm")
def surface_resistance_ohm(
    frequency_hz: FloatOrArray, conductivity_s_per_m: FloatOrArray
) -> FloatOrArray:
    """Return the resistance of a square of conductor skin.

    Parameters
    ----------
    frequency_hz : float or array
        Frequency. [Hz]
    conductivity_s_per_m : float or array
        Conductivity of a metal that is not magnetic. [S/m]

    Returns
    -------
    float or array
        Surface resistance. [ohm]

    Raises
    ------
    ValueError
        If any argument is not positive.

    Notes
    -----
    1 / (sigma times skin depth).

    Examples
    --------
    >>> round(float(surface_resistance_ohm(10.0e9, 5.813e7)), 4)
    0.0261
    """
    return 1.0 / (conductivity_s_per_m * skin_depth_m(frequency_hz, conductivity_s_per_m))


@cites(POZAR_4E.at("eq. 2.107, surface roughness"), returns="1")
def roughness_factor_ratio(roughness_m: FloatOrArray, skin_depth_m: FloatOrArray) -> FloatOrArray:
    """Return how much a rough conductor raises its loss.

    Parameters
    ----------
    roughness_m : float or array
        Root-mean-square roughness. [m]
    skin_depth_m : float or array
        Skin depth at the frequency. [m]

    Returns
    -------
    float or array
        Factor on the conductor loss, one to two. [1]

    Raises
    ------
    ValueError
        If the roughness is negative or the skin depth not positive.

    Notes
    -----
    1 + (2 / pi) atan(1.4 (roughness / depth)^2).

    Examples
    --------
    >>> round(float(roughness_factor_ratio(2.0e-6, 2.0e-6)), 3)
    1.605
    """
    at_least(0.0, roughness_m=roughness_m)
    positive(skin_depth_m=skin_depth_m)
    return 1.0 + 2.0 / np.pi * np.arctan(1.4 * (roughness_m / skin_depth_m) ** 2)


@cites(TEXTBOOK_TRANSMISSION_LINE.at("attenuation of a coaxial line"), returns="dB/m")
def smooth_copper_attenuation_db_per_m(
    frequency_hz: FloatOrArray,
    impedance_ohm: FloatOrArray,
    dielectric_diameter_m: FloatOrArray,
    velocity_ratio: FloatOrArray,
) -> FloatOrArray:
    """Return the conductor loss of a cable with solid copper conductors, the least it can have.

    Parameters
    ----------
    frequency_hz : float or array
        Carrier frequency. [Hz]
    impedance_ohm : float or array
        Characteristic impedance. [ohm]
    dielectric_diameter_m : float or array
        Diameter of the dielectric. [m]
    velocity_ratio : float or array
        Velocity in the cable over the velocity of light. [1]

    Returns
    -------
    float or array
        Attenuation by the conductors alone, at 20 degC. [dB/m]

    Raises
    ------
    ValueError
        If any argument is not positive or the velocity above one.

    Notes
    -----
    Rs / (2 Z0) (1 / (pi d) + 1 / (pi D)) nepers. Braid, strands, tin and dielectric add 8 to
    70 % on real cables: a lower bound that exposes a wrong table, never a budget value.

    Examples
    --------
    >>> round(100 * float(smooth_copper_attenuation_db_per_m(1e9, 50.0, 2.98e-3, 0.695)), 1)
    33.0
    """
    positive(impedance_ohm=impedance_ohm, velocity_ratio=velocity_ratio)
    positive(dielectric_diameter_m=dielectric_diameter_m)
    within(0.0, 1.0, velocity_ratio=velocity_ratio)
    log_ratio = 2.0 * np.pi * impedance_ohm / (VACUUM_IMPEDANCE_OHM * velocity_ratio)
    centre_diameter_m = dielectric_diameter_m * np.exp(-log_ratio)
    perimeters_per_m = (1.0 / centre_diameter_m + 1.0 / dielectric_diameter_m) / np.pi
    resistance_ohm = surface_resistance_ohm(frequency_hz, COPPER_S_PER_M)
    return DB_PER_NEPER * resistance_ohm / (2.0 * impedance_ohm) * perimeters_per_m


@cites(POZAR_4E.at("minimum attenuation of a coaxial line"), returns="1")
def least_loss_diameter_ratio() -> float:
    """Return the ratio of diameters at which conductor loss is smallest.

    Returns
    -------
    float
        Outer over inner diameter. [1]

    Notes
    -----
    The root of x ln x = 1 + x, by Newton steps; 77 ohm with air between.

    Examples
    --------
    >>> round(least_loss_diameter_ratio(), 3)
    3.591
    """
    ratio = 3.0
    for _ in range(20):
        ratio -= float((ratio * np.log(ratio) - 1.0 - ratio) / np.log(ratio))
    return ratio
