# SPDX-License-Identifier: Apache-2.0
"""What a line leaves of gain, noise, supply and margin: the receivers of a loss budget."""

from __future__ import annotations

from collections.abc import Callable

from rfplan.model.assessment import Assessment
from rfplan.model.electrical import Feed, GroupSpread, Reception, Retermination
from rfplan.model.findings import Verdict
from rfplan.reports.cells import (
    NOT_APPLICABLE,
    decibels,
    in_shown_unit,
    length,
    listed,
    nothing,
    number,
    verdict_cell,
    words,
)
from rfplan.reports.context import Context
from rfplan.reports.rule_limits import source_text
from rfplan.reports.sheet import Cell, Field, Table, number_field, table, text_field

OHM_DIGITS = {"ohm": 2}
"""What a line resists is told to the centiohm; an impedance has the digits of its data sheet."""

Received = tuple[str, Reception]
Fed = tuple[str, Feed]
Cut = tuple[str, Retermination]


def gain_table(assessment: Assessment) -> Table:
    """Return net gain, noise and carrier to noise of each receiver, band by band."""
    fields: list[Field[Received]] = [
        text_field("path", "path", lambda row: words(row[0])),
        text_field("band", "band", lambda row: words(row[1].name)),
        text_field(
            "antenna", "antenna", lambda row: words("passive" if row[1].passive else "amplified")
        ),
        _db("gain_least", "gain least", lambda one: one.gain_db[0]),
        _db("gain_most", "gain most", lambda one: one.gain_db[1]),
        _db("net_least", "net gain least", lambda one: one.net_gain_db[0]),
        _db("net_most", "net gain most", lambda one: one.net_gain_db[1]),
        _db("window_min", "window min", lambda one: one.window_db[0], "none"),
        _db("window_max", "window max", lambda one: one.window_db[1], "none"),
        _db("to_min", "margin to min", lambda one: one.margins_db[0], NOT_APPLICABLE),
        _db("to_max", "margin to max", lambda one: one.margins_db[1], NOT_APPLICABLE),
        *_noise(),
        text_field("verdict", "verdict", lambda row: _judged(row[1].verdict)),
        text_field("undecided", "undecided by", lambda row: listed(row[1].undecided_by)),
    ]
    rows = [(path.id, band) for path in assessment.paths for band in path.receiver]
    return table("gain", "Net gain and noise", fields, rows, stub=2)


def _noise() -> list[Field[Received]]:
    def column(
        key: str, title: str, unit: str, told: Callable[[Reception], float | None]
    ) -> Field[Received]:
        return number_field(key, title, unit, lambda row: number(told(row[1]), unit))

    return [
        _db("figure", "noise figure", lambda one: one.noise_figure_db),
        column("line", "line at", "degC", lambda one: one.line_c),
        column("system", "system noise", "K", lambda one: one.noise_k),
        column("cn0", "C/N0", "dBHz", lambda one: one.cn0_dbhz),
        number_field(
            "cn0_least",
            "C/N0 needed",
            "dBHz",
            lambda row: number(row[1].cn0_least_dbhz, "dBHz", absent="none"),
        ),
        text_field("assumed", "assumed for C/N0", lambda row: _assumed(row[1])),
    ]


def _assumed(one: Reception) -> Cell:
    """What carrier to noise rests on beside the line."""
    if one.carrier_dbm is None:
        return nothing()
    return words(
        f"{one.carrier_dbm:.1f} dBm at an isotropic antenna ({source_text(one.carrier_source)}); "
        f"antenna gain {one.antenna_dbi:g} dBi; sky and ground {one.antenna_noise_k:g} K"
    )


def _db(
    key: str, title: str, told: Callable[[Reception], float | None], absent: str = "?"
) -> Field[Received]:
    return number_field(key, title, "dB", lambda row: decibels(told(row[1]), absent=absent))


