# SPDX-License-Identifier: Apache-2.0
"""What does the signal go through? A path's chain as elements, mated pairs counted."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field
from math import isfinite

from rfplan.model.assessment import CableRun
from rfplan.model.catalog import AntennaType, Catalog, Connector, InlinePart, LossSet
from rfplan.model.plan import Installation, Path, Port
from rfplan.model.record import ById
from rfplan.model.rulebook import Radio
from rfplan.model.source import UNSOURCED, Source

PLAIN = ("bulkhead", "adapter")
"""Parts that are metal from end to end."""


@dataclass(frozen=True, slots=True)
class Element:
    """One thing a signal goes through: a cable run, or something with insertion-loss sets."""

    kind: str
    id: str | None
    type: str
    run: CableRun | None = None
    losses: ById[LossSet] = field(default_factory=ById)
    sources: ById[Source] = field(default_factory=ById)
    end: str | None = None
    plugs: tuple[str | None, str | None] = (None, None)
    mates: bool = True
    part: InlinePart | None = None
    port: str = ""

    @property
    def dc(self) -> str | None:
        """What an element does with direct current: pass, block, or not known.

        A bulkhead or an adapter passes it unless it says otherwise.
        """
        if self.part is None:
            return "pass"
        own = self.part.ports[self.port].dc if self.port else None
        return own or self.part.dc or ("pass" if self.part.kind in PLAIN else None)

    def source(self) -> Source:
        """The source of the first loss set, or none at all."""
        for loss in self.losses.values():
            return self.sources.get(loss.source or "", UNSOURCED)
        return UNSOURCED


@dataclass(frozen=True, slots=True)
class Chain:
    """A path resolved: its port, its antenna, and its elements in order from the unit."""

    id: str
    unit: str
    port_id: str
    port: Port
    antenna: str
    antenna_type: AntennaType
    elements: tuple[Element, ...]

    def directions(self, radio: Radio) -> set[str]:
        """Return which ways its radio is used through the port."""
        return {str(band.direction) for band in radio.bands.values()} - self.port.silent

    @property
    def pairs(self) -> tuple[Element, ...]:
        """The mated pairs."""
        return tuple(element for element in self.elements if element.kind == "mated_pair")

    @property
    def runs(self) -> tuple[CableRun, ...]:
        """The cable runs."""
        return tuple(element.run for element in self.elements if element.run is not None)

    @property
    def varying(self) -> CableRun | None:
        """The longest cable of known type and length: the one to lengthen or to cut."""
        known = [run for run in self.runs if run.type != "?" and isfinite(run.length_m.nominal)]
        return max(known, key=lambda run: run.length_m.nominal, default=None)


@dataclass(frozen=True, slots=True)
class _Link:
    """A member of the chain with the plug it shows on either side."""

    entry: str | None
    exit: str | None
    element: Element | None


def _links(
    path: Path, fitted: Installation, runs: ById[CableRun], catalog: Catalog
) -> Iterator[_Link]:
    for member in path.chain[1:-1]:
        id, _, port = member.partition(".")
        if id in fitted.cables:
            assembly = fitted.cables[id]
            element = Element("cable", id, assembly.type, run=runs[id])
            yield _Link(assembly.plugs[0], assembly.plugs[1], element)
        else:
            part = catalog.inline_parts[fitted.parts[id].type]
            yield _part_link(id, port, part)


def _part_link(id: str, port: str, part: InlinePart) -> _Link:
    """Return a part with its plugs; the branches of a combiner are those of its antennas."""
    if port:
        branch = part.ports[port]
        element = part_element(id, part, port)
        if part.kind == "combiner":
            return _Link(part.common, branch.plug, element)
        return _Link(branch.plug, part.common, element)
    plugs = part.plugs or (part.common, None)
    return _Link(plugs[0], plugs[1], part_element(id, part))


def part_element(id: str, part: InlinePart, port: str = "") -> Element:
    """Return an inline part as an element, by one of its branches where it has several."""
    losses = part.ports[port].loss if port else part.loss
    return Element(
        _kind(part), id, part.id, losses=losses, sources=part.sources, part=part, port=port
    )


def _kind(part: InlinePart) -> str:
    return "splitter" if part.kind == "combiner" else part.kind


def _connector(plugs: tuple[str | None, str | None], catalog: Catalog) -> Connector | None:
    """The entry whose loss counts for a pair: an angle form before a straight one."""
    known = [catalog.connectors[plug] for plug in plugs if plug and plug in catalog.connectors]
    return min(known, key=lambda entry: entry.form, default=None)


def mated_pair(plugs: tuple[str | None, str | None], end: str | None, catalog: Catalog) -> Element:
    """Return the pair that two neighbours of a chain make."""
    entry = _connector(plugs, catalog)
    series = {
        catalog.connectors[plug].series for plug in plugs if plug and plug in catalog.connectors
    }
    return Element(
        kind="mated_pair",
        id=None,
        type=entry.id if entry else "?",
        losses=entry.loss if entry else ById(),
        sources=entry.sources if entry else ById(),
        end=end,
        plugs=plugs,
        mates=len(series) < 2,
    )


def antenna_plug(antenna: AntennaType, port: str) -> str | None:
    """Return the plug of an antenna, or of one of its ports."""
    return antenna.ports[port].plug if port else antenna.plug


def resolve(
    id: str, path: Path, fitted: Installation, runs: ById[CableRun], catalog: Catalog
) -> Chain:
    """Return a path as elements; each neighbour pair of the chain is one mated pair."""
    unit_id, _, port_id = path.chain[0].partition(".")
    antenna_id, _, antenna_port = path.chain[-1].partition(".")
    port = fitted.units[unit_id].ports[port_id]
    antenna_type = catalog.antennas[fitted.antennas[antenna_id].type]
    links = list(_links(path, fitted, runs, catalog))
    elements: list[Element] = []
    shown = port.plug
    for index, link in enumerate(links):
        elements.append(mated_pair((shown, link.entry), None if index else "unit", catalog))
        if link.element:
            elements.append(link.element)
        shown = link.exit
    elements.append(
        mated_pair((shown, antenna_plug(antenna_type, antenna_port)), "antenna", catalog)
    )
    if antenna_type.pigtail:
        elements.append(
            Element(
                "adapter",
                antenna_id,
                f"{antenna_type.id} pigtail",
                losses=antenna_type.pigtail,
                sources=antenna_type.sources,
            )
        )
    return Chain(id, unit_id, port_id, port, antenna_id, antenna_type, tuple(elements))


def cable_ends(fitted: Installation) -> dict[str, tuple[str, str]]:
    """Return, for each assembly some path uses, the members of the chain on its two sides."""
    ends: dict[str, tuple[str, str]] = {}
    for path in fitted.paths.values():
        chain = path.chain
        for before, member, after in zip(chain, chain[1:], chain[2:], strict=False):
            if member in fitted.cables:
                ends.setdefault(member, (before.partition(".")[0], after.partition(".")[0]))
    return ends
