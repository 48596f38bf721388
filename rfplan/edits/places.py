# SPDX-License-Identifier: Apache-2.0
"""Whether an antenna can stand at a place at all."""

from __future__ import annotations

import math

from rfplan.edits.fitting import EditError
from rfplan.model.airframe import INSIDE, OUTER_HULL, Airframe
from rfplan.units import Place, show_length

_SKIN_GIVES_WATER_LINE = ("top", "belly")


def check_place(airframe: Airframe, on: str, at: Place) -> None:
    """Raise EditError for a surface that is not there, and for a place that is not on it."""
    if on not in (*OUTER_HULL, *INSIDE, *airframe.plates):
        raise EditError(f"the airframe has no surface {on}")
    if on not in _SKIN_GIVES_WATER_LINE and at.wl_m is None:
        raise EditError(f"a place on {on} needs a water line: FS, BL and WL")
    first_m, last_m = airframe.sections[0].fs_m, airframe.sections[-1].fs_m
    if on in OUTER_HULL and not first_m <= at.fs_m <= last_m:
        ends = [show_length(end_m, "in") for end_m in (first_m, last_m)]
        raise EditError(f"off the skin: the hull runs from FS {ends[0]} to {ends[1]}")
    if on in OUTER_HULL and not _is_on_skin(airframe, on, at):
        raise EditError(
            f"off the skin: the hull does not reach there at FS {show_length(at.fs_m, 'in')}"
        )


def _is_on_skin(airframe: Airframe, on: str, at: Place) -> bool:
    from rfplan.analysis.placement import hull_of, snap

    return not math.isnan(snap(airframe, hull_of(airframe), on, [at]).point_m.sum())
