# SPDX-License-Identifier: Apache-2.0
"""The command line is calm: it says what it does not know, and it never leaves a traceback."""

from __future__ import annotations

import importlib
import os
import subprocess
import sys
from argparse import Namespace
from pathlib import Path

import pytest
from command_line import Run, aircraft, fresh

from rfplan import __version__
from rfplan.analysis.isolation_models import Rung
from rfplan.cli import ELSEWHERE, parser
from rfplan.commands import rules
from rfplan.commands.options import FORMATS, RUNGS, STATES
from rfplan.model.plan import State
from rfplan.reports.formats import FORMATS as FORMAT_FILES
from rfplan.reports.sheets import SHEETS

COMMANDS = tuple(parser()[1])

LOADED = """
import sys
from rfplan.cli import main
try:
    main({arguments!r})
except SystemExit:
    pass
print(sorted({{"textual", "rich", "numpy", "yaml", "pydantic", "skrf"}} & set(sys.modules)))
"""

ESCAPE = "\x1b"


@pytest.fixture
def broken(monkeypatch: pytest.MonkeyPatch) -> None:
    """Let the command `rules` stumble over a fault of its own."""

    def stumble(_: Namespace) -> int:
        raise KeyError("\x1b[31mno such thing")

    monkeypatch.setattr(rules, "run", stumble)


# --- help ---------------------------------------------------------------------------------------


@pytest.mark.parametrize("arguments", [["--help"], ["--version"], ["check", "--help"], ["chek"]])
def test_help_version_and_mistyped_words_load_nothing_heavy(arguments: list[str]) -> None:
    program = LOADED.format(arguments=arguments)
    done = subprocess.run([sys.executable, "-c", program], capture_output=True, check=True)
    assert done.stdout.decode().splitlines()[-1] == "[]"


def test_the_version_is_that_of_the_package(rfplan: Run) -> None:
    answer = rfplan("--version")
    assert (answer.code, answer.out) == (0, f"rfplan {__version__}\n")


@pytest.mark.parametrize("arguments", [[], ["--help"]])
def test_help_names_every_command_and_every_exit_code(rfplan: Run, arguments: list[str]) -> None:
    answer = rfplan(*arguments)
    assert answer.code == 0
    assert all(f"    {command}" in answer.out for command in COMMANDS)
    assert all(f"{code} " in answer.out.partition("exit codes:")[2] for code in range(4))


@pytest.mark.parametrize("command", COMMANDS)
def test_each_command_explains_itself(rfplan: Run, command: str) -> None:
    answer = rfplan(command, "--help")
    assert answer.code == 0
    assert answer.out.startswith(f"usage: rfplan {command} ")


@pytest.mark.parametrize("command", COMMANDS)
def test_each_command_is_a_module_with_a_way_to_run_it(command: str) -> None:
    module = importlib.import_module(ELSEWHERE.get(command, f"rfplan.commands.{command}"))
    assert callable(module.run)


def test_the_words_of_options_are_those_that_the_tool_knows(rfplan: Run) -> None:
    assert set(STATES) == set(State)
    assert set(RUNGS) == set(Rung)
    assert {{"md": "markdown"}.get(word, word) for word in FORMATS} == set(FORMAT_FILES)
    shown = rfplan("sheet", "--help").out
    assert all(name in shown for name in SHEETS)


# --- what is not known --------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("arguments", "said"),
    [
        (["chek", "."], "rfplan: no command 'chek'; did you mean check?"),
        (["xyz"], f"rfplan: no command 'xyz'; there are {', '.join(COMMANDS)}"),
        (["check", "--sate", "found", "."], "no option '--sate'; did you mean --state?"),
        (["check", "--stat=found", "."], "no option '--stat'; did you mean --state?"),
        (["check", ".", "--state", "fuond"], "no state 'fuond'; did you mean found?"),
        (["check", ".", "--units", "ft"], "no unit 'ft'; there are in, mm"),
        (["check"], "PLAN"),
        (["check", "a", "b"], "'b' is one word too many"),
        (["check", ".", "--json", "--why", "x"], "not allowed with"),
        (["sheet", ".", "--format", "htm"], "no format 'htm'; did you mean html?"),
        (["compare", "a"], "B"),
    ],
)
def test_what_is_not_known_is_named_with_what_was_meant(
    rfplan: Run, arguments: list[str], said: str
) -> None:
    answer = rfplan(*arguments)
    assert (answer.code, answer.out) == (2, "")
    assert said in answer.err
    assert "usage: rfplan" in answer.err


