# SPDX-License-Identifier: Apache-2.0
"""The manifest lists every member with hash and size, and is read only as it was written."""

from __future__ import annotations

import json
from typing import Any

import pytest

from rfplan.model.plan import State
from rfplan.records.container import DamagedError
from rfplan.records.manifest import MANIFEST, checked_manifest, manifest_of
from rfplan.records.settings import Settings
from rfplan.reports.json_text import json_text

MEMBERS = {"plan.yaml": b"text", "check.json": b"{}"}
SETTINGS = Settings("plan.yaml", State.BUILT, "12", "mm", "2026-11-20", "as built")


def whole() -> dict[str, bytes]:
    return {**MEMBERS, MANIFEST: manifest_of(MEMBERS, SETTINGS, "1.2.3").content()}


def with_manifest(**changes: Any) -> dict[str, bytes]:
    content = json.loads(whole()[MANIFEST])
    return {**MEMBERS, MANIFEST: json_text({**content, **changes}).encode()}


def test_a_manifest_tells_how_the_plan_was_judged() -> None:
    manifest = checked_manifest(whole())
    assert manifest.settings == SETTINGS
    assert (manifest.tool.name, manifest.tool.version) == ("rfplan", "1.2.3")
    content = json.loads(whole()[MANIFEST])
    assert content["format"] == "rfplan-package/1"
    assert content["members"]["plan.yaml"]["size"] == 4


@pytest.mark.parametrize(
    ("members", "words"),
    [
        (MEMBERS, "no manifest.json"),
        ({**whole(), "more.txt": b""}, "'more.txt' is not listed"),
        ({k: v for k, v in whole().items() if k != "check.json"}, "'check.json' is missing"),
        ({**whole(), "plan.yaml": b"Text"}, "'plan.yaml' is not what was packed"),
        ({**whole(), MANIFEST: whole()[MANIFEST] + b" "}, "not as it was written"),
        ({**whole(), MANIFEST: b"[" * 100_000}, "not that of a package"),
        ({**whole(), MANIFEST: b"\xff"}, "not that of a package"),
        (with_manifest(format="rfplan-package/2"), "newer than this version reads"),
        (with_manifest(format="other"), "not that of a package"),
        (with_manifest(serial=12), "not that of a package"),
        (with_manifest(units="furlong"), "not that of a package"),
        (with_manifest(state="flying"), "not that of a package"),
        (with_manifest(plan=None), "not that of a package"),
        (with_manifest(more=1), "not as it was written"),
    ],
)
def test_whatever_does_not_hold_together_is_refused(members: dict[str, bytes], words: str) -> None:
    with pytest.raises(DamagedError, match=words):
        checked_manifest(members)
