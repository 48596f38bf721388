# SPDX-License-Identifier: Apache-2.0
"""One value changed in a text; the rest stays, byte for byte."""

from __future__ import annotations

import pytest

from rfplan.files.marks import parse
from rfplan.files.problems import ProblemsError
from rfplan.files.splice import told_by_state, with_key, with_section, with_value, without_key

TEXT = """\
# head
a: 1     # one
flow: {x: 94 L2 in, y: [p, q], z: {}}  # flow
block:   # a block
  # before x
  x: 'quoted'   # after x
  list:
    - p    # first
    - q    # second
  empty:
  last: |
    two
    lines
  # at its end
tail: "double"
needed: "?"
"""


def change(old: str, new: str) -> str:
    """Return the text with one piece of it replaced."""
    assert TEXT.count(old) == 1
    return TEXT.replace(old, new)


@pytest.mark.parametrize(
    ("way", "value", "old", "new"),
    [
        (("a",), 2, "a: 1  ", "a: 2  "),
        (("flow", "x"), "96 0 in", "94 L2 in", "96 0 in"),
        (("flow", "x"), "a, b", "94 L2 in", '"a, b"'),
        (("block", "x"), "it's", "'quoted'", "'it''s'"),
        (("tail",), "new", '"double"', '"new"'),
        (("needed",), "new", '"?"', "new"),
        (("flow", "y"), ["p", "r"], "[p, q]", "[p, r]"),
        (("flow", "y"), ["p"], "[p, q]", "[p]"),
        (("flow", "y"), ["p", "q", "r", "?"], "[p, q]", '[p, q, r, "?"]'),
        (("flow", "y"), [], "[p, q]", "[]"),
        (("flow", "z"), {"k": "v"}, "z: {}", "z: {k: v}"),
        (("block", "list"), ["p", "r"], "- q ", "- r "),
        (("block", "list"), ["p"], "    - q    # second\n", ""),
        (("block", "list"), ["p", "q", "r"], "# second\n", "# second\n    - r\n"),
        (("block", "list"), "none", "list:\n    - p    # first\n    - q", "list: none"),
        (("block", "empty"), "full", "empty:\n", "empty: full\n"),
        (("block", "last"), "one line", "|\n    two\n    lines\n", "one line\n"),
    ],
)
def test_a_value_is_set_where_it_stands(
    way: tuple[str, ...], value: object, old: str, new: str
) -> None:
    assert with_value(parse(TEXT, "a.yaml"), way, value) == change(old, new)


@pytest.mark.parametrize(
    ("way", "value", "after", "old", "new"),
    [
        (("flow", "k"), "v", None, "z: {}}", "z: {}, k: v}"),
        (("flow", "k"), "v", "x", "94 L2 in,", "94 L2 in, k: v,"),
        (("flow", "z", "k"), ["v"], None, "z: {}", "z: {k: [v]}"),
        (("block", "k"), "v", "x", "# after x\n", "# after x\n  k: v\n"),
        (("block", "k"), "v", None, "    lines\n", "    lines\n  k: v\n"),
        (("k",), "v", None, '"?"\n', '"?"\nk: v\n'),
        (("k",), {"x": 1}, "block", "    lines\n", "    lines\nk:\n  x: 1\n"),
    ],
)
def test_a_key_is_added_where_its_neighbours_are(
    way: tuple[str, ...], value: object, after: str | None, old: str, new: str
) -> None:
    assert with_key(parse(TEXT, "a.yaml"), way, value, after) == change(old, new)


@pytest.mark.parametrize(
    ("way", "old", "new"),
    [
        (("a",), "a: 1     # one\n", ""),
        (("flow", "x"), "x: 94 L2 in, ", ""),
        (("flow", "y"), ", y: [p, q]", ""),
        (("flow", "z"), ", z: {}", ""),
        (("block", "x"), "  x: 'quoted'   # after x\n", ""),
        (("block", "list"), "  list:\n    - p    # first\n    - q    # second\n", ""),
        (("block", "last"), "  last: |\n    two\n    lines\n", ""),
        (("tail",), 'tail: "double"\n', ""),
    ],
)
def test_a_key_is_taken_out_with_its_own_lines_only(
    way: tuple[str, ...], old: str, new: str
) -> None:
    assert without_key(parse(TEXT, "a.yaml"), way) == change(old, new)


def test_a_mapping_that_would_be_left_empty_goes_with_its_last_key() -> None:
    text = "a: 1\nw:\n  v1:\n    who: me\n# end"
    assert without_key(parse(text, "a.yaml"), ("w", "v1", "who")) == "a: 1\n# end"
    assert without_key(parse("{a: 1, w: {v1: {who: me}}}", "a.yaml"), ("w", "v1")) == "{a: 1}"


def test_the_last_line_may_lack_its_end() -> None:
    document = parse("a: 1\nb: 2", "a.yaml")
    assert with_key(document, ("c",), 3) == "a: 1\nb: 2\nc: 3"
    assert without_key(document, ("b",)) == "a: 1"
    assert with_value(document, ("b",), 3) == "a: 1\nb: 3"


@pytest.mark.parametrize("newline", ["\n", "\r\n", "\r"])
def test_new_lines_end_as_the_others_do(newline: str) -> None:
    document = parse("b:\n  x: 1\n".replace("\n", newline), "a.yaml")
    assert with_key(document, ("b", "y"), 2) == "b:\n  x: 1\n  y: 2\n".replace("\n", newline)
    told = told_by_state(document, ("b",), "found", "design", {"x": 2})
    expected = "b:\n  found:\n    x: 1\n  design:\n    x: 2\n"
    assert told == expected.replace("\n", newline)


