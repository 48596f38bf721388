# SPDX-License-Identifier: Apache-2.0
"""What is worth measuring first? Each value that is not known well, and what hangs on it."""

from __future__ import annotations

import math
from collections.abc import Iterator

from rfplan.analysis.facts import Facts
from rfplan.analysis.loss_budget import BandBudget
from rfplan.analysis.pinned import Figure, figures, pinned, spread_db
from rfplan.analysis.receiver import gains
from rfplan.analysis.signal_path import Chain
from rfplan.model.assessment import Assessment, PathAssessment
from rfplan.model.electrical import Decider
from rfplan.model.findings import Verdict
from rfplan.rules import receivers, rf402_power_at_antenna, rf406_net_gain
from rfplan.rules import rf410_carrier_to_noise as rf410
from rfplan.rules.rf401_loss_window import judge

WORTH_DB = 0.05
"""A spread below this is not worth an instrument."""

_Words = dict[str, str]
"""The word of each thing that is judged of a path, by what it is."""


def what_to_measure(facts: Facts, assessment: Assessment) -> tuple[Decider, ...]:
    """Return the values worth measuring: those that settle most verdicts, then the widest."""
    hanging = _unknown(facts, assessment)
    settled, widths = _loose(facts)
    names = {**hanging, **settled, **widths}
    deciders = [
        Decider(
            object=figure.object,
            field=figure.field,
            text=_text(figure, figure in hanging),
            resolves=tuple(dict.fromkeys((*hanging.get(figure, ()), *settled.get(figure, ())))),
            spread_db=widths.get(figure),
        )
        for figure in names
    ]
    return tuple(sorted(deciders, key=_order))


def _order(decider: Decider) -> tuple[int, float, str, str]:
    spread = math.inf if decider.spread_db is None else decider.spread_db
    return -len(decider.resolves), -spread, decider.object, decider.field


def _text(figure: Figure, unknown: bool) -> str:
    state = "is not known" if unknown else "is known within its spread"
    return f"{figure.object}: {figure.field} {state}"


def _unknown(facts: Facts, assessment: Assessment) -> dict[Figure, tuple[str, ...]]:
    """What keeps verdicts from being made at all, with those verdicts."""
    found: dict[Figure, tuple[str, ...]] = {}
    for path in assessment.paths:
        for what, name in _names(facts, path):
            object, _, field = name.rpartition(".")
            if object == "port":
                object = f"{path.unit}.{path.port}"
            figure = Figure(object, field)
            found[figure] = (*found.get(figure, ()), f"{path.id} {what} {Verdict.INCOMPLETE}")
    return found


def _names(facts: Facts, path: PathAssessment) -> Iterator[tuple[str, str]]:
    for band in path.bands:
        yield from ((f"loss {band.name}", name) for name in band.undecided_by)
    for name in dict.fromkeys(rf402_power_at_antenna.undecided(facts, path)):
        yield "power or sensitivity", name
    for name in dict.fromkeys(receivers.undecided(path)):
        yield "receiver or supply", name


def _loose(facts: Facts) -> tuple[dict[Figure, tuple[str, ...]], dict[Figure, float]]:
    """What is known within a spread: verdicts that an end of it would change, and its width."""
    settled: dict[Figure, tuple[str, ...]] = {}
    widths: dict[Figure, float] = {}
    for id, chain in facts.chains.items():
        today = _words(facts, chain, facts.budgets[id])
        for figure in figures(chain):
            width = spread_db(facts, chain, figure)
            if not WORTH_DB <= width < math.inf:
                continue
            widths[figure] = max(width, widths.get(figure, 0.0))
            changed = _changed(facts, chain, figure, today)
            settled[figure] = (*settled.get(figure, ()), *changed)
    return settled, widths


def _changed(facts: Facts, chain: Chain, figure: Figure, today: _Words) -> Iterator[str]:
    """Say which words of a path another value of one figure would change."""
    ends = [_words(facts, chain, pinned(facts, chain, figure, end)) for end in ("least", "most")]
    for what, word in today.items():
        if any(one.get(what) != word for one in ends):
            yield f"{chain.id} {what} {word}"


def _words(facts: Facts, chain: Chain, budgets: tuple[BandBudget, ...]) -> _Words:
    """Judge a path as it would be: loss by band, net gain, carrier to noise."""
    words: _Words = {}
    for budget in budgets:
        judged = judge(budget, chain.port, facts.plan.policy)
        word = Verdict.NEAR if judged.near else judged.verdict
        words[f"loss {budget.grid.name}"] = str(word)
    for gain in gains(chain, budgets, facts.plan.policy, facts.rulebook):
        outcome = rf406_net_gain.outcome(chain.port, gain)
        if outcome is not None:
            words[f"net gain {gain.band}"] = str(outcome.verdict)
        if chain.port.cn0_dbhz is not None:
            words[f"carrier to noise {gain.band}"] = str(rf410.judge(chain.port, gain))
    return words
