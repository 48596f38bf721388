# SPDX-License-Identifier: Apache-2.0
"""What is fitted in one state: names that name something, places that exist."""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import dataclass

from rfplan.files.check_airframe import off_hull, surfaces
from rfplan.files.check_catalog import check_vswr
from rfplan.files.check_figures import check_port_figures
from rfplan.files.check_names import check_known
from rfplan.files.draft import PlanDraft
from rfplan.files.faults import one_of, quoted
from rfplan.files.nodes import Location, Node
from rfplan.model.airframe import OUTER_HULL
from rfplan.model.catalog import Catalog
from rfplan.model.plan import Antenna, Assembly, GroundPlane, Installation, Part, Port, State, Unit
from rfplan.model.rulebook import Rulebook
from rfplan.units import Missing, Place, Range

UNKNOWN = "?"  # a type or a plug that is not known yet is an open point

_TOP_OR_BELLY = ("top", "belly")


@dataclass(frozen=True, slots=True)
class FittedCheck:
    """One state of a plan under the eye of catalogue, rulebook and airframe."""

    draft: PlanDraft
    state: State
    catalog: Catalog
    rulebook: Rulebook

    def run(self) -> None:
        """Add a problem for each thing that names nothing or stands nowhere."""
        fitted: Installation = self.draft.fitted[self.state]
        for id, unit in fitted.units.items():
            self._unit(("units", id), unit)
        for id, antenna in fitted.antennas.items():
            self._antenna(("antennas", id), antenna)
        for id, plane in fitted.ground_planes.items():
            self._ground_plane(("ground_planes", id), plane)
        for id, cable in fitted.cables.items():
            self._cable(("cables", id), cable)
        for id, part in fitted.parts.items():
            self._part(("parts", id), part)

    @property
    def _tree(self) -> Node:
        return self.draft.trees[self.state]

    def _say(self, loc: Location, words: str, expected: str = "") -> None:
        self.draft.faults.say(self._tree, loc, words, expected)

    def _known(self, name: str | None, what: str, known: Collection[str], loc: Location) -> bool:
        return check_known(name, what, known, (self._tree, loc), self.draft.faults)

    def _plug(self, plug: str | None, loc: Location) -> None:
        if plug != UNKNOWN:
            self._known(plug, "connector", self.catalog.connectors, loc)

    def _node(self, name: str | None, loc: Location) -> None:
        if self.draft.airframe is not None:
            self._known(name, "node", self.draft.airframe.named("route", "nodes"), loc)

    def _unit(self, loc: Location, unit: Unit) -> None:
        self._node(unit.node, (*loc, "node"))
        if unit.at is not None and unit.at.wl_m is None:
            self._say((*loc, "at"), "a place in space has no water line", "FS, BL and WL")
        for id, port in unit.ports.items():
            self._port((*loc, "ports", id), port)

    def _port(self, loc: Location, port: Port) -> None:
        self._plug(port.plug, (*loc, "plug"))
        self._known(port.cable_type, "cable type", self.catalog.cables, (*loc, "cable_type"))
        check_vswr(port.vswr, (*loc, "vswr"), self._tree, self.draft.faults)
        check_port_figures(loc, port, self._tree, self.draft.faults)
        if not self._known(port.radio, "radio", self.rulebook.radios, (*loc, "radio")):
            return
        radio = self.rulebook.radios[port.radio]
        self._known(port.class_, "class", radio.classes, (*loc, "class"))
        bands = {*radio.bands, "all"}
        for key, limits in (("loss", port.loss_db), ("net_gain", port.net_gain_db)):
            for band in limits:
                self._known(band, "band", bands, (*loc, key, band))
        families = {*(radio.family for radio in self.rulebook.radios.values()), "all"}
        for family in port.noise_dbm_per_hz:
            self._known(family, "family of radios", families, (*loc, "noise", family))
        for mode in port.sensitivity_dbm:
            known = {*radio.sensitivity, "all"}
            self._known(mode, "sensitivity", known, (*loc, "sensitivity", mode))
        if {str(band.direction) for band in radio.bands.values()} <= port.silent:
            key = "sensitivity" if "rx" in port.silent else "power"
            words = "the port would neither send nor hear, so nothing would be judged of it"
            self._say((*loc, key), words, "a figure, ?, or no entry")

    def _antenna(self, loc: Location, antenna: Antenna) -> None:
        self._node(antenna.node, (*loc, "node"))
        planes = self.draft.named("ground_planes", self.state)
        self._known(antenna.ground_plane, "ground plane", planes, (*loc, "ground_plane"))
        if self._known(antenna.type, "antenna type", self.catalog.antennas, (*loc, "type")):
            radios = self.catalog.antennas[antenna.type].radios
            for radio in [radio for radio in radios if radio not in self.rulebook.radios]:
                words = f"this entry of the catalogue names the unknown radio {quoted(radio)}"
                self._say((*loc, "type"), words, one_of(self.rulebook.radios, radio, "a radio"))
        if self._surface(antenna.on, (*loc, "on")):
            self._place(antenna.on, antenna.at, (*loc, "at"))

    def _place(self, on: str, at: Place, loc: Location) -> None:
        if on not in _TOP_OR_BELLY and at.wl_m is None:
            self._say(loc, f"a place on the surface '{on}' has no water line", "FS, BL and WL")
        if on in OUTER_HULL:
            self._on_hull(Range(at.fs_m, at.fs_m), loc)

    def _ground_plane(self, loc: Location, plane: GroundPlane) -> None:
        self._known(plane.of, "material", self.rulebook.materials, (*loc, "of"))
        if self._surface(plane.on, (*loc, "on")) and plane.on in OUTER_HULL:
            self._on_hull(plane.fs_m, (*loc, "fs"))

    def _surface(self, on: str, loc: Location) -> bool:
        airframe = self.draft.airframe
        return airframe is not None and self._known(on, "surface", surfaces(airframe), loc)

    def _on_hull(self, span: Range, loc: Location) -> None:
        airframe = self.draft.airframe
        if airframe is not None and (words := off_hull(airframe.record, span)):
            self._say(loc, words, "a station on the hull")

    def _cable(self, loc: Location, cable: Assembly) -> None:
        if cable.type != UNKNOWN:
            self._known(cable.type, "cable type", self.catalog.cables, (*loc, "type"))
        for number, plug in enumerate(cable.plugs):
            self._plug(plug, (*loc, "plugs", number))
        for key, nodes in (("via", cable.via), ("avoid", cable.avoid)):
            for number, node in enumerate(nodes):
                self._node(node, (*loc, key, number))
        self._known(cable.group, "group", self.draft.named("groups"), (*loc, "group"))
        self._lengths(loc, cable)

    def _lengths(self, loc: Location, cable: Assembly) -> None:
        if not isinstance(cable.length_m, Missing | None) and cable.length_m <= 0.0:
            self._say((*loc, "length"), "the length is not above zero", "a measured length")
        ends: list[tuple[Location, float | Missing | None]] = [
            (("drip_loop",), cable.drip_loop_m),
            (("retermination",), cable.retermination_m),
        ]
        for key, values in (("loops", cable.loops_m), ("drops", cable.drops_m)):
            ends += [((key, number), value) for number, value in enumerate(values or ())]
        for way, value in ends:
            if not isinstance(value, Missing | None) and value < 0.0:
                self._say((*loc, *way), "a length is never negative", "such as 3 in")
        ageing = cable.ageing_ratio
        if not isinstance(ageing, Missing | None) and ageing < 0.0:
            self._say((*loc, "ageing"), "never negative", "such as 10 %")

    def _part(self, loc: Location, part: Part) -> None:
        self._node(part.at, (*loc, "at"))
        if self._known(part.type, "inline part", self.catalog.inline_parts, (*loc, "type")):
            ports = self.catalog.inline_parts[part.type].ports
            for port in part.ports:
                self._known(port, "port", ports, (*loc, "ports", port))
