# SPDX-License-Identifier: Apache-2.0
"""rfplan catalog: what ships, whether a cable file hangs together, the fit of a reel's table."""

from __future__ import annotations

from pathlib import Path

import pytest
from command_line import Run

from rfplan.files.folders import shipped

CABLE = """\
rfplan: cable/1
designation: a reel of the shop
impedance: 50 ohm
velocity: 0.695
capacitance: 96 pF/m
diameter: 4.95 mm
sources: {{sheet: {{class: measured, who: A. Person, date: 2026-11-20}}}}
source: sheet
attenuation:
  maximum:
    {figures}
"""

GUIDE = ["50MHz=10.83dB/100m", "150MHz=20.01dB/100m", "450MHz=38.55dB/100m", "850MHz=58.23dB/100m"]


def cable_file(folder: Path, figures: str) -> str:
    path = folder / "reel.yaml"
    path.write_text(CABLE.format(figures=figures), "utf-8")
    return str(path)


@pytest.mark.parametrize("arguments", [[], ["list"]])
def test_the_catalogue_is_listed(rfplan: Run, arguments: list[str]) -> None:
    answer = rfplan("catalog", *arguments)
    assert (answer.code, answer.err) == (0, "")
    for folder in ("cables", "connectors", "inline_parts", "antennas"):
        for path in (shipped("cable_catalog") / folder).glob("*.yaml"):
            assert f"\n{path.stem} " in answer.out


def test_a_catalogue_folder_that_is_not_there_is_named(rfplan: Run) -> None:
    answer = rfplan("catalog", "--catalog", "nowhere")
    assert answer.code == 2
    assert "nowhere:1:1: there is no such folder" in answer.err


@pytest.mark.parametrize(
    ("arguments", "said"),
    [
        (["check"], "rfplan catalog check: names no cable file"),
        (["fit"], "rfplan catalog fit: names no points, such as 50MHz=10.8dB/100m"),
        (["list", "x"], "rfplan catalog list: 'x' is one word too many"),
        (["chek", "x"], "no action 'chek'; did you mean check?"),
    ],
)
def test_an_action_that_cannot_be_done_is_answered(
    rfplan: Run, arguments: list[str], said: str
) -> None:
    answer = rfplan("catalog", *arguments)
    assert (answer.code, answer.out) == (2, "")
    assert said in answer.err


# --- check --------------------------------------------------------------------------------------


def test_a_cable_file_that_hangs_together_passes(rfplan: Run, tmp_path: Path) -> None:
    name = cable_file(tmp_path, "points: {50 MHz: 8 dB/100 m, 500 MHz: 26 dB/100 m}")
    answer = rfplan("catalog", "check", name)
    assert (answer.code, answer.out) == (0, f"{name}: hangs together\n")


def test_a_loss_that_does_not_rise_is_told(rfplan: Run, tmp_path: Path) -> None:
    name = cable_file(tmp_path, "points: {50 MHz: 8 dB/100 m, 500 MHz: 7 dB/100 m}")
    answer = rfplan("catalog", "check", name)
    assert answer.code == 1
    assert f"{name}: maximum: the loss does not rise after 50 MHz" in answer.out


def test_a_file_that_cannot_be_read_outweighs_the_others(rfplan: Run, tmp_path: Path) -> None:
    name = cable_file(tmp_path, "points: {50 MHz: 8 dB/100 m, 500 MHz: 26 dB/100 m}")
    connector = str(shipped("cable_catalog") / "connectors" / "bnc.yaml")
    answer = rfplan("catalog", "check", "nowhere.yaml", connector, name)
    assert answer.code == 2
    first, second, third = answer.out.splitlines()
    assert first == "nowhere.yaml:1:1: there is no such file"
    assert "this is a file of kind 'connector'" in second
    assert third == f"{name}: hangs together"


# --- fit ----------------------------------------------------------------------------------------


def test_a_fit_gives_the_constants_as_a_cable_file_takes_them(rfplan: Run, tmp_path: Path) -> None:
    answer = rfplan("catalog", "fit", *GUIDE)
    assert (answer.code, answer.err) == (0, "")
    (fit,) = (line for line in answer.out.splitlines() if line.startswith("fit: "))
    assert fit == "fit: {k1: 1.37978, k2: 0.020959, range: 50 .. 850 MHz}"
    assert rfplan("catalog", "check", cable_file(tmp_path, fit)).code == 0


def test_the_order_of_the_points_does_not_matter(rfplan: Run) -> None:
    forward, backward = (rfplan("catalog", "fit", *points) for points in (GUIDE, GUIDE[::-1]))
    assert forward.out == backward.out


def test_what_lies_beyond_the_points_is_called_extrapolated(rfplan: Run) -> None:
    lines = rfplan("catalog", "fit", *GUIDE).out.splitlines()
    beyond = {line.split()[0]: line.endswith("extrapolated") for line in lines if " MHz  " in line}
    assert beyond["118.00"] is False
    assert beyond["1575.42"] is True


def test_a_poor_fit_is_not_to_be_extrapolated(rfplan: Run) -> None:
    poor = [*GUIDE[:-1], "850MHz=90dB/100m"]
    assert "not to be used beyond the table" in rfplan("catalog", "fit", *poor).out
    assert "not to be used" not in rfplan("catalog", "fit", *GUIDE).out


def test_two_points_prove_nothing(rfplan: Run) -> None:
    assert "two points always fit" in rfplan("catalog", "fit", *GUIDE[:2]).out


@pytest.mark.parametrize(
    ("point", "said"),
    [
        ("50MHz", "50MHz: there is no '='; write 50MHz=10.8dB/100m"),
        ("50MHz=10.8", "50MHz=10.8: the number 10.8 has no unit; expected an attenuation"),
        ("50m=10.8dB/100m", "50m=10.8dB/100m: unit 'm' is not a frequency unit"),
        ("0MHz=10.8dB/100m", "positive"),
        ("450MHz=38.55dB/100m", "two different frequencies"),
    ],
)
def test_a_point_that_is_none_is_named(rfplan: Run, point: str, said: str) -> None:
    answer = rfplan("catalog", "fit", point, "450MHz=38.55dB/100m")
    assert (answer.code, answer.out) == (2, "")
    assert answer.err.startswith("rfplan catalog fit: ")
    assert said in answer.err
