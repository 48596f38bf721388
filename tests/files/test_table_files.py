# SPDX-License-Identifier: Apache-2.0
"""The rulebook is read from its tables, and its fingerprint is that of their content."""

from __future__ import annotations

import shutil
from collections.abc import Callable
from pathlib import Path

import pytest
from plan_files import edited

from rfplan.files import table_files
from rfplan.files.folders import tables
from rfplan.files.problems import ProblemsError
from rfplan.files.table_files import load_rulebook


@pytest.fixture
def copied(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """Return a copy of the shipped tables, which the loader reads instead of them."""
    folder = shutil.copytree(tables(), tmp_path / "tables")
    monkeypatch.setattr(table_files, "tables", lambda: folder)
    return folder


def change(path: Path, edit: Callable[[str], str]) -> None:
    """Pass the text of a file through an edit."""
    path.write_text(edit(path.read_text(encoding="utf-8")), encoding="utf-8")


def test_things_of_the_rulebook_know_their_ids() -> None:
    rulebook = load_rulebook()
    for kind in (rulebook.radios, rulebook.spacings, rulebook.materials, rulebook.zone_kinds):
        assert kind
        assert all(thing.id == id for id, thing in kind.items())


def test_comments_do_not_change_the_fingerprint_and_values_do(copied: Path) -> None:
    before = load_rulebook().sha256
    change(copied / "limits.yaml", lambda text: text + "# a remark\n")
    assert load_rulebook().sha256 == before
    change(copied / "limits.yaml", lambda text: edited(text, ("near: 0.5 dB", "near: 0.6 dB")))
    assert load_rulebook().sha256 != before


def test_a_band_that_runs_backwards_is_refused(copied: Path) -> None:
    radio = copied / "radios" / "vhf_com.yaml"
    change(radio, lambda text: text.replace("low: 117.975 MHz", "low: 137.5 MHz"))
    with pytest.raises(ProblemsError) as caught:
        load_rulebook()
    assert caught.value.problems[0].text() == (
        "rfplan/tables/radios/vhf_com.yaml:6:7: vhf_com.bands.rx: the low end lies above the "
        "high end; expected low .. high"
    )


def test_a_missing_table_is_told(copied: Path) -> None:
    (copied / "materials.yaml").unlink()
    with pytest.raises(ProblemsError, match=r"materials\.yaml:1:1: there is no such file"):
        load_rulebook()


def test_a_mask_whose_corners_fall_back_is_refused(copied: Path) -> None:
    change(
        copied / "gnss_masks.yaml",
        lambda text: text.replace("bandwidth: 700 Hz", "bandwidth: 700 kHz"),
    )
    with pytest.raises(ProblemsError, match="noise_like: the corners do not rise"):
        load_rulebook()
