# SPDX-License-Identifier: Apache-2.0
"""Mixing products against frequencies drawn one by one, and who may take part at all."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import combinations, product

import numpy as np
import pytest
from crowded_aircraft import crowded_facts, facts_with_radios
from demo_plans import DEMOS, assessed
from plan_files import shipped_rulebook

from rfplan.analysis.mixing import mixing
from rfplan.model.mixing import Mixing
from rfplan.reports.study import facts_of

MHZ = 1e6

BANDS_MHZ = {
    "vhf_com": (117.975, 137.0),
    "transponder": (1090.0, 1090.0),
    "dme": (1025.0, 1150.0),
    "uat_978": (978.0, 978.0),
    "radalt": (4200.0, 4400.0),
    "satcom_l": (1645.5, 1656.5),
}
"""Where they send; the shipped tables are compared with these before they are used."""

PULSED = {"transponder", "dme", "uat_978"}

HEARD_MHZ = {
    "gnss_l1": (1563.42, 1587.42),
    "vor_loc": (108.0, 117.975),
    "glideslope": (328.6, 335.4),
    "marker": (74.8, 75.2),
}
"""Receivers that must work whatever sends."""

ONE_OF_EACH = dict.fromkeys([*BANDS_MHZ, *HEARD_MHZ], 1) | {"vhf_com": 2}


def kind_of(path: str) -> str:
    """Return the radio of a path of the crowded aircraft: `p_vhf_com_0`."""
    return path[2:].rpartition("_")[0]


def mixed(demo: str) -> Mixing:
    return mixing(facts_of(assessed(demo)))


def teams(size: int) -> Iterator[tuple[str, ...]]:
    """Yield kinds of which no two blank each other; two COMs are two."""
    for team in combinations(["vhf_com", *BANDS_MHZ], size):
        pulsed = [kind for kind in team if kind in PULSED]
        if len(pulsed) < 2:
            yield team


def weights(size: int) -> list[tuple[int, ...]]:
    """Return all whole numbers that make an order up to 7 for two, or 3 for three."""
    orders = {2: range(2, 8), 3: range(3, 4)}[size]
    return [
        one
        for one in product(range(-6, 7), repeat=size)
        if all(one) and sum(map(abs, one)) in orders
    ]


def lowest_orders(found: Mixing) -> dict[tuple[tuple[str, ...], str], int]:
    """Return the lowest order at which kinds are told to mix into a kind of receiver."""
    told = [(one.order, [kind_of(path) for path in one.team], one.victims) for one in found.bands]
    told += [
        (one.order, [kind_of(paths[0]) for paths in one.coms], one.victims)
        for one in found.channels
    ]
    lowest: dict[tuple[tuple[str, ...], str], int] = {}
    for order, kinds, victims in sorted(told):
        for victim in victims:
            lowest.setdefault((tuple(sorted(kinds)), kind_of(victim)), order)
    return lowest


def test_the_bands_of_these_tests_are_those_that_ship() -> None:
    radios = shipped_rulebook().radios
    for id, ends_mhz in (BANDS_MHZ | HEARD_MHZ).items():
        direction = "tx" if id in BANDS_MHZ else "rx"
        told = [one for one in radios[id].bands.values() if one.direction == direction]
        assert [(one.low_hz / MHZ, one.high_hz / MHZ) for one in told] == [ends_mhz]


def test_whatever_lands_in_a_band_by_chance_is_told() -> None:
    lowest = lowest_orders(mixing(facts_with_radios(**ONE_OF_EACH)))
    draw = np.random.default_rng(7)
    hits = 0
    for size in (2, 3):
        for team, times in product(teams(size), weights(size)):
            ends_mhz = np.array([BANDS_MHZ[kind] for kind in team])
            carriers_mhz = draw.uniform(ends_mhz[:, 0], ends_mhz[:, 1], (200, size))
            lands_mhz = np.abs(carriers_mhz @ np.array(times))
            for victim, (low_mhz, high_mhz) in HEARD_MHZ.items():
                if ((lands_mhz >= low_mhz) & (lands_mhz <= high_mhz)).any():
                    hits += 1
                    assert lowest[tuple(sorted(team)), victim] <= sum(map(abs, times))
    assert hits > 50


def test_an_interval_ends_where_the_product_of_band_ends_does_and_holds_all_between() -> None:
    draw = np.random.default_rng(3)
    for one in mixing(crowded_facts()).bands:
        ends_hz = MHZ * np.array([BANDS_MHZ[kind_of(path)] for path in one.team])
        corners_hz = [np.dot(one.weights, corner) for corner in product(*ends_hz)]
        low_hz = max(min(corners_hz), 0.0)
        assert one.product_hz == pytest.approx((low_hz, max(map(abs, corners_hz))))
        carriers_hz = draw.uniform(ends_hz[:, 0], ends_hz[:, 1], (200, len(one.team)))
        lands_hz = np.abs(carriers_hz @ np.array(one.weights))
        assert low_hz - 1.0 <= lands_hz.min() and lands_hz.max() <= one.product_hz[1] + 1.0
        assert sum(map(abs, one.weights)) == one.order
        assert one.overlap_hz[0] <= one.overlap_hz[1]


def test_only_those_mix_that_may_send_together() -> None:
    for one in mixing(crowded_facts()).bands:
        kinds = list(map(kind_of, one.team))
        assert "elt" not in kinds
        assert sum(kind in PULSED for kind in kinds) < 2
        assert len(set(one.team)) == len(one.team)


def test_nobody_is_disturbed_who_is_blanked_or_sends_meanwhile() -> None:
    for one in mixing(crowded_facts()).bands:
        kinds, heard = set(map(kind_of, one.team)), set(map(kind_of, one.victims))
        assert not (kinds & PULSED and heard & PULSED)
        talking = sum(kind_of(path) == "vhf_com" for path in one.team)
        assert talking != 1 or "vhf_com" not in heard


def test_a_satellite_terminal_hears_its_own_product_in_another_band() -> None:
    told = mixing(facts_with_radios(satcom_l=1, dme=1)).bands
    assert [(one.team, one.weights, one.victims) for one in told] == [
        (("p_dme_0", "p_satcom_l_0"), (3, -1), ("p_satcom_l_0",))
    ]


def test_a_radio_with_one_band_for_both_ways_takes_turns_with_itself() -> None:
    found = mixing(facts_with_radios(radalt=1, vhf_com=2))
    assert not [one for one in found.bands if "p_radalt_0" in one.victims]
    two = mixing(facts_with_radios(radalt=2, vhf_com=1))
    told = next(one for one in two.bands if one.victims == ("p_radalt_0", "p_radalt_1"))
    assert (told.order, told.senders) == (2, (("p_radalt_0", "p_radalt_1"), ("p_vhf_com_0",)))


def test_two_ports_of_one_unit_do_not_mix_with_each_other() -> None:
    teams_told = [one.team for one in mixed("twin").bands]
    traffic = {"tas_a", "tas_f", "tas_l", "tas_r"}
    assert {len(traffic.intersection(team)) for team in teams_told} == {0, 1}


def test_a_third_com_hears_two_that_two_people_talk_on_and_a_second_does_not() -> None:
    two, three = (mixing(facts_with_radios(vhf_com=many)) for many in (2, 3))
    assert two == Mixing((), ())
    assert [one.order for one in three.channels] == [3, 5, 7]
    assert three.channels[0].victims == ("p_vhf_com_0", "p_vhf_com_1", "p_vhf_com_2")


def test_the_transponder_and_four_times_a_com_fall_on_l1() -> None:
    """4 x 118.000 + 1090 = 1562, 4 x 124.355 + 1090 = 1587.42 MHz."""
    told = next(one for one in mixed("amphibian").bands if one.team == ("xpdr", "com1"))
    assert (told.order, told.weights) == (5, (1, 4))
    assert told.senders == (("xpdr",), ("com1", "com2"))
    assert told.victims == ("gnss1", "gnss2", "gnss3")
    assert told.product_hz == pytest.approx((4 * 117.975e6 + 1090e6, 4 * 137e6 + 1090e6))
    assert told.overlap_hz == pytest.approx((1563.42e6, 1587.42e6))
    assert told.products == 2  # the other is 2 x 1090 - 5 x com, order 7


@pytest.mark.parametrize("demo", DEMOS)
def test_low_orders_stand_first_and_nothing_is_told_twice(demo: str) -> None:
    found = mixed(demo)
    for orders in ([one.order for one in found.bands], [one.order for one in found.channels]):
        assert orders == sorted(orders)
    rows = [(one.senders, one.victim_hz) for one in found.bands]
    assert len(set(rows)) == len(rows)
    assert mixed(demo) == found


def test_an_aircraft_that_does_not_send_mixes_nothing() -> None:
    assert mixing(facts_with_radios(gnss_l1=2, marker=1)) == Mixing((), ())
    assert mixing(facts_with_radios(vhf_com=1, gnss_l1=2)) == Mixing((), ())
