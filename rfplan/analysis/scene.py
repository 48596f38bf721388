# SPDX-License-Identifier: Apache-2.0
"""What placement rules see: the hull, all antennas as they stand, and who must keep off whom."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from rfplan.analysis.placement import Fitted, Places, hull_of, lies_on, snap
from rfplan.analysis.spacing import pair_rules, zone_rules
from rfplan.model.airframe import INSIDE, OUTER_HULL, Airframe, Zone
from rfplan.model.catalog import AntennaType, Catalog
from rfplan.model.plan import Plan, Port
from rfplan.model.rulebook import Material, Rulebook, Spacing
from rfplan.physics.skin_geometry import Hull


@dataclass(frozen=True, slots=True)
class Scene:
    """A plan's antennas on its hull, with the spacing rule of every pair and every feature."""

    plan: Plan
    catalog: Catalog
    rulebook: Rulebook
    hull: Hull
    fitted: dict[str, Fitted]
    pair_rules: Mapping[str, Mapping[str, Spacing]]
    zone_rules: Mapping[str, Mapping[str, Spacing]]
    zones_on: Mapping[str, Mapping[str, Zone]]

    @property
    def airframe(self) -> Airframe:
        """The airframe of the plan."""
        return self.plan.airframe

    def material(self, name: str) -> Material | None:
        """Return a skin material by its name."""
        return self.rulebook.materials.get(name)


def scene_of(plan: Plan, catalog: Catalog, rulebook: Rulebook) -> Scene:
    """Return the scene of a plan: every antenna snapped, with the ports its paths give it."""
    hull, installation = hull_of(plan.airframe), plan.installation
    ports = _ports_by_antenna(plan)
    places = _snapped(plan, hull)
    standing: dict[str, Fitted] = {}
    for id, antenna in installation.antennas.items():
        type = catalog.antennas[antenna.type]
        radios = frozenset(port.radio for port in ports[id]) or frozenset(type.radios)
        families = frozenset(rulebook.radios[radio].family for radio in radios)
        standing[id] = Fitted(
            id, antenna, type, ports[id], radios, families, places[id], _base_radius_m(type)
        )
    return Scene(
        plan,
        catalog,
        rulebook,
        hull,
        standing,
        pair_rules(plan.spacing, rulebook.spacings, standing),
        zone_rules(plan.spacing, rulebook.spacings, standing, plan.airframe.zones),
        _zones_on(plan.airframe),
    )


def _zones_on(airframe: Airframe) -> dict[str, dict[str, Zone]]:
    """The zones on each surface, drawn by their spans or round a point; those in space on none."""
    return {
        surface: {
            id: zone
            for id, zone in airframe.zones.items()
            if zone.on is not None and lies_on(zone.on, surface)
        }
        for surface in (*OUTER_HULL, *INSIDE, *airframe.plates)
    }


def _ports_by_antenna(plan: Plan) -> dict[str, tuple[Port, ...]]:
    installation = plan.installation
    ports: dict[str, tuple[Port, ...]] = dict.fromkeys(installation.antennas, ())
    for path in installation.paths.values():
        unit, _, port = path.chain[0].partition(".")
        ports[path.chain[-1].partition(".")[0]] += (installation.units[unit].ports[port],)
    return ports


def _snapped(plan: Plan, hull: Hull) -> dict[str, Places]:
    """Snap all antennas, those of one surface together, since one call costs as much as many."""
    by_surface: dict[str, list[str]] = {}
    antennas = plan.installation.antennas
    for id, antenna in antennas.items():
        by_surface.setdefault(antenna.on, []).append(id)
    places: dict[str, Places] = {}
    for on, ids in by_surface.items():
        together = snap(plan.airframe, hull, on, [antennas[id].at for id in ids])
        for index, id in enumerate(ids):
            one = slice(index, index + 1)
            places[id] = Places(on, together.point_m[one], together.normal[one])
    return places


def _base_radius_m(type: AntennaType) -> float:
    return max(type.base.length_m, type.base.width_m) / 2.0 if type.base else 0.0
