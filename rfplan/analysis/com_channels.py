# SPDX-License-Identifier: Apache-2.0
"""On which channels may a COM be keyed, and what are they called?"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from rfplan.physics.channel_raster import carrier_hz, channel_names_hz

Floats = NDArray[np.float64]

COM = "vhf_com"

FIRST_HZ, LAST_HZ = 118.0e6, 136.995e6
"""Ends of the channels that a COM has; from memory."""

EMERGENCY_HZ = 121.5e6
GUARD_HZ = 0.1e6
"""Carriers this near to the emergency channel are never keyed."""


def channel_band_hz(low_hz: float, high_hz: float) -> tuple[float, float]:
    """Return the part of a band that has channels."""
    return max(low_hz, FIRST_HZ), min(high_hz, LAST_HZ)


def keyed_names_hz(low_hz: float, high_hz: float, close: bool) -> Floats:
    """Return the names of the channels of a band, those near the emergency channel left out."""
    names_hz = channel_names_hz(*channel_band_hz(low_hz, high_hz), close=close)
    return names_hz[np.abs(np.asarray(carrier_hz(names_hz)) - EMERGENCY_HZ) > GUARD_HZ]


def channel_text(name_hz: float) -> str:
    """Return a channel as the radio shows it."""
    return f"{name_hz / 1e6:.3f}"
