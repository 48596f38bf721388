# SPDX-License-Identifier: Apache-2.0
"""Mixing products as tables: who may mix into which band, and two COMs channel by channel."""

from __future__ import annotations

from collections.abc import Iterable
from typing import TypeVar

from rfplan.model.mixing import ChannelPair, ChannelPairs, Ends, MixedBand, Paths
from rfplan.reports.cells import listed, number, printed, words
from rfplan.reports.sheet import Cell, Field, Table, number_field, table, text_field
from rfplan.units import FREQUENCY, in_unit

T = TypeVar("T", MixedBand, ChannelPairs)

CARRIER_DIGITS = 5
SHARE_DIGITS = 2


def channels_table(channels: Iterable[ChannelPairs]) -> Table:
    """Return a row for each band with the pairs of channels that hit it at the lowest order."""
    fields: list[Field[ChannelPairs]] = [
        text_field("victims", "receives", lambda one: listed(one.victims)),
        number_field("order", "order", "", lambda one: number(one.order, "")),
        number_field("pairs", "25 kHz pairs", "", lambda one: number(one.pairs, "")),
        number_field("share", "of all", "%", _share),
        number_field("close", "8.33 kHz pairs", "", lambda one: number(one.close_pairs, "")),
        text_field("example", "for instance", lambda one: words(_keyed(one.example))),
        text_field("carriers", "carriers [MHz]", lambda one: words(_carriers(one.example))),
        number_field("lands", "falls at", "MHz", lambda one: _megahertz(one.example.lands_hz)),
    ]
    title = "Two COMs keyed at one time: pairs of channels with a product in a receiver's band"
    first = (of_band[0] for of_band in _by_band(channels))
    return table("channel_pairs", f"{title}, at its lowest order", fields, first, stub=2)


def bands_table(bands: Iterable[MixedBand]) -> Table:
    """Return a row for each band with the first product of the lowest order, and how many more."""
    fields: list[Field[list[MixedBand]]] = [
        text_field("victims", "receives", lambda told: listed(told[0].victims)),
        number_field("order", "order", "", lambda told: number(told[0].order, "")),
        text_field("product", "product", lambda told: words(_mixed(told[0]))),
        text_field("falls", "falls at [MHz]", lambda told: words(_ends(told[0].product_hz))),
        text_field("meets", "in band [MHz]", lambda told: words(_ends(told[0].overlap_hz))),
        number_field("products", "products", "", lambda told: number(_products(told), "")),
    ]
    title = (
        "Mixing products that may fall into a receiver's band: the first of the lowest order, "
        "and how many up to order 7"
    )
    return table("mixing", title, fields, _by_band(bands), stub=2)


def _products(bands: Iterable[MixedBand]) -> int:
    return sum(one.products for one in bands)


def _by_band(told: Iterable[T]) -> list[list[T]]:
    """Return what is told of each band together, bands and what is in them in their order."""
    bands: dict[tuple[Paths, Ends], list[T]] = {}
    for one in told:
        bands.setdefault((one.victims, one.victim_hz), []).append(one)
    return list(bands.values())


def product_text(weights: Iterable[int], names: Iterable[str]) -> str:
    """Return a product as it is written by hand, what is added first: '4 com1 + xpdr'."""
    terms = sorted(zip(weights, names, strict=True), key=lambda term: (term[0] < 0, -abs(term[0])))
    signs = ("-" if weight < 0 else "+" for weight, _ in terms)
    told = (f"{abs(weight)} {name}" if abs(weight) > 1 else name for weight, name in terms)
    return " ".join(f"{sign} {term}" for sign, term in zip(signs, told, strict=True))[2:]


def _mixed(band: MixedBand) -> str:
    """Return a product with all that may take each part; two of the same kind are named."""
    twice = len(set(band.senders)) < len(band.senders)
    return product_text(band.weights, band.team if twice else map(_any, band.senders))


def _any(paths: Paths) -> str:
    return paths[0] if len(paths) == 1 else f"({' or '.join(paths)})"


def _keyed(pair: ChannelPair) -> str:
    """Return a product of two COMs with the channels that the radios show."""
    names = (f"{com} on {name}" for com, name in zip(pair.coms, pair.channels, strict=True))
    return product_text(pair.weights, names)


def _share(channels: ChannelPairs) -> Cell:
    return number(100.0 * channels.pairs / channels.all_pairs, "%", digits=SHARE_DIGITS)


def _carriers(pair: ChannelPair) -> str:
    return ", ".join(_megahertz(carrier_hz).text for carrier_hz in pair.carriers_hz)


def _megahertz(frequency_hz: float) -> Cell:
    return number(in_unit(frequency_hz, FREQUENCY, "MHz"), "MHz", digits=CARRIER_DIGITS)


def _ends(ends_hz: Ends) -> str:
    low, high = (printed(in_unit(end_hz, FREQUENCY, "MHz"), "MHz") for end_hz in ends_hz)
    return low if low == high else f"{low} .. {high}"
