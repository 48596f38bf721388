# SPDX-License-Identifier: Apache-2.0
"""The chains of all demo paths against the same chains in scikit-rf: as fast, and the same loss."""

from __future__ import annotations

import os
import time
from collections.abc import Callable

import numpy as np
import pytest
from demo_plans import plan_of
from plan_files import shipped_catalog, shipped_rulebook

from rfplan.analysis.element_loss import BandGrid, LossBook
from rfplan.analysis.facts import gather
from rfplan.analysis.two_ports import chain_parts
from rfplan.physics.chain import chain_loss_db
from rfplan.physics.two_port import LineSection, Part, propagation_per_m

pytestmark = [
    pytest.mark.thorough,
    pytest.mark.skipif(os.environ.get("RFPLAN_THOROUGH") != "1", reason="RFPLAN_THOROUGH is not 1"),
]

POINTS = 201
CORNERS = (0.9, 1.0, 1.1)
"""What a corner makes of the attenuation; the same for both sides, so any values serve."""


def at_corner(part: Part, corner: float) -> Part:
    if not isinstance(part, LineSection):
        return part
    return LineSection(
        corner * part.attenuation_db_per_m, part.velocity_ratio, part.line_ohm, part.length_m
    )


def demo_chains() -> list[tuple[np.ndarray, list[Part]]]:
    """Return every path of the first demo over 201 points of its first band, at three corners."""
    facts = gather(plan_of("amphibian"), shipped_catalog(), shipped_rulebook())
    chains: list[tuple[np.ndarray, list[Part]]] = []
    for id, chain in facts.chains.items():
        band = facts.budgets[id][0].grid.frequency_hz
        frequency_hz = np.linspace(band[0] - 1e3, band[-1] + 1e3, POINTS)
        book = LossBook(shipped_catalog(), facts.plan.policy)
        parts = chain_parts(facts, chain, BandGrid("all", frequency_hz), book)
        chains += [(frequency_hz, [at_corner(p, corner) for p in parts]) for corner in CORNERS]
    return chains


def library_chain(frequency_hz: np.ndarray, parts: list[Part]) -> Callable[[], np.ndarray]:
    """Return scikit-rf's own chain; its frequency and media are made here, its networks there."""
    skrf = pytest.importorskip("skrf")
    points = skrf.Frequency.from_f(frequency_hz, unit="Hz")
    matched = skrf.media.DefinedGammaZ0(points, z0=50.0)
    media = [
        skrf.media.DefinedGammaZ0(
            points,
            z0_port=50.0,
            z0=part.line_ohm,
            gamma=propagation_per_m(frequency_hz, part.attenuation_db_per_m, part.velocity_ratio),
        )
        if isinstance(part, LineSection)
        else matched
        for part in parts
    ]

    def loss_db() -> np.ndarray:
        networks = [
            medium.line(part.length_m, "m")
            if isinstance(part, LineSection)
            else medium.attenuator(-part.insertion_loss_db)
            for medium, part in zip(media, parts, strict=True)
        ]
        return -20.0 * np.log10(np.abs(skrf.network.cascade_list(networks).s[:, 1, 0]))

    return loss_db


def test_all_demo_chains_are_fifty_times_faster_than_the_library_and_lose_the_same() -> None:
    chains = demo_chains()
    theirs = [library_chain(frequency_hz, parts) for frequency_hz, parts in chains]
    for (frequency_hz, parts), library in zip(chains, theirs, strict=True):
        assert np.max(np.abs(chain_loss_db(frequency_hz, parts) - library())) < 1e-9
    ours_s = min(_lap_s(lambda: [chain_loss_db(f, parts) for f, parts in chains]) for _ in range(7))
    theirs_s = min(_lap_s(lambda: [library() for library in theirs]) for _ in range(3))
    assert theirs_s > 50.0 * ours_s


def _lap_s(run: Callable[[], object]) -> float:
    start = time.perf_counter()
    run()
    return time.perf_counter() - start
