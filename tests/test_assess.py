# SPDX-License-Identifier: Apache-2.0
"""The one judgement: pure, the same every time, whatever the order, and picklable."""

from __future__ import annotations

import pickle
from dataclasses import fields, replace
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from sample import (
    IN,
    MHZ,
    SOURCES,
    inch,
    place,
    refitted,
    sample_assembly,
    sample_assessment,
    sample_catalog,
    sample_plan,
    sample_rulebook,
    with_airframe,
    with_antenna,
    with_entry,
    with_port,
)

from rfplan.assess import assess
from rfplan.model.airframe import Panel, Zone
from rfplan.model.assessment import Assessment
from rfplan.model.findings import RANK, Verdict, worst
from rfplan.model.plan import (
    Antenna,
    FindingRef,
    Installation,
    Measurement,
    Part,
    Path,
    Person,
    Plan,
    StackUp,
    State,
    Waiver,
)
from rfplan.model.record import ById
from rfplan.model.rulebook import Rulebook, Strictness
from rfplan.model.source import Source
from rfplan.units import NONE, UNKNOWN, Range


def troubled() -> Plan:
    """Return the sample with something for most rules to find, all of it known."""
    plan = refitted(sample_plan(), "antennas", "com1", at=place(100, 0))
    plan = with_antenna(plan, "gnss2", Antenna("gnss_active", "top", place(84, 0), source="sheet"))
    plan = refitted(plan, "cables", "w21", via=("apl",), retermination_m=None, type="coax_3mm")
    plan = refitted(plan, "paths", "com1", redundant="gnss1")
    plan = refitted(plan, "paths", "gnss1", redundant="com1")
    plan = with_port(plan, "xp1", "ant", power_w=Range(120.0, 900.0))
    plan = with_port(plan, "nav1", "gnss", loss_db=ById({"all": Range(1.0, 2.1)}), vswr=1.5)
    zones = ById(
        {
            "panel": Zone("removable", "top", Range(*inch(70, 90)), Range(*inch(-9, 9))),
            "roof": Zone(
                "hatch", "top", Range(*inch(99, 110)), Range(*inch(-9, 9)), source="sheet"
            ),
            "duct": Zone("hot", fs_m=Range(*inch(60, 70)), temperature_c=Range(20.0, 300.0)),
        }
    )
    skin = ById({"roof": Panel("top", "glass"), "hull": Panel("all", "aluminium")})
    reading = Measurement("gnss1", 3.0, State.DESIGN, 20.0, 0.1, at_hz=1575.42 * MHZ, who="P. One")
    waiver = Waiver(FindingRef("RF202", ("com1", "roof")), "agreed", "A. Three")
    return replace(
        with_airframe(plan, zones=zones, skin=skin),
        measurements=ById({"m1": reading, "m2": replace(reading, path="com1", at_hz=127 * MHZ)}),
        waivers=ById({"v1": waiver, "v2": replace(waiver, finding=FindingRef("RF201", ("com1",)))}),
        people=ById({"prepared": Person("P. One"), "checked": Person("P. One")}),
    )


def unknowing() -> Plan:
    """Return the sample with values of several kinds that are not known."""
    plan = refitted(sample_plan(), "cables", "w11", loops_m=(UNKNOWN, 0.1))
    plan = refitted(plan, "cables", "w31", type="?")
    plan = with_port(plan, "nav1", "com", loss_db=ById({"all": Range(NONE, UNKNOWN)}), plug=None)
    return refitted(plan, "antennas", "gnss1", at=place(80, 31))


PLANS = {"sample": sample_plan, "troubled": troubled, "unknowing": unknowing}


def rules_found(result: Assessment) -> set[str]:
    """Return the ids of the rules that found something."""
    return {finding.rule for finding in result.findings}


def test_the_sample_passes_with_nothing_found_and_nothing_open() -> None:
    result = sample_assessment()
    assert (result.verdict, result.findings, result.open_points) == (Verdict.PASS, (), ())


def test_the_troubled_plan_troubles_most_rules() -> None:
    result = sample_assessment(troubled())
    assert result.verdict is Verdict.FAIL_HIGH or result.verdict is Verdict.FAIL
    assert len(rules_found(result)) >= 14


# ----- purity


