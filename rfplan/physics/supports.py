# SPDX-License-Identifier: Apache-2.0
"""How many clamps and identification marks a run of cable needs."""

from __future__ import annotations

import math

from rfplan.physics.domain import at_least, positive
from rfplan.sources import AC_43_13_1B, cites

_ROUNDING = 1.0e-9


@cites(AC_43_13_1B.at("11-96a"), returns="1")
def support_count(length_m: float, spacing_m: float) -> int:
    """Return the number of clamps on a run with a clamp at each end.

    Parameters
    ----------
    length_m : float
        Length of the run. [m]
    spacing_m : float
        Largest distance between two clamps. [m]

    Returns
    -------
    int
        Clamps, both ends included. [1]

    Raises
    ------
    ValueError
        If any argument is not positive.

    Notes
    -----
    Spans of at most the spacing, and one clamp more than spans.

    Examples
    --------
    >>> support_count(118 * 0.0254, 24 * 0.0254)
    6
    """
    positive(length_m=length_m, spacing_m=spacing_m)
    return math.ceil(length_m / spacing_m - _ROUNDING) + 1


@cites(AC_43_13_1B.at("11-205 and 11-208"), returns="1")
def mark_count(
    length_m: float, spacing_m: float, unmarked_m: float = 0.0, single_m: float = 0.0
) -> int:
    """Return the number of identification marks on a cable.

    Parameters
    ----------
    length_m : float
        Length of the cable. [m]
    spacing_m : float
        Largest distance between two marks. [m]
    unmarked_m : float
        Shorter cables carry no mark. [m]
    single_m : float
        Up to this length one mark in the middle is enough. [m]

    Returns
    -------
    int
        Marks, both ends included. [1]

    Raises
    ------
    ValueError
        If length or spacing is not positive, or unmarked_m is negative or above single_m.

    Notes
    -----
    A mark at each end and between them at most the spacing apart.

    Examples
    --------
    >>> mark_count(118 * 0.0254, 15 * 0.0254)
    9
    >>> mark_count(0.15, 0.381, unmarked_m=0.0762, single_m=0.1778)
    1
    """
    positive(length_m=length_m, spacing_m=spacing_m)
    at_least(0.0, unmarked_m=unmarked_m, single_m=single_m - unmarked_m)
    if length_m < unmarked_m:
        return 0
    if length_m <= single_m:
        return 1
    return support_count(length_m, spacing_m)
