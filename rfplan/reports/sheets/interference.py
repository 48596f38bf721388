# SPDX-License-Identifier: Apache-2.0
"""What each transmitter does to each receiver: levels, limits, margins, and what would help."""

from __future__ import annotations

from collections.abc import Hashable
from dataclasses import replace

from rfplan.analysis.interference import worst_first
from rfplan.model.assessment import Assessment
from rfplan.model.interference import Exposure, Matrix
from rfplan.reports.alike import Alike, alike
from rfplan.reports.cells import (
    NOT_APPLICABLE,
    UNKNOWN,
    LengthUnit,
    decibels,
    frequency,
    length,
    listed,
    nothing,
    number,
    words,
    words_or_nothing,
)
from rfplan.reports.context import Context
from rfplan.reports.cures import Cure, cures, reach_m
from rfplan.reports.heading import sheet
from rfplan.reports.interference_words import (
    MODELS,
    band_cell,
    by_rung,
    decided,
    emission_text,
    undecided_by,
)
from rfplan.reports.mixing_tables import bands_table, channels_table
from rfplan.reports.sheet import Cell, Field, Sheet, Table, number_field, table, text_field
from rfplan.reports.study import facts_of, matrix_of, mixing_of

KEY = "interference"
TITLE = "Interference"
TOO_FAR = "too far"

LIMITS = (
    "Method: level at the sending antenna less isolation, against the limit at the receiving "
    "antenna. GNSS limits hold at the output of the passive element, ahead of the amplifier: the "
    "feeder does not enter. They are those of the most sensitive phase of work.",
    "TEST is no verdict: only the key-down check on the aircraft decides. FAIL takes a level "
    "entered as data, a limit that was read or entered, and an isolation computed inside the "
    "range of its model or measured. A legal ceiling on harmonics is never taken as their level.",
    MODELS,
    "Noise is that in 1 Hz outside a transmitter's own bands. In the band of L1 it is held against "
    "the least that the GNSS table by bandwidth allows; elsewhere it may lift the receiver's own "
    "noise, by its noise figure at the plug, by the noise_rise of the plan, or by 1 dB where the "
    "plan states none: common practice, no source, so then without FAIL. Noise of radios that "
    "send short pulses is not counted. A harmonic in the band of a receiver may lift its noise by "
    "as much, taken in by its bandwidth.",
    "Where two need not work together, or one blanks the other, only damage counts. What would "
    "help: distance by 20 log, too far where that is more than the aircraft is long; the other "
    "side of the hull, by its distance alone, though the hull adds to it; a filter takes off at "
    "least what its own data promise there; where a receiver is only blanked or overloaded by "
    "pulses, a suppression line.",
    "Mixing products are advice: where they fall, not how strong. No intercept point is entered, "
    "so none has a verdict. Whole bands as entered are compared, to order 7 for two transmitters "
    "and 3 for three; two COMs, where two people talk, by the carriers of their channels, the "
    "emergency channel and 0.1 MHz beside it left out. Radios that blank each other, two ports of "
    "one transmitter, and an ELT do not count. A receiver that sends, or rests meanwhile, hears "
    "none. With a radio that sends pulses a product lasts as long as they do.",
)


def build(assessment: Assessment, context: Context) -> Sheet:
    """Return every emission against every limit, worst first, then what would help."""
    facts = facts_of(assessment)
    matrix, mixed = matrix_of(assessment, context.rung), mixing_of(assessment)
    return sheet(
        assessment,
        context,
        KEY,
        by_rung(TITLE, context.rung),
        _exposures(matrix),
        _helps(cures(matrix, facts), reach_m(facts), context),
        channels_table(mixed.channels),
        bands_table(mixed.bands),
        limits=LIMITS,
    )


