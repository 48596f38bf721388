# SPDX-License-Identifier: Apache-2.0
"""Cable, plugs, parts and antennas that a change needs, each with where it is used."""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass

from rfplan.model.assessment import Assessment, CableRun
from rfplan.model.plan import Antenna
from rfplan.reports.cells import length, listed, nothing, number, printed, words, words_or_nothing
from rfplan.reports.context import Context
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

PART_NUMBER = "part number"


@dataclass(frozen=True, slots=True)
class _Reel:
    """All new assemblies of one type of cable."""

    type: str
    runs: tuple[CableRun, ...]
    waste_ratio: float | None

    @property
    def sum_m(self) -> float | None:
        """The sum of the cut lengths; None where one of them is not known."""
        lengths = [cut_m(run) for run in self.runs]
        return None if None in lengths else math.fsum(one for one in lengths if one is not None)

    @property
    def order_m(self) -> float | None:
        """The sum with waste, where the policy states one."""
        if self.sum_m is None or self.waste_ratio is None:
            return None
        return self.sum_m * (1.0 + self.waste_ratio)


def cut_m(run: CableRun) -> float | None:
    """Return the length to cut, or of a piece that lies there already; None where not known."""
    return run.as_built_m if run.terms is None else run.terms.cut_m


def cable_table(assessment: Assessment, context: Context) -> Table:
    """Return cable by type: every cut length, their sum, waste, and what is ordered."""
    units, waste_ratio = context.units, assessment.plan.policy.waste_ratio
    by_type: dict[str, list[CableRun]] = {}
    for id in new_cables(assessment):
        by_type.setdefault(assessment.cables[id].type, []).append(assessment.cables[id])
    reels = [_Reel(type, tuple(runs), waste_ratio) for type, runs in sorted(by_type.items())]
    fields: list[Field[_Reel]] = [
        text_field("type", "cable", lambda reel: words(reel.type)),
        text_field("designation", "designation", lambda reel: _designation(reel, assessment)),
        number_field("assemblies", "assemblies", "", lambda reel: number(len(reel.runs), "")),
        text_field("cuts", "cut lengths", lambda reel: _cuts(reel.runs, context)),
        number_field("sum", "sum", units, lambda reel: length(reel.sum_m, units)),
        text_field("waste", "waste", _waste),
        number_field("order", "order", units, lambda reel: _order(reel, context)),
        text_field("part_number", PART_NUMBER, lambda reel: signature()),
    ]
    return table("cable", "Cable by type", fields, reels)


def _designation(reel: _Reel, assessment: Assessment) -> Cell:
    cable = assessment.catalog.cables.get(reel.type)
    return words_or_nothing(cable.designation if cable else None)


def _cuts(runs: Iterable[CableRun], context: Context) -> Cell:
    return listed(f"{run.id} {length(cut_m(run), context.units).text}" for run in runs)


def _waste(reel: _Reel) -> Cell:
    if reel.waste_ratio is None:
        return nothing("none stated")
    return words(f"{printed(100.0 * reel.waste_ratio, '%')} %")


def _order(reel: _Reel, context: Context) -> Cell:
    return nothing("____") if reel.waste_ratio is None else length(reel.order_m, context.units)


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
