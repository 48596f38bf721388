# SPDX-License-Identifier: Apache-2.0
"""Edits of an antenna: where it stands, and on what ground plane."""

from __future__ import annotations

from dataclasses import dataclass

from rfplan.edits.edit import Edit
from rfplan.edits.fitting import EditError, fitted, refitted
from rfplan.edits.places import cables_to, check_place, node_after, stated_lengths
from rfplan.model.plan import Plan
from rfplan.units import Missing, Place, show_place


@dataclass(frozen=True, slots=True)
class MoveAntenna(Edit):
    """Put an antenna elsewhere.

    The drop that was stated for its old place no longer holds, and its cable comes from another
    node of the route where that one is now the nearest.
    """

    section = "antennas"

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

    def consequence(self, plan: Plan) -> str:
        """Return which entered figures the move gives up, and which it leaves in doubt."""
        antenna = fitted(plan, "antennas", self.antenna)
        told = [f"the drop of {id} there is estimated now" for id in _stated(plan, self.antenna)]
        node = node_after(plan, antenna, self.on, self.at)
        if node != antenna.node:
            told.append(f"its cable comes from {node} now")
        told += [f"measure {id} anew" for id in stated_lengths(plan.installation, self.antenna)]
        return "; ".join(told)


@dataclass(frozen=True, slots=True)
class SetGroundPlane(Edit):
    """Let an antenna stand on another ground plane, or on none."""

    section = "antennas"

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
    for id, kept in _stated(plan, antenna).items():
        plan = refitted(plan, "cables", id, {"drops_m": None if kept is None else (kept, None)})
    return plan


def _stated(plan: Plan, antenna: str) -> dict[str, float | Missing | None]:
    """Return the cables with a stated drop at an antenna, each with that at its other end."""
    cables = plan.installation.cables
    ends = {id: cables[id].drops_m for id in cables_to(plan.installation, antenna)}
    return {id: drops[0] for id, drops in ends.items() if drops and drops[1] is not None}
