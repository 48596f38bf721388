# SPDX-License-Identifier: Apache-2.0
"""Plugs, parts and antennas that a change needs, each with where it is used."""

from __future__ import annotations

from rfplan.model.assessment import Assessment
from rfplan.model.plan import Antenna
from rfplan.reports.cable_order import PART_NUMBER
from rfplan.reports.cells import listed, nothing, number, words, words_or_nothing
from rfplan.reports.heading import signature
from rfplan.reports.labels import assembly_ends
from rfplan.reports.sheet import Cell, Field, Table, number_field, table, text_field
from rfplan.reports.since_found import (
    AS_FOUND,
    MOVED,
    antenna_change,
    new_cables,
    part_change,
)


def plugs_table(assessment: Assessment) -> Table:
    """Return the plugs of the new assemblies by type, with the end each goes on."""
    fitted = assessment.plan.installation
    ends = assembly_ends(fitted)
    used: dict[str, list[str]] = {}
    for id in new_cables(assessment):
        plugs = fitted.cables[id].plugs
        for plug, member in zip(plugs, (ends[id].near, ends[id].far), strict=True):
            used.setdefault(plug, []).append(f"{id} at {member}")
    fields: list[Field[tuple[str, list[str]]]] = [
        text_field("type", "plug", lambda row: words(row[0])),
        number_field("count", "count", "", lambda row: number(len(row[1]), "")),
        text_field("coupling", "coupling", lambda row: _coupling(row[0], assessment)),
        text_field("used", "used on", lambda row: listed(row[1])),
        text_field("part_number", PART_NUMBER, lambda row: signature()),
    ]
    return table("plugs", "Plugs by type", fields, sorted(used.items()))


def _coupling(type: str, assessment: Assessment) -> Cell:
    connector = assessment.catalog.connectors.get(type)
    if connector is None:
        return nothing("?")
    wire = "lock wire" if connector.safety_wire else None
    return listed(filter(None, (connector.form, connector.coupling, wire)))


def parts_table(assessment: Assessment) -> Table:
    """Return the inline parts that are new, with the paths that go through each."""
    plan = assessment.plan
    new = [id for id in sorted(plan.installation.parts) if part_change(id, plan) != AS_FOUND]
    fields: list[Field[str]] = [
        text_field("id", "part", words),
        text_field("type", "type", lambda part: words(plan.installation.parts[part].type)),
        text_field("title", "title", lambda part: _part_title(part, assessment)),
        text_field("at", "at", lambda part: words_or_nothing(plan.installation.parts[part].at)),
        text_field("paths", "used in", lambda part: listed(_paths_of(part, assessment))),
        text_field("part_number", PART_NUMBER, lambda part: signature()),
    ]
    return table("parts", "Inline parts", fields, new)


def _part_title(id: str, assessment: Assessment) -> Cell:
    part = assessment.plan.installation.parts[id]
    known = assessment.catalog.inline_parts.get(part.type)
    return words_or_nothing(known.title if known else None)


def _paths_of(id: str, assessment: Assessment) -> list[str]:
    paths = assessment.plan.installation.paths
    return [
        path_id
        for path_id in sorted(paths)
        if any(member.partition(".")[0] == id for member in paths[path_id].chain)
    ]


def antennas_table(assessment: Assessment) -> Table:
    """Return the antennas that are new, of another type, or taken from where they were found."""
    plan = assessment.plan
    fitted = plan.installation.antennas
    changed = [id for id in sorted(fitted) if antenna_change(id, plan) != AS_FOUND]
    fields: list[Field[str]] = [
        text_field("id", "antenna", words),
        text_field("change", "change", lambda one: words(antenna_change(one, plan))),
        text_field("type", "type", lambda one: words(fitted[one].type)),
        text_field("title", "title", lambda one: _antenna_title(fitted[one], assessment)),
        text_field("on", "on", lambda one: words(fitted[one].on)),
        text_field("paths", "used in", lambda one: listed(_paths_of(one, assessment))),
        text_field("part_number", PART_NUMBER, lambda one: _antenna_order(one, assessment)),
    ]
    return table("antennas", "Antennas", fields, changed)


def _antenna_title(antenna: Antenna, assessment: Assessment) -> Cell:
    known = assessment.catalog.antennas.get(antenna.type)
    return words_or_nothing(known.title if known else None)


def _antenna_order(id: str, assessment: Assessment) -> Cell:
    moved = antenna_change(id, assessment.plan) == MOVED
    return nothing("the one found") if moved else signature()