@pytest.mark.parametrize("plan", PLANS.values(), ids=PLANS)
def test_assess_leaves_what_it_is_given_as_it_is(plan: Any) -> None:
    given_ = plan(), sample_catalog(), sample_rulebook()
    before = pickle.dumps(given_)
    assess(*given_)
    assert pickle.dumps(given_) == before


@pytest.mark.parametrize("plan", PLANS.values(), ids=PLANS)
def test_assess_says_the_same_every_time(plan: Any) -> None:
    one, other = (sample_assessment(plan()) for _ in range(2))
    assert repr(one) == repr(other)


@pytest.mark.parametrize("plan", PLANS.values(), ids=PLANS)
@pytest.mark.parametrize("state", list(State))
def test_what_is_judged_and_what_it_is_judged_by_can_be_pickled(plan: Any, state: State) -> None:
    one = replace(plan(), state=state)
    result = sample_assessment(one)
    for thing in (one, sample_catalog(), sample_rulebook(), result):
        copy = pickle.loads(pickle.dumps(thing))
        assert repr(copy) == repr(thing)
    assert len(pickle.dumps(result)) < 100_000


# ----- order


def shuffled(things: ById[Any], random: Any) -> ById[Any]:
    """Return the same things in another order."""
    rows = list(things.items())
    random.shuffle(rows)
    return ById(rows)


def reordered(plan: Plan, random: Any) -> Plan:
    """Return the same plan with everything that has an id in another order."""
    fitted = plan.design
    there = {f.name: shuffled(getattr(fitted, f.name), random) for f in fields(Installation)}
    airframe = plan.airframe
    route = replace(
        airframe.route,
        nodes=shuffled(airframe.route.nodes, random),
        segments=shuffled(airframe.route.segments, random),
    )
    airframe = replace(airframe, zones=shuffled(airframe.zones, random), route=route)
    return replace(
        plan,
        design=Installation(**there),
        airframe=airframe,
        spacing=shuffled(plan.spacing, random),
        measurements=shuffled(plan.measurements, random),
        waivers=shuffled(plan.waivers, random),
    )


def essence(result: Assessment) -> Any:
    """Return what must not depend on an order: all but the zones and readings of one thing."""
    return (
        result.verdict,
        [
            replace(path, readings=tuple(sorted(path.readings, key=lambda r: r.id)))
            for path in result.paths
        ],
        dict(sorted(result.cables.items())),
        [replace(one, zones=tuple(sorted(one.zones))) for one in result.antennas],
        result.spacing,
        [replace(one, objects=tuple(sorted(one.objects))) for one in result.findings],
        result.open_points,
    )


@settings(max_examples=25, deadline=None)
@given(st.sampled_from(sorted(PLANS)), st.randoms(use_true_random=False))
def test_the_order_of_ids_changes_nothing(name: str, random: Any) -> None:
    plan = PLANS[name]()
    catalog, rulebook = sample_catalog(), sample_rulebook()
    other_catalog = replace(
        catalog,
        **{f.name: shuffled(getattr(catalog, f.name), random) for f in fields(catalog)},
    )
    other_rules: Rulebook = replace(
        rulebook,
        spacings=shuffled(rulebook.spacings, random),
        radios=shuffled(rulebook.radios, random),
    )
    one = assess(plan, catalog, rulebook)
    other = assess(reordered(plan, random), other_catalog, other_rules)
    assert repr(essence(other)) == repr(essence(one))


# ----- words


def test_the_verdict_is_the_worst_word_of_all_paths_and_findings() -> None:
    result = sample_assessment(troubled())
    words = [path.overall for path in result.paths] + [one.verdict for one in result.findings]
    assert result.verdict is worst(words)
    assert RANK[result.verdict] == min(RANK[word] for word in words if word is not Verdict.ADVICE)


def test_findings_are_listed_once_and_the_worst_first() -> None:
    findings = sample_assessment(troubled()).findings
    keys = [(RANK[one.verdict], one.id) for one in findings]
    assert keys == sorted(keys)
    assert len({one.id for one in findings}) == len(findings)


def test_every_finding_of_a_path_is_among_the_findings() -> None:
    result = sample_assessment(troubled())
    ids = {one.id for one in result.findings}
    for path in result.paths:
        assert set(path.findings) <= ids


