# SPDX-License-Identifier: Apache-2.0
"""Scattering parameters told against one reference resistance, wanted against another."""

from __future__ import annotations

import numpy as np

from rfplan.physics.abcd import Matrices
from rfplan.physics.domain import positive
from rfplan.sources import TEXTBOOK_TRANSMISSION_LINE, cites


@cites(TEXTBOOK_TRANSMISSION_LINE.at("change of the reference resistance"), returns="1")
def renormalised_s(s: Matrices, from_ohm: float, to_ohm: float) -> Matrices:
    """Return scattering parameters for another resistance at every port.

    Parameters
    ----------
    s : array
        Scattering matrices, shape (..., ports, ports). [1]
    from_ohm : float
        Real reference resistance of `s`, the same at every port. [ohm]
    to_ohm : float
        Real reference resistance wanted. [ohm]

    Returns
    -------
    array
        Shape of `s`. [1]

    Raises
    ------
    ValueError
        If a resistance is not positive.

    Notes
    -----
    (S - r I) (I - r S)^-1 with r = (R' - R) / (R' + R). For real resistances all definitions of
    the waves agree; a complex reference is not covered.

    Examples
    --------
    >>> matched_to_75 = np.zeros((1, 1), dtype=complex)
    >>> round(float(renormalised_s(matched_to_75, 75.0, 50.0)[0, 0].real), 6)
    0.2
    """
    positive(from_ohm=from_ohm, to_ohm=to_ohm)
    ratio = (to_ohm - from_ohm) / (to_ohm + from_ohm)
    unit = np.eye(s.shape[-1])
    return (s - ratio * unit) @ np.linalg.inv(unit - ratio * s)
