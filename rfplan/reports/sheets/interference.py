# SPDX-License-Identifier: Apache-2.0
"""What each transmitter does to each receiver: levels, limits, margins, and what would help."""

from __future__ import annotations

from rfplan.analysis.interference import worst_first
from rfplan.model.assessment import Assessment
from rfplan.model.interference import Exposure, Matrix
from rfplan.reports.cells import (
    NOT_APPLICABLE,
    UNKNOWN,
    decibels,
    frequency,
    length,
    listed,
    number,
    words,
    words_or_nothing,
)
from rfplan.reports.context import Context
from rfplan.reports.cures import Cure, cures
from rfplan.reports.heading import sheet
from rfplan.reports.interference_words import band_cell, by_rung, decided, emission_text
from rfplan.reports.mixing_tables import bands_table, channels_table
from rfplan.reports.sheet import Field, Sheet, Table, number_field, table, text_field
from rfplan.reports.study import facts_of, matrix_of, mixing_of

KEY = "interference"
TITLE = "Interference"

LIMITS = (
    "Method: level at the sending antenna less isolation, against the limit at the receiving "
    "antenna. GNSS limits hold at the output of the passive element, ahead of the amplifier: the "
    "feeder does not enter. They are those of the most sensitive phase of work.",
    "TEST is no verdict: only the key-down check on the aircraft decides. FAIL takes a level "
    "entered as data, a limit that was read or entered, and an isolation computed inside the "
    "range of its model or measured. A legal ceiling on harmonics is never taken as their level.",
    "Noise is that in 1 Hz outside a transmitter's own bands. In the band of L1 it is held against "
    "the least that the GNSS table by bandwidth allows; elsewhere it may lift the receiver's own "
    "noise, by its noise figure at the plug, by the noise_rise of the plan, or by 1 dB where the "
    "plan states none: common practice, no source, so then without FAIL. Noise of radios that "
    "send short pulses is not counted.",
    "Where two need not work together, or one blanks the other, only damage counts. What would "
    "help: distance by 20 log; the other side of the hull, by its distance alone, though the hull "
    "adds to it; a filter takes off at least what its own data promise there; where a receiver is "
    "only blanked or overloaded by pulses, a suppression line.",
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
        _helps(cures(matrix, facts), context),
        channels_table(mixed.channels),
        bands_table(mixed.bands),
        limits=LIMITS,
    )


def _exposures(matrix: Matrix) -> Table:
    fields: list[Field[Exposure]] = [
        text_field("source", "sends", lambda one: words(one.source)),
        text_field("victim", "receives", lambda one: words(one.victim)),
        text_field("verdict", "verdict", decided),
        text_field("emission", "emission", lambda one: words(emission_text(one))),
        number_field("at", "at", "MHz", lambda one: frequency(one.frequency_hz)),
        number_field("margin", "margin", "dB", lambda one: decibels(one.margin_db, absent=UNKNOWN)),
        number_field("need", "needs", "dB", lambda one: decibels(one.need_db)),
        number_field("have", "isolation", "dB", lambda one: decibels(one.coupling.have_db)),
        text_field("band", "better by [dB]", lambda one: band_cell(one.coupling)),
        number_field("level", "level", "dBm", lambda one: number(one.level_dbm, "dBm")),
        number_field("limit", "limit", "dBm", lambda one: number(one.limit_dbm, "dBm")),
        text_field("harm", "limit of", lambda one: words(str(one.harm))),
        text_field("model", "model", lambda one: words(one.coupling.model)),
    ]
    exposures = sorted((one for cell in matrix.cells for one in cell.exposures), key=_order)
    return table("exposures", "Senders against receivers, worst first", fields, exposures, stub=2)


def _order(one: Exposure) -> tuple[tuple[int, float], str, str, int]:
    return worst_first(one), one.source, one.victim, one.order


def _helps(helping: tuple[Cure, ...], context: Context) -> Table:
    units = context.units
    fields: list[Field[Cure]] = [
        text_field("source", "sends", lambda cure: words(cure.exposure.source)),
        text_field("victim", "receives", lambda cure: words(cure.exposure.victim)),
        text_field("emission", "emission", lambda cure: words(emission_text(cure.exposure))),
        number_field(
            "missing", "missing", "dB", lambda cure: decibels(cure.missing_db, absent=UNKNOWN)
        ),
        number_field("apart", "apart", units, lambda cure: length(cure.cell.distance_m, units)),
        number_field(
            "away",
            "or apart",
            units,
            lambda cure: length(cure.away_m, units, absent=NOT_APPLICABLE),
        ),
        number_field(
            "below",
            "or below carrier",
            "dB",
            lambda cure: decibels(cure.below_carrier_db, absent=NOT_APPLICABLE),
        ),
        number_field(
            "across",
            "other side gives",
            "dB",
            lambda cure: decibels(cure.across_db, absent=NOT_APPLICABLE),
        ),
        text_field(
            "filter",
            "or filter at sender",
            lambda cure: listed(map("{0[0]} {0[1]:g} dB".format, cure.filters)),
        ),
        text_field("pad", "or pad at receiver", lambda cure: words_or_nothing(cure.pad)),
    ]
    return table("helps", "What would help, each alone", fields, helping, stub=3)