def test_advice_never_counts_in_a_verdict() -> None:
    plan = refitted(sample_plan(), "cables", "w11", retermination_m=None)
    plan = with_antenna(plan, "gnss2", Antenna("gnss_active", "top", place(84, 0), source="sheet"))
    result = sample_assessment(plan)
    assert {one.verdict for one in result.findings} == {Verdict.ADVICE}
    assert result.verdict is Verdict.PASS
    assert {path.overall for path in result.paths} == {Verdict.PASS}
    assert {one.overall for one in result.antennas} == {Verdict.PASS}


def test_a_finding_that_touches_no_path_still_counts_for_the_plan() -> None:
    spare = Antenna("gnss_active", "top", place(73, 0), source="sheet")
    zone = Zone("hatch", "top", Range(*inch(68, 75)), Range(*inch(-9, 9)), source="sheet")
    plan = with_airframe(sample_plan(), zones=ById({"roof": zone}))
    result = sample_assessment(with_antenna(plan, "gnss2", spare))
    assert result.verdict is Verdict.FAIL
    assert {path.overall for path in result.paths} == {Verdict.PASS}


@settings(max_examples=60, deadline=None)
@given(st.lists(st.sampled_from(list(Verdict))))
def test_the_worst_word_is_the_first_in_the_settled_order(words: list[Verdict]) -> None:
    order = ["FAIL-HIGH", "FAIL-LOW", "FAIL", "INCOMPLETE", "WAIVED", "NEAR", "PASS"]
    there = [word for word in order if word in words]
    assert worst(words) == (there[0] if there else "PASS")


# ----- properties of the whole


@settings(max_examples=30, deadline=None)
@given(st.floats(0.1, 12.0), st.sampled_from(["conductor", "k1_only"]), st.floats(-60.0, 20.0))
def test_the_corners_hold_the_nominal_between_them(
    length_m: float, model: Any, cold_c: float
) -> None:
    plan = refitted(sample_plan(), "cables", "w11", length_m=length_m)
    policy = replace(plan.policy, model=model, temperature_c=Range(cold_c, 70.0))
    for path in sample_assessment(replace(plan, policy=policy)).paths:
        for band in path.bands:
            least, most = band.min_corner.loss_db, band.max_corner.loss_db
            assert least is not None and most is not None
            assert least <= min(x for x in band.nominal_db if x is not None)
            assert most >= max(x for x in band.nominal_db if x is not None)
            assert least <= (band.rss_db[0] or 0.0) and (band.rss_db[1] or 0.0) <= most


@settings(max_examples=30, deadline=None)
@given(
    st.sampled_from(["w11", "w21", "w31"]),
    st.sampled_from(["type", "length_m", "drip_loop_m", "retermination_m"]),
    st.floats(0.0, 3.0),
    st.floats(0.0, 3.0),
)
def test_an_unknown_never_turns_a_fail_or_an_incomplete_into_a_pass(
    cable: str, field: str, a: float, b: float
) -> None:
    low, high = sorted((a, b))
    plan = with_port(sample_plan(), "nav1", "gnss", loss_db=ById({"all": Range(low, high)}))
    lost: Any = "?" if field == "type" else UNKNOWN
    before = sample_assessment(plan).verdict
    after = sample_assessment(refitted(plan, "cables", cable, **{field: lost})).verdict
    if before.fails or before is Verdict.INCOMPLETE:
        assert after.fails or after is Verdict.INCOMPLETE


@pytest.mark.parametrize("stack", list(StackUp))
def test_an_unknown_of_one_path_leaves_the_verdict_of_another(stack: StackUp) -> None:
    plan = sample_plan()
    plan = replace(plan, policy=replace(plan.policy, stack=stack))
    words = {
        path.id: path.overall
        for path in sample_assessment(refitted(plan, "cables", "w11", type="?")).paths
    }
    assert words == {"com1": Verdict.PASS, "gnss1": Verdict.INCOMPLETE, "xpdr1": Verdict.PASS}


# ----- whole aircraft that must not break


