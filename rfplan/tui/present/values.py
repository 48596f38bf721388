# SPDX-License-Identifier: Apache-2.0
"""Values in which two plans differ, before and after, told as files tell them."""

from __future__ import annotations

from typing import Any

from rfplan.edits import differences, named
from rfplan.model.plan import Plan, State
from rfplan.model.record import ById, yaml_name
from rfplan.reports.leaves import Leaf, leaves, told_apart
from rfplan.tui.present.changes import before_and_after
from rfplan.tui.present.tags import Type
from rfplan.tui.runs import Row, Run


def value_rows(before: Plan, after: Plan, columns: int, type: Type) -> list[Row]:
    """Return what differs from one plan to another; what several states share is told once."""
    old, new = leaves(before), leaves(after)
    states: dict[tuple[str, str, str], list[str]] = {}
    for value in differences(before, after):
        key, name = _key(before, value.way), named([value])
        for part in dict.fromkeys([*_under(key, old), *_under(key, new)]):
            ends = told_apart(old.get(key + part), new.get(key + part), type.unit)
            told = (name + part.replace(".", " "), *ends)
            states.setdefault(told, []).extend(s for s in State if s == value.way[0])
    rows: list[Row] = []
    for (name, was, now), where in states.items():
        lead = f"  {name}  {', '.join(where)}".rstrip() + "  "
        rows += before_and_after(lead, [Run(was)], [Run(now)], columns, type)
    return rows


def _key(plan: Plan, way: tuple[str, ...]) -> str:
    """Return a way into a plan as the dotted key of its leaves."""
    holder: Any = plan
    steps = []
    for step in way:
        by_id = isinstance(holder, ById)
        steps.append(step if by_id else yaml_name(step))
        holder = holder.get(step) if by_id else getattr(holder, step)
    return ".".join(steps)


def _under(key: str, known: dict[str, Leaf]) -> list[str]:
    """Return how the keys of a value and of its parts go on behind its own."""
    return [one[len(key) :] for one in known if one == key or one.startswith(f"{key}.")]