def _exposures(matrix: Matrix) -> Table:
    fields: list[Field[Alike[Exposure]]] = [
        text_field("source", "sends", lambda row: listed(row.sources)),
        text_field("victim", "receives", lambda row: listed(row.victims)),
        text_field("verdict", "verdict", lambda row: decided(row.one)),
        text_field("undecided", "undecided by", lambda row: listed(undecided_by(row.one))),
        text_field("emission", "emission", lambda row: words(emission_text(row.one))),
        number_field("at", "at", "MHz", lambda row: frequency(row.one.frequency_hz)),
        number_field(
            "margin", "margin", "dB", lambda row: decibels(row.one.margin_db, absent=UNKNOWN)
        ),
        number_field("need", "needs", "dB", lambda row: decibels(row.one.need_db)),
        number_field("have", "has", "dB", lambda row: decibels(row.one.coupling.have_db)),
        text_field("band", "better by [dB]", lambda row: band_cell(row.one.coupling)),
        number_field("level", "level", "dBm", lambda row: number(row.one.level_dbm, "dBm")),
        number_field("limit", "limit", "dBm", lambda row: number(row.one.limit_dbm, "dBm")),
        text_field("harm", "limit of", lambda row: words(str(row.one.harm))),
        text_field("model", "model", lambda row: words(row.one.coupling.model)),
    ]
    exposures = sorted((one for cell in matrix.cells for one in cell.exposures), key=_order)
    rows = alike(exposures, lambda one: one, _unnamed)
    return table(
        "exposures",
        "Senders against receivers, worst first: isolation it needs and has",
        fields,
        rows,
        stub=2,
    )


def _order(one: Exposure) -> tuple[tuple[int, float], str, str, int]:
    return worst_first(one), one.source, one.victim, one.order


def _unnamed(one: Exposure) -> Exposure:
    """All that an exposure says, whichever paths it is of."""
    return replace(one, source="", victim="")


def _away(cure: Cure, most_m: float, units: LengthUnit) -> Cell:
    """The distance that would do alone, where the aircraft is long enough for it."""
    if cure.away_m is not None and cure.away_m > most_m:
        return nothing(TOO_FAR)
    return length(cure.away_m, units, absent=NOT_APPLICABLE)


def _helps(helping: tuple[Cure, ...], most_m: float, context: Context) -> Table:
    units = context.units
    fields: list[Field[Alike[Cure]]] = [
        text_field("source", "sends", lambda row: listed(row.sources)),
        text_field("victim", "receives", lambda row: listed(row.victims)),
        text_field("emission", "emission", lambda row: words(emission_text(row.one.exposure))),
        number_field(
            "missing", "missing", "dB", lambda row: decibels(row.one.missing_db, absent=UNKNOWN)
        ),
        number_field("apart", "apart", units, lambda row: length(row.one.cell.distance_m, units)),
        number_field(
            "away",
            "or apart",
            units,
            lambda row: _away(row.one, most_m, units),
        ),
        number_field(
            "below",
            "or below carrier",
            "dB",
            lambda row: decibels(row.one.below_carrier_db, absent=NOT_APPLICABLE),
        ),
        number_field(
            "across",
            "other side gives",
            "dB",
            lambda row: decibels(row.one.across_db, absent=NOT_APPLICABLE),
        ),
        text_field(
            "filter",
            "or filter at sender",
            lambda row: listed(map("{0[0]} {0[1]:g} dB".format, row.one.filters)),
        ),
        text_field("pad", "or pad at receiver", lambda row: words_or_nothing(row.one.pad)),
    ]
    rows = alike(helping, lambda cure: cure.exposure, _means)
    return table("helps", "What would help, each alone", fields, rows, stub=3)


def _means(cure: Cure) -> Hashable:
    """All that a cure says of two antennas, whichever of their paths it is of."""
    between = cure.cell.source, cure.cell.victim
    numbers = cure.missing_db, cure.away_m, cure.below_carrier_db, cure.across_db
    return between, _unnamed(cure.exposure), numbers, cure.filters, cure.pad
