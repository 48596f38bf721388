# SPDX-License-Identifier: Apache-2.0
"""The kept list of what gives other numbers, and that DEVELOPERS.md says the same."""

from __future__ import annotations

from pathlib import Path

from rfplan import __version__
from rfplan.records.number_changes import NumberChange, between, number_changes, told

DEVELOPERS = Path(__file__).parents[2] / "DEVELOPERS.md"
HEADING = "## What changed in the numbers"

FIRST = NumberChange("0.1.0", "", "first release")
SECOND = NumberChange("0.2.0", "rfplan.physics.noise.x", "why")
THIRD = NumberChange("0.10.0", "rfplan.physics.bend.y", "why")


def test_the_list_for_developers_is_the_kept_one() -> None:
    section = DEVELOPERS.read_text("utf-8").partition(HEADING)[2].partition("\n## ")[0]
    assert section.strip() == told(number_changes())


def test_the_kept_list_ends_at_most_with_the_present_version() -> None:
    assert number_changes()
    assert between(number_changes(), __version__, "999") == ()


def test_what_changed_lies_after_the_one_version_and_up_to_the_other() -> None:
    kept = (FIRST, SECOND, THIRD)
    assert between(kept, "0.1.0", "0.9.0") == (SECOND,)
    assert between(kept, "0.2.0", "0.10.0") == (THIRD,)
    assert between(kept, "0.0.1", "0.1.0") == ()


def test_an_older_version_that_computes_a_newer_package_is_told_the_same() -> None:
    assert between((FIRST, SECOND), "0.2.0", "0.1.0") == (SECOND,)


def test_a_change_is_told_with_its_version_and_what_it_concerns() -> None:
    assert told((FIRST, SECOND)) == ("0.1.0: first release.\n0.2.0: rfplan.physics.noise.x: why.")
