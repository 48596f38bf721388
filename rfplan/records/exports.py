# SPDX-License-Identifier: Apache-2.0
"""Sheets, drawing and package as files: which there will be, and each whole or not there."""

from __future__ import annotations

import os
import re
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

from rfplan.files.whole_file import write_whole
from rfplan.model.assessment import Assessment
from rfplan.model.plan import Plan
from rfplan.records.package import package
from rfplan.records.settings import Settings
from rfplan.reports.context import Context
from rfplan.reports.drawings.placement import placement_svg
from rfplan.reports.printing import ENDINGS, content_of
from rfplan.reports.sheets import SHEETS

DRAWING, PACKAGE = "placement.svg", "package.zip"
"""The names of what is no sheet, in a folder."""

_NO_WORD = re.compile(r"[^A-Za-z0-9-]+")
_LONGEST_WORD = 16


@dataclass(frozen=True, slots=True)
class Order:
    """What is to be written: into a folder a file each, else all sheets into one file.

    `replace` lets it take the place of what is there.
    """

    sheets: tuple[str, ...]
    format: str
    target: Path
    into_folder: bool
    drawing: bool = False
    package: bool = False
    replace: bool = False

    @property
    def more(self) -> tuple[str, ...]:
        """The names of what is no sheet."""
        return (*((DRAWING,) * self.drawing), *((PACKAGE,) * self.package))

    @property
    def paths(self) -> tuple[Path, ...]:
        """Every file that there will be."""
        if not self.into_folder:
            return (self.target,)
        sheets = (f"{key}.{ENDINGS[self.format]}" for key in self.sheets)
        return tuple(self.target / name for name in (*sheets, *self.more))

    @property
    def there_already(self) -> tuple[Path, ...]:
        """Those of them that are there before."""
        return tuple(path for path in self.paths if os.path.lexists(path))

    @property
    def fault(self) -> str:
        """Why it cannot be carried out, nothing if it can."""
        if not self.sheets and not self.more:
            return "Nothing is chosen."
        if not self.into_folder and len(self.more) + bool(self.sheets) > 1:
            return "Drawing and package are files of their own: name a folder, with / at its end."
        return ""


@dataclass(frozen=True, slots=True)
class Origin:
    """What exports are made from: sheets from an assessment, a package from the files."""

    assessment: Assessment
    context: Context
    plan: Path
    settings: Settings
    user_folder: Path | None


def carried_out(order: Order, origin: Origin) -> Iterator[str]:
    """Write everything, and yield before each step how far it is, in words.

    Raises OSError, ProblemsError or MissingExtraError; no file is ever left in part.
    """
    if order.into_folder:
        order.target.mkdir(exist_ok=True)
    yield from _sheets(order, origin)
    for name in order.more:
        yield "the drawing" if name == DRAWING else "the package"
        path = order.target / name if order.into_folder else order.target
        write_whole(path, _content(name, origin), replace=order.replace)


def folder_for(plan: Plan) -> str:
    """Return the name of a folder for the sheets of a plan: revision and state."""
    letter = _NO_WORD.sub("_", plan.revision.letter or "").strip("_")[:_LONGEST_WORD]
    return "_".join(filter(None, ("sheets", letter, str(plan.state))))


def _sheets(order: Order, origin: Origin) -> Iterator[str]:
    built = []
    for number, key in enumerate(order.sheets, start=1):
        yield f"{number} of {len(order.sheets)} sheets"
        sheet = SHEETS[key].build(origin.assessment, origin.context)
        if order.into_folder:
            path = order.target / f"{key}.{ENDINGS[order.format]}"
            write_whole(path, content_of([sheet], order.format), replace=order.replace)
        else:
            built.append(sheet)
    if built:
        write_whole(order.target, content_of(built, order.format), replace=order.replace)


def _content(name: str, origin: Origin) -> bytes:
    if name == DRAWING:
        return placement_svg(origin.assessment, origin.context).encode()
    return package(origin.plan, origin.settings, origin.user_folder)
