# SPDX-License-Identifier: Apache-2.0
"""RF205: the conducting skin round an antenna is smaller than it needs."""

import numpy as np
from numpy.typing import NDArray

from rfplan.analysis.facts import Facts
from rfplan.analysis.placement import Fitted, Places, covers, lies_on
from rfplan.analysis.scene import Scene
from rfplan.model.airframe import OUTER_HULL
from rfplan.model.rulebook import Rule, Strictness
from rfplan.model.source import Source
from rfplan.physics.free_space import quarter_wave_m
from rfplan.physics.skin_geometry import skin_point_m
from rfplan.rules.room import Constraint, Room, plan_source
from rfplan.sources import TEXTBOOK_ANTENNAS, Citation

RULE = Rule(
    id="RF205",
    name="ground-plane-small",
    title="The ground plane of an antenna is smaller than it needs",
    strictness=Strictness.ADVICE,
    otherwise="where a port states its ground plane, or a document of the antenna its radius",
    why="A quarter-wave antenna works against the conducting skin round it.",
    remedy="add foil or mesh under the skin, bonded to the base, and have it verified",
    known_limits="radius along eight directions in steps of a fortieth of the need; seams of "
    "hatches, doors and windows end it; not asked of dipoles, patches and loops",
    source=TEXTBOOK_ANTENNAS.at("monopole over a ground plane"),
)

_DIRECTIONS = np.arange(8)[:, None] * np.pi / 4.0
_ALONG, _ACROSS = np.cos(_DIRECTIONS), np.sin(_DIRECTIONS)
_STEPS = np.arange(1, 41) / 40.0
_SEAMS = ("hatch", "door", "removable", "window", "windshield")


def room(facts: Facts, fitted: Fitted, places: Places) -> Room | None:
    """Return the least radius of conducting skin in eight directions against the need."""
    needed = _need(facts.scene, fitted)
    if needed is None or places.on not in OUTER_HULL:
        return None
    need_m, strictness, source = needed
    have = _radius_m(facts.scene, places, need_m)[None, :]
    text = f"{fitted.id} has {{value}} of conducting skin round it; needs {{limit}}"
    constraint = Constraint((fitted.id,), text, strictness, source)
    return Room((constraint,), have, np.full_like(have, need_m), "m")


def _need(scene: Scene, fitted: Fitted) -> tuple[float, Strictness, Source | Citation] | None:
    stated = [port for port in fitted.ports if port.ground_plane_m is not None]
    if stated:
        port = max(stated, key=lambda one: one.ground_plane_m or 0.0)
        return port.ground_plane_m or 0.0, Strictness.REQUIRED, plan_source(scene, port.source)
    if fitted.type.ground_plane_radius_m is not None:
        own = fitted.type.sources.get(fitted.type.source or "") or Source("unknown")
        strict = Strictness.ADVICE if own.unverified else Strictness.REQUIRED
        return fitted.type.ground_plane_radius_m, strict, own
    if fitted.type.ground_plane != "quarter_wave":
        return None
    lows = [
        band.low_hz
        for radio in fitted.radios
        for band in scene.rulebook.radios[radio].bands.values()
    ]
    return float(quarter_wave_m(min(lows))), Strictness.ADVICE, RULE.source


def _radius_m(scene: Scene, places: Places, need_m: float) -> NDArray[np.float64]:
    """March outward along the surface until the skin no longer conducts."""
    reach = _STEPS * need_m
    fs = places.point_m[:, 0, None, None] + _ALONG * reach
    across = places.across_m[:, None, None] + _ACROSS * reach
    points = skin_point_m(scene.hull, places.on, fs.ravel(), across.ravel())
    conducts = _conducting(scene, Places(places.on, points, points)).reshape(fs.shape)
    unbroken = np.cumprod(conducts, axis=-1).sum(axis=-1)
    return np.asarray(unbroken.min(axis=-1) * need_m / len(_STEPS))


def _conducting(scene: Scene, places: Places) -> NDArray[np.bool_]:
    """Whether skin or a ground plane conducts at each place, and no seam breaks it."""
    result = np.zeros(len(places.point_m), dtype=bool)
    decided = np.zeros_like(result)
    for panel in scene.airframe.skin.values():
        here = covers(panel, places) & ~decided
        material = scene.material(panel.of)
        result |= here & (material is not None and material.skin == "conductive")
        decided |= here
    for plane in scene.plan.installation.ground_planes.values():
        result |= covers(plane, places)
    for zone in scene.airframe.zones.values():
        if zone.is_ in _SEAMS and zone.on is not None and lies_on(zone.on, places.on):
            result &= ~covers(zone, places)
    return result & ~np.isnan(places.point_m).any(axis=-1)
