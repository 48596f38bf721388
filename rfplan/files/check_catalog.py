# SPDX-License-Identifier: Apache-2.0
"""What the values of a catalogue entry have to fulfil beyond being of the right kind."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator, Sequence
from typing import get_args

from rfplan.files.check_figures import (
    check_antenna_figures,
    check_cable_figures,
    check_part_figures,
)
from rfplan.files.check_names import check_ids
from rfplan.files.faults import Faults, one_of, quoted
from rfplan.files.nodes import Location, Node
from rfplan.files.shape import entries
from rfplan.model.catalog import (
    AntennaType,
    AttenuationSet,
    Basis,
    Cable,
    Connector,
    InlinePart,
    LossSet,
)
from rfplan.model.record import ById

_BASES: tuple[str, ...] = get_args(Basis)


def check_cable(cable: Cable, root: Node, faults: Faults) -> None:
    """Add a problem for each figure of a cable that cannot be."""
    check_ids(root, ("sources",), faults)
    if not entries(entries(root).get("attenuation")):
        faults.say(root, ("attenuation",), "there is no set of attenuations", "a table of points")
    if not 0.0 < cable.velocity_ratio <= 1.0:
        faults.say(root, ("velocity",), "the ratio is not above 0 and up to 1", "such as 0.66")
    check_cable_figures(cable, root, faults)
    if cable.impedance_ohm.value <= 0.0:
        faults.say(root, ("impedance",), "not above zero", "such as 50 ohm")
    chosen = any(table.use for table in cable.attenuation.values())
    for name, table in cable.attenuation.items():
        _check_attenuation(name, table, root, faults)
        if table.use or (table.use is None and not chosen):
            _check_length(name, table, root, faults)
    _check_used_once(cable.attenuation, root, faults)


def _check_attenuation(name: str, table: AttenuationSet, root: Node, faults: Faults) -> None:
    loc = ("attenuation", name)
    if table.basis is None:
        _check_basis(name, loc, root, faults)
    rows = [(row.frequency_hz, row.attenuation_db_per_m) for row in table.points]
    _check_points(rows, (*loc, "points"), root, faults)


def _check_length(name: str, table: AttenuationSet, root: Node, faults: Faults) -> None:
    """Add a problem for a set that budgets may take and that cannot be interpolated."""
    loc = ("attenuation", name)
    written = entries(root.at(loc)).get("points")
    rows = written.value if written is not None and isinstance(written.value, list) else []
    if len(rows) < 2 and table.fit is None:
        words = "one point is no table" if rows else "there are no points"
        faults.say(root, (*loc, "points"), words, "two points or more, or a fit")


def _check_used_once(sets: ById[AttenuationSet], root: Node, faults: Faults) -> None:
    """Add a problem for a second set that is used for the same basis."""
    used: dict[str, str] = {}
    for name, table in sets.items():
        if not table.use:
            continue
        basis = table.basis or name
        first = used.setdefault(basis, name)
        if first != name:
            words = f"{quoted(first)} is already used for the basis {quoted(basis)}"
            faults.say(root, ("attenuation", name, "use"), words, "one set of each basis")


def check_connector(connector: Connector, root: Node, faults: Faults) -> None:
    """Add a problem for each figure of a connector that cannot be."""
    check_ids(root, ("sources",), faults)
    check_vswr(connector.vswr, ("vswr",), root, faults)
    _check_losses(connector.loss, ("loss",), root, faults)


def check_part(part: InlinePart, root: Node, faults: Faults) -> None:
    """Add a problem for each figure of an inline part that cannot be."""
    check_ids(root, ("sources", "ports"), faults)
    check_vswr(part.vswr, ("vswr",), root, faults)
    check_part_figures(part, root, faults)
    _check_losses(part.loss, ("loss",), root, faults)
    for name, port in part.ports.items():
        _check_losses(port.loss, ("ports", name, "loss"), root, faults)
    keys = entries(root)
    if "plugs" not in keys and not ("ports" in keys and "common" in keys):
        faults.say(root, (), "no plugs are named", "two plugs, or 'common' and 'ports'")


def check_antenna(antenna: AntennaType, root: Node, faults: Faults) -> None:
    """Add a problem for each figure of an antenna type that cannot be."""
    check_ids(root, ("sources", "ports", "amplifier", "noise_figure"), faults)
    check_vswr(antenna.vswr, ("vswr",), root, faults)
    check_antenna_figures(antenna, root, faults)
    _check_losses(antenna.pigtail, ("pigtail",), root, faults)
    if not {"plug", "ports"} & set(entries(root)):
        faults.say(root, (), "no plug is named", "'plug', or 'ports' with a plug each")


def check_plugs(
    plugs: Iterable[tuple[Location, str]], known: Collection[str], root: Node, faults: Faults
) -> None:
    """Add a problem for each plug that is no connector of the catalogue."""
    for loc, plug in plugs:
        if plug not in known:
            faults.say(
                root, loc, f"no connector {quoted(plug)}", one_of(known, plug, "a connector")
            )


def plugs_of(entry: InlinePart | AntennaType) -> Iterator[tuple[Location, str]]:
    """Yield each plug of an entry with the way to it."""
    if isinstance(entry, InlinePart):
        yield from ((("plugs", number), plug) for number, plug in enumerate(entry.plugs or ()))
    single, key = (
        (entry.common, "common") if isinstance(entry, InlinePart) else (entry.plug, "plug")
    )
    if single is not None:
        yield (key,), single
    for name, port in entry.ports.items():
        yield ("ports", name, "plug"), port.plug


def check_vswr(vswr: float | None, loc: Location, root: Node, faults: Faults) -> None:
    """Add a problem for a VSWR below 1."""
    if vswr is not None and vswr < 1.0:
        faults.say(root, loc, "a VSWR is never below 1", "such as 1.5")


def _check_losses(sets: ById[LossSet], loc: Location, root: Node, faults: Faults) -> None:
    for name, table in sets.items():
        way = (*loc, name)
        _check_basis(name, way, root, faults)
        rows = [(row.frequency_hz, row.loss_db) for row in table.points]
        _check_points(rows, (*way, "points"), root, faults)
        if table.loss_db is not None and table.loss_db < 0.0:
            faults.say(root, (*way, "loss"), "a loss is never negative", "such as 0.1 dB")
        if (table.loss_db is None) == (not rows):
            faults.say(root, way, "not exactly one of 'loss' and 'points'", "a loss or a table")


def _check_basis(name: str, loc: Location, root: Node, faults: Faults) -> None:
    if name not in _BASES:
        mark = root.mark_at(loc, key=True)
        message = f"{faults.subject(loc)}: {quoted(name)} is no basis"
        faults.add(mark, message, one_of(_BASES, name, "a basis"), loc)


def _check_points(
    rows: Sequence[tuple[float, float]], loc: Location, root: Node, faults: Faults
) -> None:
    """Add a problem for each row that is not above zero or not above the row before."""
    before_hz = 0.0
    for number, (frequency_hz, value) in enumerate(rows):
        if frequency_hz <= 0.0 or value <= 0.0:
            faults.say(root, (*loc, number), "a frequency and its loss are above zero")
        elif frequency_hz <= before_hz:
            faults.say(root, (*loc, number), "the frequencies do not rise", "a higher frequency")
        before_hz = max(before_hz, frequency_hz)
