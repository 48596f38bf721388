# SPDX-License-Identifier: Apache-2.0
"""RF702: the same person prepared and checked, or checked and released."""

from collections import Counter
from collections.abc import Iterator

from rfplan.analysis.facts import Facts
from rfplan.model.findings import Finding
from rfplan.model.rulebook import Rule, Strictness
from rfplan.rules.room import found
from rfplan.sources import COMMON_PRACTICE, Citation

RULE = Rule(
    id="RF702",
    name="same-person-twice",
    title="The same person signs twice",
    strictness=Strictness.ADVICE,
    why="A second pair of eyes is what checking is for.",
    remedy="let another person check or release",
    known_limits="compares names as written",
    source=Citation(COMMON_PRACTICE),
)


def check(facts: Facts) -> Iterator[Finding]:
    """Yield a finding for each name that signs in more than one role."""
    names = Counter(person.name for person in facts.plan.people.values() if person.name != "?")
    for name, times in names.items():
        if times > 1:
            roles = tuple(role for role, one in facts.plan.people.items() if one.name == name)
            yield found(RULE, facts, roles, f"{name} signs as {' and '.join(roles)}")
