# SPDX-License-Identifier: Apache-2.0
"""What the loader says, word for word and with its place, of files that are wrong."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest
import yaml
from plan_files import AIRFRAME, PLAN, edited, problems_of, write_aircraft

from rfplan.files.load import load_catalog
from rfplan.files.problems import ProblemsError

CASES: dict[str, dict[str, Any]] = yaml.safe_load(
    (Path(__file__).parent / "bad_input.yaml").read_text(encoding="utf-8")
)

CABLE = """\
rfplan: cable/1
designation: Test cable
impedance: 50 ohm
velocity: 0.7
sources:
  sheet: {class: specification, read: invented, document: invented sheet T-1}
source: sheet
attenuation:
  nominal: {points: {100 MHz: 10 dB/100 m, 1 GHz: 40 dB/100 m}}
  other: {basis: maximum, use: false, points: {100 MHz: 12 dB/100 m}}
"""
PART = """\
rfplan: inline_part/1
kind: splitter
title: test splitter
common: tnc
ports:
  a: {plug: tnc, loss: 3.3 dB}
  b: {plug: tnc, loss: {points: {100 MHz: 3.2 dB, 1 GHz: 3.6 dB}}}
"""


def catalog_problems(folder: Path) -> list[str]:
    """Return what the loader has to say of a user's catalogue."""
    try:
        load_catalog(folder)
    except ProblemsError as error:
        return [problem.text().replace(f"{folder}/", "") for problem in error.problems]
    return []


def each(kind: str) -> Any:
    """Return the mark that runs a test for every case of a kind."""
    cases = CASES[kind]
    return pytest.mark.parametrize("case", cases.values(), ids=list(cases))


@each("plan")
def test_a_fault_of_a_plan_is_told_with_its_place(case: dict[str, Any], tmp_path: Path) -> None:
    write_aircraft(tmp_path, edited(PLAN, *map(tuple, case["change"])))
    assert problems_of(tmp_path) == case["said"]


@each("airframe")
def test_a_fault_of_an_airframe_is_told_with_its_place(
    case: dict[str, Any], tmp_path: Path
) -> None:
    write_aircraft(tmp_path, PLAN, edited(AIRFRAME, *map(tuple, case["change"])))
    assert problems_of(tmp_path) == case["said"]


@each("cable")
def test_a_fault_of_a_cable_is_told_with_its_place(case: dict[str, Any], tmp_path: Path) -> None:
    (tmp_path / "test_cable.yaml").write_text(edited(CABLE, *map(tuple, case["change"])))
    assert catalog_problems(tmp_path) == case["said"]


@each("part")
def test_a_fault_of_a_part_is_told_with_its_place(case: dict[str, Any], tmp_path: Path) -> None:
    (tmp_path / "test_part.yaml").write_text(edited(PART, *map(tuple, case["change"])))
    assert catalog_problems(tmp_path) == case["said"]


def test_the_files_that_the_faults_are_put_into_are_right(tmp_path: Path) -> None:
    assert problems_of(write_aircraft(tmp_path)) == []
    catalog = tmp_path / "catalog"
    catalog.mkdir()
    (catalog / "test_cable.yaml").write_text(CABLE)
    (catalog / "test_part.yaml").write_text(PART)
    assert catalog_problems(catalog) == []


