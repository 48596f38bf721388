# SPDX-License-Identifier: Apache-2.0
"""What a look at the files on disk comes to."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, TypeAlias

if TYPE_CHECKING:
    from rfplan.edits import Value
    from rfplan.files.problems import Problem


@dataclass(frozen=True, slots=True)
class Unchanged:
    """The files are as they were read or saved."""


@dataclass(frozen=True, slots=True)
class Reloaded:
    """The files had changed and were read again."""

    words: str


@dataclass(frozen=True, slots=True)
class Conflict:
    """The plan file has changed and there are unsaved changes: `theirs` and `mine`, in values."""

    words: str
    theirs: tuple[Value, ...]
    mine: tuple[Value, ...]


@dataclass(frozen=True, slots=True)
class Broken:
    """The files cannot be read as they are now; the plan last read is still worked on."""

    words: str
    problems: tuple[Problem, ...]


Outcome: TypeAlias = Unchanged | Reloaded | Conflict | Broken
