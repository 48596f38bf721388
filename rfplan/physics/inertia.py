# SPDX-License-Identifier: Apache-2.0
"""The load that an antenna's own mass puts on its attachment."""

from __future__ import annotations

from rfplan.physics.domain import FloatOrArray, at_least
from rfplan.sources import CAA_NZ_C4, cites

STANDARD_GRAVITY_M_PER_S2 = 9.80665


@cites(CAA_NZ_C4.at("attachment of ELT and antenna, 100 g"), returns="N")
def inertia_load_n(mass_kg: FloatOrArray, load_factor_ratio: FloatOrArray) -> FloatOrArray:
    """Return the load of a mass at a load factor.

    Parameters
    ----------
    mass_kg : float or array
        Mass. [kg]
    load_factor_ratio : float or array
        Acceleration in units of gravity; 100 in each axis for an ELT antenna. [1]

    Returns
    -------
    float or array
        Load; shape of the broadcast inputs. [N]

    Raises
    ------
    ValueError
        If any argument is negative.

    Notes
    -----
    m n g.

    Examples
    --------
    >>> round(inertia_load_n(0.13, 100.0), 2)
    127.49
    """
    at_least(0.0, mass_kg=mass_kg, load_factor_ratio=load_factor_ratio)
    return mass_kg * load_factor_ratio * STANDARD_GRAVITY_M_PER_S2
