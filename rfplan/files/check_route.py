# SPDX-License-Identifier: Apache-2.0
"""The surveyed route: segments between nodes, their lengths, and what variants change of them."""

from __future__ import annotations

import math
from collections.abc import Mapping

from rfplan.files.check_names import check_known
from rfplan.files.draft import AirframeDraft
from rfplan.files.faults import one_of, quoted
from rfplan.files.nodes import Location
from rfplan.model.airframe import Variant
from rfplan.model.catalog import Catalog
from rfplan.model.rulebook import Limits, Rulebook
from rfplan.units import Missing, show_length

_ROUTE = ("route", "nodes")
_SEGMENTS = ("route", "segments")


def check_route(draft: AirframeDraft, catalog: Catalog, rulebook: Rulebook) -> None:
    """Add a problem for each node, segment or variant that cannot be."""
    _check_nodes(draft, catalog)
    straight_m = _straight_lines_m(draft)
    for id, segment in draft.record.route.segments.items():
        if not isinstance(segment.length_m, Missing):
            loc = (*_SEGMENTS, id, "length")
            _check_length(segment.length_m, straight_m.get(id), loc, draft, rulebook.limits)
    for id, variant in draft.record.variants.items():
        _check_variant(id, variant, straight_m, draft, rulebook.limits)


def _check_nodes(draft: AirframeDraft, catalog: Catalog) -> None:
    for id, node in draft.record.route.nodes.items():
        loc = (*_ROUTE, id)
        if node.at.wl_m is None:
            words = "a place in space has no water line"
            draft.faults.say(draft.tree, (*loc, "at"), words, "FS, BL and WL")
        where = (draft.tree, (*loc, "bulkhead"))
        check_known(node.bulkhead, "inline part", catalog.inline_parts, where, draft.faults)
        if node.passes is not None and node.passes < 1:
            draft.faults.say(draft.tree, (*loc, "passes"), "not above zero", "1 or more")


def _straight_lines_m(draft: AirframeDraft) -> dict[str, float]:
    """Return the straight line of each segment between nodes that are known."""
    points = {
        id: (node.at.fs_m, node.at.bl_m, node.at.wl_m)
        for id, node in draft.record.route.nodes.items()
        if node.at.wl_m is not None
    }
    seen: dict[frozenset[str], str] = {}
    straight_m = {}
    for id in draft.named(*_SEGMENTS):
        ends = _ends(id, draft)
        if ends is None:
            continue
        first = seen.setdefault(frozenset(ends), id)
        if first != id:
            mark = draft.tree.mark_at((*_SEGMENTS, id), key=True)
            message = f"{id}: the same segment as {first}"
            draft.faults.add(mark, message, "each segment once", (*_SEGMENTS, id))
        if all(end in points for end in ends):
            straight_m[id] = math.dist(*(points[end] for end in ends))
    return straight_m


def _ends(id: str, draft: AirframeDraft) -> tuple[str, str] | None:
    """Return the two nodes that a segment's id names; None, with a problem, if it does not."""
    nodes = draft.named(*_ROUTE)
    mark, loc = draft.tree.mark_at((*_SEGMENTS, id), key=True), (*_SEGMENTS, id)
    one, hyphen, other = id.partition("-")
    if not hyphen or "-" in other or one == other:
        message = f"{quoted(id)} does not name two nodes"
        draft.faults.add(mark, message, "two node ids with '-' between them", loc)
        return None
    unknown = [end for end in (one, other) if end not in nodes]
    for end in unknown:
        message = f"{draft.faults.subject((id,))}: no node {quoted(end)}"
        draft.faults.add(mark, message, one_of(nodes, end, "a node"), loc)
    return None if unknown else (one, other)


def _check_length(
    length_m: float, straight_m: float | None, loc: Location, draft: AirframeDraft, limits: Limits
) -> None:
    if length_m <= 0.0:
        draft.faults.say(draft.tree, loc, "the length is not above zero", "a measured length")
    elif straight_m is not None and length_m < straight_m - _slack_m(straight_m, limits):
        have, need = show_length(length_m, "in"), show_length(straight_m, "in")
        words = f"{have} is shorter than the straight line, {need}"
        draft.faults.say(draft.tree, loc, words, "a length along the structure")


def _slack_m(straight_m: float, limits: Limits) -> float:
    part_m = limits.shorter_than_straight_part_ratio * straight_m
    return max(limits.shorter_than_straight_m, part_m)


def _check_variant(
    id: str,
    variant: Variant,
    straight_m: Mapping[str, float],
    draft: AirframeDraft,
    limits: Limits,
) -> None:
    segments, loc = draft.named(*_SEGMENTS), ("variants", id)
    for number, name in enumerate(variant.closed):
        where = (draft.tree, (*loc, "closed", number))
        check_known(name, "segment", segments, where, draft.faults)
    for name, change in variant.segments.items():
        way = (*loc, "segments", name)
        surveyed = draft.record.route.segments.get(name)
        if name not in segments:
            mark = draft.tree.mark_at(way, key=True)
            message = f"{id}: no segment {quoted(name)}"
            draft.faults.add(mark, message, one_of(segments, name, "a segment"), way)
        elif change.length_m is not None:
            _check_length(change.length_m, straight_m.get(name), way, draft, limits)
        elif surveyed is not None and not isinstance(surveyed.length_m, Missing):
            length_m = surveyed.length_m + (change.change_m or 0.0)
            _check_length(length_m, straight_m.get(name), way, draft, limits)
