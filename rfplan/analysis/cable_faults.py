# SPDX-License-Identifier: Apache-2.0
"""Does a cable's entry hang together: table, constants, impedance, velocity, capacitance?"""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from rfplan.analysis.cable_loss import FIT_RESIDUAL_RATIO, Law, law_of
from rfplan.model.catalog import Cable
from rfplan.physics.coax import coax_capacitance_f_per_m
from rfplan.physics.skin_effect import smooth_copper_attenuation_db_per_m

CAPACITANCE_RATIO = 0.03
"""How far capacitance may lie from 1 / (velocity c impedance); common practice, no source."""


def cable_faults(cable: Cable) -> Iterator[str]:
    """Yield what does not hang together in a cable's entry; nothing means it does."""
    yield from _capacitance(cable)
    for name, attenuation in cable.attenuation.items():
        if len(attenuation.points) < 2 and attenuation.fit is None:
            continue
        law = law_of(attenuation.basis or name, attenuation, cable)
        yield from _table(name, law)
        yield from _floor(name, law, cable)


def _capacitance(cable: Cable) -> Iterator[str]:
    if cable.capacitance_f_per_m is None:
        return
    expected = float(coax_capacitance_f_per_m(cable.impedance_ohm.value, cable.velocity_ratio))
    off = cable.capacitance_f_per_m / expected - 1.0
    if abs(off) > CAPACITANCE_RATIO:
        yield (
            f"capacitance is {cable.capacitance_f_per_m * 1e12:.1f} pF/m; velocity and impedance "
            f"give {expected * 1e12:.1f} pF/m"
        )


def _table(name: str, law: Law) -> Iterator[str]:
    if law.k1 < 0.0 or law.k2 < 0.0:
        yield f"{name}: a constant of the law is negative"
    falls = np.flatnonzero(np.diff(law.attenuation_db_per_m) <= 0.0)
    for index in falls:
        yield f"{name}: the loss does not rise after {law.frequency_hz[index] / 1e6:g} MHz"
    if not law.fits:
        yield (
            f"{name}: the law k1 sqrt(f) + k2 f misses the table by more than "
            f"{FIT_RESIDUAL_RATIO:.0%}; it will not be used beyond the table"
        )


def _floor(name: str, law: Law, cable: Cable) -> Iterator[str]:
    """A loss below that of smooth copper cannot be."""
    diameter_m = cable.dielectric.diameter_m if cable.dielectric else None
    if diameter_m is None or not law.frequency_hz.size:
        return
    floor = smooth_copper_attenuation_db_per_m(
        law.frequency_hz, cable.impedance_ohm.value, diameter_m, cable.velocity_ratio
    )
    for index in np.flatnonzero(law.attenuation_db_per_m < floor):
        megahertz = law.frequency_hz[index] / 1e6
        yield f"{name}: less loss at {megahertz:g} MHz than smooth copper of this size has"
