# SPDX-License-Identifier: Apache-2.0
"""The rulebook from the tables that ship with the tool."""

from __future__ import annotations

import json
from collections.abc import Iterable
from dataclasses import dataclass, field
from hashlib import sha256
from pathlib import Path
from typing import Any

from rfplan.files.check_names import check_ids
from rfplan.files.entry_files import Entry, EntryKind, read_entry, with_ids
from rfplan.files.faults import Faults
from rfplan.files.folders import tables
from rfplan.files.nodes import Node
from rfplan.files.problems import Problem, ProblemsError
from rfplan.model.gnss_masks import GnssMasks
from rfplan.model.ground_checks import GroundChecks
from rfplan.model.record import RECORD, ById
from rfplan.model.rulebook import Limits, Material, Radio, Rulebook, Spacing, ZoneKind


@dataclass(frozen=True, slots=True)
class _Table:
    """A file of entries by id; each of the tables holds one of these."""

    __pydantic_config__ = RECORD

    spacings: ById[Spacing] = field(default_factory=ById)
    materials: ById[Material] = field(default_factory=ById)
    zone_kinds: ById[ZoneKind] = field(default_factory=ById)


def check_radio(radio: Radio, root: Node, faults: Faults) -> None:
    """Add a problem for each band of a radio that runs backwards."""
    check_ids(root, ("bands", "classes", "sensitivity"), faults)
    for name, band in radio.bands.items():
        if band.low_hz > band.high_hz:
            faults.say(root, ("bands", name), "the low end lies above the high end", "low .. high")


def _check_table(table: _Table, root: Node, faults: Faults) -> None:
    check_ids(root, ("spacings", "materials", "zone_kinds"), faults)


def _check_masks(masks: GnssMasks, root: Node, faults: Faults) -> None:
    check_ids(root, ("masks", "tightenings", "pulses"), faults)
    for name, mask in masks.masks.items():
        at = [corner.frequency_hz or corner.bandwidth_hz or 0.0 for corner in mask.corners]
        if 0.0 in at or at != sorted(at):
            faults.say(root, ("masks", name), "the corners do not rise", "rising frequencies")


def _check_steps(checks: GroundChecks, root: Node, faults: Faults) -> None:
    check_ids(root, ("steps", "intervals"), faults)


_RADIO = EntryKind("radio", Radio, check=check_radio)
_TABLES: dict[str, EntryKind[Any]] = {
    kind.kind: kind
    for kind in (
        EntryKind("spacings", _Table, check=_check_table),
        EntryKind("materials", _Table, check=_check_table),
        EntryKind("zone_kinds", _Table, check=_check_table),
        EntryKind("limits", Limits),
        EntryKind("ground_checks", GroundChecks, check=_check_steps),
        EntryKind("gnss_masks", GnssMasks, check=_check_masks),
    )
}


def load_rulebook(folder: Path | None = None) -> Rulebook:
    """Read the shipped tables, or those of another folder; raises ProblemsError."""
    folder = folder or tables()
    radio_files, table_files = _radio_files(folder), _table_files(folder)
    entries = _read([*radio_files, *table_files], folder)
    table = {name: entries[-len(_TABLES) + place] for place, name in enumerate(_TABLES)}
    return Rulebook(
        radios=ById((entry.id, entry.record) for entry in entries[: len(radio_files)]),
        spacings=with_ids(table["spacings"].record.spacings),
        materials=with_ids(table["materials"].record.materials),
        zone_kinds=with_ids(table["zone_kinds"].record.zone_kinds),
        limits=table["limits"].record,
        ground_checks=table["ground_checks"].record,
        gnss_masks=table["gnss_masks"].record,
        sha256=_fingerprint(entries),
    )


def rule_files(folder: Path) -> list[str]:
    """Return the names, below a folder of tables, of the files that a rulebook is made of."""
    files = [*_radio_files(folder), *_table_files(folder)]
    return [path.relative_to(folder).as_posix() for path, _ in files]


def _radio_files(folder: Path) -> list[tuple[Path, EntryKind[Any]]]:
    return [(path, _RADIO) for path in sorted((folder / "radios").glob("*.yaml"))]


def _table_files(folder: Path) -> list[tuple[Path, EntryKind[Any]]]:
    return [(folder / f"{name}.yaml", kind) for name, kind in _TABLES.items()]


def _read(files: Iterable[tuple[Path, EntryKind[Any]]], folder: Path) -> list[Entry[Any]]:
    entries, problems = [], list[Problem]()
    for path, kind in files:
        name = f"rfplan/tables/{path.relative_to(folder).as_posix()}"
        try:
            entries.append(read_entry(path, {kind.kind: kind}, name))
        except ProblemsError as error:
            problems += error.problems
    if problems:
        raise ProblemsError(problems)
    return entries


def _fingerprint(entries: Iterable[Entry[Any]]) -> str:
    """Return the hash of the content, whatever its layout, order and comments."""
    content = {f"{entry.kind}/{entry.id}": entry.root.plain() for entry in entries}
    text = json.dumps(content, sort_keys=True, separators=(",", ":"), ensure_ascii=False)
    return sha256(text.encode()).hexdigest()
