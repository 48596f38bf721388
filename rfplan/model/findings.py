# SPDX-License-Identifier: Apache-2.0
"""Verdict words, findings, open points, and which word outweighs which."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from enum import StrEnum
from typing import Any

from rfplan.model.plan import Accepted, State
from rfplan.model.record import is_name
from rfplan.model.rulebook import Strictness


class Verdict(StrEnum):
    """The words of a verdict; the order of definition is worst first."""

    FAIL_HIGH = "FAIL-HIGH"
    FAIL_LOW = "FAIL-LOW"
    FAIL = "FAIL"
    INCOMPLETE = "INCOMPLETE"
    WAIVED = "WAIVED"
    NEAR = "NEAR"
    PASS = "PASS"  # noqa: S105 - a verdict, no secret
    ADVICE = "ADVICE"

    @property
    def fails(self) -> bool:
        """Whether this is one of the FAIL words."""
        return self in (Verdict.FAIL_HIGH, Verdict.FAIL_LOW, Verdict.FAIL)


RANK = {verdict: rank for rank, verdict in enumerate(Verdict)}


def worst(verdicts: Iterable[Verdict]) -> Verdict:
    """Return the worst of some verdicts; advice never counts, nothing at all passes."""
    counted = (verdict for verdict in verdicts if verdict is not Verdict.ADVICE)
    return min(counted, key=RANK.__getitem__, default=Verdict.PASS)


@dataclass(frozen=True, slots=True)
class WaiverNote:
    """How a waiver bears on a finding; `changed` where it was signed for something else."""

    id: str
    who: str
    date: str | None
    reason: str
    reopened: bool
    unbound: bool
    approved_data: str | None
    accepted: Accepted | None = None
    changed: bool = False
    role: str | None = None
    check: str | None = None

    @property
    def holds(self) -> bool:
        """Whether somebody stands for it by name, and what was accepted is still what there is."""
        return is_name(self.who) and not self.reopened


@dataclass(frozen=True, slots=True)
class Finding:
    """One rule broken by one set of objects; `where` is the entry that it is a finding about."""

    rule: str
    name: str
    strictness: Strictness
    objects: tuple[str, ...]
    state: State
    text: str
    remedy: str
    source: str
    source_class: str
    verdict: Verdict
    value: float | None = None
    limit: float | None = None
    unit: str = ""
    paths: tuple[str, ...] = ()
    waiver: WaiverNote | None = None
    where: tuple[str, ...] = ()

    @property
    def id(self) -> str:
        """The identity of a finding: rule, sorted objects, state."""
        return f"{self.rule}/{'+'.join(sorted(self.objects))}/{self.state}"


@dataclass(frozen=True, slots=True)
class Acceptance:
    """Who accepted an open point to confirm; reopened where that value has changed since."""

    who: str
    date: str
    reopened: bool
    unbound: bool
    check: str | None = None


@dataclass(frozen=True, slots=True)
class OpenPoint:
    """A value that is missing (blocking) or only assumed (to confirm), and where it is written.

    `accepts` are the values that somebody accepts who lets the point stand; without any nobody can.
    """

    object: str
    field: str
    blocking: bool
    text: str
    where: tuple[str, ...]
    who: str | None = None
    accepts: tuple[Any, ...] = ()
    acceptance: Acceptance | None = None

    @property
    def id(self) -> str:
        """The identity of an open point: object and field."""
        return f"{self.object}.{self.field}"
