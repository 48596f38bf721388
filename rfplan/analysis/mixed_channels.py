# SPDX-License-Identifier: Apache-2.0
"""On how many pairs of channels do two COMs make a mixing product in a band, and on which?"""

from __future__ import annotations

from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from rfplan.analysis.com_channels import COM, channel_band_hz, channel_text, keyed_names_hz
from rfplan.model.mixing import ChannelPair, ChannelPairs, Ends, Paths
from rfplan.model.rulebook import Radio
from rfplan.physics.channel_pairs import channel_pair_count, nearest_channel_pair
from rfplan.physics.channel_raster import carrier_hz

Floats = NDArray[np.float64]
Integers = NDArray[np.int64]


class Alike(NamedTuple):
    """Transmitters of one radio and band, which make the same products."""

    paths: Paths
    radio: Radio
    band_hz: Ends

    @property
    def has_channels(self) -> bool:
        """Whether these are COMs with channels in their band."""
        low_hz, high_hz = channel_band_hz(*self.band_hz)
        return self.radio.family == COM and low_hz < high_hz


class Mixed(NamedTuple):
    """Products of one order of two COMs by their weights, and a band that they may fall into."""

    order: int
    weights: Integers
    team: tuple[str, str]
    victims: Paths
    victim_hz: Ends


class _Channels(NamedTuple):
    """Channels by name and by carrier, each carrier once, rising."""

    names_hz: Floats
    carriers_hz: Floats


def channel_pairs(coms: tuple[Alike, Alike], mixed: Mixed) -> ChannelPairs | None:
    """Return how many pairs of channels hit a band, and one of them; None where no pair does.

    The one told has channels of 25 kHz if any such pair hits.
    """
    wide, close = ([_channels(com, one) for com in coms] for one in (False, True))
    examples = (_example(channels, mixed) for channels in (wide, close))
    example = next(filter(None, examples), None)
    if example is None:
        return None
    return ChannelPairs(
        order=mixed.order,
        coms=(coms[0].paths, coms[1].paths),
        victims=mixed.victims,
        victim_hz=mixed.victim_hz,
        pairs=_count(wide, mixed),
        all_pairs=_all(wide),
        close_pairs=_count(close, mixed),
        all_close_pairs=_all(close),
        example=example,
    )


def _channels(com: Alike, close: bool) -> _Channels:
    names_hz = keyed_names_hz(*com.band_hz, close=close)
    carriers_hz, first = np.unique(np.asarray(carrier_hz(names_hz)), return_index=True)
    return _Channels(names_hz[first], carriers_hz)


def _count(channels: list[_Channels], mixed: Mixed) -> int:
    first, second = channels
    return channel_pair_count(
        first.carriers_hz, second.carriers_hz, mixed.weights, *mixed.victim_hz
    )


def _all(channels: list[_Channels]) -> int:
    first, second = channels
    return len(first.names_hz) * len(second.names_hz)


def _example(channels: list[_Channels], mixed: Mixed) -> ChannelPair | None:
    """Return the pair of channels whose product is nearest to the middle of the band."""
    first, second = channels
    found = nearest_channel_pair(
        first.carriers_hz, second.carriers_hz, mixed.weights, *mixed.victim_hz
    )
    if found is None:
        return None
    return ChannelPair(
        coms=mixed.team,
        channels=(
            channel_text(first.names_hz[found.first]),
            channel_text(second.names_hz[found.second]),
        ),
        carriers_hz=(
            float(first.carriers_hz[found.first]),
            float(second.carriers_hz[found.second]),
        ),
        weights=found.weight,
        lands_hz=found.lands_hz,
    )
