# SPDX-License-Identifier: Apache-2.0
"""The quick loss by shading round a cylinder: one fraction, good for ranking."""

from __future__ import annotations

import numpy as np

from rfplan.physics.domain import FloatOrArray, at_least
from rfplan.sources import OWN_COMPUTATION, SHADING_FACTOR, cites

_FAR = 26.0


@cites(OWN_COMPUTATION.at("A = sqrt(2) xi^1.5, identified with the Fock argument"), returns="1")
def shading_argument(xi: FloatOrArray) -> FloatOrArray:
    """Return the argument of the shading factor.

    Parameters
    ----------
    xi : float or array
        Shade parameter of the way along the skin. [1]

    Returns
    -------
    float or array
        A. [1]

    Raises
    ------
    ValueError
        If a shade parameter is negative.

    Notes
    -----
    radius theta^2 sqrt(2 pi / (wavelength D)) on a cylinder, which is sqrt(2) xi^1.5.

    Examples
    --------
    >>> round(float(shading_argument(1.0)), 4)
    1.4142
    """
    at_least(0.0, xi=xi)
    return np.asarray(np.sqrt(2.0) * np.asarray(xi) ** 1.5)


@cites(SHADING_FACTOR.at("two ranges"), returns="dB")
def shading_loss_db(argument: FloatOrArray) -> FloatOrArray:
    """Return the loss by shading.

    Parameters
    ----------
    argument : float or array
        A, as from `shading_argument`. [1]

    Returns
    -------
    float or array
        Loss, positive. [dB]

    Raises
    ------
    ValueError
        If an argument is negative.

    Notes
    -----
    A / (5.478e-3 A + 0.5083) below 26, A / (3.340e-3 A + 0.5621) from there on. The constants are
    from memory. Numerically the loss is -20 log10 |v| to 0.06 dB up to A = 20; 2 dB off at 100.
    It knows one ray: at 180 deg two equal rays give 6 dB more coupling.

    Examples
    --------
    >>> round(float(shading_loss_db(5.0)), 4)
    9.3338
    """
    at_least(0.0, argument=argument)
    near = argument / (5.478e-3 * argument + 0.5083)
    far = argument / (3.340e-3 * argument + 0.5621)
    return np.where(np.asarray(argument) < _FAR, near, far)
