# SPDX-License-Identifier: Apache-2.0
"""What an airframe has to fulfil beyond its values being of the right kind."""

from __future__ import annotations

from itertools import pairwise

from rfplan.files.check_names import check_ids, check_known
from rfplan.files.check_route import check_route
from rfplan.files.draft import AirframeDraft
from rfplan.files.shape import entries
from rfplan.model.airframe import INSIDE, OUTER_HULL, Airframe
from rfplan.model.catalog import Catalog
from rfplan.model.rulebook import Rulebook
from rfplan.units import Missing, Range, show_length

WHOLE_HULL = ("all", "side")  # what skin and zones may lie on besides one surface

_BY_ID = ("sources", "plates", "skin", "zones", "frames", "variants")


def check_airframe(draft: AirframeDraft, catalog: Catalog, rulebook: Rulebook) -> None:
    """Add a problem for everything in an airframe that contradicts itself or names nothing."""
    check_ids(draft.tree, _BY_ID, draft.faults)
    if isinstance(draft.tree.value, dict) and "route" in draft.tree.value:
        check_ids(draft.tree.value["route"], ("nodes",), draft.faults)
    _check_sections(draft)
    _check_plates(draft)
    _check_skin(draft, rulebook)
    _check_zones(draft, rulebook)
    _check_speeds(draft)
    check_route(draft, catalog, rulebook)


def surfaces(draft: AirframeDraft) -> set[str]:
    """Return the names of all surfaces of an airframe, outside and inside."""
    return {*OUTER_HULL, *INSIDE, *draft.named("plates")}


def stations_m(airframe: Airframe) -> tuple[float, float] | None:
    """Return the first and the last station of the hull, None if it has no extent."""
    rows = airframe.sections
    if len(rows) < 2 or rows[0].fs_m >= rows[-1].fs_m:
        return None
    return rows[0].fs_m, rows[-1].fs_m


def off_hull(airframe: Airframe, span: Range | None) -> str:
    """Return words for a span of stations that leaves the hull, none if it stays on it."""
    hull_m = stations_m(airframe)
    if hull_m is None or span is None:
        return ""
    low_m, high_m = span.low, span.high
    ahead = not isinstance(low_m, Missing) and low_m < hull_m[0]
    behind = not isinstance(high_m, Missing) and high_m > hull_m[1]
    if not (ahead or behind):
        return ""
    first, last = (show_length(end_m, "in") for end_m in hull_m)
    return f"the hull runs from {first} to {last}"


def _check_sections(draft: AirframeDraft) -> None:
    rows, tree, faults = draft.record.sections, draft.tree, draft.faults
    written = entries(tree).get("sections")
    if written is None:
        return
    if isinstance(written.value, list) and len(written.value) < 2:
        faults.say(tree, ("sections",), "one section makes no hull", "two sections or more")
    for number, (before, after) in enumerate(pairwise(rows), start=1):
        if after.fs_m <= before.fs_m:
            faults.say(
                tree, ("sections", number, "fs"), "the stations do not rise", "the nose first"
            )
    for number, row in enumerate(rows):
        loc = ("sections", number)
        if row.top_m <= row.bottom_m:
            faults.say(tree, (*loc, "top"), "the top is not above the bottom")
        if row.half_width_m <= 0.0:
            faults.say(tree, (*loc, "half_width"), "the half width is not above zero")
        if not 1.0 <= row.roundness <= 10.0:
            faults.say(tree, (*loc, "roundness"), "not from 1 to 10", "such as 2, an ellipse")


def _check_plates(draft: AirframeDraft) -> None:
    for id, plate in draft.record.plates.items():
        for edge in ("root", "tip"):
            leading, trailing = plate.root if edge == "root" else plate.tip
            loc = ("plates", id, edge)
            if leading.wl_m is None or trailing.wl_m is None:
                draft.faults.say(draft.tree, loc, "a place has no water line", "FS, BL and WL")
            elif leading.fs_m >= trailing.fs_m:
                words = "the leading edge is not ahead of the trailing edge"
                draft.faults.say(draft.tree, loc, words, "the leading edge first")


def _check_skin(draft: AirframeDraft, rulebook: Rulebook) -> None:
    known = {*surfaces(draft), *WHOLE_HULL}
    for id, panel in draft.record.skin.items():
        loc = ("skin", id)
        check_known(panel.on, "surface", known, (draft.tree, (*loc, "on")), draft.faults)
        of = (draft.tree, (*loc, "of"))
        check_known(panel.of, "material", rulebook.materials, of, draft.faults)


def _check_zones(draft: AirframeDraft, rulebook: Rulebook) -> None:
    known = {*surfaces(draft), *WHOLE_HULL}
    for id, zone in draft.record.zones.items():
        tree, loc, faults = draft.tree, ("zones", id), draft.faults
        check_known(zone.is_, "kind of zone", rulebook.zone_kinds, (tree, (*loc, "is")), faults)
        check_known(zone.on, "surface", known, (tree, (*loc, "on")), faults)
        on_hull = zone.on in OUTER_HULL or zone.on in WHOLE_HULL
        if on_hull and (words := off_hull(draft.record, zone.fs_m)):
            faults.say(tree, (*loc, "fs"), words, "stations on the hull")
        if zone.at is not None and zone.at.wl_m is None and zone.on not in ("top", "belly"):
            where = "in space" if zone.on is None else f"on the surface '{zone.on}'"
            words = f"a place {where} has no water line"
            faults.say(tree, (*loc, "at"), words, "FS, BL and WL")
        if not {"on", "at", "fs", "bl", "wl"} & set(entries(tree.at(loc))):
            faults.say(tree, loc, "the zone has no place", "'on' with 'fs' and 'bl', or 'at'")


def _check_speeds(draft: AirframeDraft) -> None:
    speeds = draft.record.speeds
    if speeds is not None and speeds.vne_m_per_s <= 0.0:
        draft.faults.say(draft.tree, ("speeds", "vne"), "not above zero", "such as 140 kt")
