# SPDX-License-Identifier: Apache-2.0
"""How far apart antennas stand: every pair, worst margin first, pairs without a rule last."""

from __future__ import annotations

from collections.abc import Callable

from rfplan.model.assessment import Assessment, SpacingFact
from rfplan.reports.cells import (
    NOT_APPLICABLE,
    UNKNOWN,
    LengthUnit,
    in_shown_unit,
    length,
    nothing,
    telling_digits,
    verdict_cell,
    words,
)
from rfplan.reports.context import Context
from rfplan.reports.heading import sheet
from rfplan.reports.sheet import Cell, Field, Sheet, number_field, table, text_field

KEY = "spacing"
TITLE = "Spacing of antennas"

NO_RULE = "no rule"


def build(assessment: Assessment, context: Context) -> Sheet:
    """Return the distances of every pair."""

    def distance(
        key: str, title: str, told: Callable[[SpacingFact], float | None], absent: str = UNKNOWN
    ) -> Field[SpacingFact]:
        def cell(pair: SpacingFact) -> Cell:
            units = context.units
            return length(told(pair), units, digits=_digits(pair, units), absent=absent)

        return number_field(key, title, context.units, cell)

    fields: list[Field[SpacingFact]] = [
        text_field("a", "antenna", lambda pair: words(pair.a)),
        text_field("b", "antenna", lambda pair: words(pair.b)),
        text_field("verdict", "verdict", _verdict),
        distance("margin", "margin", lambda pair: pair.margin_m, NOT_APPLICABLE),
        distance("need", "needs", lambda pair: pair.need_m, NOT_APPLICABLE),
        text_field("datum", "measured", lambda pair: _of_rule(pair.datum)),
        distance("centre", "centres", lambda pair: pair.centre_m),
        distance("edge", "edges", lambda pair: pair.edge_m),
        distance("skin", "along skin", lambda pair: pair.skin_m, NOT_APPLICABLE),
        text_field("strictness", "strictness", lambda pair: _of_rule(pair.strictness)),
        text_field("rule", "rule", lambda pair: _of_rule(pair.rule)),
    ]
    pairs = sorted(assessment.spacing, key=_worst_first)
    return sheet(
        assessment,
        context,
        KEY,
        TITLE,
        table(KEY, "Pairs, worst margin first", fields, pairs, stub=2),
    )


def _worst_first(pair: SpacingFact) -> tuple[bool, bool, float, str, str]:
    """Pairs whose margin is not known stand before all others that a rule speaks of."""
    known = pair.margin_m is not None
    return pair.rule is None, known, pair.margin_m or 0.0, pair.a, pair.b


def _digits(pair: SpacingFact, units: LengthUnit) -> int:
    """As many digits as tell a distance that is too small from what it needs."""
    have = {"centre": pair.centre_m, "edge": pair.edge_m, "skin": pair.skin_m}
    have_m = have.get(pair.datum) if pair.datum else None
    value, unit = in_shown_unit(have_m, "m", units)
    need, _ = in_shown_unit(pair.need_m, "m", units)
    broken = pair.margin_m is not None and pair.margin_m < 0.0
    return telling_digits(value, need, unit, fails=broken)


def _of_rule(told: str | None) -> Cell:
    return nothing() if told is None else words(str(told))


def _verdict(pair: SpacingFact) -> Cell:
    return nothing(NO_RULE) if pair.rule is None else verdict_cell(pair.verdict)
