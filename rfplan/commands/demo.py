# SPDX-License-Identifier: Apache-2.0
"""rfplan demo: copy a demo aircraft to a new folder and judge it as found and as designed."""

from __future__ import annotations

import shlex
import shutil
from argparse import Namespace
from collections.abc import Iterator
from pathlib import Path

from rfplan.commands.choices import not_one_of
from rfplan.commands.opening import Judged, judge, refuse
from rfplan.commands.output import complain, deliver, text_width
from rfplan.files.folders import shipped
from rfplan.files.problems import ProblemsError
from rfplan.model.findings import RANK
from rfplan.reports.formats import text
from rfplan.reports.outcome import NOT_JUDGED
from rfplan.reports.sheets import summary

FOLDER = "demo_aircraft"
STATES = {"found": "as found", "design": "as designed"}


def run(options: Namespace) -> int:
    """Copy the demo, print both verdicts and what to try next."""
    source = shipped(FOLDER)
    names = sorted(path.name for path in source.iterdir() if (path / "plan.yaml").is_file())
    name = options.name or names[0]
    if name not in names:
        complain(f"rfplan: {not_one_of('demo aircraft', name, names)}")
        return NOT_JUDGED
    folder = Path(options.to or f"demo_{name}")
    try:
        made = _copied(source / name, folder)
        judged = {state: _judged(folder, state) for state in STATES}
    except OSError as error:
        complain(f"rfplan: {folder} not made: {error.strerror or error}")
        return NOT_JUDGED
    except ProblemsError as error:
        return refuse(error)
    lines = [*_verdicts(judged, text_width(options)), *_next(folder, judged["found"], made=made)]
    return deliver("\n".join(lines), options, 0)


def _copied(source: Path, folder: Path) -> bool:
    """Copy a demo whole; False where a folder is there, which is then used as it is."""
    if folder.is_dir():
        return False
    part = folder.with_name(f".{folder.name}.part")
    try:
        shutil.copytree(source, part, copy_function=shutil.copyfile)
        part.rename(folder)
    finally:
        shutil.rmtree(part, ignore_errors=True)
    return True


def _verdicts(judged: dict[str, Judged], width: int) -> Iterator[str]:
    for state, one in judged.items():
        yield f"== {STATES[state]} ==\n"
        yield text.write(summary.build(one.assessment, one.context), width=width)


def _next(folder: Path, found: Judged, *, made: bool) -> Iterator[str]:
    where = shlex.quote(str(folder))
    worst = min(found.assessment.paths, key=lambda path: RANK[path.overall])
    told = "The aircraft is invented" if made else f"{folder} was there already and is as it was"
    yield f"{told}; its story is in {folder / 'README.md'}. Try next:"
    yield f"  rfplan check {where} --state found --why {worst.id}"
    yield f"  rfplan compare {where}@found {where}@design"
    yield f"  rfplan sheet {where} loss_budget --format html -o loss_budget.html"


def _judged(folder: Path, state: str) -> Judged:
    options = Namespace(state=state, serial=None, catalog=None, date=None, units="in")
    return judge(str(folder), options)
