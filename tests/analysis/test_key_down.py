# SPDX-License-Identifier: Apache-2.0
"""The generated key-down list: as few channels as cover every TEST, none of them 121.5."""

from __future__ import annotations

from dataclasses import replace

import pytest
from crowded_aircraft import crowded_facts
from demo_plans import assessed
from interfering import (
    exposures,
    facts_with,
    gained_catalog,
    masked_rulebook,
    two_transponders,
    with_elt,
)
from plan_files import shipped_rulebook
from sample import place, refitted, sample_facts, sample_plan, with_port

from rfplan.analysis.before_keying import to_measure
from rfplan.analysis.emissions import receivers
from rfplan.analysis.interference import interference
from rfplan.analysis.key_down import key_down
from rfplan.model.interference import NOISE, CellWord, Harm, KeyDownStep
from rfplan.model.record import ById
from rfplan.reports.study import facts_of


def steps() -> tuple[KeyDownStep, ...]:
    facts = facts_with()
    return key_down(facts, interference(facts))


def test_the_sample_is_keyed_on_the_channels_next_to_l1() -> None:
    told = [(one.com, one.channel, one.close, one.victims, one.dwell_s) for one in steps()]
    assert told == [
        ("com1", "118.000", False, ("gnss1", "xpdr1"), 35.0),
        ("com1", "121.175", False, ("gnss1",), 35.0),
        ("com1", "121.185", True, ("gnss1",), 35.0),
        ("com1", "128.750", False, ("xpdr1",), 35.0),
        ("com1", "131.275", False, ("gnss1",), 35.0),
        ("com1", "131.285", True, ("gnss1",), 35.0),
    ]


def test_a_close_channel_is_told_by_name_and_by_carrier() -> None:
    close = next(one for one in steps() if one.close)
    assert close.carrier_hz == pytest.approx(121.18333333e6, abs=1.0)


def test_every_generated_channel_for_l1_stands_in_the_remembered_list() -> None:
    listed = shipped_rulebook().ground_checks.key_down
    assert listed
    wide = [one for one in steps() if not one.close and one.order > 1 and "gnss1" in one.victims]
    assert {one.channel for one in wide} <= set(listed.channels)
    assert {one.channel for one in steps() if one.close} <= set(listed.fine)


def test_every_test_of_a_com_into_a_gnss_signal_is_covered() -> None:
    facts = crowded_facts()
    matrix = interference(facts)
    listening = {one.path: one for one in receivers(facts)}
    told = key_down(facts, matrix)
    uncovered = [
        one
        for cell in matrix.cells
        for one in cell.exposures
        if one.order > 1 and one.word is CellWord.TEST and one.source.startswith("p_vhf_com")
        for signal_hz in listening[one.victim].signals_hz
        if not any(
            step.com == one.source
            and one.victim in step.victims
            and abs(step.order * step.carrier_hz - one.frequency_hz) < 10.0e6
            for step in told
        )
        and abs(one.frequency_hz - signal_hz) < 10.0e6
    ]
    assert told
    assert not uncovered


def test_whatever_the_carrier_of_a_com_may_disturb_is_watched_on_one_channel() -> None:
    facts = crowded_facts()
    matrix = interference(facts)
    told = [one for one in key_down(facts, matrix) if one.channel == "118.000"]
    open_to: dict[str, set[str]] = {}
    for cell in matrix.cells:
        for one in cell.exposures:
            tried = one.order == 1 and one.verdict is None and one.harm is not Harm.DAMAGE
            if tried and one.source.startswith("p_vhf_com"):
                open_to.setdefault(one.source, set()).add(one.victim)
    watched = {one.com: set(one.victims) for one in told}
    assert len(watched) == 6
    assert all(open_to[com] <= victims for com, victims in watched.items())


