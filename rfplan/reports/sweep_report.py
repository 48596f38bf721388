# SPDX-License-Identifier: Apache-2.0
"""The sweep sheet: what a measured sweep says of a path's loss, match, faults and labels."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TypeVar

from rfplan.analysis.swapped_cables import Labels, SweptLength
from rfplan.analysis.sweep_study import SweepStudy
from rfplan.analysis.swept_line import LineSearch, Reflection
from rfplan.analysis.swept_loss import SweptLoss
from rfplan.analysis.swept_match import SweptMatch
from rfplan.model.assessment import Assessment
from rfplan.model.findings import Verdict
from rfplan.model.plan import Port
from rfplan.model.sweep import Sweep
from rfplan.physics.fault_distance import WINDOW
from rfplan.reports.cells import (
    decibels,
    frequency,
    length,
    nothing,
    number,
    quantity,
    words,
    words_or_nothing,
)
from rfplan.reports.context import Context
from rfplan.reports.heading import CAUTIONS, heading
from rfplan.reports.sheet import Cell, Field, Sheet, Table, number_field, table, text_field
from rfplan.units import LENGTH, in_unit

KEY = "sweep"
TITLE = "Measured sweep"

DC_FIRST = "Disconnect the DC feed of the antenna before a sweep: it harms analyser and standards."

_Band = TypeVar("_Band", SweptLoss, SweptMatch)
_HIDDEN = "the line hides the antenna"


def sweep_sheet(assessment: Assessment, context: Context, told: SweepStudy) -> Sheet:
    """Return the sheet of one study; tables that its sweeps cannot fill are left out."""
    tables = (
        _sweeps_table(told),
        _losses_table(assessment, told),
        _matches_table(assessment, told),
        _reflections_table(told, context),
        _lengths_table(told, context),
    )
    header = (
        ("first", words(DC_FIRST)),
        ("path", words(told.sweeps.path)),
        *heading(assessment, context, KEY),
        ("swept at", _swept_at(told)),
    )
    notes = (*_line_notes(told.line, context), *map(_not_told, told.refused), *CAUTIONS)
    shown = tuple(one for one in tables if one is not None)
    return Sheet(KEY, TITLE, header, shown, (*_dc_note(assessment, told), *notes))


def _port(assessment: Assessment, told: SweepStudy) -> Port:
    fitted = assessment.plan.installation
    unit, _, port = fitted.paths[told.sweeps.path].chain[0].partition(".")
    return fitted.units[unit].ports[port]


def _dc_note(assessment: Assessment, told: SweepStudy) -> Iterator[str]:
    """Name the port that feeds the antenna, where the plan says that it does."""
    if _port(assessment, told).feed_v is not None:
        member = assessment.plan.installation.paths[told.sweeps.path].chain[0]
        yield f"{member} feeds its antenna: take the feed off before the analyser is connected."


def _swept_at(told: SweepStudy) -> Cell:
    given_c = told.sweeps.temperature_c
    if given_c is None:
        return nothing("temperature not stated: compared with the prediction at 20 degC")
    return quantity(given_c, "degC")


def _sweeps_table(told: SweepStudy) -> Table:
    fields: list[Field[Sweep]] = [
        text_field("file", "file", lambda one: words(one.file)),
        number_field("ports", "ports", "", lambda one: number(one.ports, "")),
        number_field("points", "points", "", lambda one: number(len(one.s), "")),
        number_field("low", "low", "MHz", lambda one: frequency(one.frequency_hz[0])),
        number_field("high", "high", "MHz", lambda one: frequency(one.frequency_hz[-1])),
        number_field("reference", "reference", "ohm", lambda one: number(one.reference_ohm, "ohm")),
        text_field("notes", "notes", lambda one: words_or_nothing("; ".join(one.notes))),
    ]
    return table("sweeps", "Sweeps", fields, told.sweeps.files)


def _band_fields(of: type[_Band]) -> list[Field[_Band]]:
    """Return the columns that name a band, for rows of one type."""
    return [
        text_field("band", "band", lambda one: words(one.band)),
        number_field("low", "low", "MHz", lambda one: frequency(one.low_hz)),
        number_field("high", "high", "MHz", lambda one: frequency(one.high_hz)),
        number_field("at", "at", "MHz", _worst_at),
    ]


def _worst_at(one: SweptLoss | SweptMatch) -> Cell:
    return nothing() if one.at_hz is None else frequency(one.at_hz)


def _losses_table(assessment: Assessment, told: SweepStudy) -> Table | None:
    """Measured beside predicted, at the frequency of a band where they differ most."""
    allowed_db = assessment.plan.policy.agree_db
    fields: list[Field[SweptLoss]] = [
        *_band_fields(SweptLoss),
        number_field("measured", "measured", "dB", lambda one: _db(one, one.measured_db)),
        number_field("predicted", "predicted", "dB", lambda one: _db(one, one.predicted_db)),
        number_field("difference", "difference", "dB", lambda one: _db(one, one.difference_db)),
        number_field("allowed", "allowed", "dB", lambda one: decibels(allowed_db)),
        number_field("ripple", "ripple +-", "dB", lambda one: decibels(one.ripple_db, absent="-")),
        text_field("agreement", "agreement", _agreement),
        text_field("remark", "remark", lambda one: words_or_nothing(one.refused)),
    ]
    return table("loss", "Loss", fields, told.losses) if told.losses else None


def _db(one: SweptLoss | SweptMatch, value_db: float | None) -> Cell:
    """A level of a band; dim where the band was not swept, unknown where the plan misses it."""
    return decibels(value_db, absent="-" if one.refused else "?")


def _agreement(one: SweptLoss) -> Cell:
    if one.agreement is None:
        return nothing()
    differs = one.agreement == "DIFFERS"
    return words(one.agreement, str(Verdict.ADVICE if differs else Verdict.PASS))


def _matches_table(assessment: Assessment, told: SweepStudy) -> Table | None:
    """Return loss and VSWR at the unit, and what is left of them at the antenna end."""
    fields: list[Field[SweptMatch]] = [
        *_band_fields(SweptMatch),
        number_field("unit", "RL at unit", "dB", lambda one: _db(one, one.unit_return_loss_db)),
        number_field("unit_vswr", "VSWR at unit", "", lambda one: _vswr(one.unit_vswr)),
        number_field("loss", "line loss", "dB", lambda one: _db(one, one.line_loss_db)),
        text_field("basis", "loss is", _basis),
        number_field("antenna", "RL at antenna", "dB", _antenna_db),
        number_field("antenna_vswr", "VSWR at antenna", "", lambda one: _vswr(one.antenna_vswr)),
        text_field("remark", "remark", _match_remark),
    ]
    title = "Match, at the frequency of a band where the antenna is worst"
    return table("match", title, fields, told.matches) if told.matches else None


def _vswr(vswr: float | None) -> Cell:
    return number(vswr, "", digits=2, absent="-")


def _basis(one: SweptMatch) -> Cell:
    if one.line_loss_db is None:
        return nothing()
    return words("measured" if one.loss_measured else "predicted")


def _antenna_db(one: SweptMatch) -> Cell:
    return nothing() if one.hidden else _db(one, one.antenna_return_loss_db)


def _match_remark(one: SweptMatch) -> Cell:
    if one.hidden:
        return words(_HIDDEN, str(Verdict.INCOMPLETE))
    return words_or_nothing(one.refused)


def _reflections_table(told: SweepStudy, context: Context) -> Table | None:
    unit = context.units
    fields: list[Field[Reflection]] = [
        number_field("distance", "from unit", unit, lambda one: length(one.distance_m, unit)),
        number_field("return_loss", "return loss", "dB", lambda one: decibels(one.return_loss_db)),
        text_field("where", "where", lambda one: words(one.where)),
    ]
    if told.line is None:
        return None
    title = f"Reflections of {decibels(told.line.threshold_db).text} dB return loss or less"
    return table("reflections", title, fields, told.line.reflections)


def _line_notes(line: LineSearch | None, context: Context) -> Iterator[str]:
    """Say how far and how finely the sweep sees, and what spoils it."""
    if line is None:
        return
    fine, far = (_told_length(one_m, context) for one_m in (line.resolution_m, line.range_m))
    yield f"Distances along the cables: {WINDOW}; resolution {fine}, range {far}."
    if line.too_short:
        end = _told_length(line.places[-1].distance_m, context)
        yield f"The path is {end} long and the sweep shows {far}: what lies beyond appears nearer."
    if line.loss_known:
        yield "Return losses of reflections are those at their place, for the predicted loss."
    else:
        yield "The loss of the path is not known: return losses of reflections are as seen."


def _told_length(length_m: float, context: Context) -> str:
    unit = context.units
    return f"{length(length_m, unit).text} {unit} ({in_unit(length_m, LENGTH, 'm'):.2f} m)"


def _lengths_table(told: SweepStudy, context: Context) -> Table | None:
    """Planned and measured electrical lengths of two cables, and what they say of the labels."""
    if told.labels is None:
        return None
    unit, labels = context.units, told.labels
    colour = "" if labels is Labels.RIGHT else str(Verdict.ADVICE)
    fields: list[Field[SweptLength]] = [
        text_field("path", "path", lambda one: words(one.path)),
        text_field("file", "file", lambda one: words(one.file)),
        number_field("planned", "planned", unit, lambda one: length(one.planned_m, unit)),
        number_field("measured", "measured", unit, lambda one: length(one.measured_m, unit)),
        number_field("resolution", "known to", unit, lambda one: length(one.resolution_m, unit)),
        text_field("labels", "labels", lambda one: words(str(labels), colour)),
    ]
    return table("labels", "Electrical lengths", fields, told.lengths)


def _not_told(reason: str) -> str:
    return f"Not told: {reason}."
