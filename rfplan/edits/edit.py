# SPDX-License-Identifier: Apache-2.0
"""What every edit can do, and the one edit that puts values in place as they are."""

from __future__ import annotations

from abc import ABC, abstractmethod
from collections.abc import Iterable
from dataclasses import dataclass, fields
from typing import Any, ClassVar, cast

from rfplan.edits.as_json import encoded
from rfplan.edits.fitting import EditError
from rfplan.edits.places import cables_to
from rfplan.edits.values import Value, with_values
from rfplan.model.plan import Installation, Plan, State
from rfplan.model.record import yaml_name

_SECTIONS = {
    *(state.value for state in State),
    *(f.name for f in fields(Installation)),
    *("measurements", "waivers", "accepted", "people", "spacing", "zones", "nodes", "segments"),
}

_HEAD = {"revision": "revision", "people": "revision"}
"""What of a plan's head is one thing to whoever changes it."""


class Edit(ABC):
    """One change of a plan."""

    __slots__ = ()

    section: ClassVar[str]
    """The part of a plan that holds the thing which the first field of the edit names."""

    def changes(self, plan: Plan) -> tuple[str, ...]:
        """Return the things of a plan that the edit is of, named as `things` does."""
        return (f"{self.section} {getattr(self, fields(cast(Any, self))[0].name)}",)

    @abstractmethod
    def apply(self, plan: Plan) -> Plan:
        """Return the plan after the edit; raises EditError where it cannot be made."""

    @abstractmethod
    def words(self, plan: Plan) -> str:
        """Return what the edit does to a plan, in words for a screen."""

    def consequence(self, plan: Plan) -> str:
        """Return what the edit does to a plan beside, in words, '' if there is nothing to tell."""
        return ""

    def to_json(self) -> dict[str, Any]:
        """Return the edit as JSON, its kind under `edit`."""
        return {"edit": type(self).__name__, **encoded(self)}


@dataclass(frozen=True, slots=True)
class SetValues(Edit):
    """Put exact values in place, in whichever states: what an undo or a merge comes to."""

    values: tuple[Value, ...]

    def changes(self, plan: Plan) -> tuple[str, ...]:
        return things(plan, self.values)

    def apply(self, plan: Plan) -> Plan:
        try:
            return with_values(plan, self.values)
        except KeyError as error:
            raise EditError(f"there is no {error.args[0]} in the plan") from None

    def words(self, plan: Plan) -> str:
        return f"put in place: {named(self.values)}"


def named(values: Iterable[Value]) -> str:
    """Return what values are of, each thing and field once: 'gnss1 at, w11 type'."""
    return ", ".join(dict.fromkeys(_name(value.way) for value in values))


def things(plan: Plan, values: Iterable[Value]) -> tuple[str, ...]:
    """Return the things that values are of, each once; a drop goes with a move of its antenna."""
    ways = [value.way for value in values]
    fitted = [way for way in ways if way[0] in list(State)]
    moved = [way for way in fitted if way[1:2] == ("antennas",) and way[-1] in ("on", "at")]
    antenna: dict[tuple[str, ...], tuple[str, ...]] = {
        (state, "cables", cable, "drops_m"): (state, "antennas", id)
        for state, _, id, *_ in moved
        for cable in cables_to(getattr(plan, state), id)
    }
    owners = [antenna.get(way, way) for way in ways]
    stateless = [way[1:] if way[0] in list(State) else way for way in owners]
    return tuple(dict.fromkeys(_HEAD.get(way[0], " ".join(way[:2])) for way in stateless))


def _name(way: tuple[str, ...]) -> str:
    steps = [step for step in way if step not in _SECTIONS] or [way[-1]]
    if len(steps) > 1:  # the last one is a field, and named as in a file
        steps[-1] = yaml_name(steps[-1]).replace("_", " ")
    return " ".join(steps)
