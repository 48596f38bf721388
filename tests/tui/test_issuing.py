# SPDX-License-Identifier: Apache-2.0
"""The Sheet screen shows what is filed; exports and releases go where they are told."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

import pytest
from command_line import Run
from workspaces import PLAN, Seat, frozen_folder, look_of

from rfplan.records.exports import PACKAGE
from rfplan.reports.documents import LIBRARIES
from rfplan.reports.formats import text
from rfplan.reports.sheet import Cell, Sheet
from rfplan.reports.sheets import FILED, SHEETS
from rfplan.tui.actions import ACTIONS, ScreenId
from rfplan.tui.overlays.export import ExportOverlay
from rfplan.tui.overlays.reading import ReadingOverlay
from rfplan.tui.overlays.release import ReleaseForm
from rfplan.tui.present.sheet import sheet_rows
from rfplan.tui.present.tags import Type
from rfplan.tui.runs import text_of
from rfplan.tui.tokens import Token

SHEET = ScreenId.SHEET.key
DEMO = Path(__file__).resolve().parents[2] / "demo_aircraft" / "amphibian"

SIGN = "\u00a4"
"""A sign that no sheet holds, in place of those of all verdicts."""

GLYPHS = replace(
    look_of().glyphs,
    **dict.fromkeys(("passes", "near", "fails", "waived", "incomplete", "advice"), SIGN),
)


@pytest.fixture(scope="module")
def demo(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Seat]:
    """A seat at the demo aircraft, high enough to see any sheet whole."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setenv("XDG_STATE_HOME", str(tmp_path_factory.mktemp("state")))
        seat = Seat(DEMO, (200, 1500))
        seat.press(SHEET)
        yield seat


@pytest.fixture
def seat(frozen: Path) -> Seat:
    seat = Seat(frozen)
    seat.press(SHEET)
    return seat


def cells_of(sheet: Sheet) -> Iterator[Cell]:
    yield from (cell for _, cell in sheet.header)
    yield from (cell for table in sheet.tables for row in table.rows for cell in row)


@pytest.mark.parametrize("key", SHEETS)
def test_every_line_of_the_text_format_stands_on_the_screen(key: str, demo: Seat) -> None:
    sheet = demo.workspace.issuing.sheet(key)
    told = sheet_rows(sheet, 9000, Type(GLYPHS))
    ours = [text_of(row).replace(SIGN, "").split() for row in told.rows]
    title, *theirs = text.write(sheet, width=9000).splitlines()
    dashes = {"-" * count for count in range(2, 9000)}
    assert title == sheet.title
    assert [[w for w in line if w not in dashes] for line in ours] == [
        [w for w in line.split() if w not in dashes] for line in theirs
    ]


@pytest.mark.parametrize("key", SHEETS)
def test_every_cell_of_a_sheet_stands_on_the_screen(key: str, demo: Seat) -> None:
    workspace = demo.workspace
    workspace.issuing.choose(key)
    shown = Counter(demo.draw().text().split())
    cells = Counter(
        word for cell in cells_of(workspace.issuing.sheet(key)) for word in cell.text.split()
    )
    wrapped = {word for word in cells if len(word) > text.LONGEST_WORD}
    assert not {word for word in cells - shown if word not in wrapped}


@pytest.mark.parametrize("width", [40, 77, 91, 160])
@pytest.mark.parametrize("key", SHEETS)
def test_no_row_of_a_sheet_is_wider_than_its_pane(key: str, width: int, demo: Seat) -> None:
    told = sheet_rows(demo.workspace.issuing.sheet(key), width, Type(look_of().glyphs))
    assert max(len(text_of(row)) for row in told.rows) <= width


def test_verdicts_have_their_ink_and_their_sign(demo: Seat) -> None:
    told = sheet_rows(demo.workspace.issuing.sheet("loss_budget"), 160, Type(look_of().glyphs))
    runs = {(run.text.strip(), run.token) for row in told.rows for run in row}
    assert ("√ PASS", Token.PASS) in runs
    assert ("≈ WAIVED", Token.WAIVED) in runs
    assert not {run for run in runs if run[0] in ("PASS", "WAIVED", "FAIL")}


