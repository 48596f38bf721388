# SPDX-License-Identifier: Apache-2.0
"""Which pad of the catalogue at the unit makes a path hold, and what is against each other one?"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

from rfplan.analysis.dc_feed import supply
from rfplan.analysis.facts import Facts, path_budgets
from rfplan.analysis.loss_budget import BandBudget
from rfplan.analysis.receiver import gains
from rfplan.analysis.signal_path import Chain, resolve
from rfplan.model.catalog import InlinePart
from rfplan.model.electrical import PadTrial
from rfplan.model.findings import Verdict
from rfplan.model.plan import Part
from rfplan.rules import rf406_net_gain, rf407_supply_at_antenna, rf408_supervision_current
from rfplan.rules import rf410_carrier_to_noise as rf410
from rfplan.rules.bounded import Outcome, ends_of
from rfplan.rules.rf401_loss_window import judge, loss_range
from rfplan.rules.room import TIE
from rfplan.units import Missing, Range

TRIAL = "pad on trial"
"""Stands for the pad in a chain; no id of a plan can hold a space."""


def pad_trials(facts: Facts, id: str) -> tuple[PadTrial, ...]:
    """Return a path without and with each pad, by rising loss; the first without reasons holds.

    Nothing where the equipment fixes the cable, or no window of the port can ask for a pad.
    """
    port = facts.chains[id].port
    kind = port.cable or facts.rulebook.radios[port.radio].cable
    asks = any(not isinstance(limit.low, Missing) for limit in port.loss_db.values())
    if kind == "fixed" or not (asks or port.net_gain_db):
        return ()
    pads = [part for part in facts.catalog.inline_parts.values() if part.kind == "pad"]
    trials = [_trial(facts, id, part) for part in (None, *pads)]
    return tuple(sorted(trials, key=lambda trial: (trial.loss_db, trial.pad or "")))


def _trial(facts: Facts, id: str, part: InlinePart | None) -> PadTrial:
    chain = _with_pad(facts, id, part)
    budgets = path_budgets(chain, facts.rulebook, facts.book)
    fitted = [one.part for one in facts.chains[id].elements if one.part and one.part.kind == "pad"]
    return PadTrial(
        pad=part.id if part else None,
        loss_db=_loss_db(chain, budgets[0]) if part else 0.0,
        fitted=fitted == ([part] if part else []),
        reasons=tuple(_reasons(facts, chain, budgets, part)),
    )


def _with_pad(facts: Facts, id: str, part: InlinePart | None) -> Chain:
    """Resolve a path anew, its own pads taken out and one put in behind the unit."""
    fitted, path = facts.installation, facts.installation.paths[id]
    first, *rest = (member for member in path.chain if not _is_pad(facts, member))
    members = (first, *((TRIAL,) if part else ()), *rest)
    parts = fitted.parts.having(TRIAL, Part(part.id)) if part else fitted.parts
    return resolve(
        id, replace(path, chain=members), replace(fitted, parts=parts), facts.runs, facts.catalog
    )


def _is_pad(facts: Facts, member: str) -> bool:
    part = facts.installation.parts.get(member.partition(".")[0])
    return part is not None and facts.catalog.inline_parts[part.type].kind == "pad"


def _loss_db(chain: Chain, budget: BandBudget) -> float:
    """The nominal loss of the pad in the middle of the first band."""
    place = next(i for i, element in enumerate(chain.elements) if element.id == TRIAL)
    nominal = budget.items[place].nominal
    return float(nominal[budget.grid.mid] if len(nominal) > 1 else nominal[0])


def _reasons(
    facts: Facts, chain: Chain, budgets: tuple[BandBudget, ...], part: InlinePart | None
) -> Iterator[str]:
    """Say everything that is against a path as it would be."""
    if part is not None:
        yield from _unfit(facts, chain, budgets, part)
    for budget in budgets:
        yield from _loss_reasons(facts, chain, budget)
    for gain in gains(chain, budgets, facts.plan.policy, facts.rulebook):
        outcome = rf406_net_gain.outcome(chain.port, gain)
        if outcome and outcome.verdict is not Verdict.PASS:
            yield f"net gain in {gain.band}: {_told(outcome, 'dB')}"
        if rf410.judge(chain.port, gain) is not Verdict.PASS:
            yield f"carrier to noise in {gain.band} is too low or not known"
    yield from _supply_reasons(facts, chain)


def _unfit(
    facts: Facts, chain: Chain, budgets: tuple[BandBudget, ...], part: InlinePart
) -> Iterator[str]:
    """What is against the part itself: plugs, band, temperature."""
    if not all(element.mates for element in chain.elements):
        yield "its plugs do not mate with unit and cable"
    ends_hz = [float(end) for b in budgets for end in b.grid.frequency_hz[[0, -1]]]
    if not _within(ends_hz, part.band_hz):
        yield "it is not made for this band"
    if not _within(facts.plan.policy.temperature_c.known(), part.rated_c):
        yield "it is not rated for the temperatures of the plan"


def _within(asked: Sequence[float], made_for: Range | None) -> bool:
    low, high = ends_of(made_for)
    return (low is None or low <= min(asked)) and (high is None or max(asked) <= high)


def _loss_reasons(facts: Facts, chain: Chain, budget: BandBudget) -> Iterator[str]:
    judged = judge(budget, chain.port, facts.plan.policy)
    if judged.verdict is Verdict.PASS:
        return
    window = loss_range(chain.port, budget.grid.name)
    ends = (
        (judged.least_db, window.low)
        if judged.verdict is Verdict.FAIL_LOW
        else (
            judged.most_db,
            window.high,
        )
    )
    value, limit = ends
    if value is None or isinstance(limit, Missing):
        yield f"loss in {budget.grid.name}: {judged.verdict}"
    else:
        yield f"loss in {budget.grid.name}: {judged.verdict}, {value:.2f} against {limit:.2f} dB"


def _supply_reasons(facts: Facts, chain: Chain) -> Iterator[str]:
    """What is against the way of direct current, where the path feeds its antenna today."""
    today = facts.supplies.get(chain.id)
    way = supply(chain, facts.book, facts.plan.policy)
    if today is None or way is None or chain.antenna_type.supply_v is None:
        return
    if way.blocked_by:
        if TRIAL in way.blocked_by or not today.blocked_by:
            yield "it blocks the supply of the antenna"
        return
    volts = rf407_supply_at_antenna.outcome(chain, way)
    if volts and volts.verdict is not Verdict.PASS:
        yield f"supply of the antenna: {_told(volts, 'V')}"
    current = rf408_supervision_current.outcome(chain, way)
    if current and current.verdict is not Verdict.PASS:
        yield f"current up the line: {_told(current, 'A')}"
    for part in (element.part for element in chain.elements if element.part):
        if part.current_a is not None and way.current_a[1] > part.current_a + TIE:
            yield f"{part.id} is made for {1000.0 * part.current_a:g} mA"


def _told(outcome: Outcome, unit: str) -> str:
    if outcome.value is None or outcome.limit is None:
        return f"hangs on {', '.join(outcome.undecided_by)}"
    return f"{outcome.value:.2f} {unit} is {outcome.side} {outcome.limit:.2f} {unit}"
