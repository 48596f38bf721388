# SPDX-License-Identifier: Apache-2.0
"""The shipped table of ground checks: no channel, limit or step better known than it is."""

from __future__ import annotations

import pytest

from rfplan.files.table_files import load_rulebook
from rfplan.sources import SourceClass, citation

CHECKS = load_rulebook().ground_checks
L1_HZ = 1575.42e6


def carrier_hz(channel: str) -> float:
    """Return what a channel sends on: in a 25 kHz block, +5, +10, +15 stand for +0, 8.33, 16.67."""
    khz = round(float(channel) * 1000)
    block, beyond = khz - khz % 25, khz % 25
    return (block + {0: 0.0, 5: 0.0, 10: 25 / 3, 15: 50 / 3}[beyond]) * 1e3


def test_every_channel_has_a_harmonic_beside_l1() -> None:
    assert CHECKS.key_down
    for channel in (*CHECKS.key_down.channels, *CHECKS.key_down.fine):
        offsets = [abs(n * carrier_hz(channel) - L1_HZ) for n in (12, 13)]
        assert min(offsets) < 0.5e6, channel


def test_the_list_of_channels_is_never_called_read() -> None:
    assert CHECKS.key_down
    assert citation(CHECKS.key_down.source).document.source_class is SourceClass.MEMORY
    assert CHECKS.key_down.dwell_s == 35.0
    assert "little confidence" in (CHECKS.key_down.remark or "")


def test_the_emergency_channel_is_not_on_the_list() -> None:
    assert CHECKS.key_down
    channels = [float(one) for one in (*CHECKS.key_down.channels, *CHECKS.key_down.fine)]
    assert all(abs(one - 121.5) > 0.05 for one in channels)


def test_the_bond_limit_is_that_of_the_document() -> None:
    assert CHECKS.bond
    assert (CHECKS.bond.most_ohm, CHECKS.bond.source) == (0.0025, "AC_43_13_1B 11-188f")


@pytest.mark.parametrize("id", CHECKS.steps)
def test_every_step_names_a_document_that_is_known(id: str) -> None:
    step = CHECKS.steps[id]
    assert citation(step.source).document.key
    assert 1 <= step.number <= 19
    assert not (step.paths and step.zones)


def test_steps_that_compute_are_not_in_the_table() -> None:
    assert not {step.number for step in CHECKS.steps.values()} & {2, 3, 4, 5, 6, 7, 8, 9, 10, 14}
