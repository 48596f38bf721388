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
    return Together.SUPPRESSED if _blank_each_other(source, victim) else Together.YES


def send_together(one: Radio, other: Radio) -> bool:
    """Return whether two transmitters may send at one time; two COMs do where two people talk."""
    distress = one.family in DISTRESS or other.family in DISTRESS
    return not distress and not _blank_each_other(one, other)


def _blank_each_other(one: Radio, other: Radio) -> bool:
    return one.id in PULSED and other.id in PULSED
