# SPDX-License-Identifier: Apache-2.0
"""Where mixing products of transmitters that send together may fall; never how strong they are."""

from __future__ import annotations

from dataclasses import dataclass

Ends = tuple[float, float]
Paths = tuple[str, ...]


@dataclass(frozen=True, slots=True)
class MixedBand:
    """Products of some transmitters, to order 7, that may fall into one band of some receivers.

    `senders` are the paths of which any may take each part of a product, alike ones together; the
    same ones twice stand for two of them. Of the `products` one of the lowest order is told, with
    a `team` of one path for each part.
    """

    order: int
    senders: tuple[Paths, ...]
    team: Paths
    weights: tuple[int, ...]
    product_hz: Ends
    victims: Paths
    victim_hz: Ends
    products: int

    @property
    def overlap_hz(self) -> Ends:
        """Where product and band meet."""
        return (
            max(self.product_hz[0], self.victim_hz[0]),
            min(self.product_hz[1], self.victim_hz[1]),
        )


@dataclass(frozen=True, slots=True)
class ChannelPair:
    """Two COMs on two channels, by name and by carrier, and where their product falls."""

    coms: tuple[str, str]
    channels: tuple[str, str]
    carriers_hz: Ends
    weights: tuple[int, int]
    lands_hz: float


@dataclass(frozen=True, slots=True)
class ChannelPairs:
    """How many pairs of channels of two COMs have a product of one order in a band, one told.

    Counted in channels of 25 kHz, and in all carriers of sets that have 8.33 kHz as well.
    """

    order: int
    coms: tuple[Paths, Paths]
    victims: Paths
    victim_hz: Ends
    pairs: int
    all_pairs: int
    close_pairs: int
    all_close_pairs: int
    example: ChannelPair


@dataclass(frozen=True, slots=True)
class Mixing:
    """All that may mix on one aircraft, lowest order first; two COMs channel by channel."""

    bands: tuple[MixedBand, ...]
    channels: tuple[ChannelPairs, ...]
