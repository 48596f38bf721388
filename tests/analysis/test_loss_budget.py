# SPDX-License-Identifier: Apache-2.0
"""Loss budgets of whole paths, added up by hand."""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from sample import (
    MHZ,
    SOURCES,
    inch,
    refitted,
    sample_assembly,
    sample_catalog,
    sample_facts,
    sample_plan,
    with_entry,
    with_port,
    with_radio,
)
from sample import sample_rulebook as rulebook

from rfplan.analysis import element_loss
from rfplan.analysis.element_loss import POINTS, ItemLoss, band_grids, loss_book
from rfplan.analysis.facts import gather
from rfplan.analysis.loss_budget import BandBudget
from rfplan.model.catalog import AttenuationPoint, AttenuationSet, Catalog, LossPoint, LossSet
from rfplan.model.plan import Part, Path, Plan, Policy, Port
from rfplan.model.record import ById
from rfplan.model.source import Source
from rfplan.physics.mismatch import mismatch_bounds_db
from rfplan.units import NONE, UNKNOWN, Missing, Range

HOT = math.sqrt(1 + 0.00393 * 50)
COLD = math.sqrt(1 - 0.00393 * 75)
L1_HZ = 1575.42 * MHZ


def flat_cable(catalog: Catalog, **changes: object) -> Catalog:
    """Return a catalogue whose cable loses 0.2 .. 0.8 dB/m from 100 to 1600 MHz, no dielectric.

    The loss is 0.02 sqrt(f): at 1600 MHz 0.8 dB/m, and all of it in the conductors.
    """
    points = tuple(AttenuationPoint(f * MHZ, 0.02 * math.sqrt(f)) for f in (100, 400, 1600))
    nominal = AttenuationSet(points=points, tolerance_ratio=0.05, source="sheet")
    sets = ById({"nominal": replace(nominal, **changes)})  # type: ignore[arg-type]
    return with_entry(catalog, "cables", "coax_5mm", attenuation=sets, dielectric=None)


def one_frequency(plan: Plan, hz: float = 1600 * MHZ) -> Plan:
    """Return a plan whose GNSS port is judged at one frequency."""
    return with_port(plan, "nav1", "gnss", band_hz=Range(hz, hz))


def budget(
    plan: Plan | None = None, catalog: Catalog | None = None, path: str = "gnss1"
) -> BandBudget:
    """Return the first band of a path, by default over 2 m of the flat cable at 1600 MHz."""
    facts = sample_facts(plan or two_metres(), catalog or flat_cable(sample_catalog()))
    return facts.budgets[path][0]


def two_metres(**changes: object) -> Plan:
    """Return the sample with a GNSS cable of exactly 2 m, judged at 1600 MHz."""
    exact = {"length_m": 2.0, "retermination_m": None, "tolerance_m": None}
    return one_frequency(refitted(sample_plan(), "cables", "w11", **{**exact, **changes}))


def total(values: np.ndarray) -> float:
    """Return the one value of an array."""
    (value,) = values
    return float(value)


def test_the_loss_of_a_path_is_the_sum_of_its_cable_and_its_pairs() -> None:
    # 2 m x 0.8 + 2 x 0.08 = 1.76; pairs +- 0.04; cable -5 % cold, +5 % hot
    one = budget()
    assert total(one.nominal) == pytest.approx(1.76)
    assert total(one.least_20) == pytest.approx(1.6 * 0.95 + 2 * 0.04)
    assert total(one.most_20) == pytest.approx(1.6 * 1.05 + 2 * 0.12)
    assert total(one.least) == pytest.approx(1.6 * 0.95 * COLD + 2 * 0.04)
    assert total(one.most) == pytest.approx(1.6 * 1.05 * HOT + 2 * 0.12)


def test_each_corner_takes_its_own_end_of_the_length() -> None:
    # 4 in of allowance used up and 0.5 in of tolerance either way
    one = budget(two_metres(retermination_m=inch(4), tolerance_m=inch(0.5)))
    assert total(one.least_20) == pytest.approx(0.8 * 0.95 * (2 - inch(4.5)) + 0.08)
    assert total(one.most_20) == pytest.approx(0.8 * 1.05 * (2 + inch(0.5)) + 0.24)


