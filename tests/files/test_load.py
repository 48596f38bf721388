# SPDX-License-Identifier: Apache-2.0
"""What a written aircraft comes to as records: states, copies, sources, short ways of writing."""

from __future__ import annotations

import pickle
import subprocess
import sys
from collections.abc import Callable
from datetime import date
from pathlib import Path
from typing import Any

import pytest
from plan_files import AIRFRAME, PLAN, edited, loaded, write_aircraft

from rfplan.files.load import LoadedPlan
from rfplan.model.airframe import Section, SegmentChange
from rfplan.model.plan import Installation, Person, Plan, StackUp, State
from rfplan.model.rulebook import Strictness
from rfplan.model.source import Source
from rfplan.units import NONE, UNKNOWN, Place, Range

IN = 0.0254


@pytest.fixture(scope="module")
def aircraft(tmp_path_factory: pytest.TempPathFactory) -> LoadedPlan:
    """Return the invented aircraft as read."""
    folder = tmp_path_factory.mktemp("demo_tandem")
    return loaded(write_aircraft(folder), state=State.DESIGN)


@pytest.fixture
def plan(aircraft: LoadedPlan) -> Plan:
    """Return its plan."""
    return aircraft.plan


def test_the_head_of_a_plan_is_read_with_its_dates_and_words(plan: Plan) -> None:
    assert plan.title == "GNSS antenna to the turtle deck"
    assert (plan.state, plan.serial) == (State.DESIGN, "12")
    assert plan.revision.date == date(2026, 10, 30)
    assert plan.people["prepared"] == Person("M. Probe", stamp="7")
    assert plan.people["checked"] == Person("?")
    assert (plan.policy.near_db, plan.policy.stack) == (0.4, StackUp.RSS)
    assert plan.policy.agreement is Strictness.REQUIRED
    assert plan.spacing["gnss_com"].id == "gnss_com"
    assert plan.measurements["m1"].state is State.BUILT
    assert plan.waivers["v1"].finding.of == ("gnss", "com")


def test_plan_and_airframe_take_the_name_of_their_folder(plan: Plan) -> None:
    assert plan.id == plan.airframe.id
    assert plan.id.startswith("demo_tandem")


def test_a_plan_of_another_file_name_is_called_by_it(tmp_path: Path) -> None:
    write_aircraft(tmp_path)
    other = (tmp_path / "plan.yaml").rename(tmp_path / "roof_study.yaml")
    assert loaded(other).plan.id == "roof_study"


def test_rows_of_sections_become_lengths_in_metres(plan: Plan) -> None:
    first = plan.airframe.sections[0]
    assert first == Section(10 * IN, 8 * IN, 30 * IN, pytest.approx(46 * IN), 2.0, "drawing")
    assert len(plan.airframe.sections) == 4


def test_a_lone_loss_holds_for_all_bands_and_a_mapping_for_each(plan: Plan) -> None:
    ports = plan.design.units["vhf1"].ports
    assert ports["gnss"].loss_db == {"all": Range(2.0, 7.0)}
    assert ports["com"].loss_db == {"rx": Range(UNKNOWN, UNKNOWN), "tx": Range(NONE, 3.0)}
    assert ports["vor"].loss_db == {"all": Range(NONE, NONE)}


def test_a_copy_takes_what_it_does_not_say_itself_port_by_port(plan: Plan) -> None:
    one, other = plan.design.units["vhf1"], plan.design.units["vhf2"]
    assert other.at == Place(pytest.approx(56 * IN), 4 * IN, pytest.approx(46 * IN))
    assert other.ports["gnss"] == one.ports["gnss"]
    assert other.ports["com"].loss_db == {"all": Range(UNKNOWN, UNKNOWN)}
    assert other.ports["com"].power_w is None
    assert list(other.ports) == list(one.ports)


def test_a_copy_of_a_thing_told_by_state_follows_its_states(tmp_path: Path) -> None:
    copied = edited(PLAN, ("nav: {type: nav_whip_v, on", "nav: {like: com, type: nav_whip_v, on"))
    plan = loaded(write_aircraft(tmp_path, copied)).plan
    assert plan.found.antennas["nav"].at == Place(pytest.approx(200 * IN), 0.0, None)
    gone = edited(copied, ("    built: {at: 82 0 in}", "    built: none"))
    paths = [
        (
            "  com: {chain: [vhf1.com, w2, com]}",
            "  com: {found: {chain: [vhf1.com, w2, com]}, built: none}",
        ),
        (
            "  vor1: {chain: [vhf1.vor, w3, split.a, w5, nav]}",
            "  vor1: {found: {chain: [vhf1.vor, w3, nav]}, built: none}",
        ),
        ("  vor2: {chain: [vhf2.vor, w4, split.b, w5, nav]}\n", ""),
    ]
    plan = loaded(write_aircraft(tmp_path, edited(gone, *paths))).plan
    assert "nav" in plan.design.antennas
    assert "nav" not in plan.built.antennas


