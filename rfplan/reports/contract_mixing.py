# SPDX-License-Identifier: Apache-2.0
"""Mixing products for other programs: where they may fall, and on which channels of two COMs."""

from __future__ import annotations

from collections.abc import Iterable

from rfplan.model.mixing import ChannelPair, ChannelPairs, Ends, MixedBand
from rfplan.reports.json_text import Json, hertz


def mixing_json(bands: Iterable[MixedBand]) -> list[Json]:
    """Return every band with who may mix into it, lowest order first; weights belong to `team`."""
    return [
        {
            "order": one.order,
            "senders": [list(paths) for paths in one.senders],
            "team": list(one.team),
            "weights": list(one.weights),
            "product_hz": _ends(one.product_hz),
            "victims": list(one.victims),
            "victim_hz": _ends(one.victim_hz),
            "overlap_hz": _ends(one.overlap_hz),
            "products": one.products,
        }
        for one in bands
    ]


def channel_pairs_json(channels: Iterable[ChannelPairs]) -> list[Json]:
    """Return how many pairs of channels hit each band, by order, with one of them."""
    return [
        {
            "order": one.order,
            "coms": [list(paths) for paths in one.coms],
            "victims": list(one.victims),
            "victim_hz": _ends(one.victim_hz),
            "pairs": one.pairs,
            "all_pairs": one.all_pairs,
            "close_pairs": one.close_pairs,
            "all_close_pairs": one.all_close_pairs,
            "example": _example(one.example),
        }
        for one in channels
    ]


def _example(pair: ChannelPair) -> Json:
    """Channels by the names that a radio shows, carriers as they are on the air."""
    return {
        "coms": list(pair.coms),
        "channels": list(pair.channels),
        "carriers_hz": _ends(pair.carriers_hz),
        "weights": list(pair.weights),
        "lands_hz": hertz(pair.lands_hz),
    }


def _ends(ends_hz: Ends) -> list[int]:
    return [hertz(end_hz) for end_hz in ends_hz]
