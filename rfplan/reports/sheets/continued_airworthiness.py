# SPDX-License-Identifier: Apache-2.0
"""Lines for the continued-airworthiness instructions: where, how often, what to look for, how."""

from __future__ import annotations

from dataclasses import dataclass

from rfplan.model.assessment import AntennaPlace, Assessment, CableRun
from rfplan.reports.cable_order import cut_m
from rfplan.reports.cells import UNKNOWN, length, listed, nothing, words, words_or_nothing
from rfplan.reports.check_interference import paths_of
from rfplan.reports.check_steps import cited
from rfplan.reports.context import Context
from rfplan.reports.heading import sheet, signature
from rfplan.reports.labels import Ends, assembly_ends
from rfplan.reports.places import spot_fields
from rfplan.reports.sheet import Cell, Field, Sheet, Table, number_field, table, text_field
from rfplan.reports.since_found import antenna_change

KEY = "continued_airworthiness"
TITLE = "Lines for continued airworthiness"

LIMITS = (
    "Method: places and types are those of the plan. An interval is told only where a rule states "
    "one, and else left blank to be filled from the equipment data. What to look for is common "
    "practice.",
    "These are lines to copy from. The instructions that count are those that come with the data "
    "for the change.",
)


@dataclass(frozen=True, slots=True)
class Care:
    """What is looked for on one kind of thing, how it comes off, what goes on again."""

    kind: str
    look_for: str
    removal: str
    replacement: str


CARE = (
    Care(
        "antenna outside",
        "cracks, erosion, loose screws, gaps in the seal, corrosion round the base, water inside",
        "supply off; undo the plug inside before the screws; keep the gasket; cover the hole",
        "the same type, else the loss budget and its spacing again; bond read before sealing",
    ),
    Care(
        "antenna inside",
        "a loose holder, metal or carbon laid near it, heat marks",
        "supply off; undo the plug, then the holder",
        "the same type in the same place, nothing conducting above it",
    ),
    Care(
        "cable",
        "chafing, crushing at clamps, sharp bends at plugs, heat, loose coupling nuts, lost labels",
        "supply off; both plugs, then the clamps from one end; keep the label words",
        "the type and length listed here; loss read at the three frequencies of the ground check",
    ),
    Care(
        "ground plane",
        "torn or lifted foil, a broken bond to the antenna base",
        "not without need: it is bonded in",
        "the size listed in the plan; bond to the base read again",
    ),
)


def build(assessment: Assessment, context: Context) -> Sheet:
    """Return where every antenna and cable is, how often it is looked at, and for what."""
    return sheet(
        assessment,
        context,
        KEY,
        TITLE,
        antennas_table(assessment, context),
        cables_table(assessment, context),
        planes_table(assessment),
        care_table(),
        limits=LIMITS,
    )


def antennas_table(assessment: Assessment, context: Context) -> Table:
    """Return every antenna with its place, the way to it, and its interval."""
    fitted = assessment.plan.installation.antennas
    fields: list[Field[AntennaPlace]] = [
        text_field("id", "antenna", lambda one: words(one.id)),
        text_field("type", "type", lambda one: words(f"{one.type} on {one.surface}")),
        text_field("change", "change", lambda one: words(antenna_change(one.id, assessment.plan))),
        *spot_fields(context.units, lambda one: one.point_m),
        text_field("access", "access", lambda one: _node(fitted[one.id].node, assessment)),
        text_field("interval", "interval", lambda one: _interval(one.id, assessment)),
    ]
    return table("antennas", "Antennas", fields, assessment.antennas)


def _node(node: str | None, assessment: Assessment) -> Cell:
    """Where the hand goes to the plug: the node of the route, in words."""
    known = assessment.plan.airframe.route.nodes.get(node or "")
    return signature() if known is None else words(known.is_ or node or UNKNOWN)


def _interval(antenna: str, assessment: Assessment) -> Cell:
    """The interval of the rule for a radio behind the antenna, where the tables have one."""
    for kind, interval in assessment.rulebook.ground_checks.intervals.items():
        if any(path.antenna == antenna for path in paths_of(assessment, kind)):
            return words(f"{interval.months} months, {cited(interval.source)}")
    return signature()


def cables_table(assessment: Assessment, context: Context) -> Table:
    """Return every assembly with its ends and way, and what replaces it."""
    ends = assembly_ends(assessment.plan.installation, assessment.catalog)
    cables = assessment.plan.installation.cables
    fields: list[Field[CableRun]] = [
        text_field("id", "cable", lambda run: words(run.id)),
        text_field("type", "replaced by", lambda run: words(run.type)),
        text_field("plugs", "plugs", lambda run: listed(cables[run.id].plugs)),
        number_field(
            "length", "length", context.units, lambda run: length(cut_m(run), context.units)
        ),
        text_field("ends", "from, to", lambda run: _ends(ends[run.id])),
        text_field("way", "way, by nodes", lambda run: words_or_nothing(", ".join(run.nodes))),
        text_field("interval", "interval", lambda run: signature()),
    ]
    return table("cables", "Cables", fields, assessment.cables.values())


def _ends(ends: Ends) -> Cell:
    return words(f"{ends.near}, {ends.far}")


def planes_table(assessment: Assessment) -> Table:
    """Return the ground planes that were laid, and who read their bond."""
    planes = assessment.plan.installation.ground_planes
    fields: list[Field[str]] = [
        text_field("id", "ground plane", words),
        text_field("of", "of", lambda one: words(planes[one].of)),
        text_field("on", "on", lambda one: words(planes[one].on)),
        text_field("verified", "verified", lambda one: _verified(planes[one].verified)),
        text_field("interval", "interval", lambda one: signature()),
    ]
    return table("planes", "Ground planes", fields, sorted(planes))


def _verified(told: str | None) -> Cell:
    return nothing("nobody yet") if told in (None, UNKNOWN) else words_or_nothing(told)


def care_table() -> Table:
    """Return what is looked for on each kind of thing, how it comes off and goes on again."""
    fields: list[Field[Care]] = [
        text_field("kind", "kind", lambda care: words(care.kind)),
        text_field("look_for", "what to look for", lambda care: words(care.look_for)),
        text_field("removal", "removal", lambda care: words(care.removal)),
        text_field("replacement", "replacement", lambda care: words(care.replacement)),
    ]
    return table("care", "Care", fields, CARE)
