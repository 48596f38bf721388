# SPDX-License-Identifier: Apache-2.0
"""The ground-check procedure: steps with what to expect, and blanks for what was read."""

from __future__ import annotations

from itertools import chain

from rfplan.model.assessment import Assessment
from rfplan.reports.check_interference import (
    alone_steps,
    elt_steps,
    isolation_steps,
    key_down_table,
    mixed_steps,
    other_steps,
    satellite_steps,
)
from rfplan.reports.check_lines import (
    bond_steps,
    continuity_steps,
    loss_table,
    supply_steps,
    vswr_steps,
)
from rfplan.reports.check_steps import steps_table
from rfplan.reports.check_systems import compensating_steps, fixed_steps, offset_steps
from rfplan.reports.context import Context
from rfplan.reports.heading import sheet
from rfplan.reports.sheet import Sheet

KEY = "ground_check"
TITLE = "Ground check"

LIMITS = (
    "Method: expected values are those this plan predicts; a step keeps its number in every plan, "
    "and what the aircraft has nothing for is left out. A blank is not a pass.",
    "Never key the emergency channel, never radiate 406 MHz, nobody near a transmitting antenna. "
    "Supply off before a line is opened or an analyser is put on it.",
    "Channels are names, as the radio shows them. A check on the ground in one place does not show "
    "every satellite, channel or attitude; steps whose source is memory or common practice are "
    "reminders, and the equipment data decide.",
)


CONTINUITY = "2 Continuity, supply off: centre and shield through, open between them, plugs moved"
SATELLITES = "7 Satellites used and C/N0 of the best four, outdoors, radios quiet, for 10 min"
SWEEPS = "6 VSWR from the plug at the unit, trace kept; isolation before anything is keyed"
ELT_OFF = "9 The channels that failed in 8, ELT cable off: if they pass now, the ELT sends back"
OTHERS = "14 Other transmitters, ten times, as their data allow on the ground, every GNSS watched"
COMPENSATING = "20 Asked for by waivers and acceptances; done before 18, closing"


def build(assessment: Assessment, context: Context) -> Sheet:
    """Return the procedure in the order in which it is done."""
    systems = chain(
        fixed_steps(assessment, 11),
        offset_steps(assessment, context),
        fixed_steps(assessment, 12, 13),
        mixed_steps(assessment),
    )
    moving, last = fixed_steps(assessment, 15, 16, 17), fixed_steps(assessment, 18, 19)
    return sheet(
        assessment,
        context,
        KEY,
        TITLE,
        steps_table("visual", "1 Looked at, labels read", fixed_steps(assessment, 1)),
        steps_table("continuity", CONTINUITY, continuity_steps(assessment)),
        steps_table("supply", "3 Supply at the antenna's plug, load on", supply_steps(assessment)),
        steps_table("bond", "4 Bond, before the base is sealed", bond_steps(assessment)),
        loss_table(assessment),
        steps_table("vswr", SWEEPS, chain(vswr_steps(assessment), isolation_steps(assessment))),
        steps_table("satellites", SATELLITES, satellite_steps(assessment)),
        key_down_table(assessment),
        steps_table("elt_off", ELT_OFF, elt_steps(assessment)),
        steps_table("alone", "10 Each GNSS receiver alone", alone_steps(assessment)),
        steps_table("systems", "11-13 Transponder, ADS-B, navigation, COM, ELT", systems),
        steps_table("others", OTHERS, other_steps(assessment)),
        steps_table("moving", "15-17 Sensors, compass, doors and hatches", moving),
        steps_table("last", "18-19 Closing and flight", last),
        steps_table("compensating", COMPENSATING, compensating_steps(assessment)),
        limits=LIMITS,
    )
