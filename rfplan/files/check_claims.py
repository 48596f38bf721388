# SPDX-License-Identifier: Apache-2.0
"""What a plan says about itself: serial number, distances, readings and waivers."""

from __future__ import annotations

import re

from rfplan.files.check_catalog import check_vswr
from rfplan.files.check_names import check_known, check_no_id
from rfplan.files.draft import AirframeDraft, PlanDraft
from rfplan.files.faults import Faults, listed, quoted
from rfplan.files.nodes import Location, Node
from rfplan.files.shape import entries
from rfplan.files.shape_plan import INSTALLED
from rfplan.model.plan import IsolationReading, Measurement, State, Waiver
from rfplan.model.rulebook import Rulebook

_RULE_ID = re.compile(r"RF[0-9]{3}")
_SERIAL = re.compile(r"[0-9]{1,9}")
_CLAIMS = ("people", "spacing", "groups", "measurements", "isolation", "waivers", "accepted")
_AIRFRAME_SECTIONS = ("plates", "skin", "zones", "frames", "variants")


def check_spacing(draft: PlanDraft, rulebook: Rulebook) -> None:
    """Add a problem for each stated distance that is none, or is from or to nothing known."""
    known = {*rulebook.radios, *(radio.family for radio in rulebook.radios.values())}
    known |= {name for one in rulebook.spacings.values() for name in (one.from_, one.to)}
    known |= set(draft.named("antennas"))
    if draft.airframe is not None:
        known |= set(draft.airframe.named("zones"))
    for id, spacing in draft.head.spacing.items():
        check_no_id(draft.root, ("spacing", id), "the entry", draft.faults)
        for key, name in (("from", spacing.from_), ("to", spacing.to)):
            at: tuple[Node, Location] = (draft.root, ("spacing", id, key))
            check_known(name, "kind of radio, antenna or zone", known, at, draft.faults)
        if spacing.min_m <= 0.0:
            loc = ("spacing", id, "min")
            draft.faults.say(draft.root, loc, "the distance is not above zero", "such as 36 in")


def check_measurements(draft: PlanDraft) -> None:
    """Add a problem for each reading of a path that is not there, or at no frequency."""
    for id, measurement in draft.head.measurements.items():
        _check_measurement(id, measurement, draft)


def _check_measurement(id: str, measurement: Measurement, draft: PlanDraft) -> None:
    loc, root = ("measurements", id), draft.root
    path, state = measurement.path, measurement.state
    paths, fitted = draft.named("paths"), draft.named("paths", state)
    there_is = check_known(path, "path", paths, (root, (*loc, "path")), draft.faults)
    if there_is and path not in fitted:
        words = f"there is no path {quoted(path)} in the state '{state}'"
        draft.faults.say(root, (*loc, "path"), words, "the state in which it was measured")
    if measurement.at_hz <= 0.0:
        draft.faults.say(root, (*loc, "at"), "not above zero", "such as 1575.42 MHz")
    if measurement.loss_db is None and measurement.vswr is None:
        draft.faults.say(root, loc, "nothing was read", "loss: 3.02 dB, or vswr: 1.4")
    check_vswr(measurement.vswr, (*loc, "vswr"), root, draft.faults)
    if measurement.uncertainty_db is not None and measurement.uncertainty_db < 0.0:
        draft.faults.say(root, (*loc, "uncertainty"), "never negative", "such as 0.1 dB")


def check_isolation(draft: PlanDraft) -> None:
    """Add a problem for each isolation between antennas that are not there, or of no use."""
    for id, reading in draft.head.isolation.items():
        _check_isolation(id, reading, draft)


def _check_isolation(id: str, reading: IsolationReading, draft: PlanDraft) -> None:
    loc, root = ("isolation", id), draft.root
    antennas, fitted = draft.named("antennas"), draft.named("antennas", reading.state)
    for number, antenna in enumerate(reading.between):
        at: tuple[Node, Location] = (root, (*loc, "between", number))
        if check_known(antenna, "antenna", antennas, at, draft.faults) and antenna not in fitted:
            words = f"there is no antenna {quoted(antenna)} in the state '{reading.state}'"
            draft.faults.say(*at, words, "the state in which it was measured")
    if len(set(reading.between)) == 1:
        draft.faults.say(root, (*loc, "between"), "one antenna twice", "two antennas")
    if reading.at_hz <= 0.0:
        draft.faults.say(root, (*loc, "at"), "not above zero", "such as 127.5 MHz")
    if reading.apart_m <= 0.0:
        draft.faults.say(root, (*loc, "apart"), "not above zero", "such as 41.5 in")
    if reading.uncertainty_db < 0.0:
        draft.faults.say(root, (*loc, "uncertainty"), "never negative", "such as 1 dB")


def check_waivers(draft: PlanDraft) -> None:
    """Add a problem for each waiver of no rule, or of things that are nowhere."""
    known = _all_ids(draft)
    for id, waiver in draft.head.waivers.items():
        _check_waiver(id, waiver, draft, known)


def _check_waiver(id: str, waiver: Waiver, draft: PlanDraft, known: set[str]) -> None:
    loc = ("waivers", id, "finding")
    if not _RULE_ID.fullmatch(waiver.finding.rule):
        words = f"{quoted(waiver.finding.rule)} is no rule id"
        draft.faults.say(draft.root, (*loc, "rule"), words, "RF and three digits, such as RF501")
    if not waiver.finding.of:
        draft.faults.say(draft.root, (*loc, "of"), "nothing is named", "what the finding is about")
    for number, name in enumerate(waiver.finding.of):
        check_known(name, "thing", known, (draft.root, (*loc, "of", number)), draft.faults)


def _all_ids(draft: PlanDraft) -> set[str]:
    """Return every name that a finding may be about."""
    ids = {id for section in (*INSTALLED, *_CLAIMS) for id in draft.named(section)}
    ids |= {
        f"{id}.{port}"
        for state in State
        for id, unit in entries(entries(draft.trees[state]).get("units")).items()
        for port in entries(entries(unit).get("ports"))
    }
    if draft.airframe is not None:
        ways = [(name,) for name in _AIRFRAME_SECTIONS]
        for way in (*ways, ("route", "nodes"), ("route", "segments")):
            ids |= set(draft.airframe.named(*way))
    return ids


def check_serial(draft: PlanDraft, asked: str | None) -> None:
    """Add a problem if the variants of the airframe leave a serial number without one of them."""
    airframe = draft.airframe
    serial = asked if asked is not None else draft.head.revision.serial
    if airframe is None or serial is None or not airframe.named("variants"):
        return
    read = [id for id, variant in airframe.record.variants.items() if variant.serials]
    if len(read) != len(airframe.named("variants")):
        return  # the serials of one are at fault, which is told elsewhere
    where: tuple[Faults, Node, Location] = (draft.faults, draft.root, ("revision", "serial"))
    if asked is not None:
        where = (airframe.faults, airframe.tree, ("variants",))
    faults, tree, loc = where
    variants = _variants_of(airframe, serial)
    if len(variants) > 1:
        words = f"serial {quoted(serial)} belongs to the variants {listed(variants, 'and')}"
        faults.say(tree, loc, words, "one variant")
    elif not variants:
        words = f"serial {quoted(serial)} belongs to no variant"
        faults.say(tree, loc, words, "a serial number that a variant names")


def _variants_of(airframe: AirframeDraft, serial: str) -> list[str]:
    if not _SERIAL.fullmatch(serial):
        return []
    return [
        id
        for id, variant in airframe.record.variants.items()
        if any(first <= int(serial) <= last for first, last in variant.serials)
    ]
