# SPDX-License-Identifier: Apache-2.0
"""Must two radios work at the same time, or does one rest while the other sends?"""

from __future__ import annotations

from rfplan.model.interference import Together
from rfplan.model.rulebook import Radio

PULSED = ("transponder", "adsb_1090es", "dme", "uat_978", "traffic_interrogator")
"""Radios that send pulses and blank each other by a suppression line; common practice."""

SHORT_PULSES = ("transponder", "adsb_1090es", "dme", "traffic_interrogator")
"""Those of them whose pulses last no longer than 125 us; from memory."""

ONE_OPERATOR = ("vhf_com",)
"""Families whose members one person talks on, one at a time."""

DISTRESS = ("elt",)
"""Families that send only where nothing else matters any more."""


def together(source: Radio, victim: Radio) -> Together:
    """Return whether a victim must work while a source sends."""
    if source.family in DISTRESS:
        return Together.NOT_REQUIRED
    if source.family == victim.family and source.family in ONE_OPERATOR:
        return Together.NOT_REQUIRED
    if source.id in PULSED and victim.id in PULSED:
        return Together.SUPPRESSED
    return Together.YES
