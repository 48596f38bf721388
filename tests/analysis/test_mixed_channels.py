# SPDX-License-Identifier: Apache-2.0
"""Two COMs channel by channel, against every pair listed in whole thirds of a kilohertz."""

from __future__ import annotations

import numpy as np
import pytest
from crowded_aircraft import crowded_catalog, crowded_plan, facts_with_radios
from numpy.typing import NDArray
from plan_files import shipped_rulebook
from sample import with_port

from rfplan.analysis.com_channels import keyed_names_hz
from rfplan.analysis.facts import gather
from rfplan.analysis.mixing import mixing
from rfplan.model.mixing import ChannelPairs
from rfplan.units import Range

Integers = NDArray[np.int64]

THIRDS = 3
"""A close channel lies 25/3 kHz beside the next, so a third of a kHz is the unit here."""

EMERGENCY = range(121400 * THIRDS, 121600 * THIRDS + 1)

BANDS_KHZ = {"vor_loc": (108000, 117975), "glideslope": (328600, 335400), "marker": (74800, 75200)}


def carriers(step: int) -> Integers:
    """Return all carriers from 118.000 MHz to below 137, the emergency channel's left out."""
    every = range(118000 * THIRDS, 137000 * THIRDS, step)
    return np.array([one for one in every if one not in EMERGENCY])


WIDE, CLOSE = carriers(25 * THIRDS), carriers(25)


def listed(channels: Integers, order: int, radio: str) -> int:
    """Return how many of all pairs have a product of an order in the band of a radio."""
    low, high = (THIRDS * edge for edge in BANDS_KHZ[radio])
    hit = np.zeros((channels.size, channels.size), dtype=bool)
    for own in range(1, order):
        for other in (order - own, own - order):
            lands = np.abs(own * channels[:, None] + other * channels[None, :])
            hit |= (lands >= low) & (lands <= high)
    return int(hit.sum())


@pytest.fixture(scope="module")
def told() -> tuple[ChannelPairs, ...]:
    """Two COMs beside a receiver of each of these kinds."""
    return mixing(facts_with_radios(vhf_com=2, vor_loc=1, glideslope=1, marker=1)).channels


def test_each_band_is_told_at_the_orders_that_reach_it(told: tuple[ChannelPairs, ...]) -> None:
    reached = [(one.order, one.victims[0][2:-2]) for one in told]
    assert reached == [
        (3, "vor_loc"),
        (5, "vor_loc"),
        (5, "glideslope"),
        (7, "marker"),
        (7, "vor_loc"),
        (7, "glideslope"),
    ]
    assert [listed(WIDE, order, radio) for order in (2, 4, 6) for radio in BANDS_KHZ] == [0] * 9


def test_as_many_pairs_are_counted_as_a_list_of_all_holds(told: tuple[ChannelPairs, ...]) -> None:
    for one in told:
        assert one.all_pairs == len(WIDE) ** 2 == 751**2
        assert one.pairs == listed(WIDE, one.order, one.victims[0][2:-2])


def test_close_channels_are_counted_by_their_carriers(told: tuple[ChannelPairs, ...]) -> None:
    rare = next(one for one in told if (one.order, one.victims[0]) == (5, "p_glideslope_0"))
    assert rare.all_close_pairs == len(CLOSE) ** 2
    assert rare.close_pairs == listed(CLOSE, 5, "glideslope")


def test_the_example_hits_the_band_and_says_names_and_carriers(
    told: tuple[ChannelPairs, ...],
) -> None:
    for one in told:
        pair, (low_hz, high_hz) = one.example, one.victim_hz
        assert low_hz <= pair.lands_hz <= high_hz
        assert pair.lands_hz == pytest.approx(np.dot(pair.weights, pair.carriers_hz))
        assert sum(map(abs, pair.weights)) == one.order
        assert [float(name) * 1e6 for name in pair.channels] == pytest.approx(pair.carriers_hz)
        assert len(set(pair.coms)) == 2


def test_the_third_order_into_vor_is_told_at_its_middle(told: tuple[ChannelPairs, ...]) -> None:
    """2 x 118.000 - 123.000 = 113.000 MHz."""
    pair = told[0].example
    assert (pair.channels, pair.weights, pair.lands_hz) == (("118.000", "123.000"), (2, -1), 113e6)


@pytest.mark.parametrize("close", [False, True])
def test_no_channel_beside_the_emergency_channel_is_counted_or_told(close: bool) -> None:
    names_hz = keyed_names_hz(117.975e6, 137.0e6, close)
    assert len(names_hz)
    assert not ((names_hz > 121.39e6) & (names_hz < 121.601e6)).any()
    around = mixing(facts_with_radios(vhf_com=3)).channels
    assert all(not 121.4 <= float(name) <= 121.6 for one in around for name in one.example.channels)


def with_band(unit: str, low_hz: float, high_hz: float) -> tuple[ChannelPairs, ...]:
    """Return what two COMs do beside a glideslope where one port states a band of its own."""
    radios = {"vhf_com": 2, "glideslope": 1}
    plan = with_port(crowded_plan(radios), unit, "ant", band_hz=Range(low_hz, high_hz))
    return mixing(gather(plan, crowded_catalog(radios), shipped_rulebook())).channels


def test_where_only_close_channels_hit_the_example_is_one_of_them() -> None:
    """4 x 118.000 - 136.99167 = 335.00833 MHz; no pair of channels of 25 kHz reaches down to it."""
    told = next(one for one in with_band("u_glideslope_0", 335.0e6, 335.01e6) if one.order == 5)
    assert (told.pairs, told.close_pairs) == (0, 2)
    assert told.example.channels == ("118.000", "136.990")
    assert told.example.carriers_hz[1] == pytest.approx(136.991667e6, abs=1.0)
    assert told.example.lands_hz == pytest.approx(335.008333e6, abs=1.0)


def test_a_com_with_a_band_of_its_own_has_the_channels_of_that_band() -> None:
    told = with_band("u_vhf_com_0", 118.0e6, 118.1e6)
    assert {one.all_pairs for one in told} == {5 * 751}
    assert {one.coms for one in told} == {(("p_vhf_com_1",), ("p_vhf_com_0",))}
    for one in told:
        assert 118.0 <= float(one.example.channels[1]) <= 118.1


def test_coms_without_channels_are_told_by_their_bands() -> None:
    radios = {"vhf_com": 2, "glideslope": 1}
    plan = crowded_plan(radios)
    for unit in ("u_vhf_com_0", "u_vhf_com_1"):
        plan = with_port(plan, unit, "ant", band_hz=Range(160.0e6, 170.0e6))
    found = mixing(gather(plan, crowded_catalog(radios), shipped_rulebook()))
    assert found.channels == ()
    assert [(one.order, one.senders) for one in found.bands] == [
        (2, (("p_vhf_com_0", "p_vhf_com_1"),) * 2)
    ]
