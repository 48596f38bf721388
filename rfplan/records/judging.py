# SPDX-License-Identifier: Apache-2.0
"""A plan judged from nothing but the inputs of a package, and everything that is said of it."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Mapping
from contextlib import contextmanager
from dataclasses import dataclass, replace
from pathlib import Path
from tempfile import TemporaryDirectory

from rfplan import __version__
from rfplan.assess import assess
from rfplan.files.catalog_files import load_catalog_folder, place_in_catalog
from rfplan.files.load import LoadedPlan, load_plan
from rfplan.files.problems import ProblemsError
from rfplan.files.table_files import load_rulebook
from rfplan.model.assessment import Assessment
from rfplan.model.plan import Plan
from rfplan.records.inputs import CATALOG, CHECK, DRAWINGS, SHEETS_FOLDER, TABLES, input_names
from rfplan.records.manifest import MANIFEST, manifest_of
from rfplan.records.settings import Settings
from rfplan.reports.canonical import hashes_of
from rfplan.reports.context import Context
from rfplan.reports.contract import check_json
from rfplan.reports.drawings.placement import placement_svg
from rfplan.reports.formats import FORMATS
from rfplan.reports.json_text import json_text
from rfplan.reports.printing import ENDINGS, FILE_WIDTH
from rfplan.reports.sheets import FILED, SHEETS

SHEET_FORMATS = ("text", "csv", "json", "html")
"""The formats in which each sheet is filed."""

_NO_ID = re.compile(r"[^a-z0-9]+")


Tell = Callable[[str], None]
"""Is told how far a package is."""


def untold(text: str) -> None:
    """Tell nobody."""


@dataclass(frozen=True, slots=True)
class Filed:
    """What the inputs of a package come to; good for as long as their folder is there."""

    assessment: Assessment
    context: Context
    used: frozenset[str]


@contextmanager
def judged(
    inputs: Mapping[str, bytes], settings: Settings, version: str = __version__
) -> Iterator[Filed]:
    """Judge the inputs in a temporary folder; ProblemsError names files as the package does."""
    with TemporaryDirectory(prefix="rfplan-") as name:
        folder = Path(name)
        try:
            for member, content in inputs.items():
                _write(folder / member, content)
            yield _judged(folder, settings, version)
        except ProblemsError as error:
            problems = [replace(one, file=_below(folder, one.file)) for one in error.problems]
            raise ProblemsError(problems) from None


def contents(
    inputs: Mapping[str, bytes],
    settings: Settings,
    version: str = __version__,
    tell: Tell = untold,
) -> dict[str, bytes]:
    """Return every member of the package of some inputs: themselves, what follows, manifest."""
    with judged(inputs, settings, version) as filed:
        members = {name: inputs[name] for name in inputs if name in filed.used}
        members |= _outputs(filed, tell)
    members[MANIFEST] = manifest_of(members, settings, version).content()
    return members


def _judged(folder: Path, settings: Settings, version: str) -> Filed:
    catalog = load_catalog_folder(folder / CATALOG, CATALOG)
    rulebook = load_rulebook(folder / TABLES)
    loaded = load_plan(
        folder / settings.plan,
        catalog=catalog,
        rulebook=rulebook,
        state=settings.state,
        serial=settings.serial,
    )
    names = [_below(folder, document.file) for document in loaded.documents]
    context = Context(
        hashes=hashes_of(loaded.plan, catalog, rulebook),
        units=settings.units,
        version=version,
        date=settings.date,
        plan_file=names[0],
        airframe_file=names[1],
        where=lambda keys: _where(keys, loaded, folder),
    )
    assessment = assess(_filed_plan(loaded.plan, settings), catalog, rulebook)
    used = {*names, *input_names(loaded.plan, catalog, folder)}
    return Filed(assessment, context, frozenset(used))


def _filed_plan(plan: Plan, settings: Settings) -> Plan:
    """Return a plan that no longer depends on the folder it lies in, in its filed status."""
    id = _NO_ID.sub("_", plan.airframe.name.lower()).strip("_") or "aircraft"
    status = settings.status or plan.revision.status
    return replace(
        plan,
        id=id,
        airframe=replace(plan.airframe, id=id),
        revision=replace(plan.revision, status=status),
    )


def _outputs(filed: Filed, tell: Tell) -> dict[str, bytes]:
    """Return what is said of a plan: the answer for programs, the drawing, all sheets."""
    outputs = {
        CHECK: json_text(check_json(filed.assessment, filed.context)),
        f"{DRAWINGS}/placement.svg": placement_svg(filed.assessment, filed.context),
    }
    for number, key in enumerate(FILED, start=1):
        tell(f"sheet {number} of {len(FILED)}: {key}")
        sheet = SHEETS[key].build(filed.assessment, filed.context)
        for format in SHEET_FORMATS:
            name = f"{SHEETS_FOLDER}/{key}.{ENDINGS[format]}"
            outputs[name] = FORMATS[format].write(sheet, width=FILE_WIDTH)
    return {name: text.encode() for name, text in outputs.items()}


def _where(keys: tuple[str, ...], loaded: LoadedPlan, folder: Path) -> tuple[str, int, int]:
    """Return member, line and column of a field."""
    if keys[:1] == ("catalog",):
        file, line, column = place_in_catalog(keys[1], keys[2], keys[3:], folder / CATALOG)
    else:
        file, line, column = loaded.line_of(loaded.plan.state, keys)
    return _below(folder, file), line, column


def _below(folder: Path, file: str) -> str:
    """Return the name of a file in the package; what lies elsewhere keeps its own."""
    path = Path(file)
    return path.relative_to(folder).as_posix() if path.is_relative_to(folder) else file


def _write(path: Path, content: bytes) -> None:
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_bytes(content)
