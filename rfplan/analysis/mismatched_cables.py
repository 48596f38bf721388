# SPDX-License-Identifier: Apache-2.0
"""What do reflections add inside a cable, and what does a cable of another impedance add?"""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from rfplan.analysis.chain_response import PHASES
from rfplan.analysis.element_loss import BandGrid
from rfplan.analysis.facts import Facts
from rfplan.model.assessment import CableRun
from rfplan.model.electrical import LoadedLine, OddPiece
from rfplan.physics.mismatch import mismatch_loss_db, reflection_ratio
from rfplan.physics.mismatched_line import (
    line_loss_exact_db,
    line_loss_mismatched_db,
    lossy_impedance_ohm,
)
from rfplan.physics.odd_piece import (
    best_piece_length_m,
    odd_piece_loss_db,
    odd_piece_worst_vswr,
    worst_piece_length_m,
)
from rfplan.physics.two_port import REFERENCE_OHM, propagation_per_m

AGREES_DB = 0.01
"""Handbook and exact loss that lie this close are the same to any instrument."""


def loaded_line(facts: Facts, id: str) -> LoadedLine | None:
    """Return the loss of a path's longest cable into its antenna, by the handbook and exactly.

    At the lowest frequency of the path, where the impedance of a cable is least real.
    """
    chain = facts.chains[id]
    run, vswr = chain.varying, chain.antenna_type.vswr
    if run is None or vswr is None:
        return None
    grid = min((one.grid for one in facts.budgets[id]), key=lambda one: one.frequency_hz[0])
    metre = facts.book.metre_loss(run.type, grid)
    per_m, own = float(metre.nominal[0]), float(metre.unscaled[0])
    if not np.isfinite(per_m):
        return None
    handbook = float(line_loss_mismatched_db(per_m * run.length_m.nominal, vswr))
    exact = _exact_db(facts, run, (float(grid.frequency_hz[0]), per_m, min(own, per_m)), vswr)
    apart = max(abs(handbook - end) for end in exact)
    return LoadedLine(
        cable=run.id,
        vswr=vswr,
        frequency_hz=float(grid.frequency_hz[0]),
        handbook_db=handbook,
        exact_db=exact,
        holds="both" if apart <= AGREES_DB else "exact only",
    )


def _exact_db(
    facts: Facts, run: CableRun, metre: tuple[float, float, float], vswr: float
) -> tuple[float, float]:
    """The exact loss over all phases of the load: frequency, loss and dielectric loss per metre."""
    frequency_hz, per_m, own = metre
    cable = facts.catalog.cables[run.type]
    ohm = cable.impedance_ohm.value
    gamma = complex(propagation_per_m(frequency_hz, per_m, cable.velocity_ratio))
    turned = float(reflection_ratio(vswr)) * PHASES[:, 0]
    loads = ohm * (1.0 + turned) / (1.0 - turned)
    line_ohm = complex(lossy_impedance_ohm(ohm, per_m - own, own, gamma.imag))
    exact = np.asarray(line_loss_exact_db(loads, line_ohm, gamma, run.length_m.nominal))
    return float(exact.min()), float(exact.max())


def odd_pieces(facts: Facts, id: str) -> Iterator[OddPiece]:
    """Yield the cables of a path whose impedance is not that of its ports, with what they add."""
    grids = [budget.grid for budget in facts.budgets[id]]
    for run in facts.chains[id].runs:
        if run.type == "?" or not np.isfinite(run.length_m.nominal):
            continue
        ohm = facts.catalog.cables[run.type].impedance_ohm
        if abs(ohm.value - REFERENCE_OHM) > ohm.plus_minus:
            yield _odd_piece(facts, run, grids)


def _odd_piece(facts: Facts, run: CableRun, grids: list[BandGrid]) -> OddPiece:
    """What a piece adds at the frequency at which it adds most, and how long it should be."""
    cable = facts.catalog.cables[run.type]
    ohm, velocity, length_m = (
        cable.impedance_ohm.value,
        cable.velocity_ratio,
        run.length_m.nominal,
    )
    frequency = np.concatenate([grid.frequency_hz for grid in grids])
    adds = np.asarray(odd_piece_loss_db(ohm, REFERENCE_OHM, frequency, length_m, velocity))
    worst_vswr = float(odd_piece_worst_vswr(ohm, REFERENCE_OHM))
    at_hz = float(frequency[int(adds.argmax())])
    return OddPiece(
        cable=run.id,
        ohm=ohm,
        port_ohm=REFERENCE_OHM,
        length_m=length_m,
        frequency_hz=at_hz,
        adds_db=float(adds.max()),
        worst_db=float(mismatch_loss_db(worst_vswr)),
        worst_vswr=worst_vswr,
        best_m=float(best_piece_length_m(length_m, at_hz, velocity)),
        worst_m=float(worst_piece_length_m(length_m, at_hz, velocity)),
    )
