# SPDX-License-Identifier: Apache-2.0
"""What does a sweep hold? Its waves as arrays, the bands it covers, the line it was taken of."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from rfplan.analysis.element_loss import BandGrid, Floats
from rfplan.analysis.facts import Facts
from rfplan.analysis.signal_path import Chain
from rfplan.model.assessment import CableRun
from rfplan.model.sweep import Sweep
from rfplan.physics.abcd import Matrices
from rfplan.physics.constants import ROOM_TEMPERATURE_C
from rfplan.physics.reference_resistance import renormalised_s
from rfplan.physics.two_port import REFERENCE_OHM

Waves = NDArray[np.complex128]

SMALLEST_RATIO = 1.0e-6
"""Waves smaller than this are told as 120 dB down, not as infinitely far."""

TIE_HZ = 1.0
TIE_DB = 1.0e-9


class SweepError(ValueError):
    """A sweep cannot answer what it is asked; the words say why."""


def frequencies_hz(sweep: Sweep) -> Floats:
    """Return the frequencies of a sweep."""
    return np.array(sweep.frequency_hz)


def scattering(sweep: Sweep) -> Matrices:
    """Return the matrices of a sweep, shape (frequencies, ports, ports), between 50 ohm."""
    s = np.array(sweep.s).reshape(-1, sweep.ports, sweep.ports)
    if sweep.reference_ohm == REFERENCE_OHM:
        return s
    return renormalised_s(s, sweep.reference_ohm, REFERENCE_OHM)


def reflection(sweep: Sweep) -> Waves:
    """Return S11, what comes back at the unit's end."""
    return scattering(sweep)[:, 0, 0]


def transmission(sweep: Sweep) -> Waves:
    """Return S21, what arrives at the antenna's end."""
    if sweep.ports != 2:
        raise SweepError(f"{sweep.file} was swept from one end: nothing in it went through")
    return scattering(sweep)[:, 1, 0]


def down_db(waves: Waves) -> Floats:
    """Return how far waves are down: the return loss of S11, the insertion loss of S21."""
    return np.asarray(-20.0 * np.log10(np.maximum(np.abs(waves), SMALLEST_RATIO)))


def not_covered(band_hz: Floats, swept_hz: Floats) -> str:
    """Return why a sweep does not tell of a band, or nothing; it is never extrapolated."""
    if swept_hz[0] <= band_hz[0] + TIE_HZ and band_hz[-1] - TIE_HZ <= swept_hz[-1]:
        return ""
    return f"the sweep lists {_span(swept_hz)}; the band needs {_span(band_hz)}"


def _span(frequency_hz: Floats) -> str:
    ends_mhz = dict.fromkeys(f"{end_hz / 1.0e6:.10g}" for end_hz in frequency_hz[[0, -1]])
    return f"{' to '.join(ends_mhz)} MHz"


@dataclass(frozen=True, slots=True)
class SweptPath:
    """A path of a plan, swept at some temperature of its line."""

    facts: Facts
    id: str
    temperature_c: float = ROOM_TEMPERATURE_C

    @property
    def chain(self) -> Chain:
        """What was swept: up to the antenna's plug, without a pigtail of the antenna's own."""
        chain = self.facts.chains[self.id]
        swept = tuple(element for element in chain.elements if element.id != chain.antenna)
        return replace(chain, elements=swept)

    @property
    def bands(self) -> tuple[BandGrid, ...]:
        """The bands of the port."""
        return tuple(budget.grid for budget in self.facts.budgets[self.id])

    def predicted_db(self, band: BandGrid) -> Floats:
        """Return the nominal loss over a band; NaN where the plan does not know it."""
        return self.facts.book.at_temperature(self.chain, band, self.temperature_c)

    def velocity_ratio(self, run: CableRun) -> float:
        """Return the velocity in a cable of the path; NaN where the cable is not known."""
        cables = self.facts.catalog.cables
        return cables[run.type].velocity_ratio if run.type in cables else math.nan

    @property
    def electrical_length_m(self) -> float:
        """The length of free space that a wave takes as long for; NaN where not known."""
        return sum(run.length_m.nominal / self.velocity_ratio(run) for run in self.chain.runs)
