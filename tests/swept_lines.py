# SPDX-License-Identifier: Apache-2.0
"""Sweeps of invented lines, computed by the numpy chain, for the tests of what a sweep says."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path
from typing import Any

import numpy as np
from numpy.typing import NDArray
from sample import refitted, sample_facts, sample_plan

from rfplan.analysis.element_loss import BandGrid, item_loss
from rfplan.analysis.facts import Facts
from rfplan.analysis.sweeps import SweptPath
from rfplan.model.plan import Part, Plan
from rfplan.model.plan import Path as PlanPath
from rfplan.model.record import ById
from rfplan.model.sweep import Sweep
from rfplan.physics.abcd import Matrices, cascade_abcd, s_parameters, shunt_abcd
from rfplan.physics.cable_attenuation import interpolated_attenuation_db_per_m
from rfplan.physics.two_port import (
    LineSection,
    LumpedLoss,
    chain_abcd,
    input_reflection_ratio,
)

SWEPT_HZ = np.linspace(0.8e9, 1.8e9, 801)
OPEN_OHM, SHORT_OHM = 1.0e9, 1.0e-9

VELOCITY_RATIO = 0.695
TABLE_HZ = np.array([10e6, 100e6, 400e6, 1000e6, 2000e6])
TABLE_DB_PER_M = np.array([0.0458, 0.1500, 0.3090, 0.5030, 0.7310])
"""The cable of the sample, as its catalogue has it."""


def cable(
    length_m: float, frequency_hz: NDArray[np.float64] = SWEPT_HZ, **changes: Any
) -> LineSection:
    """Return a length of the sample's cable."""
    attenuation = interpolated_attenuation_db_per_m(frequency_hz, TABLE_HZ, TABLE_DB_PER_M)
    return replace(LineSection(attenuation, VELOCITY_RATIO, 50.0, length_m), **changes)


def pair(vswr: float = 1.0, loss_db: float = 0.08) -> LumpedLoss:
    """Return a mated pair of the sample's connectors."""
    return LumpedLoss(loss_db, vswr)


def faulty(
    parts_before: list[LineSection | LumpedLoss],
    shunt_s: float,
    parts_behind: list[LineSection | LumpedLoss],
    frequency_hz: NDArray[np.float64] = SWEPT_HZ,
) -> Matrices:
    """Return a line that is squeezed at one place, so that current leaks across it."""
    before, behind = (chain_abcd(frequency_hz, parts) for parts in (parts_before, parts_behind))
    return cascade_abcd([before, shunt_abcd(shunt_s), behind])


def one_port(
    line: Matrices,
    load_ohm: complex,
    file: str = "a.s1p",
    frequency_hz: NDArray[np.float64] = SWEPT_HZ,
) -> Sweep:
    """Return the sweep of a line from the unit's end, with a load at the far one."""
    s11 = np.broadcast_to(input_reflection_ratio(line, load_ohm), frequency_hz.shape)
    return Sweep(tuple(frequency_hz.tolist()), tuple((s,) for s in s11.tolist()), 50.0, file, 1)


def two_port(
    line: Matrices,
    file: str = "a.s2p",
    frequency_hz: NDArray[np.float64] = SWEPT_HZ,
    reference_ohm: float = 50.0,
) -> Sweep:
    """Return the sweep of a line from both of its ends."""
    rows = s_parameters(line, reference_ohm).reshape(-1, 4)
    return Sweep(
        tuple(frequency_hz.tolist()), tuple(map(tuple, rows.tolist())), reference_ohm, file, 2
    )


def plan_of(length_m: float, **policy: Any) -> Plan:
    """Return the sample whose GNSS cable lies there with a known length."""
    plan = refitted(sample_plan(), "cables", "w11", length_m=length_m, via=())
    return replace(plan, policy=replace(plan.policy, **policy))


def facts_of(length_m: float, **policy: Any) -> Facts:
    """Return the facts of the sample whose GNSS cable has a known length."""
    return sample_facts(plan_of(length_m, **policy))


def facts_of_two(first_m: float, second_m: float, part: str = "pad_3db") -> Facts:
    """Return facts in which the GNSS path has two cables with a part between them."""
    plan = plan_of(first_m)
    fitted = plan.installation
    design = replace(
        fitted,
        cables=fitted.cables.having("w12", replace(fitted.cables["w11"], length_m=second_m)),
        parts=ById({"mid": Part(part, at="apl", source="sheet")}),
        paths=fitted.paths.having("gnss1", PlanPath(("nav1.gnss", "w11", "mid", "w12", "gnss1"))),
    )
    return sample_facts(replace(plan, design=design))


def predicted_db(facts: Facts, path: str, frequency_hz: float) -> float:
    """Return the nominal loss of what is swept of a path, element by element."""
    grid = BandGrid("test", np.array([frequency_hz]))
    elements = SweptPath(facts, path).chain.elements
    return float(sum(item_loss(one, grid, facts.book).nominal[0] for one in elements))


def touchstone(sweep: Sweep, folder: Path, name: str | None = None) -> str:
    """Write a sweep as an analyser does and return where."""
    path = folder / (name or sweep.file)
    order = (0,) if sweep.ports == 1 else (0, 2, 1, 3)
    rows = [
        " ".join([f"{at_hz:.3f}", *(f"{s[i].real:.12g} {s[i].imag:.12g}" for i in order)])
        for at_hz, s in zip(sweep.frequency_hz, sweep.s, strict=True)
    ]
    option_line = f"# Hz S RI R {sweep.reference_ohm:g}"
    path.write_text("\n".join(["! invented", option_line, *rows, ""]), "utf-8")
    return str(path)
