# SPDX-License-Identifier: Apache-2.0
"""A node finds its way, and its place in the file, by the keys that lead to it."""

from __future__ import annotations

import pytest

from rfplan.files.marks import Document, Mark, Node, parse

pytestmark = pytest.mark.usefixtures("each_yaml_loader")

PLAN = """\
# an invented plan
rfplan: plan/1
antennas:
  gnss1: {type: whip, at: 94 L2 in}   # roof
  com1:
    type: "bent"
    via: [a1, b2]
"""


def document() -> Document:
    return parse(PLAN, "plan.yaml")


def test_a_value_and_its_key_have_their_own_places() -> None:
    root = document().root
    way = ("antennas", "gnss1", "at")
    assert root.mark_at(way) == Mark(4, 27, PLAN.index("94 L2"), PLAN.index("94 L2") + 8)
    assert root.mark_at(way, key=True) == Mark(4, 23, PLAN.index("at:"), PLAN.index("at:") + 2)


def test_a_list_item_is_its_own_name() -> None:
    root = document().root
    way = ("antennas", "com1", "via", 1)
    assert root.at(way).value == "b2"
    assert root.mark_at(way, key=True) == root.mark_at(way)
    assert (root.mark_at(way).line, root.mark_at(way).column) == (7, 15)


@pytest.mark.parametrize(
    ("loc", "reached"),
    [
        ((), ()),
        (("antennas", "com1", "station"), ("antennas", "com1")),
        (("antennas", "com1", "via", 2), ("antennas", "com1", "via")),
        (("antennas", "com1", "via", -1), ("antennas", "com1", "via")),
        (("antennas", "com1", "via", "x"), ("antennas", "com1", "via")),
        (("antennas", "com1", "type", "x", 0), ("antennas", "com1", "type")),
        ((3, "antennas"), ()),
    ],
)
def test_a_way_that_leads_nowhere_ends_at_the_deepest_node(
    loc: tuple[str | int, ...], reached: tuple[str | int, ...]
) -> None:
    root = document().root
    assert root.at(loc) is root.at(reached)
    assert root.mark_at(loc) == root.mark_at(reached)
    assert root.mark_at(loc, key=True) == root.mark_at(reached, key=True)


def test_a_mapping_put_together_from_other_files_keeps_their_places() -> None:
    whip = parse("type: whip\n", "other.yaml").root
    root = document().root
    joined = Node.mapping({"new": whip}, {"new": Mark(9, 1, 0, 3)}, root.mark)
    assert joined.plain() == {"new": {"type": "whip"}}
    assert joined.mark_at(("new", "type")) == whip.at(("type",)).mark
    assert joined.mark_at(("new",), key=True).line == 9
    assert Node.mapping({"new": whip}, {}, root.mark).mark_at(("new",), key=True) == whip.mark


@pytest.mark.parametrize(
    ("loc", "source"),
    [
        (("flow",), "[1, {a: 2}]"),
        (("flow", 1), "{a: 2}"),
        (("block",), "b: 1"),
        (("list",), "- a: 1\n    c: 'x'\n  - [y]"),
        (("list", 0), "a: 1\n    c: 'x'"),
        (("pair",), "[a: 1 ]"),
        (("pair", 0), "a: 1"),
        (("text",), "|\n  x"),
    ],
)
def test_the_place_of_a_container_ends_with_its_content(
    loc: tuple[str | int, ...], source: str
) -> None:
    text = (
        "flow: [1, {a: 2}] # c\nblock:\n  b: 1 # c\n\n# c\nlist:\n  - a: 1\n    c: 'x'\n  - [y]\n"
        "\npair: [a: 1 ]\ntext: |\n  x\n\n\n# end\n"
    )
    read_document = parse(text, "x")
    assert read_document.source(read_document.root.mark_at(loc)) == source


def test_styles_are_told_apart() -> None:
    text = "a: x\nb: 'x'\nc: \"x\"\nd: |\n  x\ne: >\n  x\nf: [x]\ng:\n  - x\n"
    root = parse(text, "x").root
    assert root.style == "block"
    assert [root.at((key,)).style for key in "abcdefg"] == [
        "plain",
        "single",
        "double",
        "literal",
        "folded",
        "flow",
        "block",
    ]
