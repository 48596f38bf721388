# SPDX-License-Identifier: Apache-2.0
"""RF303: the loss of a catalogue entry in use is not verified."""

from collections.abc import Iterator

from rfplan.analysis.facts import Facts
from rfplan.model.findings import Finding
from rfplan.model.rulebook import Rule, Strictness
from rfplan.rules.room import found
from rfplan.sources import COMMON_PRACTICE, Citation

RULE = Rule(
    id="RF303",
    name="basis-unverified",
    title="The loss of a catalogue entry rests on memory or an assumption",
    strictness=Strictness.ADVICE,
    why="A figure that nobody read in a document may be wrong for the reel at hand.",
    remedy="enter the data sheet of the reel, or measure the finished cable",
    known_limits="said once for each catalogue entry, whatever number of paths use it",
    source=Citation(COMMON_PRACTICE),
)


def check(facts: Facts) -> Iterator[Finding]:
    """Yield one finding for each catalogue entry in use whose source is unverified."""
    for type, item in sorted(facts.loss_sources().items()):
        if item.source.unverified:
            text = f"{type}: basis unverified, {item.source.words()}"
            yield found(RULE, facts, (type,), text, source=item.source)
