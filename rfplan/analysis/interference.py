# SPDX-License-Identifier: Apache-2.0
"""Which transmitter may disturb which receiver, what is certain, and what only a trial tells?"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from functools import cache, lru_cache
from itertools import groupby
from typing import NamedTuple, TypeAlias

import numpy as np
from numpy.typing import NDArray

from rfplan.analysis.antenna_pairs import on_metal
from rfplan.analysis.bearable import Allowed, Limit, limits
from rfplan.analysis.couplings import Couplings, couplings, made_for_hz, standing_readings
from rfplan.analysis.emissions import GNSS, Emission, Receiver, emissions, receivers
from rfplan.analysis.facts import Facts
from rfplan.analysis.isolation_models import Rung
from rfplan.analysis.simultaneity import together
from rfplan.model.findings import Verdict
from rfplan.model.interference import (
    CellWord,
    Coupling,
    Exposure,
    Harm,
    Matrix,
    MatrixCell,
    Together,
)
from rfplan.physics.domain import FloatOrArray

BoolOrArray: TypeAlias = bool | NDArray[np.bool_]

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


def interference(facts: Facts, rung: Rung = Rung.DEFAULT) -> Matrix:
    """Return every transmitting antenna against every other that receives, worst cells first.

    The default rung decides; what another one would say is for comparison.
    """
    meetings = list(_meetings(facts, lambda emission, receiver: True))
    return Matrix(
        tuple(sorted({one.emission.antenna for one in meetings})),
        tuple(sorted({one.receiver.antenna for one in meetings})),
        _cells(facts, meetings, rung),
    )


def failing(facts: Facts) -> tuple[MatrixCell, ...]:
    """Return the cells of the matrix that FAIL, worst first, from the few meetings that may."""
    meetings = list(_meetings(facts, _may_fail(facts)))
    cells = _cells(facts, meetings) if meetings else ()
    return tuple(cell for cell in cells if cell.worst.verdict is Verdict.FAIL)


class Demand(NamedTuple):
    """What one frequency of a meeting asks of the isolation, and below what it fails for sure."""

    source: str
    victim: str
    path: str
    harm: Harm
    frequency_hz: float
    band_hz: tuple[float, float]
    need_db: float | None
    least_db: float | None


@lru_cache(maxsize=8)
def demands(facts: Facts, antenna: str) -> tuple[Demand, ...]:
    """Return what may FAIL of an antenna, as source or victim, wherever it stands."""
    may = _may_fail(facts, antenna)
    meetings = _meetings(facts, lambda one, other: antenna in _ends(one, other) and may(one, other))
    return tuple(_demand(one, limit) for one in meetings for limit in one.limits)


def _demand(meeting: _Meeting, limit: Limit) -> Demand:
    emission = meeting.emission
    return Demand(
        *_pair(meeting),
        meeting.receiver.path,
        limit.harm,
        limit.frequency_hz,
        (emission.low_hz, emission.high_hz),
        _difference(emission.level_dbm, limit.limit_dbm),
        _difference(emission.level_dbm, limit.fail_above_dbm),
    )


def _ends(emission: Emission, receiver: Receiver) -> tuple[str, str]:
    return emission.antenna, receiver.antenna


def _may_fail(facts: Facts, moved: str = "") -> Callable[[Emission, Receiver], bool]:
    """Whether level and limit are data, and the isolation was read or can be computed.

    It can where both antennas stand on metal and are in tune; elsewhere there are bounds at most.
    Of an antenna that is `moved` nobody knows yet on what it stands.
    """
    readings = standing_readings(facts.scene).values()
    read = {frozenset(one.between) for one, _ in readings}
    made_for = {id: made_for_hz(facts.scene, id) for id in facts.scene.fitted}

    @cache
    def stands_on_metal(id: str) -> bool:
        return bool(on_metal(facts.scene, facts.scene.fitted[id].places)[0])

    def computed(id: str, emission: Emission) -> bool:
        low_hz, high_hz = emission.low_hz, emission.high_hz
        in_tune = any(low <= high_hz and high >= low_hz for low, high in made_for[id])
        return in_tune and (id == moved or stands_on_metal(id))

    def may(emission: Emission, receiver: Receiver) -> bool:
        if emission.level_dbm is None or not _has_limit(receiver):
            return False
        pair = emission.antenna, receiver.antenna
        return frozenset(pair) in read or all(computed(id, emission) for id in pair)

    return may


def _has_limit(receiver: Receiver) -> bool:
    stated = (receiver.overload_dbm, receiver.damage_dbm, receiver.noise_figure_db)
    return receiver.radio.family == GNSS or any(one is not None for one in stated)


def _cells(
    facts: Facts, meetings: list[_Meeting], rung: Rung = Rung.DEFAULT
) -> tuple[MatrixCell, ...]:
    """Return one cell for each two antennas of some meetings, worst first."""
    isolations = _isolations(facts, meetings, rung)
    cells = [_cell(isolations, list(group)) for _, group in groupby(meetings, _pair)]
    return tuple(
        sorted(cells, key=lambda cell: (*worst_first(cell.worst), cell.source, cell.victim))
    )


def _isolations(facts: Facts, meetings: list[_Meeting], rung: Rung) -> Couplings:
    """The couplings that some meetings ask for, with the readings of antennas not moved since."""
    return couplings(
        facts.scene,
        (
            (one.emission.antenna, one.receiver.antenna, limit.frequency_hz)
            for one in meetings
            for limit in one.limits
        ),
        [one for one, moved in standing_readings(facts.scene).values() if not moved],
        rung,
    )


def worst_first(exposure: Exposure) -> tuple[int, float]:
    """Order exposures: FAIL, then trials, then PASS, and the least margin first in each.

    A trial whose margin is not known stands behind those that are known to lack some.
    """
    return _rank(exposure.verdict), 0.0 if exposure.margin_db is None else exposure.margin_db


def _rank(verdict: Verdict | None) -> int:
    if verdict is None:
        return 1
    return 0 if verdict is Verdict.FAIL else 2


def _pair(meeting: _Meeting) -> tuple[str, str]:
    return meeting.emission.antenna, meeting.receiver.antenna


def _meetings(facts: Facts, counts: Callable[[Emission, Receiver], bool]) -> Iterator[_Meeting]:
    """Yield what meets what and counts, antenna by antenna; no antenna meets itself."""
    listening = receivers(facts)
    satcom = any(receiver.radio.family == SATCOM for receiver in listening)
    allowed = Allowed(facts.rulebook.gnss_masks, satcom, facts.plan.policy.noise_rise_db)
    pairs = [
        (emission, receiver)
        for emission in emissions(facts, listening)
        for receiver in listening
        if emission.antenna != receiver.antenna and counts(emission, receiver)
    ]
    for emission, receiver in sorted(pairs, key=lambda pair: (pair[0].antenna, pair[1].antenna)):
        both = together(emission.radio, receiver.radio)
        for bearable in limits(emission, receiver, allowed, both):
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


class _Judged(NamedTuple):
    """One frequency of a meeting with what comes of it; the least of several is the worst."""

    rank: int
    margin_db: float
    have_db: float
    limit: Limit
    coupling: Coupling
    need_db: float | None
    verdict: Verdict | None


def _exposure(isolations: Couplings, meeting: _Meeting) -> Exposure:
    """Return the worst frequency of one meeting."""
    judged = (_judged(isolations, meeting, limit) for limit in meeting.limits)
    worst = min(judged, key=lambda one: one[:3])
    emission, limit = meeting.emission, worst.limit
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
        coupling=worst.coupling,
        need_db=worst.need_db,
        margin_db=_difference(worst.coupling.have_db, worst.need_db),
        verdict=worst.verdict,
    )


def _judged(isolations: Couplings, meeting: _Meeting, limit: Limit) -> _Judged:
    emission = meeting.emission
    pair = emission.antenna, meeting.receiver.antenna
    coupling = isolations.at(*pair, limit.frequency_hz, (emission.low_hz, emission.high_hz))
    need_db = _difference(emission.level_dbm, limit.limit_dbm)
    if not coupling.valid and need_db is not None and need_db <= 0.0:
        coupling = PASSIVE
    have_db = coupling.have_db
    margin_db = _difference(have_db, need_db)
    beyond_db = _difference(emission.level_dbm, limit.fail_above_dbm)
    found = verdict(coupling, margin_db, _difference(have_db, beyond_db))
    return _Judged(
        _rank(found),
        0.0 if margin_db is None else margin_db,
        -1.0 if have_db is None else have_db,
        limit,
        coupling,
        need_db,
        found,
    )


def verdict(
    coupling: Coupling, margin_db: float | None, sure_margin_db: float | None
) -> Verdict | None:
    """Return PASS or FAIL where one is certain, else None: the cell goes to the trial.

    A bound only ever passes. A computed or measured isolation passes or fails where its whole
    band does; for FAIL the margin is that to a limit which was read or entered.
    """
    low_db, high_db = coupling.band_db
    if not coupling.valid or coupling.word is CellWord.TEST or margin_db is None:
        return None
    if margin_db + min(low_db or 0.0, 0.0) >= -_EQUAL_DB:
        return Verdict.PASS
    decides = coupling.word in (CellWord.COMPUTED, CellWord.MEASURED)
    if not decides or sure_margin_db is None or high_db is None:
        return None
    return Verdict.FAIL if fails(sure_margin_db, high_db) else None


def fails(sure_margin_db: FloatOrArray, high_db: FloatOrArray) -> BoolOrArray:
    """Whether there is too little even at the high end, for a limit that was read or entered."""
    return sure_margin_db + high_db < -_EQUAL_DB


def _difference(minuend: float | None, subtrahend: float | None) -> float | None:
    return None if minuend is None or subtrahend is None else minuend - subtrahend
