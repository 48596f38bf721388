# SPDX-License-Identifier: Apache-2.0
"""Edits of an antenna: where it stands, and on what ground plane."""

from __future__ import annotations

from dataclasses import dataclass

from rfplan.edits.edit import Edit
from rfplan.edits.fitting import EditError, fitted, refitted
from rfplan.edits.places import check_place, node_after
from rfplan.model.plan import Plan
from rfplan.units import Place, show_place


@dataclass(frozen=True, slots=True)
class MoveAntenna(Edit):
    """Put an antenna elsewhere.

    The drop that was stated for its old place no longer holds, and its cable comes from another
    node of the route where that one is now the nearest.
    """

    antenna: str
    on: str
    at: Place

    def apply(self, plan: Plan) -> Plan:
        check_place(plan.airframe, self.on, self.at)
        antenna = fitted(plan, "antennas", self.antenna)
        values = {"on": self.on, "at": self.at, "node": node_after(plan, antenna, self.on, self.at)}
        moved = refitted(plan, "antennas", self.antenna, values)
        return moved if moved is plan else _without_drops(moved, self.antenna)

    def words(self, plan: Plan) -> str:
        return f"{self.antenna} moved to {show_place(self.at)} on {self.on}"


@dataclass(frozen=True, slots=True)
class SetGroundPlane(Edit):
    """Let an antenna stand on another ground plane, or on none."""

    antenna: str
    plane: str | None

    def apply(self, plan: Plan) -> Plan:
        if self.plane is not None and self.plane not in plan.installation.ground_planes:
            raise EditError(f"there is no ground plane {self.plane} in {plan.state}")
        return refitted(plan, "antennas", self.antenna, {"ground_plane": self.plane})

    def words(self, plan: Plan) -> str:
        plane = f"ground plane {self.plane}" if self.plane else "no ground plane of its own"
        return f"{self.antenna} on {plane}"


def _without_drops(plan: Plan, antenna: str) -> Plan:
    """Let the drops at an antenna be estimated from its place again."""
    for path in plan.installation.paths.values():
        last = path.chain[-2]
        cable = plan.installation.cables.get(last)
        if path.chain[-1].partition(".")[0] == antenna and cable and cable.drops_m:
            kept = cable.drops_m[0]
            drops_m = None if kept is None else (kept, None)
            plan = refitted(plan, "cables", last, {"drops_m": drops_m})
    return plan
