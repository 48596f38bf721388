# SPDX-License-Identifier: Apache-2.0
"""What the state looked at has that was not found so: the work to do, to buy for and to file."""

from __future__ import annotations

from rfplan.model.assessment import Assessment
from rfplan.model.plan import Antenna, Plan

AS_FOUND = "as found"
NEW = "new"
REPLACED = "replaced"
MOVED = "moved"
CHANGED = "changed"


def antenna_change(id: str, plan: Plan) -> str:
    """Return whether an antenna is new, of another type, elsewhere, or as found."""
    was, now = plan.found.antennas.get(id), plan.installation.antennas[id]
    if was is None:
        return NEW
    if was.type != now.type:
        return REPLACED
    return AS_FOUND if _place(was) == _place(now) else MOVED


def _place(antenna: Antenna) -> tuple[object, ...]:
    return antenna.on, antenna.at


def cable_change(id: str, assessment: Assessment) -> str:
    """Return whether an assembly is new, another one, laid elsewhere, or as found."""
    plan = assessment.plan
    was, now = plan.found.cables.get(id), plan.installation.cables[id]
    if was is None:
        return NEW
    if was != now:
        return REPLACED
    masses = [item.mass_kg for item in assessment.weight.items if (item.kind, item.id) == _key(id)]
    if not masses:
        return AS_FOUND
    return MOVED if now.length_m is not None or masses[0] == masses[-1] else REPLACED


def _key(id: str) -> tuple[str, str]:
    return "cable", id


def new_cables(assessment: Assessment) -> list[str]:
    """Return the assemblies that have to be made or bought, by id."""
    return [
        id for id in sorted(assessment.cables) if cable_change(id, assessment) in (NEW, REPLACED)
    ]


def part_change(id: str, plan: Plan) -> str:
    """Return whether a part is new, of another type, changed otherwise, or as found."""
    was, now = plan.found.parts.get(id), plan.installation.parts[id]
    if was is None:
        return NEW
    if was.type != now.type:
        return REPLACED
    return AS_FOUND if was == now else CHANGED


def plane_change(id: str, plan: Plan) -> str:
    """Return whether a ground plane is new, laid otherwise, or as found."""
    was, now = plan.found.ground_planes.get(id), plan.installation.ground_planes[id]
    if was is None:
        return NEW
    same = (was.of, was.on, was.fs_m, was.bl_m) == (now.of, now.on, now.fs_m, now.bl_m)
    return AS_FOUND if same else CHANGED
