# SPDX-License-Identifier: Apache-2.0
"""Which entry of a port or an antenna type is missing where only a trial can decide."""

from __future__ import annotations

from collections.abc import Iterator

from rfplan.analysis.couplings import NEAR_FIELD, NO_GAIN, NO_PLACE, made_for_hz
from rfplan.analysis.emissions import GNSS
from rfplan.analysis.facts import Facts
from rfplan.model.interference import NOISE, Exposure, Harm, MatrixCell
from rfplan.reports.interference_words import undecided_by
from rfplan.units import Missing


def gaps(cell: MatrixCell, exposure: Exposure, facts: Facts) -> tuple[str, ...]:
    """Return what is missing for a verdict on an exposure, none where there is a verdict."""
    if exposure.verdict is not None:
        return ()
    found = (*_level(exposure, facts), *_limit(exposure, facts), *_isolation(cell, exposure, facts))
    return found or tuple(_UNSURE[one] for one in undecided_by(exposure) if one in _UNSURE)


_UNSURE = {
    "only a bound": "a measured isolation: a bound alone never fails",
    "limit not read": "a limit from its document: this one was not read and decides no FAIL",
    "within its band": "an isolation measured more closely",
}


def _level(one: Exposure, facts: Facts) -> Iterator[str]:
    port = _port(one.source, facts)
    if one.order == NOISE and one.level_dbm is None:
        yield f"noise of {port} at {one.frequency_hz / 1e6:g} MHz, as its data state it"
    elif one.order == NOISE:
        return
    elif one.carrier_dbm is None:
        yield f"power of {port}, as its data state it"
    elif one.level_dbm is None:
        yield f"harmonic {one.order} of {port}, as its data state it"


def _limit(one: Exposure, facts: Facts) -> Iterator[str]:
    if one.limit_dbm is not None:
        return
    family = facts.rulebook.radios[facts.chains[one.victim].port.radio].family
    if family == GNSS:
        yield f"a limit at {one.frequency_hz / 1e6:g} MHz: the tables have none for this signal"
    elif one.harm is Harm.IN_BAND:
        yield f"noise figure and bandwidth of {_port(one.victim, facts)}, as its data state them"
    elif one.order == NOISE:
        yield f"noise figure of {_port(one.victim, facts)}, as its data state it"
    else:
        yield f"{one.harm} of {_port(one.victim, facts)}, as its data state it"


def _isolation(cell: MatrixCell, one: Exposure, facts: Facts) -> Iterator[str]:
    model = one.coupling.model
    if model == NO_PLACE:
        yield "a place on the skin for both antennas"
    elif model == NEAR_FIELD:
        yield "an isolation: so near only a measurement tells it"
    elif model == NO_GAIN:
        silent = _silent(cell, one.frequency_hz, facts)
        types = sorted({facts.scene.fitted[id].type.id for id in silent})
        yield f"gain of {' and '.join(types)} in the catalogue, or a measured isolation"


def _silent(cell: MatrixCell, frequency_hz: float, facts: Facts) -> Iterator[str]:
    """The antennas whose most gain is not stated, where they are not made for the frequency."""
    for id in (cell.source, cell.victim):
        bands_hz = made_for_hz(facts.scene, id)
        tuned = any(low <= frequency_hz <= high for low, high in bands_hz)
        gain = facts.scene.fitted[id].type.gain_dbi
        if not tuned and (gain is None or isinstance(gain.high, Missing)):
            yield id


def _port(path: str, facts: Facts) -> str:
    """The unit and port of a path, as the plan names them."""
    return facts.installation.paths[path].chain[0]
