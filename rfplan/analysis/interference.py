# SPDX-License-Identifier: Apache-2.0
"""Which transmitter may disturb which receiver, what is certain, and what only a trial tells?"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from itertools import groupby
from typing import NamedTuple

from rfplan.analysis.bearable import Limit, limits
from rfplan.analysis.couplings import Couplings, couplings
from rfplan.analysis.emissions import Emission, Receiver, emissions, receivers
from rfplan.analysis.facts import Facts
from rfplan.analysis.simultaneity import together
from rfplan.model.findings import Verdict
from rfplan.model.interference import (
    CellWord,
    Coupling,
    Exposure,
    IsolationReading,
    Matrix,
    MatrixCell,
    Together,
)

SATCOM = "satcom"

PASSIVE = Coupling(0.0, "bound: no antenna hands on more", (0.0, None), True, CellWord.BOUND)
"""What holds of any two antennas, however near and in whatever band."""

_EQUAL_DB = 1e-9


class _Meeting(NamedTuple):
    """An emission at a receiver, with its limits for one harm over the band."""

    emission: Emission
    receiver: Receiver
    together: Together
    limits: tuple[Limit, ...]


def interference(facts: Facts, readings: Iterable[IsolationReading] = ()) -> Matrix:
    """Return every transmitting antenna against every other that receives, worst cells first."""
    listening = receivers(facts)
    sending = emissions(facts, listening)
    meetings = list(_meetings(facts, sending, listening))
    isolations = couplings(
        facts.scene,
        (
            (one.emission.antenna, one.receiver.antenna, limit.frequency_hz)
            for one in meetings
            if one.emission.order == 1
            for limit in one.limits
        ),
        readings,
    )
    cells = [_cell(isolations, list(group)) for _, group in groupby(meetings, _pair)]
    return Matrix(
        tuple(sorted({one.emission.antenna for one in meetings})),
        tuple(sorted({one.receiver.antenna for one in meetings})),
        tuple(sorted(cells, key=lambda cell: (*worst_first(cell.worst), cell.source, cell.victim))),
    )


def worst_first(exposure: Exposure) -> tuple[int, float]:
    """Order exposures: FAIL, then trials, then PASS, and the least margin first in each.

    A trial whose margin is not known stands behind those that are known to lack some.
    """
    rank = {Verdict.FAIL: 0, None: 1}.get(exposure.verdict, 2)
    return rank, 0.0 if exposure.margin_db is None else exposure.margin_db


def _pair(meeting: _Meeting) -> tuple[str, str]:
    return meeting.emission.antenna, meeting.receiver.antenna


def _meetings(
    facts: Facts, sending: tuple[Emission, ...], listening: tuple[Receiver, ...]
) -> Iterator[_Meeting]:
    """Yield what meets what, antenna by antenna; no antenna meets itself."""
    masks = facts.rulebook.gnss_masks
    satcom = any(receiver.radio.family == SATCOM for receiver in listening)
    pairs = [
        (emission, receiver)
        for emission in sending
        for receiver in listening
        if emission.antenna != receiver.antenna
    ]
    for emission, receiver in sorted(pairs, key=lambda pair: (pair[0].antenna, pair[1].antenna)):
        both = together(emission.radio, receiver.radio)
        for bearable in limits(emission, receiver, masks, both, satcom):
            yield _Meeting(emission, receiver, both, bearable)


def _cell(isolations: Couplings, meetings: list[_Meeting]) -> MatrixCell:
    """Return the cell of two antennas; the strictest of their paths says if they work together."""
    source, victim = _pair(meetings[0])
    exposures = sorted((_exposure(isolations, one) for one in meetings), key=worst_first)
    classes = [one.together for one in meetings]
    return MatrixCell(
        source,
        victim,
        isolations.distance_m(source, victim),
        tuple(exposures),
        min(classes, key=list(Together).index),
    )


def _exposure(isolations: Couplings, meeting: _Meeting) -> Exposure:
    """Return the worst frequency of one meeting."""
    return min((_at(isolations, meeting, limit) for limit in meeting.limits), key=_badness)


def _badness(exposure: Exposure) -> tuple[int, float, float]:
    have_db = exposure.coupling.have_db
    return (*worst_first(exposure), -1.0 if have_db is None else have_db)


def _at(isolations: Couplings, meeting: _Meeting, limit: Limit) -> Exposure:
    emission = meeting.emission
    coupling = isolations.at(emission.antenna, meeting.receiver.antenna, limit.frequency_hz)
    need_db = _difference(emission.level_dbm, limit.limit_dbm)
    if not coupling.valid and need_db is not None and need_db <= 0.0:
        coupling = PASSIVE
    margin_db = _difference(coupling.have_db, need_db)
    beyond_db = _difference(emission.level_dbm, limit.fail_above_dbm)
    return Exposure(
        source=emission.path,
        victim=meeting.receiver.path,
        order=emission.order,
        frequency_hz=limit.frequency_hz,
        harm=limit.harm,
        carrier_dbm=emission.carrier_dbm,
        level_dbm=emission.level_dbm,
        given=emission.level_dbm is not None,
        limit_dbm=limit.limit_dbm,
        fail_above_dbm=limit.fail_above_dbm,
        coupling=coupling,
        need_db=need_db,
        margin_db=margin_db,
        verdict=verdict(coupling, margin_db, _difference(coupling.have_db, beyond_db)),
    )


def verdict(
    coupling: Coupling, margin_db: float | None, sure_margin_db: float | None
) -> Verdict | None:
    """Return PASS or FAIL where one is certain, else None: the cell goes to the trial.

    A bound only ever passes. A computed or measured isolation passes or fails where its whole
    band does; for FAIL the margin is that to a limit which was read or entered.
    """
    low_db, high_db = coupling.band_db
    if not coupling.valid or margin_db is None:
        return None
    if margin_db + min(low_db or 0.0, 0.0) >= -_EQUAL_DB:
        return Verdict.PASS
    decides = coupling.word in (CellWord.COMPUTED, CellWord.MEASURED)
    if not decides or sure_margin_db is None or high_db is None:
        return None
    return Verdict.FAIL if sure_margin_db + high_db < -_EQUAL_DB else None


def _difference(minuend: float | None, subtrahend: float | None) -> float | None:
    return None if minuend is None or subtrahend is None else minuend - subtrahend