def test_the_sheet_is_the_one_that_the_command_prints(
    seat: Seat, rfplan: Run, frozen: Path
) -> None:
    for key in FILED:
        seat.workspace.issuing.choose(key)
        seat.press("y")
        answer = rfplan("sheet", str(frozen), key, "-o", str(frozen / f"{key}.txt"))
        assert answer.code == 0
        assert seat.desk.copied[-1] == (frozen / f"{key}.txt").read_text("utf-8")


def test_the_loss_budget_is_shown_first_from_its_first_table_on(seat: Seat) -> None:
    lines = seat.frame.text().splitlines()
    assert f"Loss budget  2 of {len(SHEETS)}  DRAFT" in lines[1]
    assert lines[2].strip() == "Paths"
    heading = seat.press("home")
    assert "frozen/A/design/loss_budget" in heading
    assert "plan hash" in heading


def test_brackets_go_to_the_next_sheet_and_to_the_one_before(seat: Seat) -> None:
    keys = list(SHEETS)
    at = keys.index("loss_budget")
    seat.press("pagedown", "]")
    assert seat.workspace.issuing.key == keys[at + 1]
    assert SHEETS[keys[at + 1]].TITLE in seat.frame.text().splitlines()[1]
    seat.press("[", "[")
    assert seat.workspace.issuing.key == keys[at - 1]
    for _ in keys:
        seat.press("[")
    assert seat.workspace.issuing.key == keys[at - 1]


def test_arrows_and_the_wheel_scroll_the_sheet(seat: Seat) -> None:
    first = seat.frame.text().splitlines()
    assert seat.press("down").splitlines()[2:20] == first[3:21]
    seat.workspace.wheel(30, 10, 1)
    assert seat.draw().text().splitlines()[2:20] == first[4:22]
    paged = seat.press("up", "up", "pagedown").splitlines()
    assert paged[2] == first[21]


def test_the_list_of_sheets_is_chosen_from_by_keys_and_clicks(frozen: Path) -> None:
    seat = Seat(frozen, (120, 40))
    lines = seat.press(SHEET).splitlines()
    assert [
        file.TITLE for file in SHEETS.values() if not any(file.TITLE[:15] in x for x in lines)
    ] == []
    seat.press("tab", "down")
    assert seat.workspace.looking.focus == "sheets"
    assert seat.workspace.issuing.key == "response"
    seat.press("enter")
    assert seat.workspace.looking.focus == "sheet"
    row = next(at for at, line in enumerate(lines) if "Cautions" in line)
    seat.workspace.click(5, row)
    assert seat.workspace.issuing.key == "cautions"