def test_what_may_damage_a_receiver_is_measured_and_never_tried() -> None:
    plan = two_transponders(10.0)
    far = refitted(plan, "antennas", "xpdr2", on="top", at=place(190, 0))
    facts = facts_with(far, gained_catalog())
    told = dict(to_measure(facts, interference(facts)))
    assert all(one.harm is Harm.DAMAGE and one.verdict is None for one in told.values())
    matrix = interference(facts)
    tried = {
        (one.source, one.victim)
        for cell in matrix.cells
        for one in cell.exposures
        if one.verdict is None and one.harm is not Harm.DAMAGE
    }
    keyed = {(one.com, victim) for one in key_down(facts, matrix) for victim in one.victims}
    assert keyed and keyed <= tried


def test_a_com_is_keyed_once_for_the_strongest_harmonic_in_a_receivers_band() -> None:
    """The 8th of 128.75 MHz is 1030 MHz; of a band that three reach, the lowest is keyed."""
    facts = facts_with()
    watching = [step for step in key_down(facts, interference(facts)) if step.order == 8]
    assert [(one.com, one.channel, one.victims) for one in watching] == [
        ("com1", "128.750", ("xpdr1",))
    ]
    twin = facts_of(assessed("twin"))
    told = [one for one in key_down(twin, interference(twin)) if one.com == "com1"]
    dme = [one for one in told if "dme" in one.victims and one.order > 1 and not one.repeat_with]
    assert [(one.order, one.channel) for one in dme] == [(8, "120.250")]


def test_no_step_can_be_left_out() -> None:
    facts = crowded_facts()
    told = [one for one in key_down(facts, interference(facts)) if one.repeat_with is None]
    heard = {id for id in facts.chains if "gnss" in id}
    near = [one for one in told if one.order > 1 and heard & set(one.victims)]
    reached = [(one.com, one.order, one.close) for one in near]
    assert len(reached) == len(set(reached)) > 0
    beside = [one for one in told if one.order > 1 and not heard & set(one.victims)]
    watched = [(one.com, victim) for one in beside for victim in one.victims]
    assert len(watched) == len(set(watched)) > 0


def test_a_harmonic_that_passes_is_not_keyed() -> None:
    plan = with_port(sample_plan(), "nav1", "com", harmonics_db=ById({"12": 180.0}))
    facts = facts_with(plan, gained_catalog())
    assert {one.order for one in key_down(facts, interference(facts))} == {1, 8, 13}


def test_everything_is_repeated_with_the_cable_of_the_elt_off() -> None:
    facts = sample_facts(*with_elt(sample_plan()))
    told = key_down(facts, interference(facts))
    first, again = told[: len(told) // 2], told[len(told) // 2 :]
    assert first
    assert again == tuple(replace(one, repeat_with="elt1") for one in first)


def test_the_emergency_channel_is_never_keyed() -> None:
    facts = crowded_facts()
    told = key_down(facts, interference(facts))
    assert all(abs(one.carrier_hz - 121.5e6) > 0.1e6 for one in told)
    assert all(118.0e6 <= one.carrier_hz <= 137.0e6 for one in told)


def test_without_a_dwell_nothing_is_keyed() -> None:
    checks = replace(masked_rulebook().ground_checks, key_down=None)
    facts = sample_facts(rulebook=replace(masked_rulebook(), ground_checks=checks))
    assert key_down(facts, interference(facts)) == ()


def test_a_receiver_that_only_noise_may_disturb_is_watched_too() -> None:
    plan = with_port(sample_plan(), "nav1", "com", harmonics_db=ById({"8": 200.0}))
    bears = {"overload_dbm": 60.0, "noise_figure_db": 9.0, "bandwidth_hz": 8e6}
    facts = facts_with(with_port(plan, "xp1", "ant", **bears), gained_catalog())
    matrix = interference(facts)
    told = exposures(matrix, "com1", "xpdr1")
    assert {one.order for one in told if one.verdict is None} == {NOISE}
    assert any("xpdr1" in step.victims for step in key_down(facts, matrix))
