# SPDX-License-Identifier: Apache-2.0
"""Rows of senders against receivers that say the same of several paths, told once."""

from __future__ import annotations

from collections.abc import Callable, Hashable, Iterable
from typing import Generic, NamedTuple, TypeVar

from rfplan.model.interference import Exposure

T = TypeVar("T")


class Alike(NamedTuple, Generic[T]):
    """What holds of each of some sending paths against each of some receiving ones."""

    sources: tuple[str, ...]
    victims: tuple[str, ...]
    one: T


def alike(
    things: Iterable[T], exposure_of: Callable[[T], Exposure], told: Callable[[T], Hashable]
) -> list[Alike[T]]:
    """Return things with those together that tell the same, in the order of their first."""
    heard: dict[tuple[str, Hashable], list[T]] = {}
    for thing in things:
        heard.setdefault((exposure_of(thing).source, told(thing)), []).append(thing)
    sent: dict[tuple[Hashable, tuple[str, ...]], list[T]] = {}
    for (_, same), some in heard.items():
        victims = tuple(exposure_of(thing).victim for thing in some)
        sent.setdefault((same, victims), []).append(some[0])
    return [
        Alike(tuple(exposure_of(thing).source for thing in some), victims, some[0])
        for (_, victims), some in sent.items()
    ]
