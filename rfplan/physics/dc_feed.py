# SPDX-License-Identifier: Apache-2.0
"""Direct current to an active antenna through its own coaxial cable."""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from rfplan.physics.constants import DB_PER_NEPER
from rfplan.physics.domain import FloatOrArray, at_least, positive
from rfplan.sources import (
    NBS_HANDBOOK_100,
    OWN_COMPUTATION,
    TEXTBOOK_TRANSMISSION_LINE,
    cites,
)

_OHM = TEXTBOOK_TRANSMISSION_LINE.at("direct-current resistance of both conductors")


class DropBounds(NamedTuple):
    """The smallest and the largest voltage drop that is possible."""

    low_v: FloatOrArray
    high_v: FloatOrArray


@cites(_OHM, returns="V")
def feed_drop_v(
    current_a: FloatOrArray,
    length_m: FloatOrArray,
    centre_ohm_per_m: FloatOrArray,
    shield_ohm_per_m: FloatOrArray,
) -> FloatOrArray:
    """Return the voltage that a cable takes from the supply of an active antenna.

    Parameters
    ----------
    current_a : float or array
        Current of the antenna. [A]
    length_m : float or array
        Length of the cable. [m]
    centre_ohm_per_m : float or array
        Resistance of the centre conductor. [ohm/m]
    shield_ohm_per_m : float or array
        Resistance of the shield, which carries the same current back. [ohm/m]

    Returns
    -------
    float or array
        Voltage drop; shape of the broadcast inputs. [V]

    Raises
    ------
    ValueError
        If any argument is negative.

    Notes
    -----
    I l (Rc + Rs). Multiply the resistances by `resistance_factor_ratio` for a hot cable.

    Examples
    --------
    >>> round(float(feed_drop_v(0.1, 10.0, 0.039, 0.0135)), 4)
    0.0525
    """
    at_least(0.0, current_a=current_a, length_m=length_m)
    at_least(0.0, centre_ohm_per_m=centre_ohm_per_m, shield_ohm_per_m=shield_ohm_per_m)
    return current_a * length_m * (centre_ohm_per_m + shield_ohm_per_m)


@cites(_OHM, returns="V")
def feed_drop_bounds_v(
    current_a: FloatOrArray, length_m: FloatOrArray, centre_ohm_per_m: FloatOrArray
) -> DropBounds:
    """Return the bounds of the drop where the resistance of the shield is not known.

    Parameters
    ----------
    current_a : float or array
        Current of the antenna. [A]
    length_m : float or array
        Length of the cable. [m]
    centre_ohm_per_m : float or array
        Resistance of the centre conductor. [ohm/m]

    Returns
    -------
    DropBounds
        Smallest and largest drop. [V]

    Raises
    ------
    ValueError
        If any argument is negative.

    Notes
    -----
    A shield has more copper than the centre it surrounds: zero to the resistance of the centre.

    Examples
    --------
    >>> low, high = feed_drop_bounds_v(0.1, 10.0, 0.03)
    >>> round(low, 3), round(high, 3)
    (0.03, 0.06)
    """
    return DropBounds(
        feed_drop_v(current_a, length_m, centre_ohm_per_m, 0.0),
        feed_drop_v(current_a, length_m, centre_ohm_per_m, centre_ohm_per_m),
    )


@cites(
    TEXTBOOK_TRANSMISSION_LINE.at("attenuation of a low-loss line"),
    OWN_COMPUTATION.at("direct current takes the way of least heat"),
    returns="ohm/m",
)
def most_loop_resistance_ohm_per_m(
    attenuation_db_per_m: FloatOrArray, line_ohm: FloatOrArray
) -> FloatOrArray:
    """Return the most that both conductors of a cable can resist direct current.

    Parameters
    ----------
    attenuation_db_per_m : float or array
        Attenuation at any frequency, the lower the better. [dB/m]
    line_ohm : float or array
        Characteristic impedance. [ohm]

    Returns
    -------
    float or array
        Upper bound of centre and shield together, at the temperature of the attenuation. [ohm/m]

    Raises
    ------
    ValueError
        If any argument is not positive.

    Notes
    -----
    2 Z0 a, the resistance that would explain all of the attenuation. Current that is free to
    spread over the metal, as direct current is, never meets more.

    Examples
    --------
    >>> round(float(most_loop_resistance_ohm_per_m(0.046, 50.0)), 3)
    0.53
    """
    positive(attenuation_db_per_m=attenuation_db_per_m, line_ohm=line_ohm)
    return 2.0 * line_ohm * attenuation_db_per_m / DB_PER_NEPER


@cites(NBS_HANDBOOK_100.at("resistivity of copper"), returns="ohm/m")
def conductor_resistance_ohm_per_m(
    strands: int, strand_diameter_m: FloatOrArray, resistivity_ohm_m: FloatOrArray
) -> FloatOrArray:
    """Return the resistance of a stranded conductor.

    Parameters
    ----------
    strands : int
        Number of strands; one for a solid conductor. [1]
    strand_diameter_m : float or array
        Diameter of one strand. [m]
    resistivity_ohm_m : float or array
        Resistivity of the metal; 1.7241e-8 for annealed copper. [ohm m]

    Returns
    -------
    float or array
        Direct-current resistance at 20 degC. [ohm/m]

    Raises
    ------
    ValueError
        If any argument is not positive.

    Notes
    -----
    Resistivity over the area of all strands; lay and tin add up to a tenth.

    Examples
    --------
    >>> round(1000 * float(conductor_resistance_ohm_per_m(19, 0.18e-3, 1.7241e-8)), 2)
    35.66
    """
    positive(strands=float(strands), strand_diameter_m=strand_diameter_m)
    positive(resistivity_ohm_m=resistivity_ohm_m)
    return resistivity_ohm_m / (strands * np.pi / 4.0 * strand_diameter_m**2)
