# SPDX-License-Identifier: Apache-2.0
"""The catalogue from its folders: the shipped one, and a user's over it."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from os.path import isdir
from pathlib import Path
from typing import Any, TypeAlias

from rfplan.files.check_catalog import (
    check_antenna,
    check_cable,
    check_connector,
    check_part,
    check_plugs,
    plugs_of,
)
from rfplan.files.entry_files import Entry, EntryKind, read_entry
from rfplan.files.faults import one_of, quoted
from rfplan.files.folders import shipped
from rfplan.files.kinds import body, kind_of, read_kind
from rfplan.files.nodes import Location
from rfplan.files.problems import Problem, ProblemsError
from rfplan.files.record_types import as_written
from rfplan.files.shape_catalog import shape_antenna, shape_cable, shape_part
from rfplan.model.catalog import AntennaType, Cable, Catalog, Connector, InlinePart
from rfplan.model.record import ById

SHIPPED = "cable_catalog"

_FOLDERS: dict[str, EntryKind[Any]] = {
    "cables": EntryKind("cable", Cable, shape_cable, check_cable),
    "connectors": EntryKind("connector", Connector, shape_part, check_connector),
    "inline_parts": EntryKind("inline_part", InlinePart, shape_part, check_part),
    "antennas": EntryKind("antenna", AntennaType, shape_antenna, check_antenna),
}
_FOLDER_OF = {kind.kind: folder for folder, kind in _FOLDERS.items()}

_File: TypeAlias = tuple[Path, dict[str, EntryKind[Any]], str]
_Entries: TypeAlias = dict[tuple[str, str], Entry[Any]]


def load_catalog(user_folder: Path | None = None) -> Catalog:
    """Read the shipped catalogue and lay a user's folder over it; raises ProblemsError."""
    problems: list[Problem] = []
    entries = _read(_found(shipped(SHIPPED), SHIPPED), problems)
    if user_folder is not None:
        entries |= _read(_found_by_user(user_folder, problems), problems)
    return _catalog(entries, problems)


def load_catalog_folder(folder: Path, display_name: str) -> Catalog:
    """Read one folder as the whole catalogue; raises ProblemsError."""
    problems: list[Problem] = []
    return _catalog(_read(_found(folder, display_name), problems), problems)


def load_cable(path: Path) -> Cable:
    """Read one cable file, wherever it is and whatever else the catalogue holds."""
    kind = _FOLDERS["cables"]
    record: Cable = read_entry(path, {kind.kind: kind}, str(path)).record
    return record


def place_in_catalog(
    folder: str, id: str, loc: Location = (), user_folder: Path | None = None
) -> tuple[str, int, int]:
    """Return file, line and column of a figure of an entry, or of what stands nearest above it.

    The file is read again: a catalogue keeps no lines. LookupError if there is no such entry.
    """
    path, display_name = file_of_entry(folder, id, user_folder)
    kind = _FOLDERS[folder]
    document = read_kind(path, [kind.kind], display_name)
    tree = kind.shape(body(document))
    mark = tree.mark_at(as_written(tree, loc), key=True)
    return document.file, mark.line, mark.column


def file_of_entry(folder: str, id: str, user_folder: Path | None = None) -> tuple[Path, str]:
    """Return the file that an entry of the catalogue was read from, and what messages call it.

    LookupError if there is no such entry.
    """
    places = [(shipped(SHIPPED) / folder, f"{SHIPPED}/{folder}")]
    if user_folder is not None:
        users = [user_folder / folder, user_folder]
        places = [*((place, str(place)) for place in users), *places]
    for place, display_name in places:
        path = place / f"{id}.yaml"
        if path.is_file() and (place != user_folder or _is_in(folder, path)):
            return path, f"{display_name}/{path.name}"
    raise LookupError(f"no entry {id} in {folder}")


def _is_in(folder: str, path: Path) -> bool:
    """Tell whether a file that lies outside of the folders belongs to one of them."""
    return _FOLDER_OF[kind_of(read_kind(path, list(_FOLDER_OF)))] == folder


def _catalog(entries: _Entries, problems: list[Problem]) -> Catalog:
    problems += _plug_problems(entries)
    if problems:
        raise ProblemsError(problems)
    return Catalog(**{folder: _records(entries, folder) for folder in _FOLDERS})


def _read(files: Iterable[_File], problems: list[Problem]) -> _Entries:
    """Return the entries of one layer by folder and id."""
    entries: _Entries = {}
    for path, kinds, display_name in files:
        try:
            entry = read_entry(path, kinds, display_name)
        except ProblemsError as error:
            problems += error.problems
            continue
        key = (_FOLDER_OF[entry.kind], entry.id)
        if key in entries:
            message = f"{entry.id}: the same id as {entries[key].faults.file}"
            problems.append(Problem(display_name, 1, 1, message, "one file for each id"))
        entries[key] = entry
    return entries


def _found(root: Path, display_name: str) -> Iterator[_File]:
    """Yield the files in the folders of all kinds."""
    for folder, kind in _FOLDERS.items():
        for path in _yaml_files(root / folder):
            yield path, {kind.kind: kind}, f"{display_name}/{folder}/{path.name}"


def _found_by_user(root: Path, problems: list[Problem]) -> Iterator[_File]:
    """Yield the files of a user's folder, which may also hold files of any kind directly."""
    if not isdir(root):  # unlike Path.is_dir, without an error for a name that is too long
        message, expected = "there is no such folder", "a folder of catalogue files"
        problems.append(Problem(str(root), 1, 1, message, expected))
        return
    yield from _found(root, str(root))
    any_kind = {kind.kind: kind for kind in _FOLDERS.values()}
    yield from ((path, any_kind, str(path)) for path in _yaml_files(root))
    problems += _overlooked(root)


def _yaml_files(folder: Path) -> list[Path]:
    return sorted(folder.glob("*.yaml")) if folder.is_dir() else []


def _overlooked(root: Path) -> Iterator[Problem]:
    """Yield a problem for each file or folder that its name keeps from being read."""
    for path in sorted(root.rglob("*.yml")):
        yield Problem(str(path), 1, 1, "the file name ends in '.yml'", "'.yaml'")
    for folder in sorted(path for path in root.iterdir() if path.is_dir()):
        if folder.name not in _FOLDERS and _yaml_files(folder):
            message = f"no folder {quoted(folder.name)} belongs to a catalogue"
            yield Problem(str(folder), 1, 1, message, one_of(_FOLDERS, folder.name, "a folder"))


def _plug_problems(entries: _Entries) -> Iterator[Problem]:
    known = {id for folder, id in entries if folder == "connectors"}
    for entry in entries.values():
        if isinstance(entry.record, InlinePart | AntennaType):
            check_plugs(plugs_of(entry.record), known, entry.root, entry.faults)
            yield from entry.faults.problems


def _records(entries: _Entries, folder: str) -> ById[Any]:
    return ById((key[1], entries[key].record) for key in sorted(entries) if key[0] == folder)
