# SPDX-License-Identifier: Apache-2.0
"""The power or sensitivity at the antenna that decides a path, on one line."""

from __future__ import annotations

from rfplan.model.assessment import PathAssessment, Receive, Transmit
from rfplan.model.findings import Verdict
from rfplan.physics.decibel import w_from_dbw
from rfplan.reports.cells import quantity


def power_line(path: PathAssessment) -> str:
    """Return 'power at the antenna 108.35 W, at least 125 W' of the level that made a path worse.

    Nothing where no level has the word of the whole path.
    """
    if path.transmit is not None and path.transmit.verdict is path.overall:
        return _sent(path.transmit)
    heard = next((one for one in path.receive if one.verdict is path.overall), None)
    return _heard(heard) if heard is not None else ""


def _sent(sent: Transmit) -> str:
    lead = "power at the antenna"
    ends = [None if end is None else float(w_from_dbw(end)) for end in (sent.min_dbw, sent.max_dbw)]
    if sent.verdict is Verdict.INCOMPLETE:
        return f"{lead} {_watts(sent.antenna_w)}, against which limit is not known"
    low = sent.min_dbw
    if low is not None and sent.antenna_dbw is not None and _below(sent.antenna_dbw, low):
        return f"{lead} {_watts(sent.antenna_w)}, at least {_watts(ends[0])}"
    return f"{lead} {_watts(sent.antenna_most_w)}, at most {_watts(ends[1])}"


def _heard(heard: Receive) -> str:
    lead = f"sensitivity {heard.name} at the antenna"
    if heard.verdict is Verdict.INCOMPLETE:
        return f"{lead} {_level(heard.most_dbm)}"
    low = heard.min_dbm
    if low is not None and heard.least_dbm is not None and _below(heard.least_dbm, low):
        return f"{lead} {_level(heard.least_dbm)}, at least {_level(low)}"
    return f"{lead} {_level(heard.most_dbm)}, at most {_level(heard.max_dbm)}"


def _below(level: float, limit: float) -> bool:
    """Whether a level is below a limit as both are judged and printed."""
    return round(level, 1) < round(limit, 1)


def _watts(power_w: float | None) -> str:
    return quantity(power_w, "W", digits=1).text


def _level(level_dbm: float | None) -> str:
    return quantity(level_dbm, "dBm", digits=1).text
