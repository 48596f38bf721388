# SPDX-License-Identifier: Apache-2.0
"""RF405: a measured loss lies outside the window of its port."""

from collections.abc import Iterator

from rfplan.analysis.facts import Facts
from rfplan.analysis.measured import MeasuredExtent, measured_extents
from rfplan.model.findings import Finding
from rfplan.model.rulebook import Rule, Strictness
from rfplan.rules.rf401_loss_window import TIE_DB, loss_range
from rfplan.rules.room import found, plan_source
from rfplan.sources import COMMON_PRACTICE, Citation
from rfplan.units import Missing

RULE = Rule(
    id="RF405",
    name="measured-outside-window",
    title="A measured loss lies outside the window of its port",
    strictness=Strictness.REQUIRED,
    why="The reading is the cable as it is; a prediction inside the window does not help it.",
    remedy="find the plug or the cable that loses too much, or add the pad that is missing",
    known_limits="carried to the corners of the band by predicted differences; needs the "
    "temperature and the uncertainty of the reading",
    source=Citation(COMMON_PRACTICE),
)


def check(facts: Facts) -> Iterator[Finding]:
    """Yield a finding for each reading that, carried to the corners, breaks a limit."""
    for id, reading in facts.readings.items():
        broken = [_broken(facts, reading.path, one) for one in measured_extents(facts, id)]
        worst = max(filter(None, broken), key=lambda ends: abs(ends[0] - ends[1]), default=None)
        if reading.stale or worst is None:
            continue
        value, limit = worst
        yield found(
            RULE,
            facts,
            (reading.path, id),
            f"{reading.path}: reading {id} reaches {{value}}, the limit is {{limit}}",
            value=value,
            limit=limit,
            unit="dB",
            source=plan_source(facts.scene, facts.chains[reading.path].port.source),
        )


def _broken(facts: Facts, path: str, extent: MeasuredExtent) -> tuple[float, float] | None:
    """Return the end of a reading that breaks its limit, too much before too little, and that."""
    window = loss_range(facts.chains[path].port, extent.band)
    if not isinstance(window.high, Missing) and extent.most_db > window.high + TIE_DB:
        return extent.most_db, window.high
    if not isinstance(window.low, Missing) and extent.least_db < window.low - TIE_DB:
        return extent.least_db, window.low
    return None