def test_ageing_is_a_share_of_the_most_that_a_cable_loses_as_new_and_enters_nothing_else() -> None:
    # the pairs do not age: 1.6 dB + 5 % + 50 degC more, and a tenth of that on top
    new, old = budget(), budget(two_metres(ageing_ratio=0.10))
    assert total(old.most) == pytest.approx(1.6 * 1.05 * HOT * 1.10 + 2 * 0.12)
    assert total(old.most_20) == pytest.approx(1.6 * 1.05 * 1.10 + 2 * 0.12)
    for name in ("least", "least_20", "nominal", "judged_nominal"):
        assert total(getattr(old, name)) == total(getattr(new, name))
    assert [total(item.ageing) for item in old.items] == [0.0, pytest.approx(0.168 * HOT), 0.0]


def test_ageing_is_not_hidden_in_a_root_sum_square() -> None:
    # root of cable 0.08 + hot and the two pairs' 0.04 as it was, the ageing whole above it
    new, old = budget(), budget(two_metres(ageing_ratio=0.10))
    assert total(old.rss[0]) == total(new.rss[0])
    assert total(old.rss[1]) == pytest.approx(total(new.rss[1]) + 0.168 * HOT)


@pytest.mark.parametrize(
    ("own", "policy", "allowed"),
    [(None, None, 0.0), (None, 0.05, 0.05), (0.2, 0.05, 0.2), (NONE, 0.05, 0.0), (0.0, 0.05, 0.0)],
)
def test_a_cable_ages_as_it_says_itself_else_as_the_policy_says(
    own: float | Missing | None, policy: float | None, allowed: float
) -> None:
    plan = replace(two_metres(ageing_ratio=own), policy=Policy(ageing_ratio=policy))
    ageing = budget(plan).items[1].ageing
    assert total(ageing) == pytest.approx(allowed * 1.6 * 1.05 * HOT)


def test_ageing_that_is_not_known_leaves_the_most_open_but_not_what_it_is_as_new() -> None:
    one = budget(two_metres(ageing_ratio=UNKNOWN))
    assert (one.unknown_least, one.unknown_most) == ((), ("w11.ageing",))
    assert math.isinf(one.most.max())
    assert one.most_if_small == pytest.approx(1.6 * 1.05 * HOT + 2 * 0.12)


@pytest.mark.parametrize(
    ("plugs", "pairs"),
    [(None, 2), ("included", 2), ("at unit", 1), ("at antenna", 1), ("excluded", 0)],
)
def test_the_datum_of_a_limit_says_which_end_pairs_count(plugs: str | None, pairs: int) -> None:
    one = budget(with_port(two_metres(), "nav1", "gnss", plugs=plugs))
    assert total(one.judged_nominal) == pytest.approx(1.6 + pairs * 0.08)
    assert total(one.most_20) == pytest.approx(1.68 + pairs * 0.12)
    assert total(one.nominal) == pytest.approx(1.76)  # the chain itself stays whole


def test_pairs_in_the_middle_of_a_path_count_whatever_the_datum_says() -> None:
    plan = through_part(two_metres(), "pass1", Part("tnc_through", "rf1"))
    one = budget(with_port(plan, "nav1", "gnss", plugs="excluded"))
    # w11 and w12 2 m each, the part 0.1, its two pairs 0.08 each
    assert total(one.judged_nominal) == pytest.approx(3.2 + 0.1 + 2 * 0.08)


def through_part(plan: Plan, member: str, part: Part) -> Plan:
    """Return a plan whose GNSS path goes through a part and a second cable of 2 m."""
    second = replace(sample_assembly(plugs=("tnc", "tnc")), length_m=2.0, retermination_m=None)
    second = replace(second, tolerance_m=None)
    fitted = plan.design
    chain = ("nav1.gnss", "w11", member, "w12", "gnss1")
    return replace(
        plan,
        design=replace(
            fitted,
            cables=fitted.cables.having("w12", second),
            parts=ById({member.partition(".")[0]: part}),
            paths=fitted.paths.having("gnss1", Path(chain)),
        ),
    )


def test_a_bulkhead_adds_its_body_and_two_more_pairs() -> None:
    one = budget(through_part(two_metres(), "pass1", Part("tnc_through", "rf1")))
    assert total(one.nominal) == pytest.approx(2 * 1.6 + 0.1 + 4 * 0.08)
    assert total(one.most_20) == pytest.approx(2 * 1.68 + 0.15 + 4 * 0.12)


