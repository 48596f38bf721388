# SPDX-License-Identifier: Apache-2.0
"""One file a rule, found by name; each holds the rule's words and its logic."""

from __future__ import annotations

import importlib
import pkgutil
import re
from collections.abc import Iterator
from types import ModuleType

from rfplan.analysis.facts import Facts
from rfplan.model.findings import Finding
from rfplan.model.rulebook import Rule
from rfplan.rules.room import RoomRule, room_findings

_NAME = re.compile(r"rf\d{3}_\w+")

MODULES: tuple[ModuleType, ...] = tuple(
    importlib.import_module(f"{__name__}.{found.name}")
    for found in sorted(pkgutil.iter_modules(__path__), key=lambda found: found.name)
    if _NAME.fullmatch(found.name)
)
"""The rule files in order of their number."""

RULES: tuple[Rule, ...] = tuple(module.RULE for module in MODULES)
"""The words of all rules."""

ROOMS: tuple[RoomRule, ...] = tuple(module.room for module in MODULES if hasattr(module, "room"))
"""What the rules say of where one antenna stands."""


def findings(facts: Facts) -> Iterator[Finding]:
    """Yield what every rule finds, before waivers."""
    for module in MODULES:
        if hasattr(module, "check"):
            yield from module.check(facts)
        elif hasattr(module, "room"):
            yield from room_findings(module.RULE, module.room, facts)
