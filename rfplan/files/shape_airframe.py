# SPDX-License-Identifier: Apache-2.0
"""The shape of an airframe file: rows of sections, lengths of segments, variants by serial."""

from __future__ import annotations

import re
from dataclasses import replace
from functools import partial

from rfplan.files.faults import Faults, one_of, quoted
from rfplan.files.nodes import Mark, Node
from rfplan.files.shape import (
    by_id,
    changed,
    each,
    each_by_id,
    entries,
    material,
    on_surface,
    spread_source,
    text_at,
    under,
)
from rfplan.units import LENGTH

LAST_SERIAL = 999_999_999
"""Stands for the open end of `serials: 25 ..`."""

SECTION_COLUMNS = ("fs", "half_width", "bottom", "top", "roundness")

_SERIALS = re.compile(r"([0-9]{1,9})(?:( \.\.)(?: ([0-9]{1,9}))?)?")


def shape_airframe(root: Node, faults: Faults) -> Node:
    """Return an airframe file in the shape of its record."""
    return changed(
        root,
        sources=by_id,
        sections=partial(_sections, faults),
        plates=spread_source,
        skin=each(lambda panel: changed(on_surface(panel), of=material)),
        zones=each(on_surface),
        frames=spread_source,
        route=partial(changed, nodes=spread_source, segments=each(under("length"))),
        variants=each_by_id(partial(_variant, faults)),
    )


def _sections(faults: Faults, node: Node) -> Node:
    """Return `unit` and `rows` as a list of sections with lengths in words."""
    rows = entries(node).get("rows")
    if rows is None or not isinstance(rows.value, list):
        return node
    unit = _unit_of(node, faults)
    shaped = []
    for number, row in enumerate(rows.value, start=1):
        if isinstance(row.value, list) and len(row.value) == len(SECTION_COLUMNS):
            shaped.append(_section(row.value, row.mark, unit, entries(node).get("source")))
        else:
            message = f"sections: row {number} is not a row of {len(SECTION_COLUMNS)} numbers"
            expected = "station, half width, bottom, top and roundness"
            faults.add(row.mark, message, expected, ("sections", number))
    return replace(rows, value=shaped)


def _unit_of(table: Node, faults: Faults) -> str:
    """Return the unit of a table of sections, inches for one that names none."""
    unit = text_at(table, "unit")
    if unit is not None and unit in LENGTH.units:
        return unit
    message = f"sections: the unit is {quoted(unit)}" if unit else "sections: the unit is missing"
    mark, loc = table.mark_at(("unit",)), ("sections", "unit")
    faults.add(mark, message, one_of(LENGTH.units, unit, "a unit of length"), loc)
    return "in"


def _section(numbers: list[Node], mark: Mark, unit: str, source: Node | None) -> Node:
    cells = dict(zip(SECTION_COLUMNS, numbers, strict=True))
    lengths = {key: _in_unit(cell, unit) for key, cell in cells.items() if key != "roundness"}
    children = {**cells, **lengths, **({"source": source} if source else {})}
    return Node.mapping(children, {key: cell.mark for key, cell in children.items()}, mark)


def _in_unit(cell: Node, unit: str) -> Node:
    if isinstance(cell.value, int | float) and not isinstance(cell.value, bool):
        return replace(cell, value=f"{cell.value} {unit}".rstrip())
    return cell


def _variant(faults: Faults, id: str, variant: Node) -> Node:
    serials = partial(_serials, faults, id)
    return changed(variant, serials=serials, segments=each(_segment_change))


def _segment_change(node: Node) -> Node:
    """Return '+14 in' as a change, '81 in' as another length."""
    signed = isinstance(node.value, str) and node.value.startswith(("+", "-", "\u2212"))
    return under("change" if signed else "length")(node)


def _serials(faults: Faults, id: str, node: Node) -> Node:
    """Return '1 .. 24', '25 ..', 7, or a list of such, as a list of first and last."""
    spans = []
    for item in node.value if isinstance(node.value, list) else [node]:
        span = _span(item)
        if span is None or span[0] > span[1]:
            fault = "are no serial numbers" if span is None else "run backwards"
            message = f"{id}: the serials {quoted(item.value)} {fault}"
            expected, loc = "such as 1 .. 24, 25 .. or 7", ("variants", id, "serials")
            faults.add(item.mark, message, expected, loc)
        else:
            spans.append(Node([replace(item, value=end) for end in span], item.mark))
    return Node(spans, node.mark)


def _span(item: Node) -> tuple[int, int] | None:
    found = _SERIALS.fullmatch(str(item.value))
    if found is None:
        return None
    first = int(found[1])
    if found[3]:
        return first, int(found[3])
    return first, LAST_SERIAL if found[2] else first
