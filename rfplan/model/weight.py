# SPDX-License-Identifier: Apache-2.0
"""What came out of an aircraft and went in since the state found, and what that adds up to."""

from __future__ import annotations

from dataclasses import dataclass

from rfplan.model.airframe import Weight


@dataclass(frozen=True, slots=True)
class WeightItem:
    """One thing taken out or put in: its mass, its station, and how that station is known.

    `within_kg` are the bounds that the plan states for a mass that is not known.
    """

    kind: str
    id: str
    type: str
    mass_kg: float | None
    arm_m: float | None
    basis: str
    count: int
    installed: bool
    within_kg: tuple[float, float] | None = None

    @property
    def is_known(self) -> bool:
        """Whether both mass and station are known."""
        return self.mass_kg is not None and self.arm_m is not None

    @property
    def change_kg(self) -> float | None:
        """The mass, negative where it is taken out; None where mass or station is not known."""
        if self.mass_kg is None or self.arm_m is None:
            return None
        return self.mass_kg if self.installed else -self.mass_kg

    @property
    def change_within_kg(self) -> tuple[float, float] | None:
        """The least and the most that the item adds; None where mass or station has no bounds."""
        known = self.mass_kg is not None
        ends = (self.mass_kg or 0.0,) * 2 if known else self.within_kg
        if ends is None or self.arm_m is None:
            return None
        return ends if self.installed else (-ends[1], -ends[0])

    @property
    def moment_kg_m(self) -> float | None:
        """The moment, negative where it is taken out; None where it is not known."""
        if self.change_kg is None or self.arm_m is None:
            return None
        return self.change_kg * self.arm_m

    @property
    def moment_within_kg_m(self) -> tuple[float, float] | None:
        """The least and the most moment; None where mass or station has no bounds."""
        ends, arm_m = self.change_within_kg, self.arm_m
        if ends is None or arm_m is None:
            return None
        one, other = (end * arm_m for end in ends)
        return min(one, other), max(one, other)


@dataclass(frozen=True, slots=True)
class WeightChange:
    """All items, the sums of the known ones, and what they make of the weight that is stated.

    `empty_kg` and `cg_m` count the known items only; None where the airframe states no weight.
    `empty_within_kg` and `cg_within_m` count all, between their bounds; None where one has none.
    """

    items: tuple[WeightItem, ...] = ()
    change_kg: float = 0.0
    moment_kg_m: float = 0.0
    before: Weight | None = None
    empty_kg: float | None = None
    cg_m: float | None = None
    empty_within_kg: tuple[float, float] | None = None
    cg_within_m: tuple[float, float] | None = None

    @property
    def unknown(self) -> tuple[WeightItem, ...]:
        """The items whose mass or station is not known; no sum holds them."""
        return tuple(item for item in self.items if not item.is_known)
