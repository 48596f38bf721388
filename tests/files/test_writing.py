# SPDX-License-Identifier: Apache-2.0
"""Values as YAML that reads back as the same values."""

from __future__ import annotations

from datetime import date
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from rfplan.files.marks import parse
from rfplan.files.problems import ProblemsError
from rfplan.files.quantity_text import Author
from rfplan.files.writing import field_tree, in_flow, record_tree, scalar
from rfplan.model.plan import Accepted, Assembly, FindingRef, Measurement, Waiver
from rfplan.units import UNKNOWN

AUTHOR = Author(parse("a: 5 in", "a.yaml").root)


def read(text: str) -> Any:
    """Return what YAML stands for."""
    plain = parse(f"value: {text}\n", "a.yaml").root.plain()
    assert isinstance(plain, dict)
    return plain["value"]


@pytest.mark.parametrize(
    ("value", "text"),
    [
        ("94 L2 in", "94 L2 in"),
        ("-55 .. 70 degC", "-55 .. 70 degC"),
        ("RG-58C/U", "RG-58C/U"),
        ("J. K\u00f6hler", "J. K\u00f6hler"),
        ("?", '"?"'),
        ("", '""'),
        ("12", '"12"'),
        ("1e3", '"1e3"'),
        ("true", '"true"'),
        ("null", '"null"'),
        ("two words ", '"two words "'),
        ("a: b", '"a: b"'),
        ("a # b", '"a # b"'),
        ("- a", '"- a"'),
        ('say "so"', '"say \\"so\\""'),
        ("two\nlines", '"two\\nlines"'),
        (True, "true"),
        (None, "null"),
        (2.5, "2.5"),
    ],
)
def test_a_scalar_is_quoted_only_where_it_would_be_read_as_something_else(
    value: Any, text: str
) -> None:
    assert scalar(value) == text
    assert read(text) == value


@given(st.text(max_size=40))
def test_every_text_reads_back_or_is_refused_as_a_whole(text: str) -> None:
    try:
        back = read(scalar(text))
    except ProblemsError:
        assert not text.isprintable()
    else:
        assert back == text


trees = st.recursive(
    st.none()
    | st.booleans()
    | st.integers(-999, 999)
    | st.text("ab :#,[]{}'\"?-\u00e9", max_size=9),
    lambda inner: (
        st.lists(inner, max_size=3) | st.dictionaries(st.sampled_from("abc"), inner, max_size=3)
    ),
)


@given(trees)
def test_every_tree_reads_back(tree: Any) -> None:
    assert read(in_flow(tree)) == tree


def test_a_record_is_written_with_the_keys_of_a_file_and_without_what_is_absent() -> None:
    waiver = Waiver(
        FindingRef("RF501", ("a", "b")),
        "a reason",
        "A. Person",
        date=date(2026, 11, 25),
        accepted=Accepted("35 in", "36 in"),
    )
    assert record_tree(waiver, AUTHOR) == {
        "finding": {"rule": "RF501", "of": ["a", "b"]},
        "reason": "a reason",
        "who": "A. Person",
        "state": "design",
        "date": "2026-11-25",
        "accepted": {"have": "35 in", "need": "36 in"},
    }
    reading = Measurement("p", 2.31, at_hz=1575.42e6, with_="analyser 7", temperature_c=21.5)
    assert record_tree(reading, AUTHOR) == {
        "path": "p",
        "loss": "2.31 dB",
        "at": "1575.42 MHz",
        "state": "built",
        "temperature": "21.5 degC",
        "with": "analyser 7",
    }


def test_a_field_keeps_the_unit_that_stands_there() -> None:
    loops = field_tree(Assembly, "loops_m", (0.1, UNKNOWN), AUTHOR, "[50 mm, 5 mm]")
    assert loops == ["100 mm", "?"]
    assert field_tree(Assembly, "via", ("a", "b"), AUTHOR, "") == ["a", "b"]
