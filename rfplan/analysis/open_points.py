# SPDX-License-Identifier: Apache-2.0
"""What is missing, and what still needs a measurement or somebody's name?"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import replace
from functools import partial

from rfplan.analysis.couplings import standing_readings
from rfplan.analysis.facts import Facts
from rfplan.analysis.measured import fingerprint
from rfplan.analysis.signal_path import Chain
from rfplan.analysis.weight import stated_mass
from rfplan.model.catalog import Catalog
from rfplan.model.findings import Finding, OpenPoint
from rfplan.model.rulebook import Strictness
from rfplan.model.weight import WeightItem

SECTIONS = ("units", "antennas", "ground_planes", "cables", "parts", "paths")

AIRFRAME = ("weight", "speeds")
"""Objects that are parts of the airframe file."""


def where_of(facts: Facts, object: str, field: str) -> tuple[str, ...]:
    """Return the keys that lead to a field: in the plan, else in the catalogue entry's file."""
    id, _, port = object.partition(".")
    for section in SECTIONS:
        if id in getattr(facts.installation, section):
            ports = ("ports", port) if port and section == "units" else ()
            return (section, id, *ports, field)
    if object in AIRFRAME:
        return ("airframe", object)
    for kind in ("cables", "connectors", "inline_parts", "antennas"):
        if id in getattr(facts.catalog, kind):
            return ("catalog", kind, id, field)
    return (object, field)


def _point(facts: Facts, object: str, field: str, text: str, *accepted: object) -> OpenPoint:
    """Return a point to confirm; `accepted` is what somebody accepts who lets it stand."""
    where = where_of(facts, object, field)
    return OpenPoint(object, field, False, text, where, accepts=accepted)


def blocking(facts: Facts, undecided: dict[str, tuple[str, ...]]) -> Iterator[OpenPoint]:
    """Yield the values that keep a path from a verdict, from the names that each band left."""
    for path, names in undecided.items():
        chain = facts.chains[path]
        for name in names:
            object, _, field = name.rpartition(".")
            if object == "port":
                object = f"{chain.unit}.{chain.port_id}"
            text = f"{object}: {field} is not known, and it decides path {path}"
            yield OpenPoint(object, field, True, text, where_of(facts, object, field))


def to_confirm(facts: Facts) -> Iterator[OpenPoint]:
    """Yield what is there but assumed, from memory, estimated or not yet verified."""
    for type, item in facts.loss_sources().items():
        words, losses = item.source.words(), _losses(type, facts.catalog)
        if item.source.unverified:
            text = f"{type}: loss rests on {words}"
            yield _point(facts, type, "loss", text, losses, words, item.extrapolated)
        elif item.extrapolated:
            text = f"{type}: loss is read beyond the end of its table"
            yield _point(facts, type, "loss", text, losses, words, item.extrapolated)
    for id, run in facts.runs.items():
        if run.drop_estimated and run.as_built_m is None:
            text = f"{id}: drops are estimated from coordinates, to a fifth of themselves"
            yield _point(facts, id, "drops", text, run.terms and run.terms.drops_m)
    for id, plane in facts.installation.ground_planes.items():
        if plane.verified in (None, "?"):
            text = f"{id}: nobody has verified this ground plane"
            yield _point(facts, id, "verified", text, plane.of, plane.on, plane.fs_m, plane.bl_m)
    for chain in facts.chains.values():
        yield from _port(facts, chain)
    yield from _weight(facts)
    yield from _air_loads(facts)
    yield from _records(facts)


def unbacked(findings: Iterable[Finding]) -> Iterator[OpenPoint]:
    """Yield each waiver of a limit that names no approved data; an advice needs none."""
    for finding in findings:
        note = finding.waiver
        if note is None or finding.strictness is Strictness.ADVICE or note.approved_data:
            continue
        text = f"{note.id}: names no approved data; a limit that is not met needs it before release"
        yield OpenPoint(note.id, "approved_data", False, text, ("waivers", note.id), note.who)


def _losses(type: str, catalog: Catalog) -> tuple[object, ...]:
    """Return every figure of loss that the entry of a type has; 'gnss_l1 pigtail' is a type too."""
    id = type.partition(" ")[0]
    if id in catalog.cables:
        return (catalog.cables[id].attenuation,)
    if id in catalog.inline_parts:
        part = catalog.inline_parts[id]
        return part.loss, *(port.loss for port in part.ports.values())
    if id in catalog.connectors:
        return (catalog.connectors[id].loss,)
    return (catalog.antennas[id].pigtail,) if id in catalog.antennas else ()


