# SPDX-License-Identifier: Apache-2.0
"""What a loss budget is made of: element by element, and the lengths of the cables."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass

from rfplan.model.assessment import Assessment, CableRun, ChainItem, LengthTerms, PathAssessment
from rfplan.model.loss_figure import Tolerance
from rfplan.reports.cells import (
    NOT_APPLICABLE,
    UNKNOWN,
    LengthUnit,
    decibels,
    length,
    listed,
    nothing,
    number,
    words,
    words_or_nothing,
)
from rfplan.reports.context import Context
from rfplan.reports.sheet import Cell, Field, Table, number_field, table, text_field

Losses = tuple[float | None, float | None, float | None]


@dataclass(frozen=True, slots=True)
class Row:
    """One element of one path with its least, nominal and most loss at the governing band."""

    path: PathAssessment
    place: int
    item: ChainItem
    losses_db: Losses
    db_per_m: float | None
    obtained: str | None
    ageing_db: float | None


def elements_table(assessment: Assessment) -> Table:
    """Return one row for each element, in order from the unit."""
    fields: list[Field[Row]] = [
        text_field("path", "path", lambda row: words(row.path.id)),
        number_field("place", "no.", "", lambda row: number(row.place, "")),
        text_field("kind", "kind", lambda row: words(row.item.kind.replace("_", " "))),
        text_field("id", "id", lambda row: words_or_nothing(row.item.id)),
        text_field("type", "type", lambda row: words(row.item.type)),
        text_field("part", "part", lambda row: words_or_nothing(row.item.designation)),
        number_field("ohm", "impedance", "ohm", lambda row: _ohm(row.item)),
        number_field("per_m", "attenuation at 20 degC", "dB/m", _per_m),
        text_field("obtained", "obtained", _obtained),
        text_field("tolerance", "tolerance", _tolerance),
        text_field("band", "band", lambda row: words_or_nothing(row.path.loss.governing_band)),
        _loss("least", "least", 0),
        _loss("nominal", "nominal", 1),
        _loss("most", "most", 2),
        number_field("ageing", "of it ageing", "dB", _ageing),
        text_field("basis", "basis", lambda row: words_or_nothing(row.item.basis)),
        text_field("source", "source", lambda row: words_or_nothing(row.item.source)),
        text_field("class", "class", lambda row: words(row.item.source_class)),
    ]
    title = "Elements at the governing band"
    return table("elements", title, fields, _rows(assessment), stub=2)


def _rows(assessment: Assessment) -> Iterator[Row]:
    for path in assessment.paths:
        governing = next(band for band in path.bands if band.name == path.loss.governing_band)
        for index, item in enumerate(path.chain):
            yield Row(
                path,
                index + 1,
                item,
                governing.item_db[index],
                governing.item_db_per_m[index],
                governing.item_obtained[index],
                governing.item_ageing_db[index],
            )


def _loss(key: str, title: str, end: int) -> Field[Row]:
    return number_field(key, title, "dB", lambda row: decibels(row.losses_db[end]))


def _ageing(row: Row) -> Cell:
    return nothing() if row.ageing_db == 0.0 else decibels(row.ageing_db)


def _ohm(item: ChainItem) -> Cell:
    return number(item.impedance_ohm, "ohm", absent=NOT_APPLICABLE)


def _per_m(row: Row) -> Cell:
    """At the middle of the governing band, as the nominal loss."""
    return number(row.db_per_m, "dB/m", digits=4, absent=NOT_APPLICABLE)


def _obtained(row: Row) -> Cell:
    return words(row.obtained) if row.obtained else nothing(UNKNOWN)


def _tolerance(row: Row) -> Cell:
    """As stated, as assumed of such a source, and which ends have figures of their own."""
    tolerance = row.item.tolerance
    if tolerance is None:
        return nothing(UNKNOWN)
    own = f"own {' and '.join(tolerance.ends)}" if tolerance.ends else None
    figure = None if len(tolerance.ends) == 2 else _figure(tolerance)
    return listed(filter(None, (figure, own)))


def _figure(tolerance: Tolerance) -> str:
    if not tolerance.stated and not tolerance.value:
        return "none stated"
    shown = f"{100.0 * tolerance.value:g} %" if not tolerance.unit else f"{tolerance.value:g} dB"
    return shown if tolerance.stated else f"{shown} assumed"


def lengths_table(assessment: Assessment, context: Context) -> Table:
    """Return the terms of each cable's length."""
    unit = context.units

    def term(key: str, title: str, told: Callable[[LengthTerms], float]) -> Field[CableRun]:
        return number_field(
            key, title, unit, lambda run: _length(told(run.terms) if run.terms else None, unit)
        )

    fields: list[Field[CableRun]] = [
        text_field("cable", "cable", lambda run: words(run.id)),
        text_field("type", "type", lambda run: words(run.type)),
        term("routed", "routed", lambda terms: terms.routed_m),
        term("drops", "drops", lambda terms: terms.drops_m),
        term("drip_loop", "drip loop", lambda terms: terms.drip_loop_m),
        term("service_loops", "service loops", lambda terms: terms.service_loops_m),
        term("retermination", "re-termination", lambda terms: terms.retermination_m),
        term("rounding", "rounding", lambda terms: terms.rounding_m),
        term("cut", "cut length", lambda terms: terms.cut_m),
        number_field("as_built", "as built", unit, lambda run: _length(run.as_built_m, unit)),
        number_field("least", "least", unit, lambda run: length(run.length_m.least, unit)),
        number_field("nominal", "electrical", unit, lambda run: length(run.length_m.nominal, unit)),
        number_field("most", "most", unit, lambda run: length(run.length_m.most, unit)),
        text_field("unknown", "not known", lambda run: listed(run.unknown)),
        number_field("ageing", "ageing allowed", "%", _ageing_share),
    ]
    runs = [run for _, run in sorted(assessment.cables.items())]
    return table("lengths", "Cable lengths", fields, runs)


def _ageing_share(run: CableRun) -> Cell:
    if run.ageing_ratio == 0.0:
        return nothing()
    return number(None if run.ageing_ratio is None else 100.0 * run.ageing_ratio, "%")


def _length(length_m: float | None, unit: LengthUnit) -> Cell:
    return length(length_m, unit, absent=NOT_APPLICABLE)
