# SPDX-License-Identifier: Apache-2.0
"""RF409: an amplified antenna has not exactly one source of direct current."""

from __future__ import annotations

from collections.abc import Iterator

from rfplan.analysis.facts import Facts
from rfplan.model.findings import Finding
from rfplan.model.rulebook import Rule, Strictness
from rfplan.rules.room import found
from rfplan.sources import COMMON_PRACTICE, Citation
from rfplan.units import NONE, Range

RULE = Rule(
    id="RF409",
    name="dc-source",
    title="An amplified antenna has no source of direct current, or more than one",
    strictness=Strictness.REQUIRED,
    why="Without a source the amplifier is dead; two sources push current into each other.",
    remedy="let exactly one branch pass direct current, and block and load all others",
    known_limits="ports that say nothing of `feed` are taken to send no volts",
    source=Citation(COMMON_PRACTICE),
)


def check(facts: Facts) -> Iterator[Finding]:
    """Yield a finding for each amplified antenna without exactly one source."""
    by_antenna: dict[str, list[str]] = {}
    for id, chain in facts.chains.items():
        by_antenna.setdefault(chain.antenna, []).append(id)
    for antenna, paths in by_antenna.items():
        if _needs_supply(facts, paths[0]) and (text := _fault(facts, paths)):
            words, incomplete = text
            type = facts.chains[paths[0]].antenna_type
            yield found(
                RULE,
                facts,
                (antenna,),
                f"{antenna} {words}",
                source=type.sources.get(type.source or ""),
                incomplete=incomplete,
            )


def _needs_supply(facts: Facts, path: str) -> bool:
    type = facts.chains[path].antenna_type
    amplified = any(gain != Range(NONE, NONE) for gain in type.amplifier_db.values())
    return type.supply_v is not None or amplified


def _fault(facts: Facts, paths: list[str]) -> tuple[str, bool] | None:
    """What is wrong with the sources of an antenna, and whether that hangs on a silent part."""
    ways = {id: facts.supplies[id] for id in paths if id in facts.supplies}
    sure = [id for id, way in ways.items() if way.carries]
    unsure = [id for id, way in ways.items() if way.carries is None]
    if len(sure) > 1:
        return f"gets direct current from {_units(facts, sure)} at once", False
    if unsure:
        silent = ", ".join(name for id in unsure for name in ways[id].silent)
        return f"may have no source of direct current or two: {silent} is not stated", True
    if sure or not _all_told(facts, paths):
        return None
    blocks = ", ".join(block for way in ways.values() for block in way.blocked_by)
    return (f"gets no direct current: {blocks} blocks it" if blocks else "has no source"), False


def _units(facts: Facts, paths: list[str]) -> str:
    return " and ".join(facts.chains[id].unit for id in paths)


def _all_told(facts: Facts, paths: list[str]) -> bool:
    """Whether every port behind an antenna says what it sends, if only that it sends nothing."""
    return all(facts.chains[id].port.feed_v is not None for id in paths)