def test_a_splitter_adds_the_loss_of_the_branch_that_is_used() -> None:
    catalog = sample_catalog()
    ports = catalog.inline_parts["split_2"].ports
    better = replace(ports["b"], loss=ById({"nominal": LossSet(3.1, source="sheet")}))
    catalog = with_entry(catalog, "inline_parts", "split_2", ports=ports.having("b", better))
    for branch, loss in (("a", 3.4), ("b", 3.1)):
        plan = through_part(two_metres(), f"sp.{branch}", Part("split_2", "rf1"))
        one = budget(plan, flat_cable(catalog))
        assert total(one.nominal) == pytest.approx(3.2 + loss + 4 * 0.08)


def test_two_branches_of_one_splitter_keep_their_own_losses() -> None:
    catalog = sample_catalog()
    ports = catalog.inline_parts["split_2"].ports
    better = replace(ports["b"], loss=ById({"nominal": LossSet(3.1, source="sheet")}))
    catalog = with_entry(catalog, "inline_parts", "split_2", ports=ports.having("b", better))
    plan = through_part(two_metres(), "sp.a", Part("split_2", "rf1"))
    unit = plan.design.units["nav1"]
    second = replace(unit, ports=unit.ports.having("gnss2", unit.ports["gnss"]))
    plan = refitted(plan, "units", "nav1", ports=second.ports)
    other = Path(("nav1.gnss2", "w21", "sp.b", "w12", "gnss1"))
    fitted = replace(plan.design, paths=plan.design.paths.having("gnss2", other))
    facts = sample_facts(replace(plan, design=fitted), flat_cable(catalog))
    losses = {id: total(facts.budgets[id][0].items[3].nominal) for id in ("gnss1", "gnss2")}
    assert losses == {"gnss1": 3.4, "gnss2": 3.1}


def test_the_pigtail_of_an_antenna_belongs_to_the_path() -> None:
    pigtail = ById({"nominal": LossSet(0.3, tolerance_db=0.1, source="sheet")})
    catalog = with_entry(sample_catalog(), "antennas", "gnss_active", pigtail=pigtail)
    assert total(budget(catalog=flat_cable(catalog)).nominal) == pytest.approx(1.76 + 0.3)


# ----- insertion losses


def pairs_with(*sources: tuple[str, Source], **sets: LossSet) -> ItemLoss:
    """Return the loss of the first pair of the GNSS path with these sets."""
    known = SOURCES
    for id, source in sources:
        known = known.having(id, source)
    catalog = with_entry(sample_catalog(), "connectors", "tnc", loss=ById(sets), sources=known)
    return budget(catalog=flat_cable(catalog)).items[0]


def ends(item: ItemLoss) -> tuple[float, float, float]:
    """Return least, nominal and most."""
    return float(item.least[0]), float(item.nominal[0]), float(item.most[0])


def test_a_pair_of_which_only_a_maximum_is_known_adds_nothing_to_the_least() -> None:
    item = pairs_with(maximum=LossSet(0.18, source="sheet"))
    assert ends(item) == (0.0, 0.18, 0.18)
    assert (item.basis, item.unknown_least, item.unknown_most) == ("maximum", None, None)


def test_a_pair_of_which_only_a_minimum_is_known_has_no_most() -> None:
    item = pairs_with(minimum=LossSet(0.05, source="sheet"))
    assert ends(item) == (0.05, 0.05, math.inf)
    assert item.unknown_most == "tnc.loss"


def test_minimum_and_maximum_take_the_place_of_the_tolerance() -> None:
    sets = {"nominal": LossSet(0.1, tolerance_db=0.01, source="sheet")}
    item = pairs_with(
        **sets, minimum=LossSet(0.07, source="sheet"), maximum=LossSet(0.18, source="sheet")
    )
    assert ends(item) == (0.07, 0.1, 0.18)


def test_a_tolerance_never_makes_a_part_gain() -> None:
    assert ends(pairs_with(nominal=LossSet(0.1, tolerance_db=0.3, source="sheet"))) == (
        0.0,
        0.1,
        pytest.approx(0.4),
    )


