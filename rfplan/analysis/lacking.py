# SPDX-License-Identifier: Apache-2.0
"""At which places would an antenna be too little isolated from another one, for certain?"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from rfplan.analysis.elsewhere import stretches, without_cables
from rfplan.analysis.facts import Facts
from rfplan.analysis.interference import Demand, demands, fails
from rfplan.analysis.isolation_at import known_isolation
from rfplan.analysis.placement import Fitted, Places

Floats = NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class Lack:
    """Isolation at places against what is needed, shape (demands, places).

    `have_db` is infinite where the cell of the matrix would not FAIL.
    """

    demands: tuple[Demand, ...]
    have_db: Floats
    need_db: Floats


def lacking(facts: Facts, fitted: Fitted, places: Places) -> Lack | None:
    """Return where which demands on an antenna FAIL, by the functions that make the matrix."""
    asked = demands(facts, fitted.id)
    if not asked:
        return None
    most_db = _numbers_db(demands(without_cables(facts, fitted.id), fitted.id))[1]
    known = known_isolation(facts.scene, fitted, places, asked, most_db)
    rows = np.flatnonzero(np.isfinite(known.have_db).any(axis=0))
    need_db, least_db = _needs_db(facts, fitted, places.point_m[rows], asked)
    have_db, high_db = known.have_db[:, rows], known.high_db[:, rows]
    too_low = fails(have_db - least_db, high_db)
    lack = Lack(
        asked,
        np.full(known.have_db.shape, np.inf),
        np.repeat(_numbers_db(asked)[0], len(places.point_m), axis=1),
    )
    lack.have_db[:, rows] = np.where(too_low, have_db, np.inf)
    lack.need_db[:, rows] = need_db
    return lack


def _needs_db(facts: Facts, fitted: Fitted, point_m: Floats, asked: tuple[Demand, ...]) -> Floats:
    """What is needed, and below what it FAILs, at points: a longer cable loses more."""
    numbers = np.repeat(_numbers_db(asked), len(point_m), axis=2)
    for stretch in stretches(facts, fitted, point_m):
        near, far = (_numbers_db(demands(one, fitted.id)) for one in (stretch.near, stretch.far))
        numbers[:, :, stretch.rows] = near + stretch.part * (far - near)
    return numbers


def _numbers_db(asked: tuple[Demand, ...]) -> Floats:
    """Both numbers of some demands, shape (2, demands, 1); NaN where one is not known."""
    return np.array([[one.need_db, one.least_db] for one in asked], dtype=float).T[..., None]
