# SPDX-License-Identifier: Apache-2.0
"""A package read with suspicion and computed anew: is it whole, and does it come out the same?"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from contextlib import contextmanager
from dataclasses import dataclass

from rfplan import __version__
from rfplan.records.container import DamagedError, unpack
from rfplan.records.differences import Difference, differences
from rfplan.records.inputs import is_output
from rfplan.records.judging import Filed, contents, judged
from rfplan.records.manifest import MANIFEST, Manifest, checked_manifest
from rfplan.records.number_changes import NumberChange, between
from rfplan.reports.cells import words
from rfplan.reports.heading import CAUTIONS
from rfplan.reports.sheet import Field, Sheet, Table, table, text_field

UNCHANGED = "unchanged since packed"


@dataclass(frozen=True, slots=True)
class Verification:
    """What computing a package anew came to."""

    manifest: Manifest
    present: str
    differences: tuple[Difference, ...]
    changes: tuple[NumberChange, ...]


def verify(content: bytes, changes: Iterable[NumberChange]) -> Verification:
    """Compute a package anew; DamagedError if it is not whole, ProblemsError if unreadable now.

    The version that is printed on sheets is the one that packed, so it makes no difference.
    """
    members, manifest = opened(content)
    packed = manifest.tool.version
    anew = contents(_inputs(members, manifest), manifest.settings, packed)
    members.pop(MANIFEST), anew.pop(MANIFEST)
    found = tuple(differences(members, anew))
    told = between(changes, packed, __version__) if found else ()
    return Verification(manifest, __version__, found, told)


def opened(content: bytes) -> tuple[dict[str, bytes], Manifest]:
    """Return members and manifest of a package that is whole; DamagedError if it is not."""
    members = unpack(content)
    return members, checked_manifest(members)


@contextmanager
def judged_again(content: bytes) -> Iterator[Filed]:
    """Judge the inputs of a package with the present version."""
    members, manifest = opened(content)
    with judged(_inputs(members, manifest), manifest.settings) as filed:
        yield filed


def verification_sheet(verification: Verification, name: str) -> Sheet:
    """Return what a verification came to as a sheet."""
    count = len(verification.differences)
    result = f"{count} difference{'s' if count != 1 else ''}"
    manifest = verification.manifest
    header = (
        ("package", words(name)),
        ("result", words(f"{result}, {UNCHANGED}" if not count else result)),
        ("packed by", words(f"{manifest.tool.name} {manifest.tool.version}")),
        ("computed by", words(f"rfplan {verification.present}")),
        ("members", words(str(len(manifest.members)))),
    )
    tables = (_differences(verification), _changes(verification)) if count else ()
    return Sheet("verify", "Package", header, tables, CAUTIONS)


def _inputs(members: Mapping[str, bytes], manifest: Manifest) -> dict[str, bytes]:
    """Return the members that a judgement may read."""
    if manifest.plan not in members or "/" in manifest.plan:
        raise DamagedError(f"there is no plan {manifest.plan!r} in it")
    return {name: members[name] for name in members if not is_output(name)}


def _differences(verification: Verification) -> Table:
    fields: list[Field[Difference]] = [
        text_field("member", "member", lambda one: words(one.member)),
        text_field("place", "place", lambda one: words(one.place)),
        text_field("before", "before", lambda one: words(one.before)),
        text_field("after", "after", lambda one: words(one.after)),
    ]
    return table("differences", "Differences", fields, verification.differences, stub=2)


def _changes(verification: Verification) -> Table:
    fields: list[Field[NumberChange]] = [
        text_field("version", "since version", lambda one: words(one.version)),
        text_field("changed", "what gives other numbers", lambda one: words(one.changed)),
        text_field("text", "why", lambda one: words(one.text)),
    ]
    title = "Known to give other numbers since it was packed"
    return table("changes", title, fields, verification.changes)
