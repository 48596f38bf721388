# SPDX-License-Identifier: Apache-2.0
"""rfplan drawing: the placement drawing on the screen or in a file, whatever the verdict."""

from __future__ import annotations

from pathlib import Path
from xml.etree import ElementTree

from command_line import FAILING, Run, aircraft


def test_the_drawing_is_printed_as_svg(rfplan: Run, tmp_path: Path) -> None:
    answer = rfplan("drawing", aircraft(tmp_path / "kite", FAILING))
    assert (answer.code, answer.err) == (0, "")
    assert ElementTree.fromstring(answer.out).tag == "{http://www.w3.org/2000/svg}svg"


def test_the_drawing_is_written_whole_and_never_over_a_file_by_itself(
    rfplan: Run, tmp_path: Path
) -> None:
    plan, place = aircraft(tmp_path / "kite"), tmp_path / "placement.svg"
    assert rfplan("drawing", plan, "-o", str(place)).code == 0
    first = place.read_bytes()
    again = rfplan("drawing", plan, "-o", str(place))
    assert (again.code, place.read_bytes()) == (2, first)
    assert "--force" in again.err
    assert rfplan("drawing", plan, "-o", str(place), "--force").code == 0
    assert place.read_bytes() == first


def test_the_state_and_the_unit_are_those_asked_for(rfplan: Run, tmp_path: Path) -> None:
    plan = aircraft(tmp_path / "kite")
    found = rfplan("drawing", plan, "--state", "found", "--units", "mm").out
    assert "found" in found
    assert "places in millimetres" in found


def test_a_plan_that_cannot_be_read_is_refused(rfplan: Run) -> None:
    answer = rfplan("drawing", "nowhere")
    assert answer.code == 2
    assert "there is no such file" in answer.err


def test_a_file_by_the_name_of_another_format_is_not_written(rfplan: Run, tmp_path: Path) -> None:
    plan, place = aircraft(tmp_path / "kite"), tmp_path / "placement.png"
    answer = rfplan("drawing", plan, "-o", str(place))
    assert (answer.code, place.exists()) == (2, False)
    assert "placement.png: the file is written as .svg only" in answer.err