def _weight(facts: Facts) -> Iterator[OpenPoint]:
    """Yield one point for all masses that the new empty weight lacks, one for those assumed."""
    if facts.weight.before is None:
        return
    used = [one for one in facts.weight.items if one.within_kg is not None]
    if loose := [one for one in used if not one.is_known or _assumed(facts, one)]:
        names = ", ".join(dict.fromkeys(item.id for item in loose))
        text = f"weight: the mass of {names} is assumed, or told within bounds; to be weighed"
        bounds = [(one.kind, one.id, one.type, one.count, one.within_kg) for one in loose]
        yield _point(facts, "weight", "masses", text, *bounds)
    if unknown := [one for one in facts.weight.unknown if one.change_within_kg is None]:
        names = ", ".join(dict.fromkeys(item.id for item in unknown))
        text = f"weight: mass or station of {names} is not known; the new weight holds the rest"
        accepted = [(one.kind, one.id, one.type, one.count, one.installed) for one in unknown]
        yield _point(facts, "weight", "mass", text, *accepted)


def _assumed(facts: Facts, item: WeightItem) -> bool:
    """Whether the mass that the plan states for an item has no source that was weighed or read."""
    stated = stated_mass(facts.plan, item.id, item.type)
    return stated is None or facts.plan.source(stated.source).unverified


def _air_loads(facts: Facts) -> Iterator[OpenPoint]:
    """Yield what keeps the drag of antennas that went up from being computed."""
    went_up = [load for load in facts.air_loads if load.installed]
    if went_up and facts.plan.airframe.speeds is None:
        names = ", ".join(load.id for load in went_up)
        text = f"speeds: the airframe states no VNE; the drag of {names} is not computed"
        yield _point(facts, "speeds", "vne", text, names)
    for type in dict.fromkeys(load.type for load in went_up if load.area_m2 is None):
        names = ", ".join(load.id for load in went_up if load.type == type)
        text = f"{type}: no frontal area is stated; the drag of {names} is not computed"
        yield _point(facts, type, "frontal_area", text, names)


def _port(facts: Facts, chain: Chain) -> Iterator[OpenPoint]:
    """Yield what a port leaves open: its document, and levels with limits that are not given."""
    port, object = chain.port, f"{chain.unit}.{chain.port_id}"
    radio, sources = facts.rulebook.radios[port.radio], facts.plan.sources
    if port.source is None:
        text = f"{object}: no document is named for the limits that path {chain.id} is judged by"
        yield _point(facts, object, "source", text, port)
    elif port.source in sources and sources[port.source].unverified:
        words = sources[port.source].words()
        text = f"{object}: its limits rest on {words}"
        yield _point(facts, object, "source", text, port, words)
    if chain.antenna_type.supply_v is not None and not _is_fed(facts, chain.antenna):
        text = f"{object}: no feed is given; the supply of {chain.antenna} is not judged"
        yield _point(
            facts, object, "feed", text, chain.antenna_type.id, chain.antenna_type.supply_v
        )
    for field, given, limits in (
        ("power", port.power_w, radio.classes),
        ("sensitivity", port.sensitivity_dbm, radio.sensitivity),
    ):
        if limits and not given:
            text = f"{object}: no {field} is given; its limits at the antenna end are not judged"
            yield _point(facts, object, field, text, port.class_, limits)


def _is_fed(facts: Facts, antenna: str) -> bool:
    """Whether some port behind an antenna says what volts it sends, or that it sends none."""
    return any(
        chain.port.feed_v is not None for chain in facts.chains.values() if chain.antenna == antenna
    )


def _records(facts: Facts) -> Iterator[OpenPoint]:
    for id, reading in facts.readings.items():
        measurement, chain = reading.measurement, facts.chains[reading.path]
        accepted = replace(measurement, bound=None), fingerprint(chain)
        told = partial(OpenPoint, where=("measurements", id), who=measurement.who)
        lacks = measurement.temperature_c is None or measurement.uncertainty_db is None
        if lacks and measurement.loss_db is not None:
            text = f"{id}: without temperature and uncertainty the window keeps the prediction"
            yield told(id, "temperature", False, text, accepts=accepted)
        if reading.stale:
            text = f"{id}: stale, {reading.path} has changed since the reading"
            yield told(id, "bound", False, text, accepts=accepted)
    for id, (read, moved) in standing_readings(facts.scene).items():
        if moved:
            text = f"{id}: stale, {' and '.join(read.between)} have moved since the reading"
            where = ("isolation", id)
            yield OpenPoint(id, "apart", False, text, where, read.who, accepts=(read,))
    for role, person in facts.plan.people.items():
        if person.name == "?":
            yield OpenPoint(role, "name", False, f"{role}: no name yet", ("people", role))
