# SPDX-License-Identifier: Apache-2.0
"""Every record gets the nearest `source:` above it; published documents join the file's own."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import fields, replace
from typing import Any, TypeVar

from rfplan.files.faults import Faults, one_of, quoted
from rfplan.files.marks import is_id
from rfplan.files.nodes import Location, Node
from rfplan.files.shape import entries
from rfplan.model.record import ById
from rfplan.model.source import Source, SourceClassName
from rfplan.sources import DOCUMENTS, Citation, SourceClass, citation

R = TypeVar("R")

_WHERE_NAMED = "an entry of 'sources:' or a published document"

# Class and way of reading of a published document; no status rises on the way.
_STATUS: dict[SourceClass, tuple[SourceClassName, Any]] = {
    SourceClass.READ: ("specification", "opened"),
    SourceClass.SECOND_HAND: ("specification", "second hand"),
    SourceClass.MEMORY: ("specification", "memory"),
    SourceClass.COMMON_PRACTICE: ("assumed", None),
    SourceClass.LIBRARY: ("calculated", None),
    SourceClass.OWN_COMPUTATION: ("calculated", None),
    SourceClass.INVENTED: ("specification", "invented"),
}


def published_sources(root: Node, faults: Faults) -> dict[str, Source]:
    """Return the published documents that a file cites; unknown names of sources are problems."""
    own = entries(entries(root).get("sources"))
    cited: dict[str, Source] = {}
    for loc, node in _named(root, ()):
        name = str(node.value)
        key = name.partition(" ")[0]
        if key in DOCUMENTS:
            cited[name] = source_of(citation(name))
        elif name not in own:
            message = f"{faults.subject(loc[:-1])}: unknown source {quoted(name)}"
            choices = own if is_id(name) else [*own, *DOCUMENTS]
            faults.add(node.mark, message, one_of(choices, key, _WHERE_NAMED), loc)
    return cited


def source_of(cited: Citation) -> Source:
    """Return a place in a published document as a source of the model."""
    document = cited.document
    class_, read = _STATUS[document.source_class]
    return Source(class_, document=document.title, place=cited.place or None, read=read)


def with_sources(record: R, inherited: str | None) -> R:
    """Return a record in which it and all below name the nearest source, where one is above."""
    sourced: R = _sourced(record, inherited)
    return sourced


def _sourced(value: Any, nearest: str | None) -> Any:
    """Return the value itself where nothing in it changes."""
    if isinstance(value, ById):
        things = {id: _sourced(thing, nearest) for id, thing in value.items()}
        return value if _same(things.values(), value.values()) else ById(things)
    if isinstance(value, tuple):
        items = tuple(_sourced(item, nearest) for item in value)
        return value if _same(items, value) else items
    if hasattr(value, "__pydantic_config__") and not isinstance(value, Source):
        return _sourced_record(value, nearest)
    return value


def _sourced_record(record: Any, inherited: str | None) -> Any:
    names = [field.name for field in fields(record)]
    old = [getattr(record, name) for name in names]
    nearest = getattr(record, "source", None) or inherited
    new = [_sourced(value, nearest) for value in old]
    if "source" in names:
        new[names.index("source")] = nearest
    return record if _same(new, old) else replace(record, **dict(zip(names, new, strict=True)))


def _same(new: Iterable[object], old: Iterable[object]) -> bool:
    return all(one is other for one, other in zip(new, old, strict=True))


def _named(node: Node, loc: Location) -> Iterator[tuple[Location, Node]]:
    """Yield every text under a key `source` outside of `sources:`, with the way to it."""
    if isinstance(node.value, list):
        for index, item in enumerate(node.value):
            yield from _named(item, (*loc, index))
    for key, child in entries(node).items():
        if key == "source" and child.value is not None and not isinstance(child.value, dict | list):
            yield (*loc, key), child
        elif (*loc, key) != ("sources",):
            yield from _named(child, (*loc, key))
