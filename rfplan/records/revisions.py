# SPDX-License-Identifier: Apache-2.0
"""Revisions of a plan: what keeps one from release, and what was released before."""

from __future__ import annotations

import os
import re
from collections.abc import Iterator
from contextlib import suppress
from dataclasses import dataclass, replace
from pathlib import Path

from rfplan.files.opening import read_bytes
from rfplan.model.assessment import Assessment, PathAssessment
from rfplan.model.findings import OpenPoint, Verdict
from rfplan.model.plan import Plan, State
from rfplan.model.record import is_name
from rfplan.records.container import MOST_BYTES, DamagedError
from rfplan.records.judging import Tell, untold
from rfplan.records.package import package
from rfplan.records.released import ENDING, released_folder
from rfplan.records.settings import Settings, Status
from rfplan.records.verify import judged_again, opened

ROLES = ("prepared", "checked", "released")
"""Who has to stand for a revision by name."""

MEASURED_BY_LOSS = ("loss", "drops")
"""Open points that a measured loss settles."""

_LETTER = re.compile(r"[A-Za-z0-9](?:[A-Za-z0-9_-]{0,14}[A-Za-z0-9])?")


class NotReleasedError(Exception):
    """A plan may not be released as it is; carries every reason, and what a name would settle."""

    def __init__(self, reasons: list[str], acceptable: tuple[OpenPoint, ...] = ()) -> None:
        super().__init__(*reasons)
        self.reasons, self.acceptable = reasons, acceptable


@dataclass(frozen=True, slots=True)
class Revision:
    """One released package as it is listed; `status` is superseded where a later one is there."""

    letter: str
    status: str
    state: str
    date: str | None


def release(
    plan: Path, settings: Settings, user_folder: Path | None = None, tell: Tell = untold
) -> Path:
    """Write the package of a plan under the letter of its revision and return the new file.

    NotReleasedError with every reason against it; FileExistsError where the letter is taken.
    """
    status: Status = "as built" if settings.state is State.BUILT else "released"
    content = package(plan, replace(settings, status=status), user_folder, tell)
    with judged_again(content) as filed:
        reasons, acceptable = list(hindrances(filed.assessment)), to_accept(filed.assessment)
    if reasons:
        raise NotReleasedError(reasons, acceptable)
    folder = released_folder(plan)
    folder.mkdir(exist_ok=True)
    path = folder / f"{filed.assessment.plan.revision.letter}{ENDING}"
    _write_new(path, content)
    return path


def revisions(folder: Path) -> Iterator[Revision]:
    """Yield the released revisions in the order of their letters; what is no package is skipped."""
    found = sorted(folder.glob(f"*{ENDING}"), key=lambda path: (len(path.stem), path.stem))
    listed = [one for path in found if (one := _revision(path)) is not None]
    for number, one in enumerate(listed, start=1):
        yield one if number == len(listed) else replace(one, status="superseded")


def hindrances(assessment: Assessment) -> Iterator[str]:
    """Yield every reason against releasing a plan."""
    if assessment.verdict.fails or assessment.verdict is Verdict.INCOMPLETE:
        yield f"the verdict is {assessment.verdict}"
    yield from _without_letter(assessment.plan)
    yield from _without_names(assessment.plan)
    for point in _unsettled(assessment):
        yield f"{point.id} {_standing(point)}: {point.text}"


def to_accept(assessment: Assessment) -> tuple[OpenPoint, ...]:
    """Return the points against a release that somebody may accept by name as they are."""
    return tuple(point for point in _unsettled(assessment) if point.accepts)


def _unsettled(assessment: Assessment) -> Iterator[OpenPoint]:
    for point in assessment.open_points:
        if not point.blocking and point.field != "name" and not _settled(point, assessment):
            yield point


def _without_letter(plan: Plan) -> Iterator[str]:
    letter = plan.revision.letter
    if letter is None:
        yield "revision.letter: there is none"
    elif not _LETTER.fullmatch(letter):
        yield "revision.letter: only letters, digits, '-' and '_' can name a file"


def _without_names(plan: Plan) -> Iterator[str]:
    for role in ROLES:
        person = plan.people.get(role)
        if person is None or not is_name(person.name):
            yield f"people.{role}: no name"


def _standing(point: OpenPoint) -> str:
    acceptance = point.acceptance
    if not point.accepts:
        return "is open, and no name settles it"
    if acceptance is None:
        return "is neither measured nor accepted by name"
    return f"has changed since {acceptance.who} accepted it on {acceptance.date}"


def _settled(point: OpenPoint, assessment: Assessment) -> bool:
    """Tell whether a point to confirm was measured, or is accepted by name as it is."""
    if point.acceptance is not None and not point.acceptance.reopened:
        return True
    if point.field not in MEASURED_BY_LOSS:
        return False
    paths = [path for path in assessment.paths if _goes_through(path, point.object)]
    return bool(paths) and all(map(_is_measured, paths))


def _goes_through(path: PathAssessment, object: str) -> bool:
    return any(object in (item.id, *item.type.split()) for item in path.chain)


def _is_measured(path: PathAssessment) -> bool:
    """Tell whether a reading stands for the loss of a path and agrees with what was predicted."""
    return any(not reading.stale and reading.agreement == "AGREES" for reading in path.readings)


def _revision(path: Path) -> Revision | None:
    with suppress(DamagedError):
        _, manifest = opened(read_bytes(path, str(path), MOST_BYTES))
        return Revision(path.stem, manifest.status or "", str(manifest.state), manifest.date)
    return None


def _write_new(path: Path, content: bytes) -> None:
    """Write a file that was not there before, whole or not at all."""
    part = path.with_name(f".{path.name}.{os.getpid()}.part")
    try:
        with part.open("xb") as file:
            file.write(content)
            file.flush()
            os.fsync(file.fileno())
        _name_anew(part, path)
    finally:
        part.unlink(missing_ok=True)


def _name_anew(part: Path, path: Path) -> None:
    """Give a file its name, never that of another one."""
    if os.path.lexists(path):
        raise FileExistsError(17, "this revision is released already; raise revision.letter")
    try:
        os.link(part, path)
    except FileExistsError:
        raise FileExistsError(17, "this revision was released meanwhile") from None
    except OSError:  # a file system without links
        part.rename(path)
