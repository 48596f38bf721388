# SPDX-License-Identifier: Apache-2.0
"""What do antenna and line leave of gain, noise and signal, band by band, at the worst corners?"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TypeVar

import numpy as np

from rfplan.analysis.loss_budget import BandBudget
from rfplan.analysis.signal_path import Chain
from rfplan.model.catalog import AntennaType
from rfplan.model.plan import Policy
from rfplan.model.record import ById
from rfplan.model.rulebook import Carrier, Radio, Rulebook
from rfplan.physics.noise import (
    carrier_to_noise_dbhz,
    cascade_noise_figure_db,
    noise_temperature_k,
    passive_noise_figure_db,
)
from rfplan.units import NONE, UNKNOWN, Missing, Range

T = TypeVar("T")

ZERO_C_IN_K = 273.15

_NO_AMPLIFIER = Range(NONE, NONE)


@dataclass(frozen=True, slots=True)
class Noise:
    """Noise of everything behind the antenna element: least gain, most loss, hot line."""

    figure_db: float
    system_k: float
    cn0_dbhz: float | None
    carrier: Carrier | None


@dataclass(frozen=True, slots=True)
class Gain:
    """Gain of an antenna's amplifier less the loss of its line; infinite where not known.

    `if_small_db` is the least with all that is unknown at its best, `if_large_db` the most.
    """

    band: str
    passive: bool
    gain_db: tuple[float, float]
    net_db: tuple[float, float]
    if_small_db: float
    if_large_db: float
    unknown_least: tuple[str, ...]
    unknown_most: tuple[str, ...]
    antenna_dbi: float
    noise: Noise | None


def all_gains(
    chains: ById[Chain], budgets: ById[tuple[BandBudget, ...]], policy: Policy, rulebook: Rulebook
) -> ById[tuple[Gain, ...]]:
    """Return the net gain of the paths that have one."""
    found = ((id, gains(one, budgets[id], policy, rulebook)) for id, one in chains.items())
    return ById((id, bands) for id, bands in found if bands)


def gains(
    chain: Chain, budgets: tuple[BandBudget, ...], policy: Policy, rulebook: Rulebook
) -> tuple[Gain, ...]:
    """Return the net gain of a path by band; nothing where neither end speaks of gain."""
    port, antenna = chain.port, chain.antenna_type
    if not antenna.amplifier_db and not port.net_gain_db and port.cn0_dbhz is None:
        return ()
    radio = rulebook.radios[port.radio]
    return tuple(
        _gain(chain, budget, policy, _towards_satellite_dbi(antenna, rulebook), radio)
        for budget in budgets
        if _receives(radio, budget.grid.name)
    )


def of_band(table: ById[T], band: str) -> T | None:
    """Return what is stated for a band, else what holds for all, else the only entry."""
    if band in table:
        return table[band]
    if "all" in table:
        return table["all"]
    return next(iter(table.values())) if band == "stated" and len(table) == 1 else None


def _receives(radio: Radio, band: str) -> bool:
    return band not in radio.bands or radio.bands[band].direction == "rx"


def _towards_satellite_dbi(antenna: AntennaType, rulebook: Rulebook) -> float:
    """The least gain of the antenna: its own where stated, else what the rule allows."""
    if antenna.gain_dbi is None or isinstance(antenna.gain_dbi.low, Missing):
        return rulebook.limits.gnss_gain_dbi
    return antenna.gain_dbi.low


def _gain(
    chain: Chain, budget: BandBudget, policy: Policy, antenna_dbi: float, radio: Radio
) -> Gain:
    band, antenna = budget.grid.name, chain.antenna_type
    amplifier = of_band(antenna.amplifier_db, band) or Range(UNKNOWN, UNKNOWN)
    passive = amplifier == _NO_AMPLIFIER
    low, high = (0.0, 0.0) if passive else _ends(amplifier)
    least, most = line_loss_db(chain, budget)
    missing = f"{antenna.id}.amplifier"
    return Gain(
        band=band,
        passive=passive,
        gain_db=(low, high),
        net_db=(low - most, high - least),
        if_small_db=(high if math.isinf(low) else low) - budget.most_if_small,
        if_large_db=(low if math.isinf(high) else high) - budget.least_if_large,
        unknown_least=(*((missing,) if math.isinf(low) else ()), *budget.unknown_most),
        unknown_most=(*((missing,) if math.isinf(high) else ()), *budget.unknown_least),
        antenna_dbi=antenna_dbi,
        noise=_noise(chain, (band, passive, low, most), policy, antenna_dbi, _carrier(radio, band)),
    )


def line_loss_db(chain: Chain, budget: BandBudget) -> tuple[float, float]:
    """Return the least and the most loss of a whole line, whatever else its window counts."""
    if chain.port.plugs in (None, "included") and chain.port.terminations != "mismatched":
        return float(budget.least.min()), float(budget.most.max())
    least = sum((item.least for item in budget.items), np.zeros_like(budget.least))
    most = sum((item.most for item in budget.items), np.zeros_like(budget.most))
    return float(least.min()), float(most.max())


def _ends(gain: Range) -> tuple[float, float]:
    low = -math.inf if isinstance(gain.low, Missing) else gain.low
    return low, math.inf if isinstance(gain.high, Missing) else gain.high


def _carrier(radio: Radio, band: str) -> Carrier | None:
    bands = radio.bands
    if band not in bands and len(bands) == 1:
        return next(iter(bands.values())).carrier
    return bands[band].carrier if band in bands else None


def _noise(
    chain: Chain,
    stage: tuple[str, bool, float, float],
    policy: Policy,
    antenna_dbi: float,
    carrier: Carrier | None,
) -> Noise | None:
    """The cascade of amplifier, hot line and receiver; None where one of them is not known."""
    band, passive, gain_db, loss_db = stage
    own = of_band(chain.antenna_type.noise_figure_db, band)
    figure_db = 0.0 if passive else own
    receiver_db = chain.port.noise_figure_db
    if figure_db is None or receiver_db is None or math.isinf(gain_db - loss_db):
        return None
    line_db = float(passive_noise_figure_db(loss_db, hot_c(policy) + ZERO_C_IN_K))
    whole_db = cascade_noise_figure_db(
        np.array([figure_db, line_db, receiver_db]), np.array([gain_db, -loss_db, 0.0])
    )
    cn0 = None
    if carrier is not None:
        level_dbm = carrier.level_dbm + antenna_dbi
        cn0 = float(carrier_to_noise_dbhz(level_dbm, policy.antenna_noise_k, whole_db))
    system_k = policy.antenna_noise_k + float(noise_temperature_k(whole_db))
    return Noise(float(whole_db), system_k, cn0, carrier)


def hot_c(policy: Policy) -> float:
    """Return the temperature of the line at which noise and supply are worst."""
    return policy.temperature_c.known()[1]
