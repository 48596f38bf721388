# SPDX-License-Identifier: Apache-2.0
"""The airframe file beside a plan: how it may be named, and how it is read."""

from __future__ import annotations

from dataclasses import dataclass, replace
from os.path import isfile
from pathlib import Path, PurePosixPath, PureWindowsPath

from rfplan.files.check_names import check_no_id
from rfplan.files.draft import AirframeDraft
from rfplan.files.faults import Faults, quoted
from rfplan.files.kinds import body, read_kind
from rfplan.files.marks import Document, Node
from rfplan.files.problems import ProblemsError
from rfplan.files.shape import entries
from rfplan.files.shape_airframe import shape_airframe
from rfplan.files.sourcing import published_sources, with_sources
from rfplan.files.validation import read_record
from rfplan.model.airframe import Airframe
from rfplan.model.record import ById
from rfplan.model.source import Source

_BESIDE = "the plain name of a file beside this one"


@dataclass(frozen=True, slots=True)
class AirframeFile:
    """An airframe file as written and as read, with the published documents it cites."""

    document: Document
    draft: AirframeDraft
    cited: dict[str, Source]

    def record(self, id: str) -> Airframe:
        """Return the airframe, its sources joined by those it cites."""
        airframe = with_sources(self.draft.record, None)
        return replace(airframe, id=id, sources=ById({**airframe.sources, **self.cited}))


def airframe_path(root: Node, folder: Path, faults: Faults) -> Path | None:
    """Return the file that a plan names as its airframe, which never lies outside its folder."""
    node = entries(root).get("airframe")
    if node is None or isinstance(node.value, bool) or not isinstance(node.value, str | int):
        return None  # a missing key or another value is reported with the record
    name = str(node.value)
    path = folder / name
    if not _is_plain(name) or _leads_elsewhere(path, folder):
        message = f"airframe: {quoted(name)} is not in the folder of the plan"
    elif not isfile(path):  # unlike Path.is_file, without an error for a name that is too long
        message = f"airframe: there is no file {quoted(name)} beside the plan"
    else:
        return path
    faults.add(node.mark, message, _BESIDE, ("airframe",))
    return None


def read_airframe(path: Path) -> AirframeFile:
    """Read an airframe file with all that can be read; raises ProblemsError if nothing can."""
    document = read_kind(path, ("airframe",))
    faults = Faults(document.file, "airframe")
    tree = shape_airframe(body(document), faults)
    check_no_id(tree, (), "the folder", faults)
    cited = published_sources(body(document), faults)
    record = read_record(Airframe, tree, faults, {"name": "", "sections": ()})
    if record is None:
        raise ProblemsError(faults.problems)
    return AirframeFile(document, AirframeDraft(record, tree, faults), cited)


def _is_plain(name: str) -> bool:
    """Tell whether a name is one step down on every system."""
    posix, windows = PurePosixPath(name), PureWindowsPath(name)
    return (
        name not in ("", ".", "..")
        and posix.name == name
        and windows.name == name
        and name.isprintable()
    )


def _leads_elsewhere(path: Path, folder: Path) -> bool:
    """Tell whether a link leads out of the folder."""
    try:
        return path.resolve().parent != folder.resolve()
    except (OSError, RuntimeError, ValueError):  # a loop of links, or an impossible name
        return True
