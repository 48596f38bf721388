# SPDX-License-Identifier: Apache-2.0
"""Chains as elements: what is counted, in which order, and which plugs meet."""

from __future__ import annotations

from dataclasses import replace

from sample import (
    SOURCES,
    inch,
    place,
    refitted,
    sample_antenna,
    sample_assembly,
    sample_catalog,
    sample_connector,
    sample_facts,
    sample_plan,
    with_entry,
)

from rfplan.analysis.signal_path import Chain, cable_ends
from rfplan.model.catalog import AntennaPort, Catalog, LossSet
from rfplan.model.plan import Antenna, Part, Path, Plan
from rfplan.model.record import ById


def chain(plan: Plan, id: str = "gnss1", catalog: Catalog | None = None) -> Chain:
    """Return one path of a plan as elements."""
    return sample_facts(plan, catalog).chains[id]


def kinds(one: Chain) -> list[str]:
    """Return the kinds of the elements in order."""
    return [element.kind for element in one.elements]


def with_chain(plan: Plan, id: str, *members: str, **parts: Part) -> Plan:
    """Return a plan with another chain, parts of it, and the cable `w12` beside the others."""
    cables = plan.design.cables.having("w12", sample_assembly(plugs=("tnc", "tnc")))
    paths = plan.design.paths.having(id, Path(members))
    return replace(plan, design=replace(plan.design, cables=cables, paths=paths, parts=ById(parts)))


def test_a_cable_between_unit_and_antenna_makes_two_mated_pairs() -> None:
    one = chain(sample_plan())
    assert kinds(one) == ["mated_pair", "cable", "mated_pair"]
    assert [pair.end for pair in one.pairs] == ["unit", "antenna"]
    assert (one.unit, one.port_id, one.antenna) == ("nav1", "gnss", "gnss1")


def test_every_neighbour_pair_mates_so_a_bulkhead_makes_four_pairs() -> None:
    plan = with_chain(
        sample_plan(),
        "gnss1",
        "nav1.gnss",
        "w11",
        "pass1",
        "w12",
        "gnss1",
        pass1=Part("tnc_through", "rf1"),
    )
    one = chain(plan)
    expected = [
        "mated_pair",
        "cable",
        "mated_pair",
        "bulkhead",
        "mated_pair",
        "cable",
        "mated_pair",
    ]
    assert kinds(one) == expected
    assert [pair.end for pair in one.pairs] == ["unit", None, None, "antenna"]
    assert [run.id for run in one.runs] == ["w11", "w12"]


def test_a_branch_of_a_splitter_enters_at_its_own_plug_and_leaves_at_the_common() -> None:
    plan = with_chain(
        sample_plan(),
        "gnss1",
        "nav1.gnss",
        "w11",
        "sp.a",
        "w12",
        "gnss1",
        sp=Part("split_2", "rf1"),
    )
    catalog = sample_catalog()
    catalog = with_entry(catalog, "inline_parts", "split_2", common="bnc")
    one = chain(plan, catalog=catalog)
    assert kinds(one)[3] == "splitter"
    assert one.elements[3].losses["nominal"].loss_db == 3.4
    assert one.elements[2].plugs == ("tnc", "tnc")
    assert one.elements[4].plugs == ("bnc", "tnc")
    assert not one.elements[4].mates


def test_a_combiner_is_shown_as_a_splitter() -> None:
    plan = with_chain(
        sample_plan(),
        "gnss1",
        "nav1.gnss",
        "w11",
        "sp.a",
        "w12",
        "gnss1",
        sp=Part("split_2", "rf1"),
    )
    catalog = with_entry(sample_catalog(), "inline_parts", "split_2", kind="combiner")
    assert kinds(chain(plan, catalog=catalog))[3] == "splitter"


def test_the_pigtail_of_an_antenna_is_an_element_behind_its_plug() -> None:
    pigtail = ById({"nominal": LossSet(0.3, tolerance_db=0.1, source="sheet")})
    catalog = with_entry(sample_catalog(), "antennas", "gnss_active", pigtail=pigtail)
    one = chain(sample_plan(), catalog=catalog)
    assert kinds(one) == ["mated_pair", "cable", "mated_pair", "adapter"]
    assert one.elements[-1].losses == pigtail
    assert len(one.pairs) == 2


