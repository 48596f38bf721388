# SPDX-License-Identifier: Apache-2.0
"""How a thing that is fitted changes, in the state looked at and in those after it."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from typing import Any

from rfplan.edits.values import same
from rfplan.model.plan import Plan, State

_NAMES = {"antennas": "antenna", "cables": "cable"}


class EditError(ValueError):
    """An edit cannot be made; the text says why, fit for a screen."""


def fitted(plan: Plan, section: str, id: str) -> Any:
    """Return a thing as it is in the state looked at; raises EditError if it is not there."""
    things = getattr(plan.installation, section)
    if id not in things:
        raise EditError(f"there is no {_NAMES.get(section, section)} {id} in {plan.state}")
    return things[id]


def refitted(
    plan: Plan, section: str, id: str, values: dict[str, Any], freed: Iterable[str] = ()
) -> Plan:
    """Return a plan in which a thing has other values.

    Later states follow up to the first that had another value in anything that changes. Where
    they follow, the fields that are `freed` lose the value that they share with the thing.
    """
    present = fitted(plan, section, id)
    new = {name: value for name, value in values.items() if not same(getattr(present, name), value)}
    if not new:
        return plan
    states = list(State)
    for state in states[states.index(plan.state) :]:
        things = getattr(getattr(plan, state), section)
        there = things.get(id)
        if there is None or not _alike(there, present, new):
            break
        lost = {name: None for name in freed if _alike(there, present, (name,))}
        installation = replace(
            getattr(plan, state), **{section: things.having(id, replace(there, **new, **lost))}
        )
        plan = replace(plan, **{str(state): installation})
    return plan


def before(plan: Plan, section: str, id: str) -> Any:
    """Return a thing as it is in the state before the one looked at, None where it is not."""
    states = list(State)
    place = states.index(plan.state)
    return getattr(getattr(plan, states[place - 1]), section).get(id) if place else None


def _alike(one: Any, other: Any, names: Iterable[str]) -> bool:
    return all(same(getattr(one, name), getattr(other, name)) for name in names)
