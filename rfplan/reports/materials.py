# SPDX-License-Identifier: Apache-2.0
"""Plugs, parts and antennas that a change needs, each with where it is used."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from rfplan.model.assessment import Assessment
from rfplan.model.catalog import AntennaType, InlinePart
from rfplan.model.plan import Antenna, Part, Plan
from rfplan.model.record import ById
from rfplan.reports.cable_order import PART_NUMBER
from rfplan.reports.cells import listed, nothing, number, words, words_or_nothing
from rfplan.reports.heading import signature
from rfplan.reports.labels import assembly_ends
from rfplan.reports.sheet import Cell, Field, Table, number_field, table, text_field
from rfplan.reports.since_found import (
    AS_FOUND,
    NEW,
    REPLACED,
    antenna_change,
    new_cables,
    part_change,
)


def plugs_table(assessment: Assessment) -> Table:
    """Return the plugs of the new assemblies by type, with the end each goes on."""
    fitted = assessment.plan.installation
    ends = assembly_ends(fitted, assessment.catalog)
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


@dataclass(frozen=True, slots=True)
class Batch:
    """Antennas or parts of one type that the change needs in one way."""

    type: str
    change: str
    ids: tuple[str, ...]

    @property
    def bought(self) -> bool:
        """Whether they are ordered; what is only moved goes back in."""
        return self.change in (NEW, REPLACED)


def _batches(
    fitted: ById[Antenna] | ById[Part], change: Callable[[str, Plan], str], plan: Plan
) -> list[Batch]:
    """Return what is not as found, by type and by what becomes of it."""
    ids: dict[tuple[str, str], list[str]] = {}
    for id in sorted(fitted):
        if (word := change(id, plan)) != AS_FOUND:
            ids.setdefault((fitted[id].type, word), []).append(id)
    return [Batch(type, word, tuple(some)) for (type, word), some in sorted(ids.items())]


def parts_table(assessment: Assessment) -> Table:
    """Return the inline parts that are new or changed, by type, with the paths through them."""
    plan, titles = assessment.plan, assessment.catalog.inline_parts
    fitted = plan.installation.parts
    fields: list[Field[Batch]] = [
        text_field("type", "part", lambda some: words(some.type)),
        text_field("title", "title", lambda some: _title(titles.get(some.type))),
        *_counted(lambda part: " at ".join(filter(None, (part, fitted[part].at))), assessment),
    ]
    batches = _batches(fitted, part_change, plan)
    return table("parts", "Inline parts", fields, batches)


def antennas_table(assessment: Assessment) -> Table:
    """Return the antennas that are new, of another type, or taken from where they were found."""
    plan, titles = assessment.plan, assessment.catalog.antennas
    fields: list[Field[Batch]] = [
        text_field("type", "antenna", lambda some: words(some.type)),
        text_field("title", "title", lambda some: _title(titles.get(some.type))),
        *_counted(str, assessment),
    ]
    batches = _batches(plan.installation.antennas, antenna_change, plan)
    return table("antennas", "Antennas", fields, batches)


def _title(entry: AntennaType | InlinePart | None) -> Cell:
    return words_or_nothing(entry.title if entry else None)


def _counted(placed: Callable[[str], str], assessment: Assessment) -> list[Field[Batch]]:
    """What becomes of a batch, how many it is, which, where they are used, and what to order."""
    return [
        text_field("change", "change", lambda some: words(some.change)),
        number_field("count", "count", "", lambda some: number(len(some.ids), "")),
        text_field("ids", "which", lambda some: listed(map(placed, some.ids))),
        text_field("paths", "used in", lambda some: listed(_paths_of(some.ids, assessment))),
        text_field("part_number", PART_NUMBER, _order),
    ]


def _order(some: Batch) -> Cell:
    if some.bought:
        return signature()
    return nothing("the one found" if len(some.ids) == 1 else "the ones found")


def _paths_of(ids: tuple[str, ...], assessment: Assessment) -> list[str]:
    paths = assessment.plan.installation.paths
    return [
        path_id
        for path_id in sorted(paths)
        if any(member.partition(".")[0] in ids for member in paths[path_id].chain)
    ]
