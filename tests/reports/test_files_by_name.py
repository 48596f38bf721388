# SPDX-License-Identifier: Apache-2.0
"""Files of a folder by name: which there are is known before any of them is read."""

from __future__ import annotations

from types import ModuleType

import pytest

from rfplan.reports.files_by_name import FilesByName
from rfplan.reports.formats import DOCUMENTS, FORMATS


def test_names_stay_in_order_and_are_known_although_no_such_file_can_be_read() -> None:
    files = FilesByName[ModuleType]("no.such.package", ("b", "a"))
    assert list(files) == ["b", "a"] and len(files) == 2 and "b" in files
    with pytest.raises(ModuleNotFoundError):
        files["a"]


def test_a_name_that_is_not_among_them_is_never_looked_for() -> None:
    files = FilesByName[ModuleType]("rfplan.reports", {"cells"})
    assert files["cells"].__name__ == "rfplan.reports.cells"
    with pytest.raises(KeyError, match="sheet"):
        files["sheet"]


def test_every_format_writes_text_or_a_document() -> None:
    assert list(FORMATS) == ["csv", "html", "json", "markdown", "text"]
    assert list(DOCUMENTS) == ["pdf", "xlsx"]
    assert all(callable(file.write) for file in FORMATS.values())
    assert all(callable(file.document) for file in DOCUMENTS.values())
