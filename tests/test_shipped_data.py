# SPDX-License-Identifier: Apache-2.0
"""What the shipped catalogue and tables promise: every figure has a source, and none rises."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import fields, is_dataclass
from typing import Any

import pytest

from rfplan.files.catalog_files import load_catalog
from rfplan.files.folders import shipped, tables
from rfplan.files.table_files import load_rulebook
from rfplan.model.catalog import LossSet
from rfplan.model.record import ById
from rfplan.model.rulebook import Strictness
from rfplan.model.source import Source
from rfplan.units import Range

CATALOG = load_catalog()
RULEBOOK = load_rulebook()

ENTRIES = {
    f"{kind}/{id}": entry
    for kind in ("cables", "connectors", "inline_parts", "antennas")
    for id, entry in getattr(CATALOG, kind).items()
}


def records_in(record: Any) -> Iterator[Any]:
    """Yield every record with a `source` in an entry, the entry itself included."""
    if isinstance(record, ById):
        record = tuple(record.values())
    if isinstance(record, tuple):
        for thing in record:
            yield from records_in(thing)
    elif is_dataclass(record) and not isinstance(record, Source):
        if hasattr(record, "source"):
            yield record
        for field in fields(record):
            yield from records_in(getattr(record, field.name))


# --- the files ----------------------------------------------------------------------------------


@pytest.mark.parametrize("folder", ["cables", "connectors", "inline_parts", "antennas"])
def test_every_file_of_the_catalogue_is_an_entry_of_its_name(folder: str) -> None:
    files = {path.stem for path in (shipped("cable_catalog") / folder).iterdir()}
    assert files == set(getattr(CATALOG, folder))
    assert all(id == entry.id for id, entry in getattr(CATALOG, folder).items())


def test_every_radio_file_is_a_radio_of_its_name() -> None:
    assert {path.stem for path in (tables() / "radios").iterdir()} == set(RULEBOOK.radios)


@pytest.mark.parametrize("name", ENTRIES)
def test_every_part_of_an_entry_names_a_source_that_the_entry_has(name: str) -> None:
    entry = ENTRIES[name]
    assert all(record.source in entry.sources for record in records_in(entry))


@pytest.mark.parametrize("name", ENTRIES)
def test_what_is_remembered_is_never_called_a_specification(name: str) -> None:
    remembered = [s for s in ENTRIES[name].sources.values() if s.read == "memory"]
    assert all(source.class_ in ("assumed", "calculated") for source in remembered)
    assert all(source.unverified for source in remembered)


@pytest.mark.parametrize("name", ENTRIES)
def test_an_entry_is_marked_invented_exactly_if_its_figures_are(name: str) -> None:
    entry = ENTRIES[name]
    assert entry.invented is (entry.sources[entry.source].read == "invented")
    reads = {source.read for source in entry.sources.values()}
    assert reads == {"invented"} if entry.invented else "invented" not in reads


def test_parts_and_antennas_are_all_invented_and_connectors_are_not() -> None:
    assert all(entry.invented for entry in CATALOG.inline_parts.values())
    assert all(entry.invented for entry in CATALOG.antennas.values())
    assert not any(entry.invented for entry in CATALOG.connectors.values())


def test_an_antenna_serves_only_radios_that_the_tables_know() -> None:
    for antenna in CATALOG.antennas.values():
        by_port = {radio for port in antenna.ports.values() for radio in port.radios}
        assert by_port | set(antenna.radios) <= set(RULEBOOK.radios)


# --- connectors and parts ------------------------------------------------------------------------


def test_no_connector_claims_a_nominal_loss() -> None:
    assert all(set(entry.loss) <= {"maximum"} for entry in CATALOG.connectors.values())
    without = [id for id, entry in CATALOG.connectors.items() if not entry.loss]
    assert without == ["c", "hn"]


def least_nominal_most(sets: ById[LossSet]) -> tuple[float, float, float]:
    nominal = sets["nominal"]
    rows = [row.loss_db for row in nominal.points] or [nominal.loss_db or 0.0]
    tolerance_db = nominal.tolerance_db or 0.0
    least, most = sets.get("minimum"), sets.get("maximum")
    low_db = least.loss_db if least and least.loss_db else min(rows) - tolerance_db
    if most and most.loss_db:
        return low_db, max(rows), most.loss_db
    return low_db, max(rows), max(rows) + tolerance_db


@pytest.mark.parametrize("id", CATALOG.inline_parts)
def test_a_part_never_amplifies_and_its_nominal_lies_between(id: str) -> None:
    part = CATALOG.inline_parts[id]
    for sets in [part.loss] if part.loss else [port.loss for port in part.ports.values()]:
        low_db, nominal_db, high_db = least_nominal_most(sets)
        assert 0.0 <= low_db <= nominal_db <= high_db


# --- tables --------------------------------------------------------------------------------------


def test_no_shipped_spacing_is_more_than_advice() -> None:
    assert {spacing.strict for spacing in RULEBOOK.spacings.values()} == {Strictness.ADVICE}
    for spacing in RULEBOOK.spacings.values():
        assert spacing.preferred_m is None or spacing.preferred_m > spacing.min_m


def test_the_transponder_limits_hold_the_printed_dbw_and_dbm() -> None:
    radio = RULEBOOK.radios["transponder"]
    watts = {name: radio.classes[name].antenna_power_w for name in ("high", "low")}
    assert watts["high"] == Range(pytest.approx(125.89, abs=0.01), pytest.approx(501.19, abs=0.01))
    assert watts["low"] == Range(pytest.approx(70.79, abs=0.01), pytest.approx(501.19, abs=0.01))
    assert radio.sensitivity["atcrbs"].level_dbm == Range(-77.0, -69.0)
    assert radio.sensitivity["mode_s"].level_dbm == Range(-77.0, -71.0)
    assert (radio.bands["rx"].low_hz, radio.bands["tx"].low_hz) == (1030e6, 1090e6)


@pytest.mark.parametrize("signal", ["gnss_l1.l1", "gnss_l5.l5", "gnss_l1_l5.l1", "gnss_l1_l5.l5"])
def test_a_gnss_band_is_its_carrier_and_12_mhz_to_either_side(signal: str) -> None:
    id, _, name = signal.partition(".")
    centre_hz = {"l1": 1575.42e6, "l5": 1176.45e6}[name]
    band = RULEBOOK.radios[id].bands[name]
    assert band.carrier is not None
    assert (band.low_hz, band.high_hz) == pytest.approx((centre_hz - 12e6, centre_hz + 12e6))


def test_carbon_blocks_and_is_no_sound_ground_plane() -> None:
    assert RULEBOOK.materials["carbon"].skin == "lossy"
    conductive = [
        id for id, material in RULEBOOK.materials.items() if material.skin == "conductive"
    ]
    assert conductive == ["aluminium", "steel", "copper_foil", "copper_mesh", "aluminium_mesh"]


@pytest.mark.parametrize(
    "radio", ["radalt", "adf", "lightning_detector", "elt", "elt_121", "elt_406"]
)
def test_a_cable_that_the_equipment_fixes_is_never_free(radio: str) -> None:
    assert RULEBOOK.radios[radio].cable == "fixed"
