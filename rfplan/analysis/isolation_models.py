# SPDX-License-Identifier: Apache-2.0
"""The models of isolation, how far each was found off the exact cylinder, and what is doubtful."""

from __future__ import annotations

from dataclasses import dataclass
from enum import IntEnum, IntFlag, StrEnum

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]
Bools = NDArray[np.bool_]


class Rung(StrEnum):
    """Which model is wanted where the wave follows the skin."""

    QUICK = "quick"
    DEFAULT = "default"
    TRANSPARENT = "transparent"
    EXACT = "exact"
    BEST = "best"


class Model(IntEnum):
    """The model behind one number."""

    BOUND = 0
    SIGHT = 1
    SURFACE_RAY = 2
    SHADING = 3
    CYLINDER = 4
    FITTED = 5

    @property
    def words(self) -> str:
        """Return the model as a sheet prints it."""
        return _WORDS[self]


_WORDS = {
    Model.BOUND: "bound: straight line",
    Model.SIGHT: "induced EMF in line of sight",
    Model.SURFACE_RAY: "induced EMF and surface rays, magnitudes added",
    Model.SHADING: "Friis and shading factor, for ranking",
    Model.CYLINDER: "exact infinite cylinder",
    Model.FITTED: "surface rays and a fitted offset, never decides PASS",
}

MODEL_OF_RUNG = {
    Rung.QUICK: Model.SHADING,
    Rung.DEFAULT: Model.SURFACE_RAY,
    Rung.EXACT: Model.CYLINDER,
    Rung.BEST: Model.FITTED,
}
"""What each rung takes along the skin; on the rung `transparent` all pairs are bounds."""


class Doubt(IntFlag):
    """What takes a number out of the range in which its model was compared with a better one."""

    NEAR = 1
    """Closer than 1.2 / k."""
    SLENDER = 2
    """The hull is thinner than the model was compared for."""
    NOT_METAL = 4
    """The skin at an antenna is not known to conduct well."""
    NOT_UPRIGHT = 8
    """A radio is not known to use vertical polarisation, or uses another one."""
    UNTESTED = 16
    """No comparison exists for this model on an aircraft."""
    GUIDED = 32
    """The skin conducts and may carry more than the straight line."""


NEAREST_KT = 1.2
"""Distance times wave number from which on models were compared with the exact cylinder."""

COMPARED_FROM_KA = 0.8
"""Radius times wave number from which on they were."""

_UNKNOWN = (0.0, np.nan, np.nan)
_FOUND = {
    Model.SURFACE_RAY: (
        (COMPARED_FROM_KA, 6.0, 17.0),
        (1.4, 3.4, 12.0),
        (2.5, 1.6, 9.0),
        (5.0, 0.5, 3.8),
        (12.0, 0.0, 1.6),
    ),
    Model.SHADING: (
        (COMPARED_FROM_KA, -18.0, 9.0),
        (2.0, -12.5, 6.5),
        (5.0, -7.0, 7.5),
        (12.0, -6.0, 6.5),
    ),
    Model.FITTED: ((2.0, -0.5, 4.8), (5.0, -0.5, 1.5)),
    Model.CYLINDER: ((COMPARED_FROM_KA, -0.05, 0.05),),
}
"""Least and most that the exact cylinder isolates better than the model says, by the least ka.

Found on ka 0.8 to 40, kt from 1.2, all angles, along the axis up to 80/k; a benchmark prints the
table anew. Surface rays: beside what their phases add; the other models: nulls excepted. A real
hull is no infinite cylinder.
"""

SHORT_HULL_DB = (-6.0, 5.0)
"""What the finite length of a hull adds to that on the shadow side at VHF."""

SHORT_HULL_BELOW_KA = 5.0
SHADOW_FROM_RAD = np.radians(120.0)


def accuracy_db(model: Model, ka: Floats, turn_rad: Floats) -> tuple[Floats, Floats]:
    """Return how much better or worse the isolation may be than a model says; NaN if unknown.

    `turn_rad` is how far the shorter way leads round the hull.
    """
    from_ka, low_db, high_db = np.array([_UNKNOWN, *_FOUND[model]]).T
    row = np.searchsorted(from_ka, ka, side="right") - 1
    shadow = (ka < SHORT_HULL_BELOW_KA) & (turn_rad > SHADOW_FROM_RAD)
    short_low_db, short_high_db = SHORT_HULL_DB
    return (
        low_db[row] + np.where(shadow, short_low_db, 0.0),
        high_db[row] + np.where(shadow, short_high_db, 0.0),
    )


@dataclass(frozen=True, slots=True)
class Isolation:
    """Isolation of pairs at frequencies, shape (pairs, frequencies), and how good each number is.

    A better model would say `isolation_db` + `low_db` to `isolation_db` + `high_db`; NaN where
    none was asked. A bound has 0 and infinity.
    """

    isolation_db: Floats
    low_db: Floats
    high_db: Floats
    model: NDArray[np.int8]
    doubt: NDArray[np.int8]

    @property
    def valid(self) -> Bools:
        """Where a model was used inside the range it was compared for."""
        return np.asarray(self.doubt == 0)

    @property
    def may_pass(self) -> Bools:
        """Where the number may stand behind a PASS: estimates on neither side may not."""
        return ~np.isin(self.model, (Model.FITTED, Model.SHADING))

    @property
    def decides(self) -> Bools:
        """Where the number may stand behind a PASS or a FAIL, which no bound may do both of."""
        return np.asarray(self.valid & self.may_pass & (self.model != Model.BOUND))
