# SPDX-License-Identifier: Apache-2.0
"""How the folders of a catalogue become one, and the short ways in which its files are written."""

from __future__ import annotations

import pickle
from pathlib import Path
from typing import Any

import pytest
from plan_files import shipped_catalog

from rfplan.files.catalog_files import load_catalog, place_in_catalog
from rfplan.model.catalog import AttenuationPoint, Base, Cable, Catalog, LossPoint, LossSet
from rfplan.units import Range

FILES = {
    "cables/test_cable.yaml": """\
rfplan: cable/1
designation: Test cable
impedance: 50 ohm +- 2 ohm
velocity: 70 %
sources:
  sheet: {class: specification, read: invented, document: invented sheet T-1}
source: sheet
attenuation:
  nominal: {source: AC_43_13_1B 11-96, points: {100 MHz: 10 dB/100 m, 1 GHz: 40 dB/100 m}}
""",
    "rg_58c_u.yaml": """\
rfplan: cable/1
designation: RG-58C/U of one reel
impedance: 50 ohm
velocity: 0.66
attenuation: {nominal: {points: {100 MHz: 17 dB/100 m, 1 GHz: 70 dB/100 m}}}
""",
    "connectors/tnc.yaml": "rfplan: connector/1\nseries: tnc\nloss: 0.15 dB\n",
    "test_part.yaml": """\
rfplan: inline_part/1
kind: splitter
title: test splitter
common: tnc
ports:
  a: {plug: tnc, loss: {points: {100 MHz: 3.2 dB, 1 GHz: 3.6 dB}, tolerance: 0.2 dB}}
  b: {plug: tnc, loss: {nominal: 3.3 dB, maximum: {loss: 3.8 dB}}}
""",
    "test_antenna.yaml": """\
rfplan: antenna/1
title: test antenna
radios: [gnss_l1]
plug: tnc
base: 3 in
amplifier: 26 .. 33 dB
pigtail: 0.2 dB
""",
}


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """Return a user's folder with files in sub-folders and directly in it."""
    for name, text in FILES.items():
        path = tmp_path / name
        path.parent.mkdir(exist_ok=True)
        path.write_text(text, encoding="utf-8")
    return tmp_path


@pytest.fixture
def catalog(folder: Path) -> Catalog:
    """Return that folder laid over the shipped one."""
    return load_catalog(folder)


def test_entries_of_a_user_stand_beside_the_shipped_ones_or_replace_them(catalog: Catalog) -> None:
    shipped = shipped_catalog()
    assert set(catalog.cables) == {*shipped.cables, "test_cable"}
    assert catalog.cables["rg_58c_u"].designation == "RG-58C/U of one reel"
    assert shipped.cables["rg_58c_u"].designation == "RG-58C/U"
    assert catalog.cables["rg_400_u"] == shipped.cables["rg_400_u"]


def test_entries_are_sorted_and_know_their_ids(catalog: Catalog) -> None:
    for kind in (catalog.cables, catalog.connectors, catalog.inline_parts, catalog.antennas):
        assert list(kind) == sorted(kind)
        assert all(entry.id == id for id, entry in kind.items())


def test_a_table_by_frequency_becomes_points_in_si(catalog: Catalog) -> None:
    table = catalog.cables["test_cable"].attenuation["nominal"]
    assert table.points == (AttenuationPoint(1e8, 0.1), AttenuationPoint(1e9, 0.4))


def test_figures_of_an_entry_name_the_nearest_source_above(catalog: Catalog) -> None:
    cable: Cable = catalog.cables["test_cable"]
    assert cable.source == "sheet"
    assert cable.attenuation["nominal"].source == "AC_43_13_1B 11-96"
    assert cable.sources["AC_43_13_1B 11-96"].read == "opened"


@pytest.mark.parametrize(
    ("way", "expected"),
    [
        (("connectors", "tnc"), {"nominal": LossSet(0.15)}),
        (
            ("inline_parts", "test_part", "a"),
            {"nominal": LossSet(None, (LossPoint(1e8, 3.2), LossPoint(1e9, 3.6)), 0.2)},
        ),
        (("inline_parts", "test_part", "b"), {"nominal": LossSet(3.3), "maximum": LossSet(3.8)}),
    ],
)
def test_a_loss_is_one_value_one_table_or_sets_by_basis(
    way: tuple[str, ...], expected: dict[str, LossSet], catalog: Catalog
) -> None:
    kind, id, *port = way
    entry: Any = getattr(catalog, kind)[id]
    assert (entry.ports[port[0]] if port else entry).loss == expected


def test_a_lone_value_of_an_antenna_holds_for_both_sides_and_all_bands(catalog: Catalog) -> None:
    antenna = catalog.antennas["test_antenna"]
    assert antenna.base == Base(pytest.approx(0.0762), pytest.approx(0.0762))
    assert antenna.amplifier_db == {"all": Range(26.0, 33.0)}
    assert antenna.pigtail == {"nominal": LossSet(0.2)}


def test_a_catalogue_can_be_pickled(catalog: Catalog) -> None:
    assert pickle.loads(pickle.dumps(catalog)) == catalog


def test_a_figure_of_an_entry_can_be_found_again_in_its_file(folder: Path) -> None:
    file, line, _ = place_in_catalog("cables", "test_cable", ("velocity_ratio",), folder)
    assert (file, line) == (f"{folder}/cables/test_cable.yaml", 4)
    assert place_in_catalog("cables", "rg_58c_u", user_folder=folder)[0].startswith(str(folder))
    assert place_in_catalog("cables", "rg_58c_u")[0] == "cable_catalog/cables/rg_58c_u.yaml"
    with pytest.raises(LookupError, match="no entry nothing in cables"):
        place_in_catalog("cables", "nothing")
