# SPDX-License-Identifier: Apache-2.0
"""Gain, supply, margins after new plugs and matching in the answer of `rfplan check --json`."""

from __future__ import annotations

from rfplan.model.electrical import Ends, Feed, GroupSpread, Reception, Retermination
from rfplan.model.findings import Verdict
from rfplan.reports.json_text import Json, hertz, rounded

PICO = 12
"""Decimals of a delay in seconds, which has no other digits."""


def reception_json(one: Reception) -> Json:
    """Return what is left of gain, noise and signal in one band of a receiver."""
    return {
        "name": one.name,
        "passive": one.passive,
        "gain_db": _ends(one.gain_db),
        "net_gain_db": _ends(one.net_gain_db),
        "window_db": _ends(one.window_db),
        "margin_to_min_db": rounded(one.margins_db[0]),
        "margin_to_max_db": rounded(one.margins_db[1]),
        "noise_figure_db": rounded(one.noise_figure_db),
        "system_noise_k": rounded(one.noise_k),
        "line_c": rounded(one.line_c),
        "cn0_dbhz": rounded(one.cn0_dbhz),
        "cn0_min_dbhz": rounded(one.cn0_least_dbhz),
        "carrier_dbm": rounded(one.carrier_dbm),
        "antenna_dbi": rounded(one.antenna_dbi),
        "antenna_noise_k": rounded(one.antenna_noise_k),
        "verdict": _word(one.verdict),
        "undecided_by": list(one.undecided_by),
    }


def feed_json(feed: Feed) -> Json:
    """Return the supply of an amplified antenna; the word is null where nothing limits it."""
    return {
        "port_v": _ends(feed.port_v),
        "antenna_v": _ends(feed.antenna_v),
        "supply_v": _ends(feed.supply_v),
        "current_a": _ends(feed.current_a),
        "supervision_a": _ends(feed.supervision_a),
        "resistance_ohm": _ends(feed.resistance_ohm),
        "cold_c": rounded(feed.temperature_c[0]),
        "hot_c": rounded(feed.temperature_c[1]),
        "blocked_by": list(feed.blocked_by),
        "verdict": _word(feed.verdict),
        "undecided_by": list(feed.undecided_by),
    }


def retermination_json(one: Retermination) -> Json:
    """Return the margin to the least loss after 0, 1 and 2 new plugs."""
    return {
        "cable": one.cable,
        "cut_m": rounded(one.cut_m),
        "margins_db": [rounded(margin) for margin in one.margins_db],
        "cuts_left": one.cuts_left,
        "slack_cuts": one.slack_cuts,
    }


def group_json(group: GroupSpread) -> Json:
    """Return how far apart the assemblies of a group are, each time beside what is allowed."""
    return {
        "id": group.id,
        "members": list(group.members),
        "loss_db": _ends(group.loss_db),
        "length_m": _ends(group.length_m),
        "delay_s": [None if end is None else round(end, PICO) for end in group.delay_s],
        "phase_rad": _ends(group.phase_rad),
        "frequency_hz": None if group.frequency_hz is None else hertz(group.frequency_hz),
        "verdict": str(group.verdict),
        "undecided_by": list(group.undecided_by),
    }


def _ends(ends: Ends) -> list[float | None]:
    return [rounded(end) for end in ends]


def _word(verdict: Verdict | None) -> str | None:
    return None if verdict is None else str(verdict)
