# SPDX-License-Identifier: Apache-2.0
"""Whether an antenna can stand at a place at all, and from where its cable comes there."""

from __future__ import annotations

import math

from rfplan.edits.fitting import EditError
from rfplan.model.airframe import INSIDE, OUTER_HULL, Airframe
from rfplan.model.plan import Antenna, Installation, Plan
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
        raise EditError(off_the_skin(airframe, on, at))


def _is_on_skin(airframe: Airframe, on: str, at: Place) -> bool:
    return not any(map(math.isnan, _point_m(airframe, on, at)))


def _point_m(airframe: Airframe, on: str, at: Place) -> tuple[float, float, float]:
    """The point of a place on its surface, NaN where there is no skin."""
    from rfplan.analysis.placement import hull_of, snap  # numpy stays away until it is needed

    x, y, z = snap(airframe, hull_of(airframe), on, [at]).point_m[0]
    return float(x), float(y), float(z)


def node_after(plan: Plan, antenna: Antenna, on: str, at: Place) -> str | None:
    """Return the node of an antenna's cable at another place, None where it states none."""
    from rfplan.analysis.routing import moved_node, nearest_node, network

    if antenna.node is None:
        return None
    net = network(plan.airframe, plan.variant)
    before, after = (
        nearest_node(net, _point_m(plan.airframe, *spot))
        for spot in ((antenna.on, antenna.at), (on, at))
    )
    return moved_node(antenna.node, before, after)


def cables_to(installation: Installation, antenna: str) -> tuple[str, ...]:
    """Return the cables that end at an antenna, in the order of their paths."""
    chains = [path.chain for path in installation.paths.values()]
    last = [chain[-2] for chain in chains if chain[-1].partition(".")[0] == antenna]
    return tuple(dict.fromkeys(id for id in last if id in installation.cables))


def stated_lengths(installation: Installation, antenna: str) -> tuple[str, ...]:
    """Return the cables that end at an antenna and keep a stated length wherever it goes."""
    cables = installation.cables
    return tuple(
        id for id in cables_to(installation, antenna) if isinstance(cables[id].length_m, float)
    )


def off_the_skin(airframe: Airframe, on: str, at: Place, unit: str = "in") -> str:
    """Return why there is no skin at a place between the ends of the hull, with the limit."""
    import numpy as np

    from rfplan.analysis.placement import hull_of
    from rfplan.physics.skin_geometry import section_at

    half_width_m, middle_m, half_height_m, _ = section_at(hull_of(airframe), np.asarray(at.fs_m))
    station = show_length(at.fs_m, unit)
    if on in _SKIN_GIVES_WATER_LINE:
        reach = show_length(float(half_width_m), unit)
        return f"off the skin: at FS {station} the hull ends {reach} from the centre"
    low_m, high_m = float(middle_m - half_height_m), float(middle_m + half_height_m)
    low, high = show_length(low_m, unit), show_length(high_m, unit)
    return f"off the skin: at FS {station} the hull runs from WL {low} to {high}"
