# SPDX-License-Identifier: Apache-2.0
"""How often can a cable get a new plug before its path loses too little?"""

from __future__ import annotations

import math
from collections.abc import Mapping

import numpy as np
from numpy.typing import NDArray

from rfplan.analysis.facts import Facts
from rfplan.analysis.signal_path import Chain
from rfplan.model.assessment import CableRun
from rfplan.model.electrical import Retermination

Floats = NDArray[np.float64]

TIE = 1.0e-9
MOST_CUTS = 99
"""More are not counted; nor are more than the cable is long."""


def retermination(
    facts: Facts, chain: Chain, least_db: Mapping[str, float]
) -> Retermination | None:
    """Return what new plugs on the longest cable leave of the margin to the least loss by band.

    None where no band has a least loss, or the least of the path is not known.
    """
    run, cut_m = chain.varying, facts.plan.policy.retermination_cut_m
    budgets = [one for one in facts.budgets[chain.id] if one.grid.name in least_db]
    if run is None or not budgets or any(one.unknown_least for one in budgets):
        return None
    uncut_m = _uncut_m(run)
    room = chain.port.limit_at == "room"
    lines: list[tuple[Floats, Floats]] = []
    for budget in budgets:
        metre = facts.book.metre_loss(run.type, budget.grid)
        per_m = metre.least_20 if room else metre.least_cold
        least = (budget.least_20 if room else budget.least) + per_m * (uncut_m - run.length_m.least)
        lines.append((least - least_db[budget.grid.name], per_m * cut_m))
    margin, slope = lines[0] if len(lines) == 1 else map(np.concatenate, zip(*lines, strict=True))
    return Retermination(
        cable=run.id,
        cut_m=cut_m,
        margins_db=(_after(0, margin, slope), _after(1, margin, slope), _after(2, margin, slope)),
        cuts_left=min(_cuts(margin, slope), int(uncut_m / cut_m)),
        slack_cuts=math.floor((uncut_m - run.length_m.least) / cut_m + TIE),
    )


def _after(cuts: int, margin_db: Floats, cut_db: Floats) -> float:
    """The least margin over all bands after some cuts."""
    return float(np.min(margin_db - cuts * cut_db))


def _cuts(margin_db: Floats, cut_db: Floats) -> int:
    """How many cuts the margin stands."""
    cuts = (margin_db + TIE) / np.maximum(cut_db, TIE)
    return int(min(max(0.0, float(np.min(cuts))), MOST_CUTS))


def _uncut_m(run: CableRun) -> float:
    """The shortest that tolerance makes a cable, before the allowance for new plugs is used."""
    return run.length_m.nominal - (run.length_m.most - run.length_m.nominal)