def test_a_state_inherits_the_one_before_key_by_key(plan: Plan) -> None:
    com = [fitted.antennas["com"] for fitted in (plan.found, plan.design, plan.built)]
    assert [antenna.type for antenna in com] == ["com_whip"] * 3
    assert [round(antenna.at.fs_m / IN) for antenna in com] == [80, 80, 82]
    assert plan.built.cables["w1"].via == ("sil",)


def test_what_is_first_named_under_design_was_not_found(plan: Plan) -> None:
    assert "foil" not in plan.found.ground_planes
    assert plan.design.ground_planes["foil"].verified == "?"
    assert plan.built.ground_planes == plan.design.ground_planes


def test_none_ends_a_thing(plan: Plan) -> None:
    assert "spare" in plan.found.antennas
    assert "spare" not in plan.design.antennas
    assert "spare" not in plan.built.antennas


def test_length_and_age_of_a_found_cable_do_not_pass_to_the_one_that_replaces_it(
    plan: Plan,
) -> None:
    found, design, built = (each.cables["w1"] for each in (plan.found, plan.design, plan.built))
    assert (found.length_m, found.age_yr) == (pytest.approx(40 * IN), 11.0)
    assert (design.length_m, design.age_yr) == (None, None)
    assert (found.ageing_ratio, design.ageing_ratio) == (pytest.approx(0.15), None)
    assert (built.type, built.length_m) == ("rg_400_u", pytest.approx(86.5 * IN))


def test_null_under_a_state_takes_a_key_away(tmp_path: Path) -> None:
    bare = edited(PLAN, ("built: {at: 82 0 in}", "built: {at: 82 0 in, title: ~}"))
    bare = edited(bare, ("on: bottom, at: 80 0 in}", "on: bottom, at: 80 0 in, title: old whip}"))
    plan = loaded(write_aircraft(tmp_path, bare)).plan
    assert plan.design.antennas["com"].title == "old whip"
    assert plan.built.antennas["com"].title is None


def test_a_question_mark_is_a_value_that_is_not_known_yet(plan: Plan) -> None:
    assert plan.design.cables["w1"].loops_m == (5 * IN, UNKNOWN)
    assert plan.design.cables["w2"].type == "?"
    assert plan.airframe.route.segments["aft-tip"].length_m is UNKNOWN


def test_bottom_is_the_belly_and_a_side_goes_by_the_butt_line(plan: Plan) -> None:
    assert plan.found.antennas["com"].on == "belly"
    assert plan.found.antennas["spare"].on == "right"
    assert [panel.on for panel in plan.airframe.skin.values()] == ["belly", "left", "all"]


def test_a_material_written_in_words_is_found_by_its_id(plan: Plan) -> None:
    assert plan.design.ground_planes["foil"].of == "copper_foil"


def test_the_nearest_source_above_holds(plan: Plan) -> None:
    design = plan.design
    assert design.antennas["com"].source == "tape"  # of the file
    assert design.units["vhf1"].ports["gnss"].source == "book"  # of the unit
    assert design.cables["w3"].source == "book"  # of the section
    assert (plan.found.cables["w1"].source, design.cables["w1"].source) == ("book", "tape")
    airframe = plan.airframe
    assert airframe.route.segments["sil-aft"].source == "drawing"
    assert airframe.route.nodes["tip"].source == "tape"
    assert airframe.variants["late"].source == "drawing"


def test_without_any_source_above_a_record_has_none(tmp_path: Path) -> None:
    bare = edited(PLAN, ("source: tape\npolicy", "policy"))
    assert loaded(write_aircraft(tmp_path, bare)).plan.design.antennas["com"].source is None


def test_a_published_document_joins_the_sources_of_its_file(plan: Plan) -> None:
    port, compass = plan.design.units["vhf1"].ports["vor"], plan.airframe.zones["compass"]
    assert plan.sources[port.source or ""] == Source(
        "specification", document="FAA AC 43.13-2A (1977)", place="37", read="opened"
    )
    assert compass.source == "AC_43_13_1B 12-37"
    assert plan.airframe.sources["AC_43_13_1B 12-37"].place == "12-37"
    assert "AC_43_13_1B 12-37" not in plan.sources


@pytest.mark.parametrize(
    ("key", "class_", "read"),
    [
        ("COMMON_PRACTICE", "assumed", None),
        ("OWN_COMPUTATION", "calculated", None),
        ("RECALLED", "specification", "memory"),
        ("AS50881", "specification", "second hand"),
    ],
)
def test_no_status_of_a_published_document_rises(
    tmp_path: Path, key: str, class_: str, read: str | None
) -> None:
    cited = edited(PLAN, ("strict: required, source: book", f"strict: required, source: {key}"))
    source = loaded(write_aircraft(tmp_path, cited)).plan.sources[key]
    assert (source.class_, source.read) == (class_, read)


