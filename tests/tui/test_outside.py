# SPDX-License-Identifier: Apache-2.0
"""The editor of the user: which line it is given, and what is said where it takes none."""

from __future__ import annotations

from pathlib import Path

import pytest

from rfplan.tui.outside import run_editor


def editor(folder: Path, name: str) -> str:
    """Write an editor that notes what it was given."""
    path = folder / name
    path.write_text(f'#!/bin/sh\nprintf "%s\\n" "$@" > "{folder}/given"\n')
    path.chmod(0o755)
    return str(path)


@pytest.mark.parametrize(
    ("name", "given", "told"),
    [
        ("vi", ["-R", "+12"], ""),
        ("other", ["-R"], "was given no line: it is line 12."),
    ],
)
def test_an_editor_is_given_a_line_only_where_it_is_known_to_take_one(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, name: str, given: list[str], told: str
) -> None:
    monkeypatch.delenv("VISUAL", raising=False)
    monkeypatch.setenv("EDITOR", f"{editor(tmp_path, name)} -R")
    assert run_editor(Path("plan.yaml"), 12).endswith(told)
    plan = str(Path("plan.yaml").absolute())
    assert (tmp_path / "given").read_text().splitlines() == [*given, plan]


@pytest.mark.parametrize("name", ["+!touch taken", "-c.yaml"])
def test_the_name_of_a_file_is_never_taken_for_an_option(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, name: str
) -> None:
    monkeypatch.chdir(tmp_path)
    monkeypatch.setenv("VISUAL", editor(tmp_path, "vi"))
    assert run_editor(Path(name), 12) == ""
    assert (tmp_path / "given").read_text().splitlines() == ["+12", str(tmp_path / name)]


@pytest.mark.parametrize(
    ("named", "told"),
    [
        ("/nowhere/vi", "/nowhere/vi: No such file or directory. Set EDITOR."),
        ("vi 'x", "vi 'x: No closing quotation. Set EDITOR."),
    ],
)
def test_an_editor_that_cannot_be_run_is_told(
    monkeypatch: pytest.MonkeyPatch, named: str, told: str
) -> None:
    monkeypatch.setenv("VISUAL", named)
    assert run_editor(Path("plan.yaml"), 12) == told
