# SPDX-License-Identifier: Apache-2.0
"""Differences are named by key in JSON, by cell in tables, else by line."""

from __future__ import annotations

import pytest

from rfplan.records.differences import Difference, differences

CASES = [
    ("a.json", b'{"k": 1}', b'{"k": 2}', [("k", "1", "2")]),
    ("a.json", b'{"k": 1}', b"{}", [("k", "1", "-")]),
    (
        "a.json",
        b'{"k": [{"id": "x", "v": 1}]}',
        b'{"k": [{"id": "x", "v": null}]}',
        [("k[x].v", "1", "null")],
    ),
    ("a.json", b'{"k": [1, 2]}', b'{"k": [1]}', [("k[1]", "2", "-")]),
    ("a.json", b'{"k": 1}', b'{"k":  1}', [("content", "as packed", "other")]),
    ("a.json", b"{", b"}", [("content", "as packed", "other")]),
    ("a.csv", b"a,b\r\n", b"a,c\r\n", [("row 1 column 2", "b", "c")]),
    ("a.csv", b"a\r\n", b"a\r\nb\r\n", [("row 2 column 1", "-", "b")]),
    ("a.txt", b"a\nb\nc\n", b"a\nx\ny\n", [("line 2, the first", "b", "x")]),
    ("a.txt", b"\xff", b"a", [("content", "as packed", "other")]),
]


@pytest.mark.parametrize(("name", "was", "now", "found"), CASES)
def test_a_difference_is_named_where_it_is(
    name: str, was: bytes, now: bytes, found: list[tuple[str, str, str]]
) -> None:
    told = list(differences({name: was}, {name: now}))
    assert told == [Difference(name, *one) for one in found]


def test_a_member_on_one_side_only_is_one_difference() -> None:
    assert list(differences({"a": b""}, {"b": b""})) == [
        Difference("a", "member", "there", "-"),
        Difference("b", "member", "-", "there"),
    ]


def test_equal_members_make_no_difference() -> None:
    assert list(differences({"a.json": b"{"}, {"a.json": b"{"})) == []
