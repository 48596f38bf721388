# SPDX-License-Identifier: Apache-2.0
"""What depends on a few frozen objects alone is worked out once for them and found again.

They are told apart by identity: equal ones may still differ in the order of what they hold.
"""

from __future__ import annotations

from collections.abc import Callable
from functools import wraps
from typing import TypeVar, TypeVarTuple

A = TypeVarTuple("A")
R = TypeVar("R")

MOST_KEPT = 8
"""Results that a function keeps; one for each plan, catalogue or airframe at hand is enough."""


def kept(function: Callable[[*A], R]) -> Callable[[*A], R]:
    """Return a function that gives the same result again for the very same arguments."""
    known: dict[tuple[int, ...], tuple[tuple[*A], R]] = {}

    @wraps(function)
    def known_or_new(*arguments: *A) -> R:
        key = tuple(map(id, arguments))
        found = known.get(key)
        if found is None:
            if len(known) >= MOST_KEPT:
                known.clear()
            # With the arguments beside the result, no other object can get one of their ids.
            found = known[key] = arguments, function(*arguments)
        return found[1]

    return known_or_new