def test_twenty_faults_of_two_files_are_told_in_one_run_by_file_and_line(tmp_path: Path) -> None:
    plan = edited(
        PLAN,
        ("status: draft, date: 2026-10-30", "status: draught, date: 2026-13-30"),
        ("to: vhf_com, min", "to: vhf_con, min"),
        ("loss: 2 .. 7 dB", "loss: 7 .. 2 dB"),
        ("com: {radio: vhf_com, plug: bnc, loss: {", "com: {radio: vhf_com, plug: bmc, loss: {"),
        ("{type: gnss_l1_old, on: panel", "{type: gnss_l1_odd, on: pannel"),
        ("ground_plane: foil", "ground_plane: foli"),
        ("length: 40 in", "length: 40"),
        ("via: [sil]", "via: [sill]"),
        ('w2: {type: "?", plugs: [bnc, bnc]}', 'w2: {type: "?", plugs: [bnc]}'),
        ("{type: splitter_2, at: aft}", "{type: splitter_2, at: after}"),
        ("[vhf1.com, w2, com]", "[vhf1.com, w2, con]"),
        ("{path: gnss, loss", "{path: gnsss, loss"),
        ("rule: RF501", "rule: RF51"),
    )
    airframe = edited(
        AIRFRAME,
        ("18.0, 24.0, 56.0", "18.0, 24.0, 16.0"),
        ("is: window", "is: windw"),
        ("pan-sil: 18 in", "pan-sil: 8 in"),
        ("closed: [aft-tip]", "closed: [aft-tipp]"),
        ("empty: 880 lb", "empty: 880 lbs"),
    )
    said = problems_of(write_aircraft(tmp_path, plan, airframe))
    places = [(text.split(":")[0], int(text.split(":")[1])) for text in said]
    assert places == sorted(places)
    assert len(said) == 20
    assert [text.split(": ")[1] for text in said] == [
        *("sections.2.top", "canopy.is", "pan-sil.length", "weight.empty", "late.closed.1"),
        *("revision.status is 'draught'; expected 'draft'", "revision.date", "gnss_com.to"),
        *("vhf1.gnss.loss", "vhf1.com.plug", "gnss.type", "gnss.on", "gnss.ground_plane"),
        *("w1.length", "w1.via.1", "w2.plugs has 1 value; expected 2", "split.at"),
        *("com.chain.3", "m1.path", "v1.finding.rule"),
    ]


def test_a_fault_is_told_once_although_three_states_and_a_copy_share_it(tmp_path: Path) -> None:
    plan = edited(PLAN, ("radio: vor_loc", "radio: vor_lok"))
    assert len(problems_of(write_aircraft(tmp_path, plan))) == 1


def test_the_faults_of_an_airframe_that_cannot_be_read_do_not_hide_those_of_the_plan(
    tmp_path: Path,
) -> None:
    plan = edited(PLAN, ("type: rg_400_u", "type: rg_401_u"))
    assert problems_of(write_aircraft(tmp_path, plan, "name: no airframe\n")) == [
        "airframe.yaml:1:1: the first key is 'name'; expected 'rfplan: airframe/1'",
        "plan.yaml:43:20: w1.type: no cable type 'rg_401_u'; expected 'rg_400_u'",
    ]


@pytest.mark.parametrize(
    ("content", "said"),
    [
        (b"", "plan.yaml:1:1: the file is empty; expected entries 'key: value'"),
        (b"# nothing\n", "plan.yaml:1:1: the file is empty; expected entries 'key: value'"),
        (
            PLAN.encode("utf-16"),
            "plan.yaml:1:1: the file is UTF-16 or UTF-32 text; expected plain UTF-8 text",
        ),
        (
            PLAN.encode().replace(b"draft", b"dr\0ft"),
            "plan.yaml:4:33: the file holds a NUL byte; expected plain UTF-8 text",
        ),
        (
            PLAN.encode().replace(b"no other place", b"x" * 100_000),
            "plan.yaml:61:13: the text is too long; expected at most 10000 characters",
        ),
        (
            PLAN.encode("latin-1", "replace").replace(b"draft", b"dr\xe4ft"),
            "plan.yaml:4:33: the byte 0xe4 is not UTF-8; expected plain UTF-8 text",
        ),
    ],
    ids=["empty", "comment only", "UTF-16", "NUL", "100,000 characters", "Latin-1"],
)
def test_a_file_that_is_no_readable_text_is_refused(
    content: bytes, said: str, tmp_path: Path
) -> None:
    write_aircraft(tmp_path)
    (tmp_path / "plan.yaml").write_bytes(content)
    assert problems_of(tmp_path) == [said]


def test_a_folder_without_a_plan_is_told(tmp_path: Path) -> None:
    said = "the folder holds no plan.yaml; expected a plan or its folder"
    assert problems_of(tmp_path) == [f"{tmp_path}:1:1: {said}"]


def test_a_missing_plan_is_told(tmp_path: Path) -> None:
    assert problems_of(tmp_path / "none.yaml") == ["none.yaml:1:1: there is no such file"]


