# SPDX-License-Identifier: Apache-2.0
"""Facts to the records of a path's receiver, supply and re-terminations."""

from __future__ import annotations

import math

from rfplan.analysis.dc_feed import Supply
from rfplan.analysis.facts import Facts
from rfplan.analysis.receiver import Gain, hot_c
from rfplan.analysis.reterminations import retermination
from rfplan.analysis.signal_path import Chain
from rfplan.model.assessment import PathAssessment
from rfplan.model.electrical import Ends, Feed, Reception, Retermination
from rfplan.model.findings import Verdict, worst
from rfplan.rules import rf406_net_gain, rf407_supply_at_antenna, rf408_supervision_current
from rfplan.rules import rf410_carrier_to_noise as rf410
from rfplan.rules.bounded import ends_of
from rfplan.rules.rf401_loss_window import loss_range
from rfplan.units import Missing


def receptions(facts: Facts, chain: Chain) -> tuple[Reception, ...]:
    """Return what antenna and line leave of gain, noise and signal, band by band."""
    return tuple(_reception(facts, chain, gain) for gain in facts.gains.get(chain.id, ()))


def _reception(facts: Facts, chain: Chain, gain: Gain) -> Reception:
    port, policy, noise = chain.port, facts.plan.policy, gain.noise
    outcome = rf406_net_gain.outcome(port, gain)
    undecided = (*(outcome.undecided_by if outcome else ()), *rf410.missing(chain, gain))
    words = [outcome.verdict] if outcome else []
    if port.cn0_dbhz is not None:
        words.append(rf410.judge(port, gain))
    carrier = noise.carrier if noise else None
    return Reception(
        name=gain.band,
        passive=gain.passive,
        gain_db=_known(gain.gain_db),
        net_gain_db=_known(gain.net_db),
        window_db=ends_of(rf406_net_gain.window(port, gain.band)),
        margins_db=outcome.margins if outcome else (None, None),
        noise_figure_db=noise.figure_db if noise else None,
        noise_k=noise.system_k if noise else None,
        line_c=hot_c(policy),
        cn0_dbhz=noise.cn0_dbhz if noise else None,
        cn0_least_dbhz=port.cn0_dbhz,
        carrier_dbm=carrier.level_dbm if carrier else None,
        carrier_source=carrier.source if carrier else "",
        antenna_dbi=gain.antenna_dbi,
        antenna_noise_k=policy.antenna_noise_k,
        verdict=worst(words) if words else None,
        undecided_by=tuple(dict.fromkeys(undecided)),
    )


def feed(facts: Facts, chain: Chain) -> Feed | None:
    """Return what an antenna gets of the supply of its port; None where the port sends none."""
    supply = facts.supplies.get(chain.id)
    if supply is None:
        return None
    outcomes = [
        one
        for one in (
            rf407_supply_at_antenna.outcome(chain, supply),
            rf408_supervision_current.outcome(chain, supply),
        )
        if one is not None
    ]
    names = (*(name for one in outcomes for name in one.undecided_by), *supply.silent)
    return Feed(
        port_v=_known(supply.port_v),
        antenna_v=(None, None) if supply.blocked_by else _known(supply.antenna_v),
        supply_v=ends_of(chain.antenna_type.supply_v),
        current_a=_known(supply.seen_a),
        supervision_a=ends_of(rf408_supervision_current.window(chain.port)),
        resistance_ohm=_known(supply.resistance_ohm),
        temperature_c=supply.temperature_c,
        blocked_by=supply.blocked_by,
        verdict=_feed_word(supply, [one.verdict for one in outcomes]),
        undecided_by=tuple(dict.fromkeys(names)),
    )


def _feed_word(supply: Supply, words: list[Verdict]) -> Verdict | None:
    return worst(words) if words and supply.carries is not None else None


def new_plugs(facts: Facts, chain: Chain) -> Retermination | None:
    """Return the margin to the least loss after new plugs; None where no loss is too little."""
    least = {
        budget.grid.name: low
        for budget in facts.budgets[chain.id]
        if not isinstance(low := loss_range(chain.port, budget.grid.name).low, Missing)
    }
    return retermination(facts, chain, least) if least else None


def undecided(path: PathAssessment) -> tuple[str, ...]:
    """Name what keeps gain, noise or supply of a path from a verdict."""
    names = [name for band in path.receiver for name in band.undecided_by]
    return (*names, *(path.feed.undecided_by if path.feed else ()))


def _known(bounds: tuple[float, float]) -> Ends:
    low, high = bounds
    return low if math.isfinite(low) else None, high if math.isfinite(high) else None
