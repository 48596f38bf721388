# SPDX-License-Identifier: Apache-2.0
"""One figure known: the loss between its ends closes in, and never opens."""

from __future__ import annotations

import pytest
from sample import refitted, sample_facts, sample_plan

from rfplan.analysis.facts import Facts
from rfplan.analysis.pinned import Figure, figures, pinned, spread_db

CABLE, PLUG = Figure("coax_5mm", "loss"), Figure("tnc", "loss")
TAPE = Figure("w11", "length")


def estimated() -> Facts:
    """Return the sample with drops that are only estimated."""
    return sample_facts(refitted(sample_plan(), "cables", "w11", drops_m=None))


def test_the_figures_of_a_path_are_its_types_and_its_loose_lengths() -> None:
    assert figures(sample_facts().chains["gnss1"]) == (PLUG, CABLE, TAPE)
    assert Figure("w21", "length") in figures(sample_facts().chains["com1"])
    stated = {"length_m": 3.0, "tolerance_m": 0.0, "retermination_m": None}
    lying = sample_facts(refitted(sample_plan(), "cables", "w11", **stated))
    assert figures(lying.chains["gnss1"]) == (PLUG, CABLE)


@pytest.mark.parametrize("figure", [CABLE, PLUG, TAPE])
def test_either_end_lies_inside_the_corners_of_today(figure: Figure) -> None:
    facts = estimated()
    chain, (today,) = facts.chains["gnss1"], facts.budgets["gnss1"]
    (low,), (high,) = (pinned(facts, chain, figure, end) for end in ("least", "most"))
    assert low.least.min() == pytest.approx(today.least.min())
    assert high.most.max() == pytest.approx(today.most.max())
    assert low.most.max() < today.most.max()
    assert high.least.min() > today.least.min()


def test_the_spread_that_goes_is_that_of_the_figure() -> None:
    facts = sample_facts()
    chain = facts.chains["gnss1"]
    assert spread_db(facts, chain, PLUG) == pytest.approx(4 * 0.04)
    (low,), (today,) = pinned(facts, chain, CABLE, "least"), facts.budgets["gnss1"]
    gone = float(today.most.max() - low.most.max())
    assert spread_db(facts, chain, CABLE) == pytest.approx(gone)


def test_an_unknown_cable_has_no_figure_to_pin() -> None:
    facts = sample_facts(refitted(sample_plan(), "cables", "w11", type="?"))
    assert figures(facts.chains["gnss1"])[0] == PLUG
    assert CABLE not in figures(facts.chains["gnss1"])


def test_what_another_path_has_is_left_alone() -> None:
    facts = estimated()
    chain = facts.chains["com1"]
    (same, _) = pinned(facts, chain, TAPE, "least")
    assert float(same.most.max()) == pytest.approx(float(facts.budgets["com1"][0].most.max()))
