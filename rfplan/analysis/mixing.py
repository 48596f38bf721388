# SPDX-License-Identifier: Apache-2.0
"""Which mixing products of transmitters that send together may fall into which receiver's band?"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import groupby
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from rfplan.analysis.emissions import emissions, receivers
from rfplan.analysis.facts import Facts
from rfplan.analysis.mixed_channels import Alike, Mixed, channel_pairs
from rfplan.analysis.simultaneity import ONE_OPERATOR, PULSED, send_together, together
from rfplan.model.interference import Together
from rfplan.model.mixing import ChannelPairs, Ends, MixedBand, Mixing, Paths
from rfplan.model.rulebook import Radio
from rfplan.physics.intermodulation import HIGHEST_ORDER, Products, mixing_products, reaches

Bools = NDArray[np.bool_]

SEARCHED = (*((order, 2) for order in range(2, HIGHEST_ORDER + 1)), (3, 3))
"""Orders, with how many transmitters take part."""


class _Radiator(NamedTuple):
    """One band in which a path sends or listens; two ports of a unit share their transmitter."""

    path: str
    transmitter: tuple[str, str]
    radio: Radio
    band_hz: Ends

    @property
    def kind(self) -> tuple[str, Ends]:
        return self.radio.id, self.band_hz


class _Hit(NamedTuple):
    """A product that may fall into a band: by the kinds that send, and one path of each."""

    kinds: tuple[int, ...]
    victim_hz: Ends
    order: int
    weights: tuple[int, ...]
    team: Paths
    product_hz: Ends
    victim: str


def mixing(facts: Facts) -> Mixing:
    """Return all kinds of transmitters that send together against every band of a receiver."""
    senders, listeners = _senders(facts), _listeners(facts)
    kinds = [_alike(list(group)) for _, group in groupby(senders, lambda one: one.kind)]
    bands: list[MixedBand] = []
    channels: list[ChannelPairs] = []
    hits = sorted(_hits(senders, listeners))
    for (numbers, _), group in groupby(hits, lambda hit: (hit.kinds, hit.victim_hz)):
        taking_part, found = [kinds[number] for number in numbers], list(group)
        if len(taking_part) == 2 and all(kind.has_channels for kind in taking_part):
            channels.extend(_by_channel(taking_part, found))
        else:
            bands.append(_mixed_band(taking_part, found))
    return Mixing(
        tuple(sorted(bands, key=lambda one: (one.order, one.victim_hz, one.senders))),
        tuple(sorted(channels, key=lambda one: (one.order, one.victim_hz, one.coms))),
    )


def _senders(facts: Facts) -> list[_Radiator]:
    """Return what sends, on its carrier, alike ones side by side."""
    told = [
        _Radiator(one.path, _transmitter(facts, one.path), one.radio, (one.low_hz, one.high_hz))
        for one in emissions(facts, ())
        if one.order == 1
    ]
    return sorted(told, key=lambda one: (one.kind, one.path))


def _listeners(facts: Facts) -> list[_Radiator]:
    return [
        _Radiator(one.path, _transmitter(facts, one.path), one.radio, band_hz)
        for one in receivers(facts)
        for band_hz in one.bands_hz
    ]


def _transmitter(facts: Facts, path: str) -> tuple[str, str]:
    chain = facts.chains[path]
    return chain.unit, chain.port.radio


def _alike(senders: list[_Radiator]) -> Alike:
    return Alike(tuple(one.path for one in senders), senders[0].radio, senders[0].band_hz)


def _hits(senders: list[_Radiator], listeners: list[_Radiator]) -> Iterator[_Hit]:
    """Yield every product in a band of every receiver that hears it, alike senders once."""
    if not senders or not listeners:
        return
    bands_hz, victims_hz = (
        np.array([one.band_hz for one in some]) for some in (senders, listeners)
    )
    both = np.array([[_both_send(one, other) for other in senders] for one in senders])
    kinds = sorted({one.kind for one in senders})
    kind = np.array([kinds.index(one.kind) for one in senders])
    for order, size in SEARCHED:
        found = mixing_products(bands_hz, order, size, both)
        heard = _heard(found, senders, listeners)
        product, victim = np.nonzero(reaches(found.band_hz, victims_hz) & heard)
        alike = np.column_stack([kind[found.who[product]], found.weight[product], victim])
        for place in np.unique(alike, axis=0, return_index=True)[1].tolist():
            row, listener = product[place], listeners[victim[place]]
            low_hz, high_hz = found.band_hz[row].tolist()
            yield _Hit(
                kinds=tuple(kind[found.who[row]].tolist()),
                victim_hz=listener.band_hz,
                order=order,
                weights=tuple(found.weight[row].tolist()),
                team=tuple(senders[one].path for one in found.who[row].tolist()),
                product_hz=(low_hz, high_hz),
                victim=listener.path,
            )


def _both_send(one: _Radiator, other: _Radiator) -> bool:
    """Whether two paths may send at one time; a transmitter does not mix with itself."""
    return one.transmitter != other.transmitter and send_together(one.radio, other.radio)


def _heard(found: Products, senders: list[_Radiator], listeners: list[_Radiator]) -> Bools:
    """Return which receivers must work while those of a product send, by products and receivers."""
    one_talks, two_talk = (
        np.array([[_must_work(one, other, people) for other in listeners] for one in senders])
        for people in (1, 2)
    )
    talks = np.array([one.radio.family in ONE_OPERATOR for one in senders])
    two = talks[found.who].sum(axis=1, keepdims=True) > 1
    return np.where(two, two_talk[found.who].all(axis=1), one_talks[found.who].all(axis=1))


def _must_work(sender: _Radiator, listener: _Radiator, people: int) -> bool:
    """Whether a receiver must work while one sends and so many people talk.

    Who talks on a COM does not listen on another, but where two talk a third set may be listened
    to. A radio that sends pulses, or has one band for both directions, takes turns with itself.
    """
    if sender.transmitter == listener.transmitter:
        return sender.radio.id not in PULSED and _apart(sender.band_hz, listener.band_hz)
    if people > 1 and sender.radio.family == listener.radio.family in ONE_OPERATOR:
        return True
    return together(sender.radio, listener.radio) is Together.YES


def _apart(one_hz: Ends, other_hz: Ends) -> bool:
    return one_hz[1] < other_hz[0] or other_hz[1] < one_hz[0]


def _mixed_band(taking_part: list[Alike], found: list[_Hit]) -> MixedBand:
    """Return all products of some kinds in one band; the first of the lowest order is told."""
    lowest = found[0]
    return MixedBand(
        order=lowest.order,
        senders=tuple(kind.paths for kind in taking_part),
        team=lowest.team,
        weights=_upright(lowest.weights, taking_part),
        product_hz=lowest.product_hz,
        victims=_victims(found),
        victim_hz=lowest.victim_hz,
        products=len({hit.weights for hit in found}),
    )


def _upright(weights: tuple[int, ...], taking_part: list[Alike]) -> tuple[int, ...]:
    """Return weights with the signs that give a positive frequency in the middle of the bands."""
    twice_hz = sum(w * sum(kind.band_hz) for w, kind in zip(weights, taking_part, strict=True))
    return tuple(-weight for weight in weights) if twice_hz < 0.0 else weights


def _by_channel(taking_part: list[Alike], found: list[_Hit]) -> Iterator[ChannelPairs]:
    """Yield the pairs of channels of two COMs, one record an order."""
    coms = taking_part[0], taking_part[1]
    for order, group in groupby(found, lambda hit: hit.order):
        hits = list(group)
        team = hits[0].team[0], hits[0].team[1]
        weights = np.array(sorted({hit.weights for hit in hits}))
        mixed = Mixed(order, weights, team, _victims(hits), hits[0].victim_hz)
        pairs = channel_pairs(coms, mixed)
        if pairs is not None:
            yield pairs


def _victims(found: list[_Hit]) -> Paths:
    return tuple(sorted({hit.victim for hit in found}))