def supply_table(assessment: Assessment) -> Table:
    """Return the volts at each amplified antenna and the current its port sees."""

    def column(
        key: str, title: str, unit: str, told: Callable[[Feed], float | None], absent: str = "?"
    ) -> Field[Fed]:
        shown = in_shown_unit(None, unit, "in")[1]

        def cell(row: Fed) -> Cell:
            value = in_shown_unit(told(row[1]), unit, "in")[0]
            return number(value, shown, digits=OHM_DIGITS.get(unit), absent=absent)

        return number_field(key, title, shown, cell)

    fields: list[Field[Fed]] = [
        text_field("path", "path", lambda row: words(row[0])),
        column("port_least", "port least", "V", lambda feed: feed.port_v[0]),
        column("port_most", "port most", "V", lambda feed: feed.port_v[1]),
        column("loop_least", "line least", "ohm", lambda feed: feed.resistance_ohm[0]),
        column("loop_most", "line most", "ohm", lambda feed: feed.resistance_ohm[1]),
        column("least", "antenna least", "V", lambda feed: feed.antenna_v[0]),
        column("most", "antenna most", "V", lambda feed: feed.antenna_v[1]),
        column("min", "antenna takes min", "V", lambda feed: feed.supply_v[0], "none"),
        column("max", "antenna takes max", "V", lambda feed: feed.supply_v[1], "none"),
        column("current_least", "current least", "A", lambda feed: feed.current_a[0]),
        column("current_most", "current most", "A", lambda feed: feed.current_a[1]),
        column("watch_min", "supervised min", "A", lambda feed: feed.supervision_a[0], "none"),
        column("watch_max", "supervised max", "A", lambda feed: feed.supervision_a[1], "none"),
        text_field("blocked", "blocked by", lambda row: listed(row[1].blocked_by)),
        text_field("verdict", "verdict", lambda row: _judged(row[1].verdict)),
        text_field("undecided", "undecided by", lambda row: listed(row[1].undecided_by)),
    ]
    rows = [(path.id, path.feed) for path in assessment.paths if path.feed]
    return table("supply", "Supply of amplified antennas", fields, rows)


def retermination_table(assessment: Assessment, context: Context) -> Table:
    """Return what new plugs leave of the margin to the least loss."""
    unit = context.units

    def margin(cuts: int) -> Field[Cut]:
        return number_field(
            f"after_{cuts}",
            f"margin to min after {cuts}",
            "dB",
            lambda row: decibels(row[1].margins_db[cuts]),
        )

    fields: list[Field[Cut]] = [
        text_field("path", "path", lambda row: words(row[0])),
        text_field("cable", "cable", lambda row: words(row[1].cable)),
        number_field("cut", "each takes", unit, lambda row: length(row[1].cut_m, unit)),
        *map(margin, (0, 1, 2)),
        number_field(
            "left", "new plugs before FAIL-LOW", "", lambda row: number(row[1].cuts_left, "")
        ),
        number_field(
            "slack", "new plugs in the allowance", "", lambda row: number(row[1].slack_cuts, "")
        ),
    ]
    rows = [(path.id, path.retermination) for path in assessment.paths if path.retermination]
    return table("reterminations", "Margins after new plugs", fields, rows, stub=2)


def groups_table(assessment: Assessment, context: Context) -> Table:
    """Return how far apart the assemblies of each matched group are, beside what is allowed."""
    units = context.units

    def pair(
        key: str, title: str, unit: str, told: Callable[[GroupSpread], tuple[float | None, ...]]
    ) -> list[Field[GroupSpread]]:
        shown = in_shown_unit(None, unit, units)[1]

        def cell(one: GroupSpread, end: int, absent: str) -> Cell:
            value = in_shown_unit(told(one)[end], unit, units)[0]
            return number(value, shown, absent=absent)

        return [
            number_field(f"{key}", title, shown, lambda one: cell(one, 0, "?")),
            number_field(f"{key}_max", f"{title} max", shown, lambda one: cell(one, 1, "none")),
        ]

    fields: list[Field[GroupSpread]] = [
        text_field("group", "group", lambda one: words(one.id)),
        text_field("members", "assemblies", lambda one: listed(one.members)),
        *pair("loss", "loss apart", "dB", lambda one: one.loss_db),
        *pair("length", "length apart", "m", lambda one: one.length_m),
        *pair("delay", "delay apart", "s", lambda one: one.delay_s),
        *pair("phase", "phase apart", "rad", lambda one: one.phase_rad),
        text_field("verdict", "verdict", lambda one: verdict_cell(one.verdict)),
        text_field("undecided", "undecided by", lambda one: listed(one.undecided_by)),
    ]
    return table("groups", "Matched groups", fields, assessment.groups, stub=2)


def _judged(verdict: Verdict | None) -> Cell:
    return nothing("no limit") if verdict is None else verdict_cell(verdict)