def test_an_antenna_with_several_plugs_is_met_at_the_named_one() -> None:
    ports = ById({"com": AntennaPort("bnc", ("vhf_com",)), "gps": AntennaPort("tnc", ("gnss_l1",))})
    both = sample_antenna("both", "gnss_l1", plug=None, ports=ports)
    catalog = sample_catalog()
    catalog = replace(catalog, antennas=catalog.antennas.having("both", both))
    plan = refitted(sample_plan(), "antennas", "gnss1", type="both")
    plan = refitted(plan, "paths", "gnss1", chain=("nav1.gnss", "w11", "gnss1.gps"))
    one = chain(plan, catalog=catalog)
    assert one.antenna == "gnss1"
    assert one.elements[-1].plugs == ("tnc", "tnc")
    assert one.elements[-1].mates


def test_the_angle_plug_gives_the_loss_of_a_pair_before_the_straight_one() -> None:
    catalog = sample_catalog()
    angle = sample_connector("tnc", id="tnc_angle", form="angle")
    catalog = replace(catalog, connectors=catalog.connectors.having("tnc_angle", angle))
    plan = refitted(sample_plan(), "cables", "w11", plugs=("tnc_angle", "tnc"))
    one = chain(plan, catalog=catalog)
    assert [pair.type for pair in one.pairs] == ["tnc_angle", "tnc"]
    assert all(pair.mates for pair in one.pairs)


def test_plugs_of_two_series_do_not_mate_and_an_unknown_plug_is_taken_as_its_neighbour() -> None:
    mixed = chain(refitted(sample_plan(), "cables", "w11", plugs=("bnc", "?")))
    assert [pair.mates for pair in mixed.pairs] == [False, True]
    assert mixed.pairs[1].type == "tnc"


def test_a_pair_of_which_nothing_is_known_has_no_entry() -> None:
    plan = refitted(sample_plan(), "cables", "w11", plugs=("?", "tnc"))
    unit = plan.design.units["nav1"]
    ports = unit.ports.having("gnss", replace(unit.ports["gnss"], plug=None))
    pair = chain(refitted(plan, "units", "nav1", ports=ports)).pairs[0]
    assert pair.type == "?"
    assert not pair.losses


def test_a_cable_ends_at_its_neighbours_in_the_chain_whatever_ports_they_have() -> None:
    plan = with_chain(
        sample_plan(),
        "gnss1",
        "nav1.gnss",
        "w11",
        "sp.a",
        "w12",
        "gnss1",
        sp=Part("split_2", "rf1"),
    )
    ends = cable_ends(plan.design)
    assert ends["w11"] == ("nav1", "sp")
    assert ends["w12"] == ("sp", "gnss1")


def test_a_cable_shared_behind_a_splitter_is_one_run_in_both_paths() -> None:
    plan = with_chain(
        sample_plan(),
        "gnss1",
        "nav1.gnss",
        "w11",
        "sp.a",
        "w12",
        "gnss1",
        sp=Part("split_2", "rf1"),
    )
    second = Path(("nav1.com", "w21", "sp.b", "w12", "gnss1"))
    plan = replace(
        plan, design=replace(plan.design, paths=plan.design.paths.having("com1", second))
    )
    facts = sample_facts(plan)
    assert facts.chains["gnss1"].runs[-1] is facts.chains["com1"].runs[-1]
    assert sorted(facts.runs) == ["w11", "w12", "w21", "w31"]


def test_a_run_between_a_part_and_an_antenna_is_routed_from_the_parts_node() -> None:
    plan = with_chain(
        sample_plan(),
        "gnss1",
        "nav1.gnss",
        "w11",
        "pass1",
        "w12",
        "gnss1",
        pass1=Part("tnc_through", "apl"),
    )
    facts = sample_facts(plan)
    assert facts.runs["w11"].nodes == ("p1", "apl")
    assert facts.runs["w12"].nodes == ("apl", "rf1")


def test_an_antenna_beside_the_hull_is_nowhere_near_a_node() -> None:
    plan = sample_plan()
    lost = Antenna("gnss_active", "top", place(80, 200), source="sheet")
    antennas = plan.design.antennas.having("gnss1", lost)
    facts = sample_facts(replace(plan, design=replace(plan.design, antennas=antennas)))
    assert facts.runs["w11"].unknown == ("route",)


def test_a_stated_node_is_entered_although_another_is_nearer() -> None:
    facts = sample_facts(refitted(sample_plan(), "antennas", "gnss1", node="apl"))
    assert facts.runs["w11"].nodes == ("p1", "apl")
    assert facts.runs["w11"].terms is not None
    assert facts.runs["w11"].terms.routed_m == inch(30)


def test_the_source_of_an_element_is_that_of_its_loss() -> None:
    one = chain(sample_plan())
    assert one.elements[0].source() == SOURCES["sheet"]
    assert one.elements[1].source().class_ == "unknown"  # a cable has its own