def test_a_sheet_is_built_once_for_a_plan_and_only_when_it_is_shown(
    frozen: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    built: list[str] = []
    for key, file in SHEETS.items():

        def build(*arguments: object, key: str = key, own: object = file.build) -> Sheet:
            built.append(key)
            return own(*arguments)  # type: ignore[operator,no-any-return]

        monkeypatch.setattr(file, "build", build)
    seat = Seat(frozen)
    seat.press("m", "down", "enter", "2", ScreenId.CHANGES.key, "1")
    assert built == []
    seat.press(SHEET, "down", "pagedown", "]", "[", "T")
    assert built == ["loss_budget", "response"]
    seat.press("u")
    assert built[2:] == ["loss_budget"]


def test_a_draft_says_so_and_until_when(frozen: Path) -> None:
    plan = frozen / "plan.yaml"
    drafts = {
        PLAN.replace("min: 36 in", "min: 90 in"): ("FAIL", "until it is fixed or waived"),
        PLAN.replace("1.5 .. 6.5 dB", '"?"'): ("INCOMPLETE", "until what is missing is entered"),
        PLAN: ("NEAR", "until the plan is released"),
    }
    for content, (word, until) in drafts.items():
        plan.write_text(content, encoding="utf-8")
        seat = Seat(frozen)
        seat.press(SHEET)
        assert f"{word}: every copy says DRAFT {until}" in seat.sentence
        assert "DRAFT" in seat.frame.text().splitlines()[1]
    plan.write_text(PLAN.replace("status: draft", "status: released"), encoding="utf-8")
    seat = Seat(frozen)
    assert "DRAFT" not in seat.press(SHEET)
    assert "as it will be filed" in seat.frame.text()


def test_what_a_file_says_is_escaped_on_the_sheet(frozen: Path) -> None:
    plan = frozen / "plan.yaml"
    hostile = "title: '[red]a[/red] \\x1b]0;x'\n"
    plan.write_text(PLAN.replace("title: navigator\n", hostile.replace("\\x1b", "\u202e")))
    seat = Seat(frozen, (120, 40))
    seat.workspace.issuing.choose("survey")
    seat.press(SHEET)
    shown = seat.workspace.placed["sheet"].pane
    assert shown is not None
    assert "[red]a[/red] \\u202e]0;x" in " ".join(shown.text().split())
    assert "\u202e" not in seat.frame.text()


# exports


def written(seat: Seat, frozen: Path) -> set[str]:
    return {path.name for path in (frozen / "sheets_A_design").iterdir()}


def test_the_sheet_that_is_shown_is_exported_with_two_keys(seat: Seat, frozen: Path) -> None:
    seat.press("]", "x")
    assert isinstance(seat.workspace.overlay, ExportOverlay)
    seat.press("enter")
    assert written(seat, frozen) == {"response.txt"}
    assert "√ response.txt written in" in seat.sentence


def test_marks_a_format_and_a_folder_are_chosen(seat: Seat, frozen: Path) -> None:
    seat.press("x", "a", "right", "up", " ", "down")
    assert "[csv]" in seat.frame.text()
    seat.press("enter")
    names = written(seat, frozen)
    assert {"loss_budget.csv", "placement.svg", PACKAGE} <= names
    assert "summary.csv" not in names
    assert len(names) == len(SHEETS) + 1


def test_a_name_without_a_slash_is_one_file_of_all_sheets(seat: Seat, frozen: Path) -> None:
    seat.press("x", "down", " ", "tab", "ctrl+u")
    assert "2 sheets in one file, both.txt" in seat.type("both.txt")
    seat.press("enter")
    content = (frozen / "both.txt").read_text("utf-8")
    assert content.startswith("Loss budget\n")
    assert "\nResponse over frequency\n" in content


def test_the_totals_of_an_export_equal_those_of_the_model(seat: Seat, frozen: Path) -> None:
    seat.press("x", "enter")
    content = (frozen / "sheets_A_design" / "loss_budget.txt").read_text("utf-8")
    for path in seat.workspace.session.assessment.paths:
        for band in path.bands:
            assert f"{band.judged_db[1]:.2f}" in content


def test_nothing_that_is_there_is_replaced_without_a_second_enter(seat: Seat, frozen: Path) -> None:
    kept = frozen / "sheets_A_design" / "loss_budget.txt"
    kept.parent.mkdir()
    kept.write_text("mine")
    assert "is there already. enter again replaces" in seat.press("x", "enter")
    assert kept.read_text() == "mine"
    seat.press("right", "left", "enter")
    assert kept.read_text() == "mine"
    seat.press("enter")
    assert kept.read_text("utf-8").startswith("Loss budget")


def test_a_folder_that_cannot_be_written_is_told(seat: Seat, frozen: Path) -> None:
    seat.press("x", "tab", "ctrl+u")
    seat.type("no/such/x.txt")
    seat.press("enter")
    assert "Not written: there is no folder" in seat.sentence
    assert seat.workspace.issuing.progress == ""


def test_nothing_marked_and_two_kinds_in_one_file_are_refused_at_once(seat: Seat) -> None:
    assert "Nothing is chosen." in seat.press("x", " ")
    seat.press(" ", "end", "up", " ")
    overlay = seat.workspace.overlay
    seat.press("tab", "ctrl+u")
    assert "name a folder, with / at its end" in " ".join(seat.type("x.txt").split())
    assert seat.press("enter") == seat.frame.text()
    assert seat.workspace.overlay is overlay


def test_a_format_without_its_library_says_how_to_get_it(
    seat: Seat, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setitem(LIBRARIES, "pdf", "no_such_library_at_all")
    seat.press("x", "left", "left")
    assert "pip install 'rfplan[pdf]'" in seat.frame.text()
    seat.press("enter")
    assert seat.workspace.overlay is not None


def test_a_package_waits_for_the_plan_to_be_saved(seat: Seat, frozen: Path) -> None:
    seat.press("1", "m", "down", "enter", "x")
    overlay = seat.workspace.overlay
    assert isinstance(overlay, ExportOverlay)
    overlay.at = len(overlay.pieces) - 1
    assert "save first" in seat.press(" ")
    assert "not saved" in seat.press("up")
    assert not overlay.pieces[-1].chosen


def test_pieces_are_marked_by_clicks(seat: Seat) -> None:
    lines = seat.press("x").splitlines()
    row = next(at for at, line in enumerate(lines) if "[ ] Findings" in line)
    seat.workspace.click(12, row)
    assert "[x] Findings" in seat.draw().text()
    row = next(at for at, line in enumerate(lines) if "[text]" in line)
    seat.workspace.click(12, row)
    assert "[csv]" in seat.draw().text()


# releases


READY = PLAN.replace(
    "prepared: {name: P. Vorn, role: technician}", 'prepared: {name: P. Vorn}\n  checked: "?"'
)


def accepted(folder: Path) -> Path:
    """Write the frozen plan with every point to confirm accepted by name."""
    frozen_folder(folder)
    (folder / "plan.yaml").write_text(READY, encoding="utf-8")
    points = [one.id for one in Seat(folder).workspace.session.assessment.open_points]
    lines = "".join(f"  {id}: {{who: R. Ode, date: 2026-11-20}}\n" for id in points)
    (folder / "plan.yaml").write_text(f"{READY}accepted:\n{lines}", encoding="utf-8")
    return folder


def ask_release(seat: Seat) -> str:
    seat.press(":")
    seat.type("release")
    return seat.press("enter")


def test_a_release_is_refused_with_the_reasons_of_the_command(frozen: Path, rfplan: Run) -> None:
    seat = Seat(frozen)
    assert "against it" in ask_release(seat)
    form = seat.workspace.overlay
    assert isinstance(form, ReleaseForm)
    answer = rfplan("release", str(frozen))
    reasons = form.reasons()
    assert answer.err.splitlines()[: len(reasons)] == reasons
    seat.press("enter")
    assert isinstance(seat.workspace.overlay, ReadingOverlay)
    assert "people.checked: no name" in seat.frame.text()
    seat.press("end")
    assert "press w" in seat.frame.text()
    assert "w" in next(one for one in ACTIONS if one.id == "waive").keys
    assert not (frozen / "released").exists()


def test_letter_and_names_are_saved_and_the_plan_is_released(tmp_path: Path) -> None:
    folder = accepted(tmp_path / "ready")
    seat = Seat(folder)
    assert "people.checked: no name" in ask_release(seat)
    seat.press("ctrl+u", "B", "tab", "tab")
    seat.type("K. Lind")
    seat.press("tab")
    assert "Nothing speaks against it" in seat.type("R. Ode")
    seat.press("enter")
    assert seat.sentence.startswith("√ released/B.zip written")
    assert [path.name for path in (folder / "released").iterdir()] == ["B.zip"]
    saved = (folder / "plan.yaml").read_text("utf-8")
    assert "revision: {letter: B, status: draft, date: 2026-10-01}" in saved
    assert "checked: {name: K. Lind, date: " in saved
    assert "# kept from the survey" in saved
    assert seat.workspace.session.unsaved == 0


def test_a_letter_that_is_released_already_is_never_written_over(tmp_path: Path) -> None:
    folder = accepted(tmp_path / "ready")
    text = (folder / "plan.yaml").read_text("utf-8")
    names = "checked: {name: K. Lind}\n  released: {name: R. Ode}"
    (folder / "plan.yaml").write_text(text.replace('checked: "?"', names), encoding="utf-8")
    seat = Seat(folder)
    ask_release(seat)
    seat.press("enter")
    filed = (folder / "released" / "A.zip").read_bytes()
    ask_release(seat)
    seat.press("enter")
    assert "Not released: this revision is released already" in seat.sentence
    assert (folder / "released" / "A.zip").read_bytes() == filed
