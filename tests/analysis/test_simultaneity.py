# SPDX-License-Identifier: Apache-2.0
"""Which radios must work at the same time."""

from __future__ import annotations

import pytest
from plan_files import shipped_rulebook

from rfplan.analysis.simultaneity import (
    DISTRESS,
    ONE_OPERATOR,
    PULSED,
    SHORT_PULSES,
    send_together,
    together,
)
from rfplan.model.interference import Together

RADIOS = shipped_rulebook().radios


@pytest.mark.parametrize(
    ("source", "victim", "expected"),
    [
        ("vhf_com", "gnss_l1", Together.YES),
        ("vhf_com", "vhf_com", Together.NOT_REQUIRED),
        ("transponder", "dme", Together.SUPPRESSED),
        ("uat_978", "transponder", Together.SUPPRESSED),
        ("transponder", "gnss_l1", Together.YES),
        ("elt", "vhf_com", Together.NOT_REQUIRED),
        ("vhf_com", "vor_loc", Together.YES),
    ],
)
def test_pairs_of_radios_are_classed(source: str, victim: str, expected: Together) -> None:
    assert together(RADIOS[source], RADIOS[victim]) is expected


@pytest.mark.parametrize(
    ("one", "other", "expected"),
    [
        ("vhf_com", "vhf_com", True),
        ("vhf_com", "transponder", True),
        ("transponder", "dme", False),
        ("uat_978", "uat_978", False),
        ("satcom_l", "satcom_l", True),
        ("elt", "vhf_com", False),
        ("radalt", "elt_406", False),
    ],
)
def test_transmitters_send_together_unless_one_rests(one: str, other: str, expected: bool) -> None:
    assert send_together(RADIOS[one], RADIOS[other]) is expected
    assert send_together(RADIOS[other], RADIOS[one]) is expected


def test_every_radio_and_family_named_is_one_that_ships() -> None:
    families = {radio.family for radio in RADIOS.values()}
    assert set(PULSED) <= set(RADIOS)
    assert set(SHORT_PULSES) < set(PULSED)
    assert {*ONE_OPERATOR, *DISTRESS} <= families
