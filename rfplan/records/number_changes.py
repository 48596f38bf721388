# SPDX-License-Identifier: Apache-2.0
"""Which formulas gave other numbers from one version of rfplan to the next, as kept by hand."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

import yaml

from rfplan.files.folders import tables

FILE = "number_changes.yaml"


@dataclass(frozen=True, slots=True)
class NumberChange:
    """A version, and one formula or table that gives other numbers since; '' for a first word."""

    version: str
    changed: str
    text: str


def number_changes() -> tuple[NumberChange, ...]:
    """Return the kept list, newest version last."""
    versions = yaml.safe_load((tables() / FILE).read_text("utf-8"))["versions"]
    return tuple(_entries(versions))


def between(changes: Iterable[NumberChange], packed: str, present: str) -> tuple[NumberChange, ...]:
    """Return what changed after the one version, up to and with the other."""
    older, newer = sorted((_order(packed), _order(present)))
    return tuple(one for one in changes if older < _order(one.version) <= newer and one.changed)


def told(changes: Iterable[NumberChange]) -> str:
    """Return the list as it stands in DEVELOPERS.md."""
    lines = (
        f"{one.version}: {one.changed}: {one.text}."
        if one.changed
        else f"{one.version}: {one.text}."
        for one in changes
    )
    return "\n".join(lines)


def _entries(versions: dict[str, dict[str, str]]) -> Iterator[NumberChange]:
    for version, entries in versions.items():
        for changed, text in entries.items():
            yield NumberChange(version, "" if changed == "all" else changed, text)


def _order(version: str) -> tuple[int, ...]:
    return tuple(int(step) for step in version.split(".") if step.isdigit())
