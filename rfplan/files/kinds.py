# SPDX-License-Identifier: Apache-2.0
"""Kind and version of a file, which its first key tells."""

from __future__ import annotations

import re
from collections.abc import Collection
from pathlib import Path

from rfplan.files.faults import Faults, listed, near_misses, quoted
from rfplan.files.marks import Document, Mark, Node, read
from rfplan.files.problems import ProblemsError
from rfplan.files.shape import entries, without

VERSIONS = {
    "plan": 1,
    "airframe": 1,
    "cable": 1,
    "connector": 1,
    "inline_part": 1,
    "antenna": 1,
    "radio": 1,
    "spacings": 1,
    "materials": 1,
    "zone_kinds": 1,
    "limits": 1,
    "ground_checks": 1,
    "gnss_masks": 1,
}
"""The newest version of each kind that this tool reads."""

_KEY = "rfplan"
_KIND = re.compile(r"([a-z_]{1,40})/([0-9]{1,4})")


def read_kind(path: Path, kinds: Collection[str], display_name: str | None = None) -> Document:
    """Read a file that has to be of one of the kinds, in a version that is known here."""
    document = read(path, display_name)
    refusal = _refusal(document.root, kinds)
    if refusal is not None:
        mark, message, expected = refusal
        faults = Faults(document.file)
        faults.add(mark, message, expected, (_KEY,))
        raise ProblemsError(faults.problems)
    return document


def kind_of(document: Document) -> str:
    """Return the kind of a document that `read_kind` has let pass."""
    return str(entries(document.root)[_KEY].value).partition("/")[0]


def body(document: Document) -> Node:
    """Return the root without the key that tells the kind."""
    return without(document.root, [_KEY])


def _refusal(root: Node, kinds: Collection[str]) -> tuple[Mark, str, str] | None:
    """Return where and why a file is refused."""
    wanted = listed(f"{_KEY}: {kind}/{VERSIONS[kind]}" for kind in kinds)
    children = entries(root)
    first = next(iter(children), None)
    if first is None:
        return root.mark, "the file is empty", wanted
    if first != _KEY:
        return root.key_marks[first], f"the first key is {quoted(first)}", wanted
    value = children[_KEY]
    found = _KIND.fullmatch(str(value.value))
    if found is None:
        return value.mark, f"{_KEY} is {quoted(value.value)}, no kind and version", wanted
    if found[1] not in kinds:
        return value.mark, *_wrong_kind(found[1], wanted)
    if int(found[2]) > VERSIONS[found[1]]:
        return value.mark, f"{found[0]} is newer than this version of rfplan reads", wanted
    return None if int(found[2]) else (value.mark, "there is no version 0", wanted)


def _wrong_kind(kind: str, wanted: str) -> tuple[str, str]:
    if kind in VERSIONS:
        return f"this is a file of kind {quoted(kind)}", wanted
    near = near_misses(kind, VERSIONS)
    return f"unknown kind of file {quoted(kind)}", listed(near) if near else wanted