def test_a_link_that_leads_out_of_the_folder_is_no_airframe(tmp_path: Path) -> None:
    outside, inside = tmp_path / "outside", tmp_path / "inside"
    outside.mkdir()
    inside.mkdir()
    write_aircraft(outside)
    write_aircraft(inside)
    (inside / "airframe.yaml").unlink()
    (inside / "airframe.yaml").symlink_to(outside / "airframe.yaml")
    assert problems_of(inside) == [
        "plan.yaml:2:11: airframe: 'airframe.yaml' is not in the folder of the plan; "
        "expected the plain name of a file beside this one"
    ]
    (inside / "airframe.yaml").unlink()
    (inside / "airframe.yaml").symlink_to("airframe.yaml")
    assert "is not in the folder" in problems_of(inside)[0]


@pytest.mark.parametrize("serial", ["15", "\uff11\uff12", ""])
def test_a_serial_that_is_asked_for_and_in_no_variant_is_told(serial: str, tmp_path: Path) -> None:
    write_aircraft(tmp_path)
    assert problems_of(tmp_path, serial) == [
        f"airframe.yaml:44:3: variants: serial '{serial}' belongs to no variant; "
        "expected a serial number that a variant names"
    ]


@pytest.mark.parametrize(
    ("segment", "least", "too_short"),
    [("pan-sil: 18 in", "15.6 in", "15.5 in"), ("length: 5 ft 6 in", "61.4 in", "61.3 in")],
    ids=["half an inch of a short one", "two hundredths of a long one"],
)
def test_a_segment_may_be_a_little_shorter_than_the_straight_line(
    segment: str, least: str, too_short: str, tmp_path: Path
) -> None:
    for length, faults in ((least, 0), (too_short, 1)):
        airframe = edited(AIRFRAME, (segment, f"{segment.split(':')[0]}: {length}"))
        assert len(problems_of(write_aircraft(tmp_path, PLAN, airframe))) == faults


def test_without_variants_every_serial_will_do(tmp_path: Path) -> None:
    airframe = AIRFRAME[: AIRFRAME.index("variants:")]
    assert problems_of(write_aircraft(tmp_path, PLAN, airframe), "anything") == []


def test_a_catalogue_entry_has_an_id_for_its_file_name(tmp_path: Path) -> None:
    (tmp_path / "Test Cable.yaml").write_text(CABLE)
    assert catalog_problems(tmp_path) == [
        "Test Cable.yaml:1:1: the file name 'Test Cable' is no id; "
        "expected small letters, digits and '_', a letter first, at most 40"
    ]


def test_a_file_in_the_folder_of_another_kind_is_refused(tmp_path: Path) -> None:
    (tmp_path / "connectors").mkdir()
    (tmp_path / "connectors" / "test_cable.yaml").write_text(CABLE)
    assert catalog_problems(tmp_path) == [
        "connectors/test_cable.yaml:1:9: this is a file of kind 'cable'; "
        "expected 'rfplan: connector/1'"
    ]


def test_the_same_id_twice_in_one_catalogue_is_refused(tmp_path: Path) -> None:
    (tmp_path / "cables").mkdir()
    (tmp_path / "cables" / "test_cable.yaml").write_text(CABLE)
    (tmp_path / "test_cable.yaml").write_text(CABLE)
    assert catalog_problems(tmp_path) == [
        "test_cable.yaml:1:1: test_cable: the same id as cables/test_cable.yaml; "
        "expected one file for each id"
    ]


def test_nothing_that_looks_like_a_catalogue_is_passed_over_in_silence(tmp_path: Path) -> None:
    (tmp_path / "cabels").mkdir()
    (tmp_path / "cabels" / "test_cable.yaml").write_text(CABLE)
    (tmp_path / "other.yml").write_text(CABLE)
    assert catalog_problems(tmp_path) == [
        "cabels:1:1: no folder 'cabels' belongs to a catalogue; expected 'cables'",
        "other.yml:1:1: the file name ends in '.yml'; expected '.yaml'",
    ]
    missing = tmp_path / "missing"
    assert catalog_problems(missing) == [
        f"{missing}:1:1: there is no such folder; expected a folder of catalogue files"
    ]
