# SPDX-License-Identifier: Apache-2.0
"""How wide a conduit has to be for the cables in it."""

from __future__ import annotations

from rfplan.physics.domain import FloatOrArray, at_least
from rfplan.sources import AC_43_13_1B, cites

OVERSIZE_RATIO = 0.25


@cites(AC_43_13_1B.at("11-249"), returns="m")
def conduit_bore_m(bundle_m: FloatOrArray) -> FloatOrArray:
    """Return the least bore of a conduit.

    Parameters
    ----------
    bundle_m : float or array
        Diameter of the cable or bundle in it. [m]

    Returns
    -------
    float or array
        Least inside diameter. [m]

    Raises
    ------
    ValueError
        If the diameter is negative.

    Notes
    -----
    A quarter more than the bundle.

    Examples
    --------
    >>> conduit_bore_m(0.008)
    0.01
    """
    at_least(0.0, bundle_m=bundle_m)
    return bundle_m * (1.0 + OVERSIZE_RATIO)