def test_a_hostile_word_reaches_no_terminal_as_it_is(rfplan: Run) -> None:
    for arguments in (["\x1b[31m"], ["check", ".", "--\x1b[31m"], ["check", "\x1b[31m"]):
        answer = rfplan(*arguments)
        assert answer.code == 2
        assert ESCAPE not in answer.out + answer.err


def test_words_behind_an_option_still_belong_to_the_list(rfplan: Run, tmp_path: Path) -> None:
    plan = aircraft(tmp_path / "a")
    answer = rfplan("sheet", plan, "--format", "csv", "spacing", "findings")
    assert answer.code == 0
    assert "Spacing of antennas" in answer.out
    assert "Findings" in answer.out


# --- faults of its own --------------------------------------------------------------------------


@pytest.mark.usefixtures("broken")
def test_a_fault_of_its_own_has_its_own_exit_code_and_no_traceback(rfplan: Run) -> None:
    answer = rfplan("rules")
    assert (answer.code, answer.out) == (70, "")
    assert "rfplan stopped on a fault of its own: KeyError(" in answer.err
    assert "Your files are as they were." in answer.err
    assert "Traceback" not in answer.err
    assert ESCAPE not in answer.err


@pytest.mark.usefixtures("broken")
def test_a_fault_shows_where_it_happened_on_request(
    rfplan: Run, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("RFPLAN_TRACEBACK", "1")
    answer = rfplan("rules")
    assert answer.code == 70
    assert "Traceback" in answer.err


def test_an_interrupt_ends_quietly(rfplan: Run, monkeypatch: pytest.MonkeyPatch) -> None:
    def interrupt(_: Namespace) -> int:
        raise KeyboardInterrupt

    monkeypatch.setattr(rules, "run", interrupt)
    answer = rfplan("rules")
    assert (answer.code, answer.out, answer.err) == (130, "", "")


# --- screens and pipes --------------------------------------------------------------------------


@pytest.mark.skipif(os.name != "posix", reason="pipes of this kind are POSIX")
@pytest.mark.parametrize("arguments", [["rules"], ["--help"]])
def test_a_reader_who_goes_early_is_no_fault(arguments: list[str]) -> None:
    read, write = os.pipe()
    os.close(read)
    done = fresh(*arguments, stdout=write)
    os.close(write)
    assert (done.returncode, done.stderr) == (0, b"")


@pytest.mark.skipif(not Path("/dev/full").exists(), reason="this system has no full device")
def test_an_answer_that_cannot_be_printed_is_said() -> None:
    with open("/dev/full", "wb") as full:
        done = fresh("rules", stdout=full.fileno())
    assert done.returncode == 2
    assert done.stderr == b"rfplan: the answer not written: No space left on device\n"


def test_a_terminal_that_knows_only_ascii_is_no_fault(tmp_path: Path) -> None:
    plan = aircraft(tmp_path / "a")
    text = (tmp_path / "a" / "plan.yaml").read_text("utf-8")
    (tmp_path / "a" / "plan.yaml").write_text(text.replace("one antenna", "Überflug"), "utf-8")
    done = fresh("check", plan, PYTHONIOENCODING="ascii")
    assert (done.returncode, done.stderr) == (0, b"")
    assert b"\\xdcberflug" in done.stdout
    assert b"\xc3\x9cberflug" in fresh("check", plan, PYTHONIOENCODING="utf-8").stdout


def test_no_command_prints_escape_codes(tmp_path: Path) -> None:
    plan = aircraft(tmp_path / "a")
    environment = {"FORCE_COLOR": "1", "CLICOLOR_FORCE": "1", "TERM": "xterm-256color"}
    for arguments in (["check", "--help"], ["check", plan], ["sheet", plan, "all"], ["catalog"]):
        done = fresh(*arguments, **environment)
        assert done.returncode == 0
        assert ESCAPE.encode() not in done.stdout + done.stderr


@pytest.mark.parametrize("columns", ["10", "60", "100", "1000"])
def test_no_line_is_wider_than_the_screen(
    rfplan: Run, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, columns: str
) -> None:
    monkeypatch.setenv("COLUMNS", columns)
    answer = rfplan("sheet", aircraft(tmp_path / "a"), "loss_budget")
    widest = max(map(len, answer.out.splitlines()))
    assert widest <= min(200, max(40, int(columns)))
