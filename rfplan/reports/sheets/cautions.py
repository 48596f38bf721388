# SPDX-License-Identifier: Apache-2.0
"""What can hurt people or aircraft in this work, and what a plan cannot stand for."""

from __future__ import annotations

from dataclasses import dataclass

from rfplan.model.assessment import Assessment
from rfplan.reports.cells import words
from rfplan.reports.check_steps import spoken
from rfplan.reports.context import Context
from rfplan.reports.heading import sheet
from rfplan.reports.sheet import Field, Sheet, table, text_field
from rfplan.sources import (
    AC_43_13_1B,
    AC_43_13_2A,
    AIM_6_2_5,
    CFR_14_23_867,
    CFR_47_1_1310,
    CFR_47_87_197,
    COMMON_PRACTICE,
    Citation,
)

KEY = "cautions"
TITLE = "Cautions"

LIMITS = (
    "The list is general and not complete: the cautions of the airframe, engine and equipment data "
    "come first.",
)

_PRACTICE = Citation(COMMON_PRACTICE)


@dataclass(frozen=True, slots=True)
class Caution:
    """One danger, what to do about it, and who says so."""

    about: str
    text: str
    source: Citation = _PRACTICE


ABOUT_THE_PLAN = (
    Caution(
        "planning aid",
        "It replaces no data: equipment and airframe data and the local authority prevail.",
    ),
    Caution(
        "the work",
        "Design, work and return to service belong to people who are licensed for it.",
    ),
    Caution(
        "structure",
        "Pressure hulls, composite skins, lightning zones and fuel zones need engineering data.",
    ),
    Caution(
        "common practice",
        "Spacings marked common practice are no requirement, and meeting one proves nothing.",
    ),
    Caution(
        "estimates",
        "Calculated isolation, loss and balance do not replace the check on the aircraft.",
    ),
)

ABOUT_THE_WORK = (
    Caution(
        "parachute and seats",
        "Pyrotechnic and stored-energy devices are made inert by people trained for it, first.",
    ),
    Caution(
        "straps and spars", "Never drill a strap, a spar or a longeron; look before each hole."
    ),
    Caution(
        "fuel",
        "Vapour: no power, no drill and no transmitter near open tanks or vents; keep cables 6 in "
        "from fuel lines and tank walls.",
        AC_43_13_1B.at("11-96w"),
    ),
    Caution(
        "people and antennas",
        "Nobody near an antenna that transmits; keep clear while a radio is keyed on the ground.",
        CFR_47_1_1310.at("table 1"),
    ),
    Caution(
        "emergency channels",
        "Never key 121.500. ELT live only on 121.5, in the first five minutes of an hour, three "
        "sweeps at most.",
        AIM_6_2_5.at("testing"),
    ),
    Caution(
        "406 MHz",
        "Never radiate 406 MHz: dummy load or shielded room.",
        CFR_47_87_197.at("testing"),
    ),
    Caution(
        "supply on the line", "Take the antenna supply off before a plug is opened or measured."
    ),
    Caution("magnets", "No magnetic tool, screw or lamp near a compass or magnetometer."),
    Caution(
        "carbon", "Carbon dust conducts and harms lungs: extract it, keep it out of equipment."
    ),
    Caution(
        "lightning",
        "Non-metallic parts need a way for its current; an antenna at a tip, the nose or the tail "
        "needs data of its own.",
        CFR_14_23_867.at("non-metallic parts"),
    ),
    Caution(
        "windshield",
        "No whip on the cowl ahead of the windshield: a flash may blind the pilot.",
        AC_43_13_2A.at("37"),
    ),
)


def build(assessment: Assessment, context: Context) -> Sheet:
    """Return the cautions of the plan and of the work."""
    fields: list[Field[Caution]] = [
        text_field("about", "about", lambda one: words(one.about)),
        text_field("text", "caution", lambda one: words(one.text)),
        text_field("source", "source", lambda one: words(spoken(one.source))),
    ]
    return sheet(
        assessment,
        context,
        KEY,
        TITLE,
        table("plan", "What this plan is not", fields, ABOUT_THE_PLAN),
        table("work", "Before and during the work", fields, ABOUT_THE_WORK),
        limits=LIMITS,
    )
