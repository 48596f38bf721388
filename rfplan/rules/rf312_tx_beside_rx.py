# SPDX-License-Identifier: Apache-2.0
"""RF312: the cable of a transmitter shares its bundle with cables of receivers."""

from collections.abc import Iterator
from itertools import pairwise

from rfplan.analysis.facts import Facts
from rfplan.analysis.signal_path import Chain
from rfplan.model.findings import Finding
from rfplan.model.rulebook import Rule, Strictness
from rfplan.rules.room import found
from rfplan.sources import COMMON_PRACTICE, Citation

RULE = Rule(
    id="RF312",
    name="tx-beside-rx",
    title="Cables of a transmitter and of receivers share a bundle",
    strictness=Strictness.ADVICE,
    why="What leaks from one braid enters the other along every metre they share.",
    remedy="send the transmitter's cable along the other side, or keep the shared way short",
    known_limits="one finding a transmitting cable; shared ways under half a metre are let be",
    source=Citation(COMMON_PRACTICE),
)

SHARED_M = 0.5


def check(facts: Facts) -> Iterator[Finding]:
    """Yield a finding for each transmitting cable with the receivers' cables beside it."""
    sends = {
        run.id for chain in facts.chains.values() if _sends(facts, chain) for run in chain.runs
    }
    ways = {id: _steps(run.nodes) for id, run in facts.runs.items()}
    for one in sorted(sends):
        beside = {
            other: shared
            for other in ways
            if other not in sends
            and (shared := _shared_m(facts, ways[one] & ways[other])) > SHARED_M
        }
        if beside:
            longest = max(beside.values())
            text = f"{one} shares up to {{value}} with {', '.join(sorted(beside))}"
            objects = (one, *sorted(beside))
            yield found(RULE, facts, objects, text, value=longest, limit=SHARED_M, unit="m")


def _sends(facts: Facts, chain: Chain) -> bool:
    if "tx" in chain.port.silent:
        return False
    radio = facts.rulebook.radios[chain.port.radio]
    return chain.port.power_w is not None or "tx" in chain.directions(radio)


def _steps(nodes: tuple[str, ...]) -> set[frozenset[str]]:
    return {frozenset(step) for step in pairwise(nodes)}


def _shared_m(facts: Facts, steps: set[frozenset[str]]) -> float:
    ways = facts.site.network.ways
    return sum(ways[a][b] for a, b in map(sorted, steps))
