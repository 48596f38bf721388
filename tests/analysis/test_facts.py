# SPDX-License-Identifier: Apache-2.0
"""What is gathered once: where cables end, what is in use, which paths touch a thing."""

from __future__ import annotations

from dataclasses import replace

import pytest
from sample import (
    IN,
    MHZ,
    refitted,
    sample_cable,
    sample_catalog,
    sample_facts,
    sample_plan,
    with_entry,
)

from rfplan.analysis.facts import end_of
from rfplan.model.catalog import AttenuationPoint, AttenuationSet
from rfplan.model.plan import Part, Path, State
from rfplan.model.record import ById


def test_a_cable_in_no_path_has_no_run() -> None:
    plan = sample_plan()
    lonely = replace(plan.design, paths=ById({"com1": plan.design.paths["com1"]}))
    assert list(sample_facts(replace(plan, design=lonely)).runs) == ["w21"]


def test_each_state_has_its_own_facts() -> None:
    plan = sample_plan()
    found = sample_facts(replace(plan, state=State.FOUND))
    built = sample_facts(replace(plan, state=State.BUILT))
    assert found.runs["w11"].length_m.nominal == pytest.approx(31 * IN)
    assert built.runs["w11"].length_m.nominal == pytest.approx(91.5 * IN)
    assert found.scene.fitted["gnss1"].places.inside


def test_the_serial_number_picks_the_variant_of_the_route() -> None:
    plan = sample_plan()
    terms = {
        serial: sample_facts(replace(plan, serial=serial)).runs["w31"].terms
        for serial in ("17", "30")
    }
    base, floats = terms["17"], terms["30"]
    assert base is not None and floats is not None
    assert base.routed_m == pytest.approx(56 * IN)
    assert floats.routed_m == pytest.approx(70 * IN)


def test_an_end_is_at_its_stated_node_else_at_the_nearest_else_nowhere() -> None:
    facts = sample_facts()
    fitted, standing, net = facts.installation, facts.scene.fitted, facts.site.network
    assert end_of("com1", fitted, standing, net).node == "rf2"
    named = refitted(sample_plan(), "units", "nav1", node="rf1")
    assert end_of("nav1", named.installation, standing, net).node == "rf1"
    lost = refitted(sample_plan(), "units", "nav1", at=None)
    end = end_of("nav1", lost.installation, standing, net)
    assert (end.point, end.node) == (None, None)


def test_a_part_stands_on_its_node() -> None:
    facts = sample_facts()
    fitted = replace(
        facts.installation, parts=ById({"p": Part("tnc_through", "apl"), "q": Part("x")})
    )
    end = end_of("p", fitted, facts.scene.fitted, facts.site.network)
    assert end.point == facts.site.network.points["apl"]
    assert end_of("q", fitted, facts.scene.fitted, facts.site.network).node is None


def test_the_paths_of_a_thing_are_those_whose_chain_it_is_in() -> None:
    facts = sample_facts()
    assert facts.paths_of("nav1") == ("com1", "gnss1")
    assert facts.paths_of("nav1.com") == ("com1",)
    assert facts.paths_of("w31", "gnss1") == ("gnss1", "xpdr1")
    assert facts.paths_of("nothing") == ()


def test_a_branch_belongs_to_one_path_and_its_splitter_to_all() -> None:
    plan = sample_plan()
    one = Path(("nav1.gnss", "w11", "sp.a", "w21", "gnss1"))
    fitted = replace(
        plan.design, parts=ById({"sp": Part("split_2", "rf1")}), paths=ById({"gnss1": one})
    )
    facts = sample_facts(replace(plan, design=fitted))
    assert facts.paths_of("sp") == facts.paths_of("sp.a") == ("gnss1",)
    assert facts.paths_of("sp.b") == ()


def test_each_catalogue_entry_in_use_is_told_once_and_extrapolated_if_any_band_is() -> None:
    points = tuple(AttenuationPoint(f * MHZ, 0.015 * f**0.5) for f in (10, 100, 800))
    short = sample_cable().attenuation.having(
        "nominal", AttenuationSet(points=points, source="sheet")
    )
    catalog = with_entry(sample_catalog(), "cables", "coax_5mm", attenuation=short)
    sources = sample_facts(catalog=catalog).loss_sources()
    assert sorted(sources) == ["bnc", "coax_5mm", "tnc"]
    assert sources["coax_5mm"].extrapolated
    assert not sample_facts().loss_sources()["coax_5mm"].extrapolated
