# SPDX-License-Identifier: Apache-2.0
"""The formulas against values from outside, as `rfplan validation` prints and files it."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from enum import StrEnum
from importlib.resources import files
from typing import Any, TypeAlias

import numpy as np
import yaml

from rfplan.reports.formulas import every_formula
from rfplan.sources import Citation, SourceClass, citation

FORMAT = "rfplan-validation/1"
ROUNDING = 1.0e-12

Input: TypeAlias = float | list[float] | dict[str, float]


class Kind(StrEnum):
    """What a row is worth as evidence; each kind is counted apart."""

    OUTSIDE_PUBLISHED = "outside_published"
    INDEPENDENT_COMPUTATION = "independent_computation"
    TRANSCRIPTION = "transcription"
    SUPPORTING = "supporting"


@dataclass(frozen=True, slots=True)
class Wrong:
    """A plausible mistake, and the value it would give."""

    formula: str
    gives: float


@dataclass(frozen=True, slots=True)
class Check:
    """One value with its source, and the call that has to reproduce it."""

    id: str
    topic: str
    says: str
    source: Citation
    source_class: SourceClass
    kind: Kind
    function: str
    inputs: Mapping[str, Input]
    expected: float
    unit: str
    tolerance: float
    take: str | None = None
    output_scale: float = 1.0
    output_offset: float = 0.0
    wrong: Wrong | None = None
    note: str = ""


@dataclass(frozen=True, slots=True)
class Row:
    """A check with the value computed for it."""

    check: Check
    computed: float

    @property
    def difference(self) -> float:
        """Return computed less expected."""
        return self.computed - self.check.expected

    @property
    def passed(self) -> bool:
        """Return whether the difference is within the tolerance, both ends included."""
        return abs(self.difference) <= self.check.tolerance + ROUNDING * abs(self.check.expected)


def published_checks() -> tuple[Check, ...]:
    """Return the checks shipped with the tool, in the order of the file."""
    text = (files("rfplan") / "tables" / "published_checks.yaml").read_text(encoding="utf-8")
    entries: dict[str, dict[str, Any]] = yaml.safe_load(text)["checks"]
    return tuple(_check(key, entry) for key, entry in entries.items())


def validation_rows(checks: Iterable[Check] | None = None) -> tuple[Row, ...]:
    """Compute every check; LookupError where one names a function that is not a cited formula."""
    cited = {formula.name: formula.function for formula in every_formula()}
    return tuple(_row(check, cited) for check in (published_checks() if checks is None else checks))


def counts(rows: Iterable[Row]) -> dict[str, dict[str, int]]:
    """Return how many rows there are of each class, topic, kind and outcome."""
    rows = tuple(rows)
    return {
        "by_class": dict(Counter(str(row.check.source_class) for row in rows)),
        "by_topic": dict(Counter(row.check.topic for row in rows)),
        "by_kind": dict(Counter(str(row.check.kind) for row in rows)),
        "by_outcome": dict(Counter("pass" if row.passed else "fail" for row in rows)),
    }


def outside_by_topic(rows: Iterable[Row]) -> dict[str, int]:
    """Return how many rows of each topic rest on something published outside that was read."""
    outside = dict.fromkeys(sorted({row.check.topic for row in rows}), 0)
    for row in rows:
        read = row.check.source_class in (SourceClass.READ, SourceClass.SECOND_HAND)
        outside[row.check.topic] += row.check.kind is Kind.OUTSIDE_PUBLISHED and read
    return outside


def validation_json(rows: Iterable[Row]) -> dict[str, object]:
    """Return the answer of `rfplan validation --json`."""
    rows = tuple(rows)
    return {"format": FORMAT, "rows": [_row_json(row) for row in rows], "counts": counts(rows)}


def _check(key: str, entry: Mapping[str, Any]) -> Check:
    """Build one check from its entry; its class is that of the document unless it says less."""
    fields = dict(entry)
    source = citation(fields.pop("source"))
    source_class = SourceClass(fields.pop("source_class", source.document.source_class))
    kind = Kind(fields.pop("kind", _kind(source, source_class)))
    wrong = fields.pop("wrong", None)
    return Check(
        id=key,
        source=source,
        source_class=source_class,
        kind=kind,
        wrong=Wrong(**wrong) if wrong else None,
        **fields,
    )


def _kind(source: Citation, source_class: SourceClass) -> Kind:
    """Return what a row is worth: community texts and memory never carry a formula alone."""
    if source_class in (SourceClass.OWN_COMPUTATION, SourceClass.LIBRARY):
        return Kind.INDEPENDENT_COMPUTATION
    if source.document.community or source_class in (
        SourceClass.MEMORY,
        SourceClass.COMMON_PRACTICE,
    ):
        return Kind.SUPPORTING
    return Kind.OUTSIDE_PUBLISHED


def _row(check: Check, cited: Mapping[str, Callable[..., object]]) -> Row:
    """Call the formula of a check by its registered name, and only by that."""
    if check.function not in cited:
        raise LookupError(f"{check.id}: {check.function} is not a cited formula")
    result = cited[check.function](**{key: _value(given) for key, given in check.inputs.items()})
    return Row(check, float(_part(result, check)) * check.output_scale + check.output_offset)


def _value(given: Input) -> object:
    """Return an input as the formula takes it: number, array or complex number."""
    if isinstance(given, list):
        return np.array(given, dtype=float)
    if isinstance(given, dict):
        return complex(given["re"], given["im"])
    return given


def _part(result: Any, check: Check) -> Any:
    """Return the named part of a complex number or of a result with several values."""
    if check.take is None:
        return result
    if check.take not in ("real", "imag", *getattr(result, "_fields", ())):
        raise LookupError(f"{check.id}: the result has no part {check.take!r}")
    return getattr(result, check.take)


def _row_json(row: Row) -> dict[str, object]:
    check = row.check
    return {
        "id": check.id,
        "topic": check.topic,
        "says": check.says,
        "document_id": check.source.document.key,
        "document": check.source.document.title,
        "place": check.source.place,
        "source_class": str(check.source_class),
        "kind": str(check.kind),
        "function": check.function,
        "inputs": dict(check.inputs),
        "take": check.take,
        "output_scale": check.output_scale,
        "output_offset": check.output_offset,
        "expected": check.expected,
        "computed": row.computed,
        "difference": row.difference,
        "tolerance": check.tolerance,
        "unit": check.unit,
        "pass": row.passed,
        "wrong_formula": check.wrong.formula if check.wrong else None,
        "note": check.note or None,
    }
