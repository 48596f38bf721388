# SPDX-License-Identifier: Apache-2.0
"""The catalogue as a sheet: one table a kind of entry, every figure with its source."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import TypeVar

from rfplan.model.catalog import (
    AntennaType,
    AttenuationSet,
    Cable,
    Catalog,
    Connector,
    InlinePart,
    LossSet,
)
from rfplan.model.record import ById
from rfplan.model.source import UNSOURCED, Source
from rfplan.reports.cells import (
    LengthUnit,
    frequency,
    length,
    listed,
    nothing,
    number,
    words,
    words_or_nothing,
)
from rfplan.reports.sheet import Cell, Field, Sheet, Table, number_field, table, text_field
from rfplan.units import ATTENUATION, Toleranced, in_unit

PER_LENGTH = "dB/100 m"

_Entry = TypeVar("_Entry")


def catalog_sheet(catalog: Catalog, units: LengthUnit = "in") -> Sheet:
    """Return all entries by kind and id."""
    tables = (
        _cables(catalog, units),
        _attenuation(catalog),
        _connectors(catalog),
        _parts(catalog),
        _antennas(catalog, units),
    )
    return Sheet("catalog", "Catalogue", (), tables, ())


def _invented(flag: bool) -> Cell:
    return nothing("no product") if flag else words("the type")


def _impedance(stated: Toleranced | None) -> Cell:
    return number(None if stated is None else stated.value, "ohm", absent="-")


def _cables(catalog: Catalog, units: LengthUnit) -> Table:
    fields: list[Field[Cable]] = [
        text_field("id", "cable", lambda cable: words(cable.id)),
        text_field("designation", "designation", lambda cable: words(cable.designation)),
        number_field(
            "impedance", "impedance", "ohm", lambda cable: _impedance(cable.impedance_ohm)
        ),
        number_field("velocity", "velocity", "", lambda cable: number(cable.velocity_ratio, "")),
        number_field("diameter", "diameter", "mm", lambda cable: _millimetres(cable.diameter_m)),
        number_field("bend", "bend", units, lambda cable: length(cable.bend_m, units, absent="-")),
        text_field("centre", "centre", _centre),
        text_field("source", "source", lambda cable: _source(cable.sources, cable.source)),
        text_field("invented", "stands for", lambda cable: _invented(cable.invented)),
    ]
    return table("cables", "Cables", fields, _sorted(catalog.cables))


def _sorted(things: ById[_Entry]) -> list[_Entry]:
    return [things[id] for id in sorted(things)]


def _millimetres(length_m: float | None) -> Cell:
    return length(length_m, "mm", digits=2, absent="-")


def _centre(cable: Cable) -> Cell:
    if cable.centre is None:
        return nothing()
    return words_or_nothing(" ".join(filter(None, (cable.centre.make, cable.centre.of))))


def _source(sources: ById[Source], id: str | None) -> Cell:
    return words(sources.get(id or "", UNSOURCED).words())


@dataclass(frozen=True, slots=True)
class _Figure:
    """One attenuation of one cable, from a table or from the constants of a fit."""

    cable: Cable
    name: str
    stated: AttenuationSet
    frequency_hz: float | None
    attenuation_db_per_m: float | None


def _attenuation(catalog: Catalog) -> Table:
    fields: list[Field[_Figure]] = [
        text_field("cable", "cable", lambda one: words(one.cable.id)),
        text_field("set", "set", lambda one: words(one.name)),
        number_field("at", "at", "MHz", _at),
        number_field("attenuation", "attenuation", PER_LENGTH, _per_length),
        text_field("fit", "fit", lambda one: _fit(one.stated)),
        text_field("use", "in budgets", lambda one: _used(one.stated)),
        text_field("source", "source", lambda one: _source(one.cable.sources, one.stated.source)),
    ]
    figures = [one for cable in _sorted(catalog.cables) for one in _figures(cable)]
    return table("attenuation", "Attenuation at 20 degC", fields, figures, stub=2)


def _figures(cable: Cable) -> Iterator[_Figure]:
    for name, stated in cable.attenuation.items():
        for point in stated.points:
            yield _Figure(cable, name, stated, point.frequency_hz, point.attenuation_db_per_m)
        if stated.fit is not None:
            yield _Figure(cable, name, stated, None, None)


def _at(figure: _Figure) -> Cell:
    return nothing() if figure.frequency_hz is None else frequency(figure.frequency_hz)


def _per_length(figure: _Figure) -> Cell:
    loss = figure.attenuation_db_per_m
    shown = None if loss is None else in_unit(loss, ATTENUATION, PER_LENGTH)
    return number(shown, PER_LENGTH, digits=2, absent="-")


def _fit(stated: AttenuationSet) -> Cell:
    return nothing() if stated.fit is None else words(f"k1 {stated.fit.k1:g}, k2 {stated.fit.k2:g}")


def _used(stated: AttenuationSet) -> Cell:
    return nothing("kept to compare") if stated.use is False else words("yes")


def _losses(losses: ById[LossSet]) -> Cell:
    """Return 'maximum 0.18 dB' or 'nominal 0.10 .. 0.30 dB' for each set of an entry."""
    return listed(f"{name} {_loss(losses[name])}" for name in losses)


def _loss(stated: LossSet) -> str:
    known = [point.loss_db for point in stated.points]
    if stated.loss_db is not None:
        known = [stated.loss_db]
    ends = dict.fromkeys(number(end, "dB").text for end in (min(known), max(known)))
    return f"{' .. '.join(ends)} dB"


def _connectors(catalog: Catalog) -> Table:
    fields: list[Field[Connector]] = [
        text_field("id", "connector", lambda one: words(one.id)),
        text_field("series", "series", lambda one: words(one.series)),
        text_field("form", "form", lambda one: words(one.form)),
        number_field("impedance", "impedance", "ohm", lambda one: _impedance(one.impedance_ohm)),
        text_field("loss", "mated pair", lambda one: _losses(one.loss)),
        text_field("source", "source", lambda one: _source(one.sources, one.source)),
        text_field("invented", "stands for", lambda one: _invented(one.invented)),
    ]
    return table("connectors", "Connectors", fields, _sorted(catalog.connectors))


def _parts(catalog: Catalog) -> Table:
    fields: list[Field[InlinePart]] = [
        text_field("id", "part", lambda one: words(one.id)),
        text_field("kind", "kind", lambda one: words(one.kind)),
        text_field("title", "title", lambda one: words(one.title)),
        text_field("plugs", "plugs", lambda one: listed(one.plugs or (one.common or "",))),
        text_field("ports", "ports", lambda one: listed(one.ports)),
        text_field("loss", "loss", lambda one: _part_losses(one)),
        text_field("dc", "DC", lambda one: words_or_nothing(one.dc)),
        text_field("source", "source", lambda one: _source(one.sources, one.source)),
        text_field("invented", "stands for", lambda one: _invented(one.invented)),
    ]
    return table("inline_parts", "Inline parts", fields, _sorted(catalog.inline_parts))


def _part_losses(part: InlinePart) -> Cell:
    if not part.ports:
        return _losses(part.loss)
    return listed(f"{id}: {_losses(port.loss).text}" for id, port in part.ports.items())


def _antennas(catalog: Catalog, units: LengthUnit) -> Table:
    fields: list[Field[AntennaType]] = [
        text_field("id", "antenna", lambda one: words(one.id)),
        text_field("title", "title", lambda one: words(one.title)),
        text_field("radios", "radios", lambda one: listed(one.radios)),
        text_field("plug", "plug", _plugs),
        number_field("height", "height", units, lambda one: _height(one, units)),
        text_field("ground_plane", "ground plane", lambda one: words_or_nothing(one.ground_plane)),
        text_field("source", "source", lambda one: _source(one.sources, one.source)),
        text_field("invented", "stands for", lambda one: _invented(one.invented)),
    ]
    return table("antennas", "Antennas", fields, _sorted(catalog.antennas))


def _plugs(antenna: AntennaType) -> Cell:
    return listed(
        [antenna.plug] if antenna.plug else [port.plug for port in antenna.ports.values()]
    )


def _height(antenna: AntennaType, units: LengthUnit) -> Cell:
    return length(antenna.height_m, units, absent="-")
