# SPDX-License-Identifier: Apache-2.0
"""One entry in one file, named by the file: what catalogue and tables have in common."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any, Generic, TypeVar

from rfplan.files.check_names import ID_WORDS, check_no_id
from rfplan.files.faults import Faults, quoted
from rfplan.files.kinds import body, kind_of, read_kind
from rfplan.files.marks import Document, Node, is_id
from rfplan.files.problems import Problem, ProblemsError
from rfplan.files.sourcing import published_sources, with_sources
from rfplan.files.validation import read_record
from rfplan.model.record import ById

R = TypeVar("R")


@dataclass(frozen=True, slots=True)
class EntryKind(Generic[R]):
    """A kind of file: the record it holds, its shape and what its values have to fulfil."""

    kind: str
    record: type[R]
    shape: Callable[[Node], Node] = lambda root: root
    check: Callable[[Any, Node, Faults], None] = lambda record, root, faults: None


@dataclass(frozen=True, slots=True)
class Entry(Generic[R]):
    """What was read from one file, with its nodes for messages about it."""

    id: str
    kind: str
    record: R
    root: Node
    faults: Faults


def read_entry(path: Path, kinds: dict[str, EntryKind[Any]], display_name: str) -> Entry[Any]:
    """Return the entry that a file holds; raises ProblemsError if any of it is wrong."""
    if not is_id(path.stem):
        message = f"the file name {quoted(path.stem)} is no id"
        raise ProblemsError([Problem(display_name, 1, 1, message, ID_WORDS)])
    document = read_kind(path, tuple(kinds), display_name)
    return _entry(document, path.stem, kinds[kind_of(document)])


def _entry(document: Document, id: str, kind: EntryKind[R]) -> Entry[R]:
    faults = Faults(document.file, id, is_entry=True)
    root = kind.shape(body(document))
    check_no_id(root, (), "the file", faults)
    cited = published_sources(root, faults)
    record = read_record(kind.record, root, faults)
    if record is not None:
        kind.check(record, root, faults)
    faults.raise_any()
    assert record is not None  # what stood in its way is among the problems
    sourced: Any = with_sources(record, None)
    changes: dict[str, Any] = {"id": id} if hasattr(sourced, "id") else {}
    if cited and hasattr(sourced, "sources"):
        changes["sources"] = type(sourced.sources)({**sourced.sources, **cited})
    return Entry(id, kind.kind, replace(sourced, **changes), root, faults)


def with_ids(things: ById[R]) -> ById[R]:
    """Return things by id in which each also says its own id."""
    with_id: Any = ((id, replace(thing, id=id)) for id, thing in things.items())  # type: ignore[type-var]
    return ById(with_id)
