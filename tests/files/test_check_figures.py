# SPDX-License-Identifier: Apache-2.0
"""Figures of gain, noise and supply are read into the records, and refused where they cannot be."""

from __future__ import annotations

from pathlib import Path

import pytest
from plan_files import PLAN, edited, shipped_catalog, shipped_rulebook, write_aircraft

from rfplan.files.load import load_catalog, load_plan
from rfplan.files.problems import ProblemsError
from rfplan.units import NONE, Range

HEAD = """\
sources:
  sheet: {class: specification, read: invented, document: invented sheet T-1}
source: sheet
"""
CABLE = f"""\
rfplan: cable/1
designation: Test cable
impedance: 50 ohm
velocity: 0.7
centre: {{of: copper, resistance: -1 ohm/km}}
attenuation: {{nominal: {{points: {{100 MHz: 10 dB/100 m, 1 GHz: 40 dB/100 m}}}}}}
{HEAD}"""
PART = f"""\
rfplan: inline_part/1
kind: splitter
title: test splitter
common: tnc
resistance: -0.1 ohm
rejection: 40 dB
ports:
  a: {{plug: tnc, dc: pass, loss: 3.3 dB}}
  b: {{plug: tnc, dc: block, load: 0 ohm, loss: 3.3 dB}}
{HEAD}"""
ANTENNA = f"""\
rfplan: antenna/1
title: test antenna
radios: [gnss_l1]
plug: tnc
frontal_area: 0 in2
amplifier: none
noise_figure: {{l1: -0.5 dB}}
{HEAD}"""


def catalog_with(folder: Path, kind: str, text: str) -> Path:
    """Write one entry of a user's catalogue."""
    (folder / kind).mkdir()
    (folder / kind / "test_entry.yaml").write_text(text, encoding="utf-8")
    return folder


@pytest.mark.parametrize(
    ("kind", "text", "said"),
    [
        ("cables", CABLE, ["centre.resistance: never negative"]),
        (
            "inline_parts",
            PART,
            ["resistance: never negative", "rejection: without a stop", "b.load: not above zero"],
        ),
        ("antennas", ANTENNA, ["frontal_area: not above zero", "noise_figure.l1: never negative"]),
    ],
)
def test_a_figure_that_cannot_be_is_refused(
    kind: str, text: str, said: list[str], tmp_path: Path
) -> None:
    with pytest.raises(ProblemsError) as caught:
        load_catalog(catalog_with(tmp_path, kind, text))
    assert [problem.message for problem in caught.value.problems] == [
        f"test_entry.{words}" for words in said
    ]


def test_an_antenna_says_that_it_has_no_amplifier(tmp_path: Path) -> None:
    text = ANTENNA.replace("{l1: -0.5 dB}", "0.5 dB").replace("0 in2", "1.9 in2")
    antenna = load_catalog(catalog_with(tmp_path, "antennas", text)).antennas["test_entry"]
    assert dict(antenna.amplifier_db) == {"all": Range(NONE, NONE)}
    assert dict(antenna.noise_figure_db) == {"all": 0.5}


def test_a_dual_band_port_states_a_window_for_each_signal(tmp_path: Path) -> None:
    port = (
        "radio: gnss_l1_l5, plug: tnc, loss: {l1: 2 .. 7 dB, l5: 1.5 .. 6 dB}, "
        "net_gain: {l1: 20 .. 40 dB, l5: none .. 38 dB}, noise_figure: 4 dB, cn0: 37 dB-Hz, "
        "supervision: 15 .. 60 mA"
    )
    policy = "retermination_cut: 1.5 in, antenna_noise: 130 K, noise_rise: 1.5 dB"
    plan = edited(
        PLAN,
        ("radio: gnss_l1, plug: tnc, loss: 2 .. 7 dB", port),
        ("near: 0.4 dB", f"near: 0.4 dB, {policy}"),
    )
    write_aircraft(tmp_path, plan)
    loaded = load_plan(tmp_path, catalog=shipped_catalog(), rulebook=shipped_rulebook()).plan
    read = loaded.design.units["vhf1"].ports["gnss"]
    assert dict(read.loss_db) == {"l1": Range(2.0, 7.0), "l5": Range(1.5, 6.0)}
    assert dict(read.net_gain_db) == {"l1": Range(20.0, 40.0), "l5": Range(NONE, 38.0)}
    assert (read.noise_figure_db, read.cn0_dbhz) == (4.0, 37.0)
    assert read.supervision_a == Range(pytest.approx(0.015), pytest.approx(0.060))
    assert loaded.policy.retermination_cut_m == pytest.approx(0.0381)
    assert (loaded.policy.antenna_noise_k, loaded.policy.noise_rise_db) == (130.0, 1.5)


def test_a_net_gain_without_a_band_holds_for_all(tmp_path: Path) -> None:
    change = ("loss: 2 .. 7 dB", "loss: 2 .. 7 dB, net_gain: 20 .. 40 dB")
    write_aircraft(tmp_path, edited(PLAN, change))
    loaded = load_plan(tmp_path, catalog=shipped_catalog(), rulebook=shipped_rulebook()).plan
    read = loaded.design.units["vhf1"].ports["gnss"].net_gain_db
    assert dict(read) == {"all": Range(20.0, 40.0)}


def test_a_port_states_harmonics_noise_overload_and_damage(tmp_path: Path) -> None:
    stated = "power: 10 W, harmonics: {12: 95 dB, 13: 92 dB}, overload: -10 dBm, damage: 20 dBm, "
    stated += "noise: {all: -140 dBm/Hz, gnss: -195 dBW/Hz}"
    write_aircraft(tmp_path, edited(PLAN, ("power: 10 W", stated)))
    loaded = load_plan(tmp_path, catalog=shipped_catalog(), rulebook=shipped_rulebook()).plan
    port = loaded.design.units["vhf1"].ports["com"]
    assert dict(port.harmonics_db) == {"12": 95.0, "13": 92.0}
    assert (port.overload_dbm, port.damage_dbm) == (-10.0, 20.0)
    assert dict(port.noise_dbm_per_hz) == {"all": -140.0, "gnss": -165.0}
