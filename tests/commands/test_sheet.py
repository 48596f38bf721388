# SPDX-License-Identifier: Apache-2.0
"""rfplan sheet: the sheets asked for, in the format asked for, whatever the verdict."""

from __future__ import annotations

import csv
import io
import json
from pathlib import Path
from zipfile import ZipFile

import pytest
from command_line import FAILING, NAMES, PLAN, Run, aircraft

from rfplan.commands.sheet import FILED
from rfplan.reports.sheets import SHEETS, summary

TITLES = [SHEETS[key].TITLE for key in FILED]


@pytest.fixture
def plan(tmp_path: Path) -> str:
    return aircraft(tmp_path / "kite", FAILING)


def test_without_a_name_the_screen_lists_the_sheets_a_line_each(rfplan: Run, plan: str) -> None:
    answer = rfplan("sheet", plan)
    assert (answer.code, answer.err) == (0, "")
    lines = [line.split(maxsplit=1) for line in answer.out.splitlines()]
    listed = [line for line in lines if line and line[0] in SHEETS]
    assert listed == [[key, SHEETS[key].TITLE] for key in SHEETS]
    told = " ".join(answer.out.split())
    assert f"rfplan sheet {plan} loss_budget prints one, rfplan sheet {plan} all prints all" in told


def test_all_stands_for_every_sheet_that_is_filed(rfplan: Run, plan: str) -> None:
    answer = rfplan("sheet", plan, "all")
    assert (answer.code, answer.err) == (0, "")
    lines = answer.out.splitlines()
    assert [line for line in lines if line in TITLES] == TITLES
    assert summary.TITLE not in lines


def test_sheets_come_in_the_order_asked_for(rfplan: Run, plan: str) -> None:
    lines = rfplan("sheet", plan, "spacing", "summary").out.splitlines()
    assert lines[0] == "Spacing of antennas"
    assert summary.TITLE in lines


def test_a_sheet_that_there_is_not_is_named_before_anything_is_read(rfplan: Run) -> None:
    answer = rfplan("sheet", "nowhere", "loss_budgt")
    assert (answer.code, answer.out) == (2, "")
    assert answer.err == "rfplan: no sheet 'loss_budgt'; did you mean loss_budget?\n"


def test_a_plan_that_cannot_be_read_gives_no_sheet(rfplan: Run) -> None:
    answer = rfplan("sheet", "nowhere")
    assert (answer.code, answer.out) == (2, "")
    assert "nowhere:1:1: there is no such file" in answer.err


def test_the_date_on_a_sheet_is_the_one_given(rfplan: Run, plan: str) -> None:
    def dated(*options: str) -> str:
        lines = rfplan("sheet", plan, "spacing", *options).out.splitlines()
        return next(line.split()[1] for line in lines if line.startswith("date "))

    assert dated() == "2026-11-20"
    assert dated("--date", "2027-01-31") == "2027-01-31"


def test_a_sheet_names_files_from_the_folder_of_the_plan_on(
    rfplan: Run, plan: str, tmp_path: Path
) -> None:
    shown = rfplan("sheet", plan, "open_points", "--format", "csv").out
    rows = [row for row in csv.reader(io.StringIO(shown)) if len(row) > 6]
    head = next(row for row in rows if "file" in row)
    files = {row[head.index("file")] for row in rows if len(row) == len(head)}
    assert {"file", "cable_catalog/cables/rg_400_u.yaml"} <= files
    assert str(tmp_path) not in shown


# --- formats ------------------------------------------------------------------------------------


def test_one_sheet_as_json_is_an_object_and_several_are_an_array(rfplan: Run, plan: str) -> None:
    one = json.loads(rfplan("sheet", plan, "spacing", "--format", "json").out)
    assert one["sheet"] == "spacing"
    all_of_them = json.loads(rfplan("sheet", plan, "--format", "json").out)
    assert [sheet["sheet"] for sheet in all_of_them] == list(FILED)


