# SPDX-License-Identifier: Apache-2.0
"""Edits of a cable assembly: its type, its ends, its way and its lengths."""

from __future__ import annotations

from dataclasses import dataclass, fields
from typing import Any

from rfplan.edits.edit import Edit
from rfplan.edits.fitting import EditError, before, fitted, refitted
from rfplan.edits.values import same
from rfplan.model.plan import Assembly, Measurement, Plan, State
from rfplan.units import Missing, show_length

Length = float | Missing | None
Ends = tuple[Length, Length] | None

_OF_THE_PIECE = ("length_m", "age_yr", "ageing_ratio")


class OfCable:
    """What an edit of an assembly does beside."""

    __slots__ = ()

    section = "cables"

    cable: str

    def consequence(self, plan: Plan) -> str:
        """Return which readings were taken of the assembly as it was."""
        states = list(State)
        later = states[states.index(plan.state) :]
        of_it = [
            id
            for id, one in plan.measurements.items()
            if one.state in later and self.cable in _chain(plan, one)
        ]
        if not of_it:
            return ""
        were = "readings {} were" if len(of_it) > 1 else "reading {} was"
        return f"{were.format(' and '.join(of_it))} taken with the cable before"


def _chain(plan: Plan, reading: Measurement) -> tuple[str, ...]:
    path = getattr(plan, reading.state).paths.get(reading.path)
    return path.chain if path else ()


@dataclass(frozen=True, slots=True)
class SetCable(OfCable, Edit):
    """Make an assembly of another cable; what is told of the piece that it replaces goes."""

    cable: str
    type: str

    def apply(self, plan: Plan) -> Plan:
        replaced, present = before(plan, "cables", self.cable), fitted(plan, "cables", self.cable)
        names = () if replaced is None else _OF_THE_PIECE
        freed = [name for name in names if same(getattr(replaced, name), getattr(present, name))]
        return refitted(plan, "cables", self.cable, {"type": self.type}, freed)

    def words(self, plan: Plan) -> str:
        return f"{self.cable} changed to {self.type}"


@dataclass(frozen=True, slots=True)
class SetEnds(OfCable, Edit):
    """Put other plugs on an assembly."""

    cable: str
    plugs: tuple[str, str]

    def apply(self, plan: Plan) -> Plan:
        return refitted(plan, "cables", self.cable, {"plugs": self.plugs})

    def words(self, plan: Plan) -> str:
        return f"{self.cable} with plugs {self.plugs[0]} and {self.plugs[1]}"


@dataclass(frozen=True, slots=True)
class SetRoute(OfCable, Edit):
    """Lay an assembly another way: nodes it passes, and nodes it keeps away from."""

    cable: str
    via: tuple[str, ...] = ()
    avoid: tuple[str, ...] = ()

    def apply(self, plan: Plan) -> Plan:
        for node in (*self.via, *self.avoid):
            if node not in plan.airframe.route.nodes:
                raise EditError(f"the airframe has no route node {node}")
        return refitted(plan, "cables", self.cable, {"via": self.via, "avoid": self.avoid})

    def words(self, plan: Plan) -> str:
        way = f"via {', '.join(self.via)}" if self.via else "the shortest way"
        around = f", avoiding {', '.join(self.avoid)}" if self.avoid else ""
        return f"{self.cable} laid {way}{around}"


@dataclass(frozen=True, slots=True)
class SetLengths(OfCable, Edit):
    """Give an assembly other lengths; all of them are told, whether they change or not."""

    cable: str
    length_m: Length = None
    loops_m: Ends = None
    drops_m: Ends = None
    drip_loop_m: Length = None
    retermination_m: Length = None
    tolerance_m: float | None = None

    @classmethod
    def of(cls, id: str, assembly: Assembly) -> SetLengths:
        """Return the edit that leaves an assembly as it is, to be changed with `replace`."""
        return cls(id, *(getattr(assembly, f.name) for f in fields(cls)[1:]))

    def apply(self, plan: Plan) -> Plan:
        for name, value in self._lengths().items():
            ends_m = value if isinstance(value, tuple) else (value,)
            if any(isinstance(end_m, float) and end_m < 0.0 for end_m in ends_m):
                raise EditError(f"{self.cable}: {_word(name)} below zero")
        if self.length_m == 0.0:
            raise EditError(f"{self.cable}: length not above zero")
        return refitted(plan, "cables", self.cable, self._lengths())

    def words(self, plan: Plan) -> str:
        present = plan.installation.cables.get(self.cable)
        told = [
            f"{_word(name)} {_shown(value)}"
            for name, value in self._lengths().items()
            if not same(getattr(present, name, None), value)
        ]
        return f"{self.cable} with {', '.join(told) or 'the same lengths'}"

    def _lengths(self) -> dict[str, Any]:
        return {f.name: getattr(self, f.name) for f in fields(self)[1:]}


def _word(name: str) -> str:
    return name.removesuffix("_m").replace("_", " ")


def _shown(value: Any) -> str:
    if isinstance(value, tuple):
        return " and ".join(map(_shown, value))
    if isinstance(value, float):
        return show_length(value, "in")
    return "not stated" if value is None else str(value.value)
