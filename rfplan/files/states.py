# SPDX-License-Identifier: Apache-2.0
"""Things told by state: what is fitted as found, as designed and as built, each written once."""

from __future__ import annotations

from dataclasses import replace
from typing import TypeAlias

from rfplan.files.faults import Faults, listed, one_of, quoted
from rfplan.files.nodes import Node
from rfplan.files.shape import entries, spread_source, without
from rfplan.model.plan import State

Told: TypeAlias = dict[State, Node | None]
"""One thing in each state; None where it is not fitted."""

_STATES = tuple(state.value for state in State)

# A state that names another type or way for a cable speaks of another piece: what was measured on
# the old one went with it.
_ANOTHER_PIECE = {"type", "via", "avoid", "loops", "drops", "drip_loop", "retermination"}
_OF_THE_PIECE = {"cables": ("length", "age", "ageing")}


def by_state(section: Node, name: str, faults: Faults) -> dict[State, Node]:
    """Return one mapping by id for each state out of a section that tells all of them."""
    if not isinstance(section.value, dict):
        if section.value is not None:
            faults.add(section.mark, f"{name} is not a mapping", "entries by id", (name,))
        return {state: replace(section, value={}) for state in State}
    told = _Teller(section, name, faults).all_told()
    return {state: _fitted(section, told, state) for state in State}


def laid_over(below: Node, above: Node, depth: int = 1) -> Node:
    """Return `below` with the keys of `above` on it; null ends a key; nested mappings likewise."""
    if not (isinstance(below.value, dict) and isinstance(above.value, dict)):
        return above
    children = dict(below.value)
    for key, child in above.value.items():
        if child.value is None:
            children.pop(key, None)
        elif depth and key in children:
            children[key] = laid_over(children[key], child, depth - 1)
        else:
            children[key] = child
    return Node.mapping(children, {**below.key_marks, **above.key_marks}, above.mark)


def _fitted(section: Node, told: dict[str, Told], state: State) -> Node:
    things = {id: thing for id, states in told.items() if (thing := states[state]) is not None}
    return spread_source(replace(section, value=things))


class _Teller:
    """Resolves the states and the copies (`like:`) of one section."""

    def __init__(self, section: Node, name: str, faults: Faults) -> None:
        self._section = entries(section)
        self._name = name
        self._faults = faults

    def all_told(self) -> dict[str, Told]:
        """Return each entry in every state; one that cannot be told is left out."""
        told = {id: self._told(id, entry) for id, entry in self._section.items()}
        return {id: states for id, states in told.items() if states is not None}

    def _told(self, id: str, entry: Node) -> Told | None:
        keys = entries(entry)
        by_state = [key for key in keys if key in _STATES]
        if not by_state:
            return self._plain(id, entry)
        if strange := [key for key in keys if key not in _STATES]:
            mark = entry.key_marks[strange[0]]
            message = f"{id}: {quoted(strange[0])} stands beside {quoted(by_state[0])}"
            expected = f"either plain keys or only {listed(_STATES)}"
            self._faults.add(mark, message, expected, (self._name, id, strange[0]))
            return None
        return self._state_after_state(id, keys)

    def _plain(self, id: str, entry: Node) -> Told | None:
        """Return an entry that is the same in every state in which its original is fitted."""
        if "like" not in entries(entry):
            return dict.fromkeys(State, entry)
        original = self._original(id, entry)
        own = without(entry, ["like"])
        return original and {
            state: None if thing is None else self._over(thing, own)
            for state, thing in original.items()
        }

    def _state_after_state(self, id: str, keys: dict[str, Node]) -> Told | None:
        told: Told = {}
        present: Node | None = None
        for state in State:
            above = keys.get(state.value)
            if above is None:
                pass
            elif above.value is None or above.value == "none":
                present = None
            elif "like" in entries(above):
                original = self._original(id, above)
                if original is None:
                    return None
                copied = self._over(present, original[state])
                present = self._over(copied, without(above, ["like"]))
            else:
                present = self._over(present, above)
            told[state] = present
        return told

    def _over(self, below: Node | None, above: Node | None) -> Node | None:
        """Return one layer over the other, either of which may be absent."""
        if below is None or above is None:
            return below if above is None else above
        if _ANOTHER_PIECE & entries(above).keys():
            below = without(below, _OF_THE_PIECE.get(self._name, ()))
        return laid_over(below, above)

    def _original(self, id: str, entry: Node) -> Told | None:
        """Return what `like:` names: another entry of the section that is itself no copy."""
        like = entries(entry)["like"]
        others = {k: node for k, node in self._section.items() if k not in (id, "source")}
        loc = (self._name, id, "like")
        if not isinstance(like.value, str) or like.value not in others:
            message = (
                f"{id}: like names {quoted(like.value)}, which is no other of the {self._name}"
            )
            self._faults.add(like.mark, message, one_of(others, like.value, "another id"), loc)
            return None
        if _is_copy(others[like.value]):
            message = f"{id}: like names {quoted(like.value)}, which is a copy itself"
            self._faults.add(like.mark, message, "an entry that is written out", loc)
            return None
        if not isinstance(others[like.value].value, dict):
            return None  # the original is at fault, which is told with it
        return self._told(like.value, others[like.value])


def _is_copy(entry: Node) -> bool:
    keys = entries(entry)
    return "like" in keys or any("like" in entries(keys.get(state)) for state in _STATES)