def test_serials_are_spans_lists_or_open_ended(plan: Plan) -> None:
    variants = plan.airframe.variants
    assert variants["early"].serials == ((1, 9), (12, 12))
    assert variants["late"].serials == ((20, 999_999_999),)
    assert plan.variant == "early"


def test_a_variant_adds_to_a_length_or_replaces_it(plan: Plan) -> None:
    segments = plan.airframe.variants["late"].segments
    assert segments["sil-aft"] == SegmentChange(change_m=2 * IN)
    assert segments["pan-sil"] == SegmentChange(length_m=pytest.approx(19 * IN))


def test_the_serial_asked_for_goes_before_the_one_of_the_revision(tmp_path: Path) -> None:
    plan = loaded(write_aircraft(tmp_path), serial="31", state=State.BUILT).plan
    assert (plan.serial, plan.variant, plan.state) == ("31", "late", State.BUILT)
    assert plan.installation is plan.built


def test_a_plan_can_be_pickled(plan: Plan) -> None:
    assert pickle.loads(pickle.dumps(plan)) == plan


def test_the_plan_may_be_named_by_its_folder_or_by_its_file(tmp_path: Path) -> None:
    write_aircraft(tmp_path)
    assert loaded(tmp_path).plan == loaded(tmp_path / "plan.yaml").plan


@pytest.mark.parametrize(
    "change", [lambda text: "\ufeff" + text, lambda text: text.replace("\n", "\r\n")]
)
def test_byte_order_mark_and_line_ends_make_no_difference(
    tmp_path: Path, change: Callable[[str], str]
) -> None:
    folder = tmp_path / "demo"
    folder.mkdir()
    expected = loaded(write_aircraft(folder)).plan
    for name, text in (("plan.yaml", PLAN), ("airframe.yaml", AIRFRAME)):
        (folder / name).write_bytes(change(text).encode())
    assert loaded(folder).plan == expected


def line(text: str, piece: str) -> int:
    """Return the line on which a piece of text stands first."""
    return text[: text.index(piece)].count("\n") + 1


@pytest.mark.parametrize(
    ("state", "loc", "piece"),
    [
        (State.DESIGN, ("units", "vhf1", "ports", "com", "power_w"), "power: 10 W"),
        (State.FOUND, ("cables", "w1", "length_m"), "length: 40 in"),
        (State.BUILT, ("cables", "w1", "length_m"), "length: 7 ft"),
        (State.BUILT, ("cables", "w1", "via"), "via: [sil]"),
        (State.BUILT, ("cables", "w1", "drops_m"), "w1:"),
        (State.DESIGN, ("units", "vhf2", "ports", "gnss", "loss_db"), "loss: 2 .. 7 dB"),
        (State.DESIGN, ("policy", "near_db"), "near: 0.4"),
        (State.DESIGN, ("antennas", "nobody"), "antennas:"),
        (State.DESIGN, ("nothing", "at", "all"), "rfplan: plan"),
    ],
)
def test_every_field_has_a_line_or_its_nearest_ancestor_has(
    aircraft: LoadedPlan, state: State, loc: tuple[str, ...], piece: str
) -> None:
    file, number, _ = aircraft.line_of(state, loc)
    assert file.endswith("plan.yaml")
    assert number == line(PLAN, piece)


def test_fields_of_the_airframe_have_lines_too(aircraft: LoadedPlan) -> None:
    file, number, column = aircraft.line_of(State.DESIGN, ("airframe", "zones", "canopy", "is_"))
    assert file.endswith("airframe.yaml")
    assert (number, column) == (line(AIRFRAME, "canopy"), 12)
    row = aircraft.line_of(State.DESIGN, ("airframe", "sections", 2, "top_m"))
    assert row[1:] == (line(AIRFRAME, "[100"), 25)


def test_every_thing_of_every_state_has_a_line(aircraft: LoadedPlan) -> None:
    top = aircraft.line_of(State.DESIGN, ("nowhere",))
    for state in State:
        fitted: Any = getattr(aircraft.plan, state)
        for section in Installation.__slots__:
            for id in getattr(fitted, section):
                assert aircraft.line_of(state, (section, id)) != top


def test_loading_a_plan_imports_pydantic_only_when_something_is_read() -> None:
    code = "import rfplan.files.load, sys; print('pydantic' in sys.modules, 'pint' in sys.modules)"
    ran = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert ran.stdout.split() == ["False", "False"]
