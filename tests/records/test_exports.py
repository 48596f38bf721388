# SPDX-License-Identifier: Apache-2.0
"""Exports hold what the commands write, go where they are told, and replace nothing unasked."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest
from command_line import Run
from plan_files import shipped_catalog, shipped_rulebook

from rfplan.assess import assess
from rfplan.files.load import load_plan
from rfplan.model.plan import Plan, Revision
from rfplan.records.context_of import context_of
from rfplan.records.exports import DRAWING, PACKAGE, Order, Origin, carried_out, folder_for
from rfplan.records.settings import Settings
from rfplan.reports.printing import ENDINGS
from rfplan.reports.sheets import FILED

TWO = ("loss_budget", "cut_list")


@pytest.fixture
def origin(plan: Path) -> Origin:
    loaded = load_plan(plan, catalog=shipped_catalog(), rulebook=shipped_rulebook())
    assessment = assess(loaded.plan, shipped_catalog(), shipped_rulebook())
    settings = Settings()
    context = context_of(assessment, loaded, settings, None)
    return Origin(assessment, context, plan, settings, None)


def text_order(target: Path, *sheets: str) -> Order:
    return Order(sheets, "text", target, into_folder=False)


def test_each_sheet_has_a_file_of_its_own_in_a_folder(origin: Origin, tmp_path: Path) -> None:
    order = replace(text_order(tmp_path / "out", *TWO), into_folder=True)
    steps = list(carried_out(order, origin))
    assert steps == ["1 of 2 sheets", "2 of 2 sheets"]
    assert {path.name for path in order.paths} == {"loss_budget.txt", "cut_list.txt"}
    assert sorted((tmp_path / "out").iterdir()) == sorted(order.paths)


@pytest.mark.parametrize("format", ENDINGS)
def test_a_file_holds_what_the_command_writes(
    format: str, origin: Origin, plan: Path, tmp_path: Path, rfplan: Run
) -> None:
    order = replace(text_order(tmp_path / "ours", *FILED), format=format)
    list(carried_out(order, origin))
    name = {"markdown": "md"}.get(format, format)
    theirs = tmp_path / "theirs"
    answer = rfplan("sheet", str(plan), "--format", name, "-o", str(theirs))
    assert (answer.code, answer.err) == (0, "")
    assert (tmp_path / "ours").read_bytes() == theirs.read_bytes()


def test_drawing_and_package_are_those_of_the_commands(
    origin: Origin, plan: Path, packed: bytes, tmp_path: Path, rfplan: Run
) -> None:
    order = Order((), "text", tmp_path / "out", into_folder=True, drawing=True, package=True)
    assert list(carried_out(order, origin)) == ["the drawing", "the package"]
    drawing = tmp_path / "drawing.svg"
    assert rfplan("drawing", str(plan), "-o", str(drawing)).code == 0
    assert (tmp_path / "out" / DRAWING).read_bytes() == drawing.read_bytes()
    assert (tmp_path / "out" / PACKAGE).read_bytes() == packed


def test_a_package_alone_goes_into_the_file_that_is_named(origin: Origin, tmp_path: Path) -> None:
    order = Order((), "text", tmp_path / "one.zip", into_folder=False, package=True)
    list(carried_out(order, origin))
    assert (tmp_path / "one.zip").read_bytes()[:2] == b"PK"


def test_what_is_there_stays_unless_it_is_to_be_replaced(origin: Origin, tmp_path: Path) -> None:
    order = text_order(tmp_path / "one.txt", "cut_list")
    assert order.there_already == ()
    (tmp_path / "one.txt").write_text("old")
    assert order.there_already == (tmp_path / "one.txt",)
    with pytest.raises(FileExistsError):
        list(carried_out(order, origin))
    assert (tmp_path / "one.txt").read_text() == "old"
    list(carried_out(replace(order, replace=True), origin))
    assert (tmp_path / "one.txt").read_text().startswith("Cut list")


def test_an_order_of_nothing_or_of_two_kinds_for_one_file_is_at_fault(tmp_path: Path) -> None:
    assert text_order(tmp_path / "x").fault == "Nothing is chosen."
    order = replace(text_order(tmp_path / "x", "cut_list"), drawing=True)
    assert "name a folder" in order.fault
    assert replace(order, into_folder=True).fault == ""
    assert replace(order, drawing=False).fault == ""


@pytest.mark.parametrize(
    ("letter", "name"),
    [
        ("B", "sheets_B_design"),
        (None, "sheets_design"),
        ("../../etc/passwd", "sheets_etc_passwd_design"),
        ("\x1b]0;x\x07/..", "sheets_0_x_design"),
        ("x" * 90, f"sheets_{'x' * 16}_design"),
    ],
)
def test_the_name_of_a_folder_holds_nothing_but_words(
    letter: str | None, name: str, origin: Origin
) -> None:
    plan: Plan = replace(origin.assessment.plan, revision=Revision(letter))
    assert folder_for(plan) == name
