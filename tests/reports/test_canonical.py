# SPDX-License-Identifier: Apache-2.0
"""The hash of a record changes with its content and with nothing else."""

from __future__ import annotations

from dataclasses import replace

from sample import (
    inch,
    place,
    refitted,
    sample_catalog,
    sample_plan,
    sample_rulebook,
)

from rfplan.model.airframe import Panel
from rfplan.model.plan import Plan, State
from rfplan.model.record import ById
from rfplan.reports.canonical import canonical_sha256, hashes_of


def plan_hash(plan: Plan) -> str:
    return hashes_of(plan, sample_catalog(), sample_rulebook()).plan


def test_a_hash_is_sixty_four_hex_digits_and_repeats() -> None:
    first, second = plan_hash(sample_plan()), plan_hash(sample_plan())
    assert first == second
    assert len(first) == 64
    assert int(first, 16) >= 0


def test_the_order_of_things_by_id_does_not_change_a_hash() -> None:
    plan = sample_plan()
    backwards = replace(plan.design, antennas=ById(reversed(list(plan.design.antennas.items()))))
    assert plan_hash(replace(plan, design=backwards)) == plan_hash(plan)


def test_the_order_of_skin_changes_a_hash_since_the_first_that_fits_wins() -> None:
    panels = {"hull": Panel("all", "aluminium"), "nose": Panel("top", "glass")}
    one = sample_plan(airframe=replace(sample_plan().airframe, skin=ById(panels)))
    other_way = ById(reversed(list(panels.items())))
    other = sample_plan(airframe=replace(sample_plan().airframe, skin=other_way))
    assert plan_hash(one) != plan_hash(other)


def test_any_changed_value_changes_a_hash() -> None:
    plan = sample_plan()
    hashes = {
        plan_hash(changed)
        for changed in (
            plan,
            refitted(plan, "antennas", "com1", at=place(130.1, 0)),
            refitted(plan, "cables", "w11", via=("apl",)),
            refitted(plan, "cables", "w11", retermination_m=inch(5)),
            replace(plan, title="another title"),
            replace(plan, state=State.FOUND, title="another state and title"),
        )
    }
    assert len(hashes) == 6


def test_neither_state_nor_serial_nor_folder_counts() -> None:
    plan = sample_plan()
    moved = replace(plan, id="elsewhere", airframe=replace(plan.airframe, id="elsewhere"))
    for same in (replace(plan, state=State.BUILT), replace(plan, serial="30"), moved):
        assert plan_hash(same) == plan_hash(plan)


def test_catalogue_and_rules_have_hashes_of_their_own() -> None:
    plan, catalog, rulebook = sample_plan(), sample_catalog(), sample_rulebook()
    base = hashes_of(plan, catalog, rulebook)
    thinner = sample_catalog(cables=ById({"coax_5mm": catalog.cables["coax_5mm"]}))
    gap = replace(rulebook, limits=replace(rulebook.limits, base_gap_m=0.002))
    assert hashes_of(plan, thinner, rulebook).catalog != base.catalog
    assert hashes_of(plan, catalog, gap).rules != base.rules
    assert hashes_of(plan, thinner, gap).plan == base.plan


def test_an_unknown_a_missing_and_an_empty_value_differ() -> None:
    plan = sample_plan()
    base = plan.installation.cables["w11"]
    hashes = {canonical_sha256(replace(base, length_m=length)) for length in (None, 0.0, 1.0)}
    assert len(hashes) == 3