def test_a_new_entry_is_laid_out_as_the_one_before_it() -> None:
    entry = {"k": "v", "l": ["m"]}
    flow = parse("w:\n  v1: {k: v}\n", "a.yaml")
    assert with_key(flow, ("w", "v2"), entry) == "w:\n  v1: {k: v}\n  v2: {k: v, l: [m]}\n"
    block = parse("w:\n    v1:\n       k: v\n", "a.yaml")
    expected = "w:\n    v1:\n       k: v\n    v2:\n       k: v\n       l: [m]\n"
    assert with_key(block, ("w", "v2"), entry) == expected


def test_a_new_section_comes_last_and_its_entry_on_one_line_if_it_fits() -> None:
    document = parse("a: 1  # one\n# end\n", "a.yaml")
    assert with_section(document, "w", "v1", {"k": "v"}) == "a: 1  # one\nw:\n  v1: {k: v}\n# end\n"
    long = "v" * 90
    expected = f"a: 1  # one\nw:\n  v1:\n    k: {long}\n    l: m\n# end\n"
    assert with_section(document, "w", "v1", {"k": long, "l": "m"}) == expected
    assert with_section(parse("{a: 1}", "a.yaml"), "w", "v1", {"k": 1}) == "{a: 1, w: {v1: {k: 1}}}"


READINGS = """\
measurements:
  m1: {path: gnss, loss: 3.1 dB, at: 1575.42 MHz, date: 2026-10-29, who: A. Person,
       with: analyser 7}
"""
LATER = {
    "path": "com",
    "loss": "1.9 dB",
    "at": "127 MHz",
    "date": "2026-10-29",
    "with": "analyser 7",
    "who": "B",
}


def test_a_new_entry_in_flow_keeps_the_width_of_its_file() -> None:
    document = parse(READINGS, "a.yaml")
    added = with_key(document, ("measurements", "m2"), LATER).removeprefix(READINGS.rstrip("\n"))
    assert (
        added
        == """
  m2: {path: com, loss: 1.9 dB, at: 127 MHz, date: 2026-10-29, with: analyser 7,
       who: B}
"""
    )
    wide = parse(f"# {'-' * 88}\n{READINGS}", "a.yaml")
    line = (
        "  m2: {path: com, loss: 1.9 dB, at: 127 MHz, date: 2026-10-29, with: analyser 7, who: B}"
    )
    assert with_key(wide, ("measurements", "m2"), LATER).splitlines()[-1] == line
    block = with_key(parse("w:\n  v1:\n    k: v\n", "a.yaml"), ("w", "v2"), {"m2": LATER})
    assert block.splitlines()[-2:] == [
        "    m2: {path: com, loss: 1.9 dB, at: 127 MHz, date: 2026-10-29,",
        "         with: analyser 7, who: B}",
    ]


def test_a_key_in_flow_goes_below_its_neighbours_where_the_line_would_be_too_long() -> None:
    lines = READINGS.splitlines()
    text = with_key(parse(READINGS, "a.yaml"), ("measurements", "m1", "bound"), "1" * 60)
    assert text.splitlines() == [
        *lines[:2],
        "       with: analyser 7,",
        f'       bound: "{"1" * 60}"}}',
    ]
    plain = "  two: {type: com_whip, on: top, at: 94.25 L12.5 in, node: aft}  # the other"
    told = told_by_state(
        parse(f"antennas:\n{plain}\n", "a.yaml"),
        ("antennas", "two"),
        "found",
        "design",
        {"at": "1"},
    )
    assert told.splitlines()[1:] == [
        "  two: {found: {type: com_whip, on: top, at: 94.25 L12.5 in, node: aft},",
        '        design: {at: "1"}}  # the other',
    ]


def test_the_first_entry_of_a_section_is_written_as_those_of_the_section_before() -> None:
    document = parse(READINGS, "a.yaml")
    assert with_section(document, "later", "m2", LATER).splitlines()[-3:] == [
        "later:",
        "  m2: {path: com, loss: 1.9 dB, at: 127 MHz, date: 2026-10-29, with: analyser 7,",
        "       who: B}",
    ]


def test_a_plain_thing_is_told_by_state_and_keeps_its_comments() -> None:
    text = """\
antennas:
    one:         # the one
        type: t  # its type

        # where
        at: |
          94 L2 in
    two: {type: t, at: 1 0 in}  # the other
"""
    document = parse(text, "a.yaml")
    block = told_by_state(document, ("antennas", "one"), "found", "design", {"at": "95 0 in"})
    assert (
        block
        == """\
antennas:
    one:         # the one
        found:
            type: t  # its type

            # where
            at: |
              94 L2 in
        design:
            at: 95 0 in
    two: {type: t, at: 1 0 in}  # the other
"""
    )
    flow = told_by_state(document, ("antennas", "two"), "found", "built", {"at": "95 0 in"})
    line = "    two: {found: {type: t, at: 1 0 in}, built: {at: 95 0 in}}  # the other\n"
    assert flow == text[: text.index("    two")] + line


@pytest.mark.parametrize("way", [("no",), ("a", "no"), ("block", "list", "0")])
def test_what_is_not_there_cannot_be_changed(way: tuple[str, ...]) -> None:
    document = parse(TEXT, "a.yaml")
    with pytest.raises(ProblemsError):
        with_value(document, way, 1)
    with pytest.raises(ProblemsError):
        without_key(document, way)
    with pytest.raises(ProblemsError):
        with_key(document, (*way, "k"), 1)
