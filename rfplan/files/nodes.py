# SPDX-License-Identifier: Apache-2.0
"""Values of a YAML file that remember where they were written."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field
from typing import Literal, TypeAlias

Location: TypeAlias = tuple[str | int, ...]
Scalar: TypeAlias = str | int | float | bool | None
Style: TypeAlias = Literal["plain", "single", "double", "literal", "folded", "block", "flow"]


@dataclass(frozen=True, slots=True)
class Mark:
    """Place of a piece of text: line and column from 1, start and end as character offsets."""

    line: int
    column: int
    start: int
    end: int


@dataclass(frozen=True, slots=True)
class Node:
    """A value with its place; a mapping also has the place of each of its keys."""

    value: Scalar | dict[str, Node] | list[Node]
    mark: Mark
    key_marks: dict[str, Mark] = field(default_factory=dict)
    style: Style = "plain"

    @classmethod
    def mapping(cls, children: dict[str, Node], key_marks: dict[str, Mark], mark: Mark) -> Node:
        """Return a mapping put together from children that were read elsewhere."""
        return cls(children, mark, key_marks, "block")

    def plain(self) -> object:
        """Return the value as plain dict, list and scalars."""
        if isinstance(self.value, dict):
            return {key: child.plain() for key, child in self.value.items()}
        if isinstance(self.value, list):
            return [child.plain() for child in self.value]
        return self.value

    def at(self, loc: Location) -> Node:
        """Return the deepest node that exists on the way `loc`."""
        *_, (node, _) = self._way(loc)
        return node

    def mark_at(self, loc: Location, key: bool = False) -> Mark:
        """Return the place of the deepest node on the way `loc`, or of the key that names it."""
        *_, (node, name) = self._way(loc)
        return name if key else node.mark

    def _way(self, loc: Location) -> Iterator[tuple[Node, Mark]]:
        """Yield every node that exists on the way, each with the place of what names it."""
        node = self
        yield node, node.mark
        for step in loc:
            child = node._child(step)
            if child is None:
                return
            name = node.key_marks.get(str(step), child.mark)
            node = child
            yield node, name

    def _child(self, step: str | int) -> Node | None:
        if isinstance(self.value, dict):
            return self.value.get(str(step))
        if isinstance(self.value, list) and isinstance(step, int) and 0 <= step < len(self.value):
            return self.value[step]
        return None
