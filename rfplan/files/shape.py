# SPDX-License-Identifier: Apache-2.0
"""Transforms of nodes, pure and small, that the shapes of the file kinds are put together from."""

from __future__ import annotations

from collections.abc import Callable, Collection
from dataclasses import replace
from functools import partial
from typing import TypeAlias

from rfplan.files.nodes import Mark, Node
from rfplan.units import Missing, QuantityError, Range, parse_butt_range, parse_place

Transform: TypeAlias = Callable[[Node], Node]


def entries(node: Node | None) -> dict[str, Node]:
    """Return the children of a mapping, nothing for any other value."""
    return node.value if node is not None and isinstance(node.value, dict) else {}


def text_at(node: Node | None, key: str) -> str | None:
    """Return the text under a key of a mapping, None for anything else."""
    child = entries(node).get(key)
    return child.value if child is not None and isinstance(child.value, str) else None


def changed(node: Node, **transforms: Transform) -> Node:
    """Return a mapping with some of its children, where present, passed through a transform."""
    children = entries(node)
    new = {key: change(children[key]) for key, change in transforms.items() if key in children}
    return replace(node, value={**children, **new}) if new else node


def without(node: Node, keys: Collection[str]) -> Node:
    """Return a mapping without some of its keys."""
    children = entries(node)
    kept = {key: child for key, child in children.items() if key not in keys}
    return node if len(kept) == len(children) else replace(node, value=kept)


def each(transform: Transform) -> Transform:
    """Return the transform of a mapping by id that passes every entry through `transform`."""
    return each_by_id(lambda _, entry: transform(entry))


def each_by_id(transform: Callable[[str, Node], Node]) -> Transform:
    """Return the transform of a mapping by id, entry by entry, after its `source:` is spread."""

    def of_mapping(node: Node) -> Node:
        section = spread_source(node)
        new = {id: transform(id, entry) for id, entry in entries(section).items()}
        return replace(section, value=new) if new else section

    return of_mapping


def under(key: str) -> Transform:
    """Return the transform of a lone value into a mapping that holds it under `key`."""

    def of_value(node: Node) -> Node:
        if isinstance(node.value, dict):
            return node
        return Node.mapping({key: node}, {key: node.mark}, node.mark)

    return of_value


def rows(node: Node, key_name: str, value_name: str) -> Node:
    """Return 'key: value' pairs as a list of mappings with two named values each."""
    if not isinstance(node.value, dict):
        return node
    shaped = []
    for key, value in node.value.items():
        mark = node.key_marks[key]
        children = {key_name: Node(key, mark), value_name: value}
        shaped.append(Node.mapping(children, {key_name: mark, value_name: value.mark}, mark))
    return Node(shaped, node.mark)


def by_id(section: Node) -> Node:
    """Return a section; one that is empty holds nothing."""
    return replace(section, value={}) if section.value is None else section


def spread_source(section: Node) -> Node:
    """Return a mapping by id whose own `source:` has moved into the entries that name none."""
    section = by_id(section)
    children = dict(entries(section))
    source = children.pop("source", None)
    if source is None or isinstance(source.value, dict):
        return section
    mark = section.key_marks["source"]
    return replace(
        section, value={id: _sourced(entry, source, mark) for id, entry in children.items()}
    )


def _sourced(entry: Node, source: Node, mark: Mark) -> Node:
    children = entries(entry)
    if not isinstance(entry.value, dict) or "source" in children:
        return entry
    key_marks = {**entry.key_marks, "source": mark}
    return replace(entry, value={**children, "source": source}, key_marks=key_marks)


def material(node: Node) -> Node:
    """Return the id of a material that is written in words: 'copper foil' is copper_foil."""
    return (
        replace(node, value="_".join(node.value.split())) if isinstance(node.value, str) else node
    )


def on_surface(entry: Node) -> Node:
    """Return an entry whose `on:` is belly for bottom, and for side the one its butt line tells."""
    on = text_at(entry, "on")
    word = "belly" if on == "bottom" else _side(entry) if on == "side" else None
    return changed(entry, on=partial(replace, value=word)) if word else entry


def _side(entry: Node) -> str | None:
    """Return the side that the butt line of a place or a range lies on, if it lies on one."""
    at, butt_lines = text_at(entry, "at"), text_at(entry, "bl")
    try:
        ends = Range(parse_place(at).bl_m, parse_place(at).bl_m) if at else None
        ends = parse_butt_range(butt_lines) if butt_lines and ends is None else ends
    except QuantityError:
        return None
    if ends is None or isinstance(ends.low, Missing) or isinstance(ends.high, Missing):
        return None
    if ends.high < 0.0:
        return "left"
    return "right" if ends.low > 0.0 else None
