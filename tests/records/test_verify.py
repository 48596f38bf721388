# SPDX-License-Identifier: Apache-2.0
"""A package is computed anew: unchanged, or every difference with what is known to have changed."""

from __future__ import annotations

import json
from collections.abc import Callable
from pathlib import Path

import pytest
from demo_plans import DEMOS, FOLDER

from rfplan import __version__
from rfplan.files.problems import ProblemsError
from rfplan.records.container import DamagedError, pack, unpack
from rfplan.records.inputs import is_output
from rfplan.records.judging import contents
from rfplan.records.manifest import MANIFEST, checked_manifest, manifest_of
from rfplan.records.number_changes import NumberChange
from rfplan.records.package import package
from rfplan.records.settings import Settings
from rfplan.records.verify import Verification, verification_sheet, verify
from rfplan.reports.formats import text

CHANGES = (
    NumberChange("0.0.2", "rfplan.physics.noise.noise_figure_db", "long ago"),
    NumberChange("0.0.9", "rfplan.physics.mismatch.mismatch_loss_db", "a wrong sign"),
    NumberChange("9.0.0", "rfplan.physics.bend.bend", "still to come"),
)


def forged(content: bytes, change: Callable[[dict[str, bytes]], None], version: str) -> bytes:
    """Return a package in which a member is other and the manifest says so."""
    members = unpack(content)
    manifest = checked_manifest(members)
    del members[MANIFEST]
    change(members)
    anew = manifest_of(members, manifest.settings, version)
    return pack({**members, MANIFEST: anew.content()})


def words(verification: Verification) -> str:
    return text.write(verification_sheet(verification, "a.zip"), width=150)


@pytest.mark.parametrize("demo", DEMOS)
def test_a_fresh_package_of_a_demo_is_unchanged_since_packed(demo: str) -> None:
    verification = verify(package(FOLDER / demo, Settings()), CHANGES)
    assert (verification.differences, verification.changes) == ((), ())
    assert "0 differences, unchanged since packed" in words(verification)


def test_the_version_that_packed_is_no_difference(packed: bytes) -> None:
    other = package_of_version(packed, "0.0.5")
    assert other != packed
    assert verify(other, CHANGES).differences == ()


def package_of_version(packed: bytes, version: str) -> bytes:
    """Return the package as another version has made it that only prints its own number."""
    members = unpack(packed)
    inputs = {name: content for name, content in members.items() if not is_output(name)}
    return pack(contents(inputs, checked_manifest(members).settings, version))


def test_each_difference_is_named_with_both_versions_and_what_is_known_to_have_changed(
    packed: bytes,
) -> None:
    def other_margin(members: dict[str, bytes]) -> None:
        answer = json.loads(members["check.json"])
        answer["paths"][0]["bands"][0]["margin_to_max_db"] = 9.5
        answer["exit_code"] = 1
        members["check.json"] = (json.dumps(answer, indent=1) + "\n").encode()

    verification = verify(
        forged(package_of_version(packed, "0.0.5"), other_margin, "0.0.5"), CHANGES
    )
    first, second = verification.differences
    assert (first.member, first.place, first.before, first.after) == (
        "check.json",
        "exit_code",
        "1",
        "0",
    )
    assert second.place == "paths[com].bands[0].margin_to_max_db"
    assert second.before == "9.5"
    assert verification.changes == (CHANGES[1],)
    told = words(verification)
    assert "packed by    rfplan 0.0.5" in told and f"computed by  rfplan {__version__}" in told
    assert "2 differences" in told and "rfplan.physics.mismatch.mismatch_loss_db" in told
    assert "unchanged" not in told


def test_an_input_that_does_not_count_is_a_difference(packed: bytes) -> None:
    def one_more(members: dict[str, bytes]) -> None:
        members["tables/radios/note.txt"] = b"hello"

    (difference,) = verify(forged(packed, one_more, __version__), ()).differences
    assert (difference.member, difference.before) == ("tables/radios/note.txt", "there")


def test_a_changed_plan_shows_in_what_follows_from_it(packed: bytes) -> None:
    def looser(members: dict[str, bytes]) -> None:
        members["plan.yaml"] = members["plan.yaml"].replace(b"none .. 2.5 dB", b"none .. 0.5 dB")

    members = {one.member for one in verify(forged(packed, looser, __version__), ()).differences}
    assert {"check.json", "sheets/loss_budget.json", "sheets/loss_budget.txt"} <= members


def test_a_package_whose_plan_cannot_be_read_is_told_by_its_own_names(packed: bytes) -> None:
    def broken(members: dict[str, bytes]) -> None:
        members["plan.yaml"] += b"nonsense: 1\n"

    with pytest.raises(ProblemsError) as caught:
        verify(forged(packed, broken, __version__), ())
    assert caught.value.problems[0].file == "plan.yaml"


def test_a_package_that_names_no_plan_of_its_own_is_refused(packed: bytes) -> None:
    members = unpack(packed)
    manifest = checked_manifest(members)
    del members[MANIFEST]
    for name in ("", "../plan.yaml", "tables/limits.yaml", "other.yaml"):
        lost = manifest_of(members, Settings(plan=name), manifest.tool.version)
        with pytest.raises(DamagedError, match="there is no plan"):
            verify(pack({**members, MANIFEST: lost.content()}), ())


def test_verifying_leaves_nothing_behind(
    packed: bytes, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("tempfile.tempdir", str(tmp_path))
    verify(packed, ())
    assert list(tmp_path.iterdir()) == []


def test_a_verification_claims_no_more_than_it_knows(packed: bytes) -> None:
    told = words(verify(packed, ())).lower()
    assert not any(word in told for word in ("authentic", "genuine", "certif", "approved", "safe"))