def test_an_insertion_loss_from_memory_is_known_to_a_tenth_and_an_estimate_to_a_fifth() -> None:
    mind = ("mind", Source("assumed", read="memory"))
    nominal = pairs_with(mind, nominal=LossSet(0.2, source="mind"))
    assert ends(nominal) == pytest.approx((0.18, 0.2, 0.22))
    maximum = pairs_with(mind, maximum=LossSet(0.2, source="mind"))
    assert ends(maximum) == pytest.approx((0.0, 0.2, 0.22))
    estimate = pairs_with(estimate=LossSet(0.2, source="sheet"))
    assert ends(estimate) == pytest.approx((0.16, 0.2, 0.24))
    stated = pairs_with(mind, nominal=LossSet(0.2, tolerance_db=0.01, source="mind"))
    assert ends(stated) == pytest.approx((0.19, 0.2, 0.21))


def loss_table(rows: dict[float, float]) -> LossSet:
    """Return a loss set from MHz: dB."""
    points = tuple(LossPoint(f * MHZ, loss) for f, loss in rows.items())
    return LossSet(points=points, source="sheet")


def test_an_insertion_loss_table_is_read_log_log_and_held_at_its_end_when_extrapolated() -> None:
    # from 0.1 at 400 to 0.4 at 6400 MHz: 0.2 at 1600
    assert ends(pairs_with(nominal=loss_table({400: 0.1, 6400: 0.4})))[1] == pytest.approx(0.2)
    beyond = pairs_with(nominal=loss_table({400: 0.1, 1000: 0.15}))
    assert ends(beyond)[1] == pytest.approx(0.15)
    assert beyond.extrapolated


def test_an_insertion_loss_more_than_twice_beyond_its_table_is_not_known() -> None:
    item = pairs_with(nominal=loss_table({400: 0.1, 799: 0.15}))
    assert math.isnan(item.nominal[0])
    assert (item.least[0], item.most[0]) == (0.0, math.inf)
    assert (item.unknown_least, item.unknown_most) == ("tnc.loss", "tnc.loss")


def test_a_maximum_whose_table_ends_too_early_leaves_nominal_and_tolerance() -> None:
    item = pairs_with(
        nominal=LossSet(0.1, tolerance_db=0.02, source="sheet"),
        maximum=loss_table({10: 0.1, 100: 0.2}),
    )
    assert ends(item) == pytest.approx((0.08, 0.1, 0.12))
    assert item.unknown_most is None


def test_a_pair_without_any_loss_may_lose_anything() -> None:
    item = budget(
        catalog=flat_cable(with_entry(sample_catalog(), "connectors", "tnc", loss=ById()))
    )
    assert item.unknown_most == ("tnc.loss", "tnc.loss")
    assert total(item.most) == math.inf
    assert math.isnan(total(item.nominal))


# ----- unknown cables


@pytest.mark.parametrize(
    ("changes", "name"),
    [
        ({"type": "?"}, "w11.type"),
        ({"length_m": UNKNOWN}, "w11.length"),
        ({"length_m": None, "drops_m": (UNKNOWN, 0.1)}, "w11.drops"),
    ],
)
def test_an_unknown_of_a_cable_is_named_and_bounded(changes: dict[str, object], name: str) -> None:
    one = budget(two_metres(**changes))
    assert one.unknown_least == one.unknown_most == (name,)
    assert total(one.most) == math.inf
    assert total(one.least) >= 2 * 0.04 - 1e-12
    assert one.most_if_small < 10.0
    assert math.isnan(total(one.nominal))


def test_a_cable_known_by_its_maximum_is_unknown_below_only() -> None:
    one = budget(catalog=flat_cable(sample_catalog(), basis="maximum", tolerance_ratio=None))
    assert one.unknown_least == ("coax_5mm.attenuation",)
    assert one.unknown_most == ()
    assert total(one.least) == pytest.approx(2 * 0.04)
    # were it as lossy as its maximum at the hot end
    assert one.least_if_large == pytest.approx(1.6 * HOT + 2 * 0.04)


def test_a_cable_known_by_its_minimum_is_unknown_above_only() -> None:
    one = budget(catalog=flat_cable(sample_catalog(), basis="minimum", tolerance_ratio=None))
    assert one.unknown_least == ()
    assert one.unknown_most == ("coax_5mm.attenuation",)
    assert one.most_if_small == pytest.approx(1.6 * COLD + 2 * 0.12)


