# SPDX-License-Identifier: Apache-2.0
"""The files that a judgement rests on: gathered from where they are, and named by the plan."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import fields, is_dataclass
from pathlib import Path

from rfplan.files.catalog_files import file_of_entry
from rfplan.files.folders import tables
from rfplan.files.load import LoadedPlan
from rfplan.files.opening import read_bytes
from rfplan.files.problems import Problem, ProblemsError
from rfplan.files.table_files import rule_files
from rfplan.model.catalog import Catalog
from rfplan.model.plan import Plan
from rfplan.records.container import is_member_name
from rfplan.records.manifest import MANIFEST

CATALOG = "catalog"
TABLES = "tables"
CHECK = "check.json"
SHEETS_FOLDER = "sheets"
DRAWINGS = "drawings"

_TAKEN = (MANIFEST, CHECK, CATALOG, TABLES, SHEETS_FOLDER, DRAWINGS)


def gathered(loaded: LoadedPlan, catalog: Catalog, user_folder: Path | None) -> dict[str, bytes]:
    """Return plan, airframe, the catalogue entries that count, and all rule tables, as read."""
    inputs = {_bare_name(one.file): one.content() for one in loaded.documents}
    for folder, id in entries_named(loaded.plan, catalog):
        path, _ = file_of_entry(folder, id, user_folder)
        inputs[f"{CATALOG}/{folder}/{id}.yaml"] = read_bytes(path, str(path))
    for name in rule_files(tables()):
        inputs[f"{TABLES}/{name}"] = read_bytes(tables() / name, name)
    return inputs


def input_names(plan: Plan, catalog: Catalog, folder: Path) -> set[str]:
    """Return the names of the inputs, beside plan and airframe, that count for a plan."""
    entries = {f"{CATALOG}/{kind}/{id}.yaml" for kind, id in entries_named(plan, catalog)}
    return entries | {f"{TABLES}/{name}" for name in rule_files(folder / TABLES)}


def entries_named(plan: Plan, catalog: Catalog) -> set[tuple[str, str]]:
    """Return folder and id of each entry that a plan names in any state, or that those name.

    Pads count too: a remedy may offer any of them.
    """
    kept = {("inline_parts", id) for id, one in catalog.inline_parts.items() if one.kind == "pad"}
    names = {*_words(plan), *_words([catalog.inline_parts[id] for _, id in kept])}
    while True:
        more = {
            (kind.name, id)
            for kind in fields(catalog)
            for id in getattr(catalog, kind.name)
            if id in names
        } - kept
        if not more:
            return kept
        kept |= more
        names |= {word for kind, id in more for word in _words(getattr(catalog, kind)[id])}


def is_output(name: str) -> bool:
    """Tell whether a member is what a judgement says, not what it rests on."""
    return name in (MANIFEST, CHECK) or name.startswith((f"{SHEETS_FOLDER}/", f"{DRAWINGS}/"))


def _words(thing: object) -> Iterator[str]:
    """Yield every text that a record holds; the names of its fields are not among them."""
    if isinstance(thing, str):
        yield thing
    elif is_dataclass(thing) and not isinstance(thing, type):
        for field in fields(thing):
            yield from _words(getattr(thing, field.name))
    elif isinstance(thing, Mapping):
        for value in thing.values():
            yield from _words(value)
    elif isinstance(thing, tuple | list):
        for value in thing:
            yield from _words(value)


def _bare_name(file: str) -> str:
    """Return the name that a file has in a package; ProblemsError where it can have none."""
    name = Path(file).name
    if is_member_name(name) and name.casefold() not in _TAKEN:
        return name
    expected = "a file name of plain letters, digits, '.', '-', '_', such as plan.yaml"
    raise ProblemsError([Problem(file, 1, 1, "this file name cannot stand in a package", expected)])
