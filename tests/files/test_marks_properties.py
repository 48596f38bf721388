# SPDX-License-Identifier: Apache-2.0
"""Whatever a file holds: a document with exact places or problems, never anything else."""

from __future__ import annotations

import time
from collections.abc import Iterator
from pathlib import Path

import pytest
import yaml
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from rfplan.files import composing
from rfplan.files.composing import plain_value
from rfplan.files.marks import Document, Node, parse, read
from rfplan.files.problems import LINE_BREAK, ProblemsError, position

LOADERS = sorted({composing.LOADER, yaml.SafeLoader}, key=repr)
QUICK = settings(
    max_examples=300,
    deadline=None,
    derandomize=True,
    suppress_health_check=[HealthCheck.function_scoped_fixture],
)

SAMPLE = """\
rfplan: plan/1                     # an invented plan
sources:
  survey: {class: measured, who: "J. 😀 Kern", date: 2026-10-02}
rows:
  - [ 20,  9.0, 38.0]
  - { a: 1e3, b: , c: 'it''s' }
notes: |
  first µ line

  second line
more: >-
  folded
empty:
last: true
"""
FRAGMENTS = ["\n", "\n  ", "  ", "\t", "\r", "\r\n", ":", ": ", "- ", "? ", "[", "]", "{", "}", ","]
FRAGMENTS += ['"', "'", "|", ">", "#", " #", "&a ", "*a", "!t ", "<<: ", "---\n", "...\n", "%", "@"]
FRAGMENTS += ["a", "é", "😀", "\0", "\ufeff", "\u2028", "\ud800", "\\", '"\\U00110000"', "017", "~"]

VALUES: dict[str, object] = {
    "126 in": "126 in",
    "é 😀": "é 😀",
    "1e3": 1000.0,
    "017": "017",
    "~": None,
    "": None,
    "'it''s 😀'": "it's 😀",
    '"a\\u00b5 😀"': "aµ 😀",
    '"folded\n  on"': "folded on",
    "plain\n  on": "plain on",
    "|\n  x 😀\n\n  y": "x 😀\n\ny\n",
    ">-\n  z z\n  w": "z z w",
    "|+\n  x": "x\n\n",
}

hostile_text = st.one_of(
    st.text(st.characters(codec=None), max_size=60),
    st.lists(st.sampled_from(FRAGMENTS), max_size=25).map("".join),
)

LONGEST_S = 20.0
"""Seconds of the processor that no text of this size may take; what is not linear takes minutes."""


@st.composite
def mutated_sample(draw: st.DrawFn) -> str:
    text = SAMPLE
    for _ in range(draw(st.integers(1, 4))):
        start = draw(st.integers(0, len(text)))
        end = start + draw(st.integers(0, 3))
        text = text[:start] + draw(st.sampled_from(["", *FRAGMENTS])) + text[end:]
    return text


def outcome(text: str) -> Document | None:
    """Return the document, or None where the text is refused with problems that can be shown."""
    try:
        return parse(text, "plan.yaml")
    except ProblemsError as refusal:
        error = refusal
    lines = str(error).split("\n")
    assert len(lines) == len(error.problems) > 0
    assert all(line.isprintable() for line in lines)
    line_count = len(LINE_BREAK.split(text))
    assert all(1 <= problem.line <= line_count for problem in error.problems)
    assert all(problem.column >= 1 for problem in error.problems)
    return None


def outcomes(text: str) -> list[Document | None]:
    """Return the outcome with each loader."""
    with pytest.MonkeyPatch.context() as patch:
        found = []
        for loader in LOADERS:
            patch.setattr(composing, "LOADER", loader)
            found.append(outcome(text))
    return found


def scalars(node: Node) -> Iterator[Node]:
    if isinstance(node.value, dict):
        for child in node.value.values():
            yield from scalars(child)
    elif isinstance(node.value, list):
        for child in node.value:
            yield from scalars(child)
    else:
        yield node


@QUICK
@given(st.one_of(hostile_text, mutated_sample()))
def test_any_text_gives_a_document_or_problems_with_both_loaders(text: str) -> None:
    documents = [document for document in outcomes(text) if document is not None]
    for document in documents:
        assert document.root.plain() == documents[0].root.plain()


@QUICK
@given(
    st.one_of(
        st.binary(max_size=60),
        mutated_sample().map(lambda text: text.encode("utf-8", "surrogatepass")),
    )
)
def test_any_bytes_give_a_document_or_problems(tmp_path: Path, content: bytes) -> None:
    path = tmp_path / "plan.yaml"
    path.write_bytes(content)
    try:
        root = read(path, "plan.yaml").root
    except ProblemsError:
        return
    assert isinstance(root.value, dict)


@QUICK
@given(mutated_sample())
def test_an_unquoted_value_means_what_its_source_text_says(text: str) -> None:
    document = outcome(text)
    for node in scalars(document.root) if document else ():
        source = document.source(node.mark) if document else ""
        if node.style == "plain" and not LINE_BREAK.search(source):
            assert plain_value(source) == node.value


@QUICK
@given(
    st.lists(st.sampled_from(list(VALUES)), min_size=1, max_size=8),
    st.sampled_from(["\n", "\r\n", "\r"]),
    st.sampled_from(["", "\ufeff"]),
)
def test_the_place_of_a_value_is_exactly_its_source_text(
    sources: list[str], newline: str, bom: str
) -> None:
    lines = ["# µ 😀"]
    for index, source in enumerate(sources):
        lines += [f"kéy 😀 {index}: {source}".rstrip(), "", "# between"]
    text = bom + "\n".join(lines).replace("\n", newline)
    for document in outcomes(text):
        assert document is not None
        assert document.bom == bool(bom)
        assert document.newline == newline
        for index, source in enumerate(sources):
            key = f"kéy 😀 {index}"
            node = document.root.at((key,))
            assert node.value == VALUES[source]
            assert document.source(node.mark) == source.replace("\n", newline)
            assert document.source(document.root.mark_at((key,), key=True)) == key
            assert (node.mark.line, node.mark.column) == position(document.text, node.mark.start)


@pytest.mark.parametrize("unit", ["[", "{", "- ", "? ", "a: ", "\n", " ", '"', "&a ", "|\n", "a\n"])
def test_a_long_repetition_ends_quickly(unit: str) -> None:
    for start in ("", "a: ", 'a: "'):
        start_s = time.process_time()
        outcomes(start + unit * (20_000 // len(unit)))
        assert time.process_time() - start_s < LONGEST_S
