# SPDX-License-Identifier: Apache-2.0
"""Changes of one value in the text of a file, every byte around it kept.

Each function returns the new text; values are mappings, lists and scalars. Whoever calls reads
the new text again, so that what cannot be written in this way is found there.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import replace
from typing import Any

from rfplan.files.marks import Document
from rfplan.files.nodes import Location, Mark, Node
from rfplan.files.problems import LINE_BREAK, Problem, ProblemsError
from rfplan.files.shape import entries
from rfplan.files.writing import in_flow, quoted

_LEAST_WIDTH = 80
"""A line may be so long where all lines of a file are shorter."""

_STEP = 2


def node_at(root: Node, way: Location) -> Node | None:
    """Return the node at the end of a way, None if the way does not lead that far."""
    node: Node | None = root
    for step in way:
        node = entries(node).get(str(step))
    return node


def with_value(document: Document, way: Location, tree: Any) -> str:
    """Return the text with another value at a way that exists."""
    holder, node = _both(document, way)
    text, start, end = document.text, node.mark.start, node.mark.end
    if isinstance(node.value, list) and isinstance(tree, list) and node.value and tree:
        return _with_items(document, node, tree)
    if node.style == "block":  # it begins below its key
        colon_end = text.index(":", holder.key_marks[str(way[-1])].end) + 1
        lead = f"{text[_line_start(text, colon_end) : colon_end]} "
        told = document.newline.join(_in_flow_lines(lead, tree, _width(document)))
        return _spliced(text, colon_end, end, told[len(lead) - 1 :])
    space = " " if start == end else ""
    return _spliced(text, start, end, f"{space}{_in_quotes_of(node, tree)}")


def with_key(document: Document, way: Location, tree: Any, after: str | None = None) -> str:
    """Return the text with a new key in a mapping, behind the key `after` or behind the last."""
    holder, key = node_at(document.root, way[:-1]), str(way[-1])
    if holder is None or not isinstance(holder.value, dict):
        raise _cannot(document, way)
    if not holder.value:
        return _spliced(document.text, holder.mark.start, holder.mark.end, in_flow({key: tree}))
    end = holder.value[after or next(reversed(holder.value))].mark.end
    if holder.style == "flow":
        first = next(iter(holder.key_marks.values()))
        added = _behind(document, end, f"{key}: {in_flow(tree)}", first.column - 1)
        return _spliced(document.text, end, end, f",{added}")
    lines = _entry(key, tree, _indent(holder), _manner(holder), _width(document))
    return _with_lines(document, document.text, end, lines)


def with_section(document: Document, name: str, id: str, tree: Any) -> str:
    """Return the text with a new section at its end that holds one thing."""
    root = document.root
    if root.style == "flow":
        return with_key(document, (name,), {id: tree})
    lines = _entry(id, tree, " " * _STEP, _manner_of_sections(root), _width(document), fits=True)
    return _with_lines(document, document.text, root.mark.end, [f"{name}:", *lines])


def without_key(document: Document, way: Location) -> str:
    """Return the text without a key; a mapping that would be left empty goes with it."""
    holder, node = _both(document, way)
    children, key = entries(holder), str(way[-1])
    if len(children) == 1 and len(way) > 1:
        return without_key(document, way[:-1])
    start, end = holder.key_marks[key].start, node.mark.end
    if holder.style == "block":
        return _without_lines(document.text, start, end)
    keys = list(children)
    place = keys.index(key)
    if place:
        start = children[keys[place - 1]].mark.end
    elif len(keys) > 1:
        end = holder.key_marks[keys[1]].start
    return _spliced(document.text, start, end, "")


def told_by_state(document: Document, way: Location, first: str, state: str, tree: Any) -> str:
    """Return the text in which a plain thing is told by state: as it was, then what differs."""
    holder, node = _both(document, way)
    text, mark = document.text, node.mark
    if node.style == "flow":
        lead = f"{{{first}: "
        told = _spliced(text, mark.start, mark.start, lead)
        end = mark.end + len(lead)
        column = mark.start - _line_start(text, mark.start) + 1
        added = _behind(replace(document, text=told), end, f"{state}: {in_flow(tree)}}}", column)
        return _spliced(told, end, end, f",{added}")
    indent = _indent(node)
    step = indent[holder.key_marks[str(way[-1])].column - 1 :]
    start = mark.start - len(indent)
    lines = LINE_BREAK.split(text[start : mark.end])
    pushed = [f"{indent}{first}:", *(f"{step}{line}" if line.strip() else line for line in lines)]
    moved = _spliced(text, start, mark.end, document.newline.join(pushed))
    end = mark.end + len(moved) - len(text)
    lines = [f"{indent}{state}:", *_block(tree, indent + step, _width(document))]
    return _with_lines(document, moved, end, lines)


def _both(document: Document, way: Location) -> tuple[Node, Node]:
    """Return the mapping that holds a key, and what stands there."""
    holder, node = node_at(document.root, way[:-1]), node_at(document.root, way)
    if holder is None or node is None:
        raise _cannot(document, way)
    return holder, node


def _cannot(document: Document, way: Location) -> ProblemsError:
    mark = document.root.mark_at(way, key=True)
    message = f"{'.'.join(map(str, way))} cannot be written here"
    problem = Problem(document.file, mark.line, mark.column, message, "a change by hand")
    return ProblemsError([problem])


def _spliced(text: str, start: int, end: int, new: str) -> str:
    return text[:start] + new + text[end:]


def _in_quotes_of(node: Node, tree: Any) -> str:
    """Return a value in the quotes round the present one, unless only that one needed them."""
    needed = in_flow(node.value) != node.value
    if isinstance(tree, str) and node.style == "double" and not needed:
        return quoted(tree)
    if isinstance(tree, str) and node.style == "single" and tree.isprintable():
        doubled = tree.replace("'", "''")
        return f"'{doubled}'"
    return in_flow(tree)


def _with_items(document: Document, node: Node, tree: list[Any]) -> str:
    """Return the text with other items in a list; those that stay the same are not touched."""
    text, items = document.text, node.value
    assert isinstance(items, list)
    if len(tree) < len(items):
        start, end = items[len(tree) - 1].mark.end, items[-1].mark.end
        if node.style == "block":
            start, end = _line_end(text, start), _line_end(text, end)
        text = _spliced(text, start, end, "")
    elif len(tree) > len(items):
        text = _with_more_items(document, node, items[-1].mark, tree[len(items) :])
    for item, new in reversed(list(zip(items, tree, strict=False))):
        if item.plain() != new:
            text = _spliced(text, item.mark.start, item.mark.end, _in_quotes_of(item, new))
    return text


def _with_more_items(document: Document, node: Node, last: Mark, more: list[Any]) -> str:
    if node.style == "flow":
        added = "".join(f", {in_flow(item)}" for item in more)
        return _spliced(document.text, last.end, last.end, added)
    lead = document.text[_line_start(document.text, last.start) : last.start]
    lines = [f"{lead}{in_flow(item)}" for item in more]
    return _with_lines(document, document.text, last.end, lines)


def _entry(
    key: str,
    tree: Any,
    indent: str,
    manner: tuple[str, int] | None,
    width: int,
    *,
    fits: bool = False,
) -> list[str]:
    """Return the lines of a new entry in the manner of its neighbours.

    Without any, or with `fits`, it stands on one line where that is not too long.
    """
    lead = f"{indent}{key}: "
    on_one = (fits or manner is None) and len(lead + in_flow(tree)) <= width
    style, step = manner or ("block", _STEP)
    if on_one or style == "flow" or not isinstance(tree, Mapping):
        return _in_flow_lines(lead, tree, width)
    return [lead.rstrip(), *_block(tree, indent + " " * step, width)]


def _block(tree: Mapping[str, Any], indent: str, width: int) -> list[str]:
    return [
        line
        for key, child in tree.items()
        for line in _in_flow_lines(f"{indent}{key}: ", child, width)
    ]


def _in_flow_lines(lead: str, tree: Any, width: int) -> list[str]:
    """Return a value behind its key; a mapping that is too long for a line goes on below itself."""
    whole = lead + in_flow(tree)
    if len(whole) <= width or not isinstance(tree, Mapping):
        return [whole]
    lines, margin = [f"{lead}{{"], " " * (len(lead) + 1)
    ends = [","] * (len(tree) - 1) + ["}"]
    for (key, child), end in zip(tree.items(), ends, strict=True):
        piece = f"{key}: {in_flow(child)}{end}"
        space = "" if lines[-1].endswith("{") else " "
        if space and len(lines[-1]) + 1 + len(piece) > width:
            lines.append(margin + piece)
        else:
            lines[-1] += space + piece
    return lines


def _behind(document: Document, end: int, piece: str, margin: int) -> str:
    """Return a piece for the place behind a comma, on a line of its own where it is too long."""
    text = document.text
    line = text[_line_start(text, end) : _line_end(text, end)].partition(" #")[0]
    if len(line) + 2 + len(piece) <= _width(document):
        return f" {piece}"
    return f"{document.newline}{' ' * margin}{piece}"


def _width(document: Document) -> int:
    """Return how long the lines of a file are at most."""
    return max(_LEAST_WIDTH, *map(len, LINE_BREAK.split(document.text)))


def _manner_of_sections(root: Node) -> tuple[str, int] | None:
    """Return the manner of the last section that holds mappings."""
    manners = (_manner(section) for section in reversed(entries(root).values()) if section)
    return next((manner for manner in manners if manner is not None), None)


def _manner(holder: Node) -> tuple[str, int] | None:
    """Return style and step of indentation of the last mapping in a mapping."""
    for key, child in reversed(entries(holder).items()):
        if entries(child):
            first = next(iter(child.key_marks.values()))
            return child.style, first.column - holder.key_marks[key].column
    return None


def _indent(mapping: Node) -> str:
    """Return what stands before each key of a block mapping."""
    first = next(iter(mapping.key_marks.values()))
    return " " * (first.column - 1)


def _line_start(text: str, offset: int) -> int:
    return max(text.rfind("\n", 0, offset), text.rfind("\r", 0, offset)) + 1


def _line_end(text: str, offset: int) -> int:
    found = LINE_BREAK.search(text, offset)
    return found.start() if found else len(text)


def _with_lines(document: Document, text: str, offset: int, lines: Iterable[str]) -> str:
    """Return a text with lines behind the one that an offset is on."""
    end = _line_end(text, offset)
    return _spliced(text, end, end, "".join(f"{document.newline}{line}" for line in lines))


def _without_lines(text: str, start: int, end: int) -> str:
    """Return a text without the lines that a span touches."""
    start, end = _line_start(text, start), _line_end(text, end)
    following = LINE_BREAK.match(text, end)
    if following:
        return _spliced(text, start, following.end(), "")
    return _spliced(text, len(text[:start].rstrip("\r\n")), end, "")
