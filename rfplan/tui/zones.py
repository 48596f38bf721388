# SPDX-License-Identifier: Apache-2.0
"""Zones and ground planes on the drawing: what is forbidden is hatched, the rest is edged."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np

from rfplan.model.airframe import Airframe, Zone
from rfplan.model.plan import GroundPlane, Plan
from rfplan.model.rulebook import ZoneKind
from rfplan.physics.skin_geometry import Hull
from rfplan.tui.canvas import Canvas, Layer, Pen
from rfplan.tui.layout import ViewKind
from rfplan.tui.outline import (
    AXES,
    Bools,
    bounds_m,
    is_in_hull,
    is_in_polygon,
    plate_edges_m,
    rectangle_m,
)
from rfplan.tui.projection import View
from rfplan.tui.tokens import Ground, Token
from rfplan.units import Range

EDGE = Pen(Token.HATCH, Layer.INNER, dash=(2.0, 2.0))
PLANE_EDGE = Pen(Token.WING, Layer.INNER, dash=(3.0, 2.0))


@dataclass(frozen=True, slots=True)
class Aircraft:
    """What is drawn, and the surface whose zones are wanted: `top` or `belly`."""

    plan: Plan
    hull: Hull
    zone_kinds: Mapping[str, ZoneKind]
    surface: str

    @property
    def airframe(self) -> Airframe:
        """The airframe of the plan."""
        return self.plan.airframe


def draw_zones(canvas: Canvas, view: View, aircraft: Aircraft) -> None:
    """Hatch what is forbidden and edge every other zone on a side that faces the view."""
    for zone in aircraft.airframe.zones.values():
        if zone.at is not None:
            if zone.at.wl_m is None and view.kind is not ViewKind.PLAN:
                continue
            centre = view.dot_of((zone.at.fs_m, zone.at.bl_m, zone.at.wl_m or 0.0))
            radius = (zone.radius_m or 0.0) * view.camera.dots_per_m
            canvas.circle(centre, radius, EDGE, view.area)
        elif _faces(zone, view.kind, aircraft):
            _draw_zone(canvas, view, aircraft, zone)


def _faces(zone: Zone, kind: ViewKind, aircraft: Aircraft) -> bool:
    """Whether a zone lies on a surface one sees; wings face up, a fin faces sideways."""
    plates = aircraft.airframe.plates
    if zone.on is not None and zone.on in plates:
        return plates[zone.on].mirror is (kind is ViewKind.PLAN)
    if kind is ViewKind.PLAN:
        return zone.on in (aircraft.surface, "all", None)
    return zone.on in ("left", "side", "all")


def _draw_zone(canvas: Canvas, view: View, aircraft: Aircraft, zone: Zone) -> None:
    cells = _cells(view, aircraft, zone)
    if aircraft.zone_kinds[zone.is_].effect == "forbidden":
        canvas.hatch(canvas.framed(cells, view.area), canvas.glyphs.keep_out, Token.HATCH)
        canvas.tint(canvas.framed(cells, view.area), Ground.FORBIDDEN)
    elif cells.any() and zone.fs_m is not None and _across(zone, view.kind) is not None:
        _draw_edge(canvas, view, zone, EDGE)


def _cells(view: View, aircraft: Aircraft, zone: Zone) -> Bools:
    """Cells whose middle lies in the zone's ranges and on its surface."""
    right_m, down_m = view.grid_m(0.5, 0.5)
    inside = np.ones((view.area.rows, view.area.columns), dtype=np.bool_)
    for span, value_m in ((zone.fs_m, right_m), (_across(zone, view.kind), down_m)):
        low, high = bounds_m(span, (-np.inf, np.inf))
        inside &= (value_m >= low) & (value_m <= high)
    if zone.on not in aircraft.airframe.plates:
        return inside & is_in_hull(aircraft.hull, view.kind, right_m, down_m, None)
    edges = [edge_m for id, edge_m in plate_edges_m(aircraft.airframe) if id == zone.on]
    on_plate = [is_in_polygon(right_m, down_m, edge_m[:, AXES[view.kind]]) for edge_m in edges]
    return np.asarray(inside & np.any(on_plate, axis=0))


def _across(region: Zone | GroundPlane, kind: ViewKind) -> Range | None:
    if kind is ViewKind.PLAN:
        return region.bl_m
    return region.wl_m if isinstance(region, Zone) else None


def draw_planes(canvas: Canvas, view: View, aircraft: Aircraft) -> None:
    """Edge the ground planes of the surface looked at; only the plan shows them."""
    if view.kind is ViewKind.PLAN:
        for plane in aircraft.plan.installation.ground_planes.values():
            if plane.on == aircraft.surface or plane.on in aircraft.airframe.plates:
                _draw_edge(canvas, view, plane, PLANE_EDGE)


def _draw_edge(canvas: Canvas, view: View, region: Zone | GroundPlane, pen: Pen) -> None:
    right_m, down_m = view.grid_m(0.5, 0.5)
    edge_m = rectangle_m(
        bounds_m(region.fs_m, (float(right_m.min()), float(right_m.max()))),
        bounds_m(_across(region, view.kind), (float(down_m.min()), float(down_m.max()))),
        view.kind,
    )
    canvas.polyline(view.dots_of(edge_m), pen, view.area)