def test_sheets_as_csv_are_one_table_with_one_kind_of_line_end(
    rfplan: Run, plan: str, tmp_path: Path
) -> None:
    path = tmp_path / "sheets.csv"
    assert rfplan("sheet", plan, "--format", "csv", "-o", str(path)).code == 0
    content = path.read_bytes().decode()
    assert content.count("\n") == content.count("\r\n") > 0
    rows = list(csv.reader(io.StringIO(content)))
    assert [row[0] for row in rows if row and row[0] in TITLES] == TITLES


def test_sheets_as_markdown_have_a_heading_each(rfplan: Run, plan: str) -> None:
    lines = rfplan("sheet", plan, "--format", "md").out.splitlines()
    assert [line for line in lines if line.startswith("# ")] == [f"# {title}" for title in TITLES]


def test_sheets_as_html_are_one_document(rfplan: Run, plan: str) -> None:
    shown = rfplan("sheet", plan, "--format", "html").out
    assert shown.count("<!DOCTYPE html>") == shown.count("</html>") == 1
    assert shown.count("<article ") == len(FILED)


@pytest.mark.parametrize(
    ("name", "head"),
    [("a.html", b"<!DOCTYPE"), ("a.json", b"{"), ("a.txt", b"Spacing"), ("a", b"Spacing")],
)
def test_the_ending_of_the_file_tells_its_format(
    rfplan: Run, plan: str, tmp_path: Path, name: str, head: bytes
) -> None:
    file = tmp_path / name
    assert rfplan("sheet", plan, "spacing", "-o", str(file)).code == 0
    assert file.read_bytes().startswith(head)


def test_an_ending_that_is_no_format_is_refused_unless_one_is_named(
    rfplan: Run, plan: str, tmp_path: Path
) -> None:
    file = tmp_path / "spacing.doc"
    refused = rfplan("sheet", plan, "spacing", "-o", str(file))
    assert refused.code == 2
    assert "no format 'doc'" in refused.err and not file.exists()
    assert rfplan("sheet", plan, "spacing", "--format", "text", "-o", str(file)).code == 0


@pytest.mark.parametrize("name", ["{plan}@rel:A", "{plan}/released/A.zip"])
def test_a_released_sheet_is_printed_as_it_was_filed(
    rfplan: Run, tmp_path: Path, name: str
) -> None:
    plan = aircraft(tmp_path / "kite", PLAN + NAMES)
    assert rfplan("release", plan).code == 0
    package = ZipFile(Path(plan) / "released" / "A.zip")
    filed = package.read("sheets/loss_budget.json").decode("utf-8")
    later = (Path(plan) / "plan.yaml").read_text("utf-8").replace("rg_400_u", "rg_58c_u")
    (Path(plan) / "plan.yaml").write_text(later, "utf-8")
    answer = rfplan("sheet", name.format(plan=plan), "loss_budget", "--format", "json")
    assert (answer.code, answer.err, answer.out) == (0, "", filed)
    printed = rfplan("sheet", name.format(plan=plan), "loss_budget").out
    assert "released" in printed and "DRAFT" not in printed
    assert "rg_400_u" in printed and "rg_400_u" not in rfplan("sheet", plan, "loss_budget").out


def test_a_package_that_is_not_whole_gives_no_sheet(rfplan: Run, tmp_path: Path) -> None:
    plan = aircraft(tmp_path / "kite", PLAN + NAMES)
    rfplan("release", plan)
    file = Path(plan) / "released" / "A.zip"
    file.chmod(0o600)
    content = bytearray(file.read_bytes())
    content[len(content) // 2] ^= 1
    file.write_bytes(content)
    answer = rfplan("sheet", f"{plan}@rel:A", "loss_budget")
    assert (answer.code, answer.out) == (2, "")
    assert "damaged or changed" in answer.err