# ----- bands


def test_a_band_has_at_least_21_frequencies_with_both_edges_and_the_middle() -> None:
    (grid,) = band_grids(Port("gnss_l1"), rulebook().radios["gnss_l1"])
    assert len(grid.frequency_hz) == POINTS >= 21
    assert grid.frequency_hz[0] == 1563.42 * MHZ
    assert grid.frequency_hz[-1] == 1587.42 * MHZ
    assert grid.frequency_hz[grid.mid] == pytest.approx(L1_HZ)


def test_the_frequencies_of_a_band_are_shared_and_nobody_can_change_them() -> None:
    radio = rulebook().radios["vhf_com"]
    one, other = (band_grids(Port("vhf_com"), radio)[0].frequency_hz for _ in range(2))
    assert one is other
    with pytest.raises(ValueError, match="read-only"):
        one[0] = 0.0


def test_a_metre_of_cable_is_computed_once_for_all_judgements_of_a_plan(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    computed: list[object] = []
    own = element_loss.metre_losses
    monkeypatch.setattr(element_loss, "metre_losses", lambda *a: computed.append(a) or own(*a))
    plan, catalog = sample_plan(), sample_catalog()
    gather(plan, catalog, rulebook())
    assert (once := len(computed)) > 0
    gather(refitted(plan, "antennas", "com1", on="belly"), catalog, rulebook())
    assert len(computed) == once
    gather(replace(plan, policy=replace(plan.policy, near_db=1.0)), catalog, rulebook())
    assert len(computed) == 2 * once
    assert loss_book(catalog, plan.policy) is not loss_book(sample_catalog(), plan.policy)


def test_each_direction_of_a_radio_is_a_band_of_its_own() -> None:
    grids = band_grids(Port("transponder"), rulebook().radios["transponder"])
    assert [(grid.name, list(grid.frequency_hz)) for grid in grids] == [
        ("rx", [1030 * MHZ]),
        ("tx", [1090 * MHZ]),
    ]
    assert grids[0].mid == 0


def test_a_port_that_states_its_band_is_judged_there_alone() -> None:
    port = Port("transponder", band_hz=Range(1025 * MHZ, 1150 * MHZ))
    (grid,) = band_grids(port, rulebook().radios["transponder"])
    assert (grid.frequency_hz[0], grid.frequency_hz[-1]) == (1025 * MHZ, 1150 * MHZ)


def test_a_corner_is_the_extreme_over_the_band_and_not_its_middle() -> None:
    bands = rulebook().radios["gnss_l1"].bands
    wide = bands.having("rx", replace(bands["rx"], low_hz=400 * MHZ, high_hz=1600 * MHZ))
    plan = with_port(two_metres(), "nav1", "gnss", band_hz=None)
    wider = with_radio(rulebook(), "gnss_l1", bands=wide)
    one = sample_facts(plan, flat_cable(sample_catalog()), wider).budgets["gnss1"][0]
    assert one.least_20.min() == pytest.approx(2 * 0.4 * 0.95 + 0.08)
    assert one.most_20.max() == pytest.approx(2 * 0.8 * 1.05 + 0.24)


# ----- stack-up and mismatch


def rss(budget: BandBudget) -> tuple[float, float]:
    """Return the least and the most over the band with deviations added as squares."""
    return float(budget.rss[0].min()), float(budget.rss[1].max())


def test_rss_adds_the_deviations_of_the_elements_as_squares() -> None:
    # above: cable 1.6 x (1.05 HOT - 1), pairs 0.04 twice
    one = budget()
    above = math.hypot(1.6 * (1.05 * HOT - 1), 0.04, 0.04)
    below = math.hypot(1.6 * (1 - 0.95 * COLD), 0.04, 0.04)
    assert rss(one) == (pytest.approx(1.76 - below), pytest.approx(1.76 + above))


def test_rss_of_a_limit_at_room_temperature_leaves_temperature_out() -> None:
    one = budget(with_port(two_metres(), "nav1", "gnss", limit_at="room"))
    spread = math.hypot(1.6 * 0.05, 0.04, 0.04)
    assert rss(one) == (pytest.approx(1.76 - spread), pytest.approx(1.76 + spread))


def mismatched(unit: float | None, antenna: float | None, terminations: str | None) -> BandBudget:
    """Return the budget with the VSWR of unit and antenna."""
    plan = with_port(two_metres(), "nav1", "gnss", vswr=unit, terminations=terminations)
    catalog = with_entry(sample_catalog(), "antennas", "gnss_active", vswr=antenna)
    return budget(plan, flat_cable(catalog))


def test_end_mismatch_is_a_line_of_its_own_unless_the_limit_counts_it() -> None:
    apart = mismatched(1.5, 2.0, "matched")
    assert total(apart.most) == total(budget().most)
    assert apart.mismatch_db is not None
    least = total(apart.least)
    bounds = mismatch_bounds_db(1.5, 2.0, least)
    assert apart.mismatch_db == (
        pytest.approx(bounds.low_db - least),
        pytest.approx(bounds.high_db - least),
    )


def test_a_limit_with_mismatched_ends_adds_both_reflections_to_the_most_and_none_to_the_least() -> (
    None
):
    # by hand: ML(1.5) = 0.1773, ML(2) = 0.5115 dB; r1 r2 = 0.2 / 3, A = 10^(-2 L / 20)
    matched, one = budget(), mismatched(1.5, 2.0, "mismatched")
    most = total(matched.most)
    echo = 0.2 / 3 * 10 ** (-2 * most / 20)
    expected = most + 0.17729 + 0.51153 + 20 * math.log10(1 + echo)
    assert total(one.most) == pytest.approx(expected, abs=2e-5)
    assert total(one.least) == total(matched.least)
    assert rss(one)[1] > rss(matched)[1] + 0.6


@pytest.mark.parametrize(
    ("unit", "antenna", "name"), [(None, 2.0, "port.vswr"), (1.5, None, "gnss_active.vswr")]
)
def test_a_mismatch_that_counts_and_is_not_known_leaves_no_end_above(
    unit: float | None, antenna: float | None, name: str
) -> None:
    one = mismatched(unit, antenna, "mismatched")
    assert one.unknown_most == (name,)
    assert total(one.most) == math.inf
    assert one.most_if_small == pytest.approx(total(budget().most))
    assert mismatched(unit, antenna, "matched").unknown_most == ()


def test_the_loss_at_a_temperature_scales_the_cable_and_not_the_pairs() -> None:
    facts = sample_facts(two_metres(), flat_cable(sample_catalog()))
    chain, grid = facts.chains["gnss1"], facts.budgets["gnss1"][0].grid
    warm = facts.book.at_temperature(chain, grid, 70.0)
    assert total(warm) == pytest.approx(1.6 * HOT + 0.16)


# ----- properties

LENGTHS = st.floats(0.1, 20.0)
SHARES = st.floats(0.0, 0.3)


@settings(max_examples=40, deadline=None)
@given(LENGTHS, SHARES, st.floats(0.0, 0.1), st.floats(-60.0, 20.0), st.floats(20.0, 120.0))
def test_rss_lies_inside_the_worst_case_and_the_nominal_inside_both(
    length_m: float, tolerance: float, allowance_m: float, cold: float, hot: float
) -> None:
    plan = two_metres(length_m=length_m, retermination_m=allowance_m, tolerance_m=0.01)
    plan = replace(plan, policy=Policy(temperature_c=Range(cold, hot)))
    one = budget(plan, flat_cable(sample_catalog(), tolerance_ratio=tolerance))
    least, nominal, most = total(one.least), total(one.nominal), total(one.most)
    assert least - 1e-9 <= rss(one)[0] <= nominal <= rss(one)[1] <= most + 1e-9


@settings(max_examples=40, deadline=None)
@given(LENGTHS, LENGTHS, st.booleans())
def test_a_longer_cable_loses_more_at_every_corner(
    one: float, other: float, mismatch: bool
) -> None:
    catalog = flat_cable(with_entry(sample_catalog(), "antennas", "gnss_active", vswr=2.0))
    ports = {"vswr": 1.5, "terminations": "mismatched" if mismatch else "matched"}
    short, long = (
        budget(with_port(two_metres(length_m=length), "nav1", "gnss", **ports), catalog)
        for length in sorted((one, other))
    )
    assert total(short.least) <= total(long.least)
    assert total(short.most) <= total(long.most)
    assert rss(short)[1] <= rss(long)[1] + 1e-12
