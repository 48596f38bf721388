# SPDX-License-Identifier: Apache-2.0
"""RF304: the loss of a catalogue entry is read beyond the end of its table."""

from collections.abc import Iterator

from rfplan.analysis.facts import Facts
from rfplan.model.findings import Finding
from rfplan.model.rulebook import Rule, Strictness
from rfplan.rules.room import found
from rfplan.sources import COMMON_PRACTICE, Citation

RULE = Rule(
    id="RF304",
    name="extrapolated",
    title="The loss of a catalogue entry is read beyond the end of its table",
    strictness=Strictness.ADVICE,
    why="Beyond its table a cable follows the fitted law only roughly.",
    remedy="enter a table that reaches the band, or measure the finished cable",
    known_limits="more than twice beyond the end is no longer extrapolated but incomplete",
    source=Citation(COMMON_PRACTICE),
)


def check(facts: Facts) -> Iterator[Finding]:
    """Yield one finding for each catalogue entry that some band reads beyond its table."""
    for type, item in sorted(facts.loss_sources().items()):
        if item.extrapolated:
            yield found(RULE, facts, (type,), f"{type} is extrapolated beyond its table")
