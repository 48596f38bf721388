# SPDX-License-Identifier: Apache-2.0
"""The text of a plan file after edits: what differs between two plans, spliced into the text."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Any

from rfplan.edits import Value, differences
from rfplan.files.draft import PlanHead
from rfplan.files.faults import Faults
from rfplan.files.kinds import body
from rfplan.files.marks import Document, parse
from rfplan.files.nodes import Location, Node
from rfplan.files.problems import Problem, ProblemsError
from rfplan.files.quantity_text import Author
from rfplan.files.shape import entries
from rfplan.files.shape_plan import shape_head, shape_installations
from rfplan.files.sourcing import with_sources
from rfplan.files.splice import (
    node_at,
    told_by_state,
    with_key,
    with_section,
    with_value,
    without_key,
)
from rfplan.files.validation import read_record
from rfplan.files.writing import field_tree, record_tree
from rfplan.model.plan import Installation, Plan, State
from rfplan.model.record import yaml_name

_STATES = [state.value for state in State]
_CLAIMS = ("measurements", "waivers", "accepted", "people")
_HEADED = ("revision",)
"""Parts of a plan that are one record and no things by id."""
_ENDED_BY_NONE = ("ground_plane", "node", "group")  # any other value is ended by null
_MOST_STEPS = 2000


def updated(document: Document, plan: Plan, target: Plan) -> Document:
    """Return the document of a plan, changed so that it reads as the target.

    Raises ProblemsError where it cannot: for a value that is not changed by edits, and for a
    file that is written in a way that does not let it be changed.
    """
    seen = set()
    for _ in range(_MOST_STEPS):
        reading = _read(document, plan)
        left = differences(reading.plan, target)
        if not left:
            return document
        seen.add(document.text)
        text = _Step(reading, left[0], target).text()
        if text in seen:
            break
        document = parse(("\ufeff" if document.bom else "") + text, document.file)
    raise _refusal(document, left[0].way)


@dataclass(frozen=True, slots=True)
class _Reading:
    """A document with the plan that it tells, and what it tells of each state."""

    document: Document
    plan: Plan
    trees: dict[str, Node]


def _read(document: Document, plan: Plan) -> _Reading:
    """Return a plan with those parts as a document tells them that edits change."""
    root, faults = body(document), Faults(document.file, "plan")
    head = read_record(PlanHead, shape_head(root), faults)
    trees = shape_installations(root, faults)
    fitted = {state: read_record(Installation, trees[state], faults) for state in State}
    faults.raise_any()
    assert head is not None  # nothing at fault, so all was read
    sourced: dict[str, Any] = {
        state.value: with_sources(one, head.source) for state, one in fitted.items() if one
    }
    claims: dict[str, Any] = {name: getattr(head, name) for name in (*_CLAIMS, *_HEADED)}
    by_name = {state.value: tree for state, tree in trees.items()}
    return _Reading(document, replace(plan, **sourced, **claims), by_name)


def _refusal(document: Document, way: Location) -> ProblemsError:
    mark = document.root.mark_at(way, key=True)
    message = f"{' '.join(map(str, way))} cannot be changed from here"
    return ProblemsError(
        [Problem(document.file, mark.line, mark.column, message, "a change by hand")]
    )


@dataclass(frozen=True, slots=True)
class _Step:
    """One value on its way into a document."""

    reading: _Reading
    value: Value
    target: Plan

    @property
    def _document(self) -> Document:
        return self.reading.document

    def text(self) -> str:
        """Return the text with the value in it."""
        first, *rest = self.value.way
        if first in _STATES and len(rest) == len(("section", "id", "field")):
            return self._fitted(first, (rest[0], rest[1]), rest[2])
        if first in _CLAIMS and len(rest) == 1:
            return self._claim((first, rest[0]))
        if first in _CLAIMS:
            return self._field_of_claim((first, rest[0]), rest[1:])
        if first in _HEADED and len(rest) == 1:
            return self._field_of_head((first, rest[0]))
        raise _refusal(self._document, self.value.way)

    def _fitted(self, state: str, thing: tuple[str, str], field: str) -> str:
        """Return the text with a value of a thing in one state, under that state's own keys."""
        (section, id), key = thing, yaml_name(field)
        entry = entries(node_at(self._document.root, thing))
        told = [name for name in _STATES if name in entry]
        record = type(getattr(getattr(self.target, state), section)[id])
        tree = self._tree(record, field, self._present_in_states(state, (*thing, key)))
        if state in told:
            return self._put((*thing, state, key), tree)
        earlier = [name for name in _STATES[: _STATES.index(state)] if self._has(name, thing)]
        if told:
            after = [name for name in told if name in earlier][-1]
            return with_key(self._document, (*thing, state), {key: tree}, after)
        if earlier:
            return told_by_state(self._document, thing, earlier[0], state, {key: tree})
        return self._put((*thing, key), tree)

    def _has(self, state: str, thing: tuple[str, str]) -> bool:
        section, id = thing
        return id in getattr(getattr(self.reading.plan, state), section)

    def _claim(self, way: tuple[str, str]) -> str:
        """Return the text with a waiver, an acceptance, a reading, a person, or without it."""
        section = node_at(self._document.root, way[:1])
        if self.value.value is None:
            return without_key(self._document, way)
        tree = record_tree(self.value.value, Author(self._document.root))
        if section is None:
            return with_section(self._document, *way, tree)
        if not entries(section):
            return with_value(self._document, way[:1], {way[1]: tree})
        return with_key(self._document, way, tree)

    def _field_of_claim(self, claim: tuple[str, str], fields: list[str]) -> str:
        """Return the text with one value of a claim; one told by a word alone is told in full."""
        record = getattr(self.target, claim[0])[claim[1]]
        if not entries(node_at(self._document.root, claim)):
            tree = record_tree(record, Author(self._document.root))
            return with_value(self._document, claim, tree)
        for field in fields[:-1]:
            record = getattr(record, field)
        way = (*claim, *map(yaml_name, fields))
        return self._put(way, self._tree(type(record), fields[-1], self._present(way)))

    def _field_of_head(self, way: tuple[str, str]) -> str:
        """Return the text with one value of a part of the plan's head."""
        section, field = way
        named = (section, yaml_name(field))
        tree = self._tree(type(getattr(self.target, section)), field, self._present(named))
        if node_at(self._document.root, (section,)) is None:
            return with_section(self._document, *named, tree)
        return self._put(named, tree)

    def _put(self, way: Location, tree: Any) -> str:
        """Return the text with a value under a mapping's own key, taken out where it has none."""
        if node_at(self._document.root, way) is None:
            return with_key(self._document, way, tree)
        if self.value.value in (None, ()):
            return without_key(self._document, way)
        return with_value(self._document, way, tree)

    def _tree(self, record: type[object], field: str, present: str) -> Any:
        """Return the value as a file holds it, in the unit of the present text."""
        if self.value.value is None:
            return "none" if field in _ENDED_BY_NONE else None
        author = Author(self._document.root)
        return field_tree(record, field, self.value.value, author, present)

    def _present(self, way: Location) -> str:
        node = node_at(self._document.root, way)
        return self._document.source(node.mark) if node else ""

    def _present_in_states(self, state: str, way: Location) -> str:
        """Return what stands at a way in a state, or in the nearest one before that has it."""
        for name in reversed(_STATES[: _STATES.index(state) + 1]):
            if node := node_at(self.reading.trees[name], way):
                return self._document.source(node.mark)
        return ""
