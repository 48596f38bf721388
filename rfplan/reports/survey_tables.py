# SPDX-License-Identifier: Apache-2.0
"""The tables of the survey form: the walk, ports and their documents, cables, segments."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass

from rfplan.analysis.routing import network
from rfplan.model.assessment import Assessment
from rfplan.model.findings import Verdict
from rfplan.model.plan import Assembly, Port
from rfplan.reports.cells import (
    NOT_APPLICABLE,
    UNKNOWN,
    length,
    listed,
    nothing,
    number,
    printed,
    words,
    words_or_nothing,
)
from rfplan.reports.context import Context
from rfplan.reports.heading import signature
from rfplan.reports.labels import Ends, assembly_ends
from rfplan.reports.places import Spot, antenna_spot, node_spot, spot_fields, spot_of, unit_spot
from rfplan.reports.sheet import Cell, Column, Field, Table, number_field, table, text_field
from rfplan.units import Missing, Range

EMPTY_LINES = 10

OPEN = str(Verdict.INCOMPLETE)


@dataclass(frozen=True, slots=True)
class _Stop:
    """One thing on the walk."""

    kind: str
    id: str
    what: str
    spot: Spot


def walk_table(assessment: Assessment, context: Context) -> Table:
    """Return nodes, units and antennas from nose to tail, each with blanks to measure it again."""
    fields: list[Field[_Stop]] = [
        text_field("kind", "kind", lambda stop: words(stop.kind)),
        text_field("id", "id", lambda stop: words(stop.id)),
        text_field("what", "what is there", lambda stop: _marked(stop.what)),
        *spot_fields(context.units, lambda stop: stop.spot),
        text_field("read", "FS, BL, WL as read", lambda stop: signature()),
    ]
    stops = sorted(_stops(assessment), key=_from_nose)
    return table("walk", "The walk, nose to tail", fields, stops, stub=2)


def to_enter(assessment: Assessment) -> tuple[tuple[str, str], ...]:
    """Return kind and id of what the plan takes readings of, in the order of the form."""
    stops = sorted(_stops(assessment), key=_from_nose)
    antennas = (("antenna", stop.id) for stop in stops if stop.kind == "antenna")
    cables = (("cable", id) for id in assessment.plan.installation.cables)
    return *antennas, *cables


def _from_nose(stop: _Stop) -> tuple[bool, float, float, str, str]:
    """Things without a place come last."""
    fs_m, bl_m, _ = stop.spot
    return fs_m is None, fs_m or 0.0, bl_m or 0.0, stop.kind, stop.id


def _stops(assessment: Assessment) -> Iterator[_Stop]:
    fitted, route = assessment.plan.installation, assessment.plan.airframe.route
    for id, node in route.nodes.items():
        holes = "" if node.passes is None else f", {node.passes} passes"
        yield _Stop("node", id, f"{node.is_ or id}{holes}", spot_of(node.at))
    for id, unit in fitted.units.items():
        yield _Stop("unit", id, unit.title or UNKNOWN, unit_spot(unit, assessment))
    for id, antenna in fitted.antennas.items():
        spot = antenna_spot(id, assessment)
        yield _Stop("antenna", id, f"{antenna.type} on {antenna.on}", spot)
    for id, part in fitted.parts.items():
        yield _Stop("part", id, part.type, node_spot(part.at, assessment))


_PortRow = tuple[str, Port]


def ports_table(assessment: Assessment) -> Table:
    """Return every port with its limits and document; what is not known stands out."""
    fields: list[Field[_PortRow]] = [
        text_field("port", "port", lambda row: words(row[0])),
        text_field("radio", "radio", lambda row: words(row[1].radio)),
        text_field("plug", "plug", lambda row: _marked(row[1].plug or UNKNOWN)),
        text_field("loss", "loss window", lambda row: _loss(row[1])),
        text_field("power", "power", lambda row: _power(row[1])),
        text_field("feed", "feeds", lambda row: _feed(row[1])),
        text_field("document", "document", lambda row: _document(row[1], assessment)),
    ]
    units = assessment.plan.installation.units
    rows = [(f"{id}.{name}", port) for id in units for name, port in units[id].ports.items()]
    return table("ports", "Ports and their documents", fields, rows)


def _loss(port: Port) -> Cell:
    if port.unused:
        return nothing("unused")
    if not port.loss_db:
        return _marked(UNKNOWN)
    many = len(port.loss_db) > 1
    told = [
        f"{name} {_span(span, 'dB')}" if many else _span(span, "dB")
        for name, span in port.loss_db.items()
    ]
    return _marked(", ".join(told))


def _marked(text: str) -> Cell:
    """Words that stand out where a '?' is among them."""
    return words(text, OPEN if UNKNOWN in text.split() else "")


def _document(port: Port, assessment: Assessment) -> Cell:
    known = assessment.plan.sources.get(port.source or "")
    return words(known.words()) if known else _marked(port.source or UNKNOWN)


def _power(port: Port) -> Cell:
    return nothing() if port.power_w is None else _marked(_span(port.power_w, "W"))


def _feed(port: Port) -> Cell:
    return nothing() if port.feed_v is None else _marked(_span(port.feed_v, "V"))


def _span(span: Range, unit: str) -> str:
    if span.low == span.high and isinstance(span.low, Missing):
        return span.low.value
    ends = [
        one.value if isinstance(one, Missing) else printed(one, "") for one in (span.low, span.high)
    ]
    return f"{' .. '.join(dict.fromkeys(ends))} {unit}"


_CableRow = tuple[str, Assembly]


def cables_table(assessment: Assessment, context: Context) -> Table:
    """Return every assembly with its type, plugs, length and age, and blanks for what is read."""
    fitted = assessment.plan.installation
    ends = assembly_ends(fitted, assessment.catalog)
    fields: list[Field[_CableRow]] = [
        text_field("id", "cable", lambda row: words(row[0])),
        text_field("type", "type", lambda row: _marked(row[1].type)),
        text_field("from", "from", lambda row: words_or_nothing(_end(ends.get(row[0]), "near"))),
        text_field("to", "to", lambda row: words_or_nothing(_end(ends.get(row[0]), "far"))),
        text_field("plugs", "plugs", lambda row: listed(row[1].plugs)),
        number_field("length", "length", context.units, lambda row: _length(row[1], context)),
        number_field("age", "age", "yr", lambda row: number(row[1].age_yr, "yr")),
        text_field("print", "print on jacket", lambda row: signature()),
        text_field("read", "length read", lambda row: signature()),
        text_field("state", "condition", lambda row: signature()),
    ]
    return table("cables", "Cables", fields, list(fitted.cables.items()))


def _end(ends: Ends | None, side: str) -> str:
    if ends is None:
        return ""
    return ends.near if side == "near" else ends.far


def _length(assembly: Assembly, context: Context) -> Cell:
    if isinstance(assembly.length_m, Missing):
        return nothing(UNKNOWN)
    return length(assembly.length_m, context.units, absent=NOT_APPLICABLE)


_SegmentRow = tuple[str, float | None, float]


def segments_table(assessment: Assessment, context: Context) -> Table:
    """Return the segments of the route, with the straight line that none may fall short of."""
    units = context.units
    fields: list[Field[_SegmentRow]] = [
        text_field("id", "segment", lambda row: words(row[0])),
        number_field("length", "along the structure", units, lambda row: length(row[1], units)),
        number_field("straight", "straight line", units, lambda row: length(row[2], units)),
        text_field("known", "known", lambda row: _marked(_standing(row, assessment))),
        text_field("read", "read", lambda row: signature()),
    ]
    return table("segments", "Segments of the route", fields, _segments(assessment))


def _standing(row: _SegmentRow, assessment: Assessment) -> str:
    """Whether a segment is measured, or shut off for this serial number."""
    plan = assessment.plan
    overlay = plan.airframe.variants.get(plan.variant or "")
    if overlay is not None and row[0] in overlay.closed:
        return "closed"
    return UNKNOWN if row[1] is None else "yes"


def _segments(assessment: Assessment) -> Iterator[_SegmentRow]:
    route = assessment.plan.airframe.route
    net = network(assessment.plan.airframe, assessment.plan.variant)
    for id in route.segments:
        one, other = id.split("-")
        straight_m = math.dist(net.points[one], net.points[other])
        yield id, net.ways[one].get(other), straight_m


def blank_table(context: Context) -> Table:
    """Return empty lines for what the plan does not know of."""
    columns = (
        *(Column(title, title) for title in ("kind", "id", "what", "on")),
        *(Column(title.lower(), title, context.units) for title in ("FS", "BL", "WL")),
        *(Column(title, title) for title in ("print", "remark")),
    )
    rows = tuple(tuple(signature() for _ in columns) for _ in range(EMPTY_LINES))
    return Table("more", "Also found", columns, rows)
