# SPDX-License-Identifier: Apache-2.0
"""Loss over the edge of a wing, fin or strut that stands in a straight line of sight."""

from __future__ import annotations

import numpy as np

from rfplan.physics.domain import FloatOrArray, at_least
from rfplan.physics.free_space import wavelength_m
from rfplan.sources import ITU_P526, OWN_COMPUTATION, cites

_NO_LOSS_BELOW = -0.78


@cites(OWN_COMPUTATION.at("Fresnel parameter from the detour"), returns="1")
def fresnel_parameter(frequency_hz: FloatOrArray, detour_m: FloatOrArray) -> FloatOrArray:
    """Return how far an edge reaches into the line of sight, in Fresnel zones.

    Parameters
    ----------
    frequency_hz : float or array
        Carrier frequency. [Hz]
    detour_m : float or array
        Way over the edge less the straight way. [m]

    Returns
    -------
    float or array
        nu, positive where the straight way is blocked. [1]

    Raises
    ------
    ValueError
        If a frequency is not positive or a detour negative.

    Notes
    -----
    2 sqrt(detour / wavelength).

    Examples
    --------
    >>> round(float(fresnel_parameter(299.792458e6, 0.25)), 6)
    1.0
    """
    at_least(0.0, detour_m=detour_m)
    return 2.0 * np.sqrt(detour_m / wavelength_m(frequency_hz))


@cites(ITU_P526.at("single knife-edge obstacle"), returns="dB")
def knife_edge_loss_db(nu: FloatOrArray) -> FloatOrArray:
    """Return the loss over one straight edge.

    Parameters
    ----------
    nu : float or array
        Fresnel parameter; negative where the edge stays clear of the line. [1]

    Returns
    -------
    float or array
        Loss, positive; zero below -0.78. [dB]

    Notes
    -----
    6.9 + 20 log10(sqrt((nu - 0.1)^2 + 1) + nu - 0.1), within 0.12 dB of the Fresnel integral for
    nu 0 to 5. A real wing is thick and short: untested against a full-wave case.

    Examples
    --------
    >>> round(float(knife_edge_loss_db(0.0)), 3)
    6.033
    """
    shifted = np.maximum(nu, _NO_LOSS_BELOW) - 0.1
    loss_db = 6.9 + 20.0 * np.log10(np.hypot(shifted, 1.0) + shifted)
    return np.where(np.asarray(nu) > _NO_LOSS_BELOW, np.maximum(loss_db, 0.0), 0.0)
