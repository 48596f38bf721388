# SPDX-License-Identifier: Apache-2.0
"""A package: the same bytes wherever it is made, with all that a judgement rests on."""

from __future__ import annotations

import json
import os
import subprocess
import sys
from dataclasses import replace
from pathlib import Path

import pytest
from command_line import PLAN, aircraft
from demo_plans import DEMOS, FOLDER
from plan_files import edited, shipped_catalog

from rfplan.files.problems import ProblemsError
from rfplan.model.plan import State
from rfplan.records.container import unpack
from rfplan.records.inputs import is_output
from rfplan.records.manifest import MANIFEST, checked_manifest
from rfplan.records.package import package
from rfplan.records.settings import Settings
from rfplan.reports.sheets import FILED

CABLE = """\
rfplan: cable/1
designation: own reel
impedance: 50 ohm
velocity: 0.7
diameter: 5 mm
sources: {reel: {class: measured, who: A. Person, date: 2026-01-01}}
source: reel
attenuation:
  nominal: {use: true, tolerance: 5 %, points: {50 MHz: 10 dB/100 m, 1 GHz: 50 dB/100 m}}
"""


def test_a_package_holds_inputs_answer_drawing_and_every_sheet(packed: bytes) -> None:
    members = unpack(packed)
    assert {"plan.yaml", "airframe.yaml", "check.json", MANIFEST} <= set(members)
    assert {"tables/limits.yaml", "tables/radios/vhf_com.yaml"} <= set(members)
    assert {"catalog/cables/rg_400_u.yaml", "catalog/connectors/bnc.yaml"} <= set(members)
    assert "catalog/cables/rg_58c_u.yaml" not in members
    assert "drawings/placement.svg" in members
    for key in FILED:
        assert {f"sheets/{key}.{ending}" for ending in ("txt", "csv", "json", "html")} <= set(
            members
        )
    assert members["plan.yaml"].decode() == PLAN


def test_the_manifest_says_state_serial_units_and_date(plan: Path) -> None:
    settings = Settings(state=State.FOUND, units="mm", date="2027-02-03")
    manifest = checked_manifest(unpack(package(plan, settings)))
    assert manifest.settings == replace(settings, plan="plan.yaml", serial="12")
    assert checked_manifest(unpack(package(plan, Settings()))).date == "2026-11-20"


@pytest.mark.parametrize("demo", DEMOS)
def test_a_demo_is_judged_from_what_is_in_its_package_as_from_everything(demo: str) -> None:
    members = unpack(package(FOLDER / demo, Settings()))
    inside = json.loads(members["check.json"])
    done = subprocess.run(
        [sys.executable, "-m", "rfplan", "check", str(FOLDER / demo), "--json"],
        capture_output=True,
        check=False,
    )
    outside = json.loads(done.stdout)
    for answer in (inside, outside):
        answer["inputs"].pop("catalog_sha256")
        answer["aircraft"].pop("id")
        for point in answer["open_points"]:
            point.pop("file")
    assert inside == outside
    entries = {name for name in members if name.startswith("catalog/")}
    catalog = shipped_catalog()
    assert 5 < len(entries) < len(catalog.cables) + len(catalog.inline_parts) + 20


def test_nothing_in_a_package_tells_where_or_by_whom_it_was_made(plan: Path) -> None:
    members = unpack(package(plan, Settings()))
    secrets = [
        str(plan),
        str(plan.parent),
        str(Path.home()),
        os.uname().nodename,
        "/tmp",
        "rfplan-",
    ]
    for name, content in members.items():
        text = content.decode().replace("rfplan-package/", "").replace("rfplan-check/", "")
        text = text.replace("rfplan-sheet/", "")
        if is_output(name):
            assert [secret for secret in secrets if secret in text] == []


def test_a_file_of_another_catalogue_goes_into_the_package(plan: Path, tmp_path: Path) -> None:
    own = tmp_path / "own"
    own.mkdir()
    (own / "rg_400_u.yaml").write_text(CABLE, "utf-8")
    members = unpack(package(plan, Settings(), own))
    assert members["catalog/cables/rg_400_u.yaml"].decode() == CABLE


def test_a_plan_that_cannot_be_judged_cannot_be_packed(tmp_path: Path) -> None:
    broken = aircraft(tmp_path / "kite", edited(PLAN, ("type: rg_400_u", "type: rg_4000_u")))
    with pytest.raises(ProblemsError, match="rg_4000_u"):
        package(Path(broken), Settings())


@pytest.mark.parametrize("name", ["check.json", "Manifest.json", "plän.yaml"])
def test_a_file_name_that_cannot_stand_in_a_package_is_refused(plan: Path, name: str) -> None:
    (plan / "plan.yaml").rename(plan / name)
    with pytest.raises(ProblemsError, match="file name cannot stand in a package"):
        package(plan / name, Settings())


def test_a_plan_of_another_name_is_packed_under_its_own(plan: Path) -> None:
    (plan / "plan.yaml").rename(plan / "Variant B.yaml")
    members = unpack(package(plan / "Variant B.yaml", Settings()))
    assert checked_manifest(members).plan == "Variant B.yaml"


# --- the same bytes ----------------------------------------------------------------------------

ELSEWHERE = [
    {"PYTHONHASHSEED": "1", "TZ": "Asia/Tokyo", "LC_ALL": "C"},
    {"PYTHONHASHSEED": "77", "TZ": "America/Lima", "LC_ALL": "C.UTF-8", "COLUMNS": "60"},
    {"PYTHONHASHSEED": "0", "LANG": "tr_TR.UTF-8", "LOGNAME": "other", "SOURCE_DATE_EPOCH": "99"},
]


@pytest.mark.parametrize("environment", ELSEWHERE, ids=["east", "west", "other"])
def test_a_package_is_the_same_in_another_folder_zone_locale_and_process(
    packed: bytes, tmp_path: Path, environment: dict[str, str]
) -> None:
    plan = aircraft(tmp_path / f"other {environment['PYTHONHASHSEED']}")
    out = tmp_path / "out.zip"
    done = subprocess.run(
        [sys.executable, "-m", "rfplan", "package", f"{Path(plan).name}", "-o", str(out)],
        cwd=tmp_path,
        env={**os.environ, **environment, "TMPDIR": str(tmp_path)},
        capture_output=True,
        check=False,
    )
    assert (done.returncode, done.stderr) == (0, b"")
    assert out.read_bytes() == packed