def behind_a_splitter() -> Plan:
    """Return the sample with GNSS and COM behind one splitter, at a bulkhead."""
    plan = sample_plan()
    chains = {
        "gnss1": Path(("nav1.gnss", "w11", "sp.a", "w12", "gnss1")),
        "com1": Path(("nav1.com", "w21", "sp.b", "w12", "gnss1")),
    }
    fitted = replace(
        plan.design,
        cables=plan.design.cables.having("w12", sample_assembly(plugs=("tnc", "tnc"))),
        parts=ById({"sp": Part("split_2", "apl")}),
        paths=ById(chains),
    )
    return replace(plan, design=fitted)


ODD_PLANS = {
    "nothing fitted": lambda: replace(sample_plan(), design=Installation()),
    "no paths": lambda: replace(sample_plan(), design=replace(sample_plan().design, paths=ById())),
    "no route": lambda: with_airframe(sample_plan(), route=type(sample_plan().airframe.route)()),
    "a splitter": behind_a_splitter,
    "units without a place": lambda: refitted(sample_plan(), "units", "nav1", at=None),
    "the same node twice": lambda: refitted(
        refitted(sample_plan(), "units", "nav1", node="rf1"), "antennas", "gnss1", node="rf1"
    ),
    "a way there and back": lambda: refitted(sample_plan(), "cables", "w11", via=("apr",)),
    "an antenna beside the hull": lambda: refitted(
        sample_plan(), "antennas", "gnss1", at=place(80, 70)
    ),
    "an unknown serial number": lambda: replace(sample_plan(), serial="99"),
    "no serial number": lambda: replace(sample_plan(), serial=None),
    "all of it unknown": unknowing,
}


@pytest.mark.parametrize("plan", ODD_PLANS.values(), ids=ODD_PLANS)
@pytest.mark.parametrize("stack", list(StackUp))
@pytest.mark.filterwarnings("error")
def test_an_odd_plan_gets_a_verdict_and_no_error(plan: Any, stack: StackUp) -> None:
    one: Plan = plan()
    result = sample_assessment(replace(one, policy=replace(one.policy, stack=stack)))
    assert result.verdict in Verdict


ODD_ENTRIES: dict[str, tuple[str, str, dict[str, Any]]] = {
    "no attenuation in use": (
        "cables",
        "coax_5mm",
        {
            "attenuation": ById(
                {
                    "nominal": replace(
                        sample_catalog().cables["coax_5mm"].attenuation["nominal"], use=False
                    )
                }
            )
        },
    ),
    "no loss of a connector": ("connectors", "tnc", {"loss": ById()}),
    "no base": ("antennas", "gnss_active", {"base": None}),
    "no diameter": ("cables", "coax_5mm", {"diameter_m": None, "mass_kg_per_m": None}),
    "no source": ("cables", "coax_5mm", {"sources": ById()}),
}


@pytest.mark.parametrize(("section", "id", "changes"), ODD_ENTRIES.values(), ids=ODD_ENTRIES)
@pytest.mark.filterwarnings("error")
def test_an_odd_entry_of_the_catalogue_gets_a_verdict_and_no_error(
    section: str, id: str, changes: dict[str, Any]
) -> None:
    catalog = with_entry(sample_catalog(), section, id, **changes)
    result = sample_assessment(catalog=catalog)
    assert result.verdict in Verdict
    if "loss" in changes or "attenuation" in changes:
        assert result.verdict is Verdict.INCOMPLETE


def test_an_assumed_loss_keeps_its_verdict_and_is_told_twice_over() -> None:
    memory = SOURCES.having("sheet", Source("assumed", read="memory"))
    result = sample_assessment(
        catalog=with_entry(sample_catalog(), "cables", "coax_5mm", sources=memory)
    )
    assert result.verdict is Verdict.PASS
    assert [one.rule for one in result.findings] == ["RF303"]
    assert [point.blocking for point in result.open_points] == [False]


def test_a_required_distance_of_the_plan_fails_where_shipped_advice_would_not() -> None:
    plan = refitted(sample_plan(), "antennas", "com1", at=place(110, 0))  # 30 in
    assert sample_assessment(plan).verdict is Verdict.FAIL
    advice = replace(plan.spacing["gnss_com"], strict=Strictness.ADVICE)
    advised = sample_assessment(replace(plan, spacing=ById({"gnss_com": advice})))
    assert advised.verdict is Verdict.PASS
    (spacing,) = (one for one in advised.findings if one.rule == "RF501")
    assert spacing.value == pytest.approx(30 * IN)
