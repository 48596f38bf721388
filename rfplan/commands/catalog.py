# SPDX-License-Identifier: Apache-2.0
"""rfplan catalog: list the catalogue, check a cable file, fit a reel's table."""

from __future__ import annotations

from argparse import Namespace
from collections.abc import Sequence
from pathlib import Path

import numpy as np
from numpy.typing import NDArray

from rfplan.analysis.cable_faults import cable_faults
from rfplan.analysis.cable_loss import FIT_RESIDUAL_RATIO
from rfplan.commands.opening import opened_catalog, refuse
from rfplan.commands.output import LONGEST_LINE, complain, deliver, text_width
from rfplan.files.catalog_files import load_cable
from rfplan.files.problems import ProblemsError
from rfplan.model.record import visible
from rfplan.physics.cable_attenuation import (
    AttenuationLaw,
    attenuation_law_db_per_m,
    fit_attenuation_law,
)
from rfplan.reports.catalog_sheet import catalog_sheet
from rfplan.reports.formats import text
from rfplan.reports.outcome import NOT_JUDGED
from rfplan.units import ATTENUATION, FREQUENCY, QuantityError, parse

COMMON_MHZ = (75.0, 118.0, 137.0, 329.0, 978.0, 1030.0, 1090.0, 1575.42)

LACKS = {"check": "names no cable file", "fit": "names no points, such as 50MHz=10.8dB/100m"}


def run(options: Namespace) -> int:
    """List the entries, or do the action named."""
    if options.action == "list":
        return _unused(options.items) if options.items else _list(options)
    if not options.items:
        complain(f"rfplan catalog {options.action}: {LACKS[options.action]}")
        return NOT_JUDGED
    return _check(options) if options.action == "check" else _fit(options)


def _unused(items: Sequence[str]) -> int:
    complain(f"rfplan catalog list: {items[0]!r} is one word too many")
    return NOT_JUDGED


def _list(options: Namespace) -> int:
    try:
        catalog = opened_catalog(options)
    except ProblemsError as error:
        return refuse(error)
    return deliver(text.write(catalog_sheet(catalog), width=text_width(options)), options, 0)


def _check(options: Namespace) -> int:
    """Say of each cable file what does not hang together; 1 if anything does not."""
    lines: list[str] = []
    code = 0
    for name in options.items:
        try:
            faults = [f"{name}: {fault}" for fault in cable_faults(load_cable(Path(name)))]
        except ProblemsError as error:
            lines += [problem.text() for problem in error.problems]
            code = NOT_JUDGED
            continue
        lines += [visible(line, LONGEST_LINE) for line in faults or [f"{name}: hangs together"]]
        code = max(code, 1 if faults else 0)
    return deliver("\n".join(lines), options, code)


def _fit(options: Namespace) -> int:
    """Fit k1 sqrt(f) + k2 f to the points typed in, and say how well it fits."""
    try:
        table = _points(options.items)
        law = fit_attenuation_law(table[:, 0], table[:, 1])
    except ValueError as error:
        complain(f"rfplan catalog fit: {error}")
        return NOT_JUDGED
    return deliver("\n".join(_told(law, table)), options, 0)


def _points(texts: Sequence[str]) -> NDArray[np.float64]:
    """Read 50MHz=10.8dB/100m and the like into rows sorted by frequency."""
    return np.array(sorted(map(_point, texts)))


def _point(text: str) -> tuple[float, float]:
    frequency, equals, loss = text.partition("=")
    if not equals:
        raise ValueError(f"{text}: there is no '='; write 50MHz=10.8dB/100m")
    try:
        return parse(frequency.strip(), FREQUENCY), parse(loss.strip(), ATTENUATION)
    except QuantityError as error:
        raise ValueError(f"{text}: {error}") from None


def _told(law: AttenuationLaw, table: NDArray[np.float64]) -> list[str]:
    """Return the fit as a cable file takes it, its quality, and what it gives at common places."""
    low_mhz, high_mhz = table[0, 0] / 1e6, table[-1, 0] / 1e6
    return [
        "k1 sqrt(f) + k2 f in dB/100 m, f in MHz, at 20 degC",
        f"fit: {{k1: {law.k1:.5f}, k2: {law.k2:.6f}, range: {low_mhz:g} .. {high_mhz:g} MHz}}",
        _quality(law, len(table)),
        *(_value(law, mhz, inside=low_mhz <= mhz <= high_mhz) for mhz in COMMON_MHZ),
    ]


def _quality(law: AttenuationLaw, points: int) -> str:
    told = f"largest residual {law.worst_residual_ratio:.1%}"
    if points == 2:
        return f"{told}, which says nothing: two points always fit"
    if law.worst_residual_ratio > FIT_RESIDUAL_RATIO:
        return f"{told}, above {FIT_RESIDUAL_RATIO:.0%}: not to be used beyond the table"
    return told


def _value(law: AttenuationLaw, mhz: float, *, inside: bool) -> str:
    loss_db = 100.0 * float(attenuation_law_db_per_m(mhz * 1e6, law.k1, law.k2))
    return f"{mhz:9.2f} MHz  {loss_db:7.2f} dB/100 m{'' if inside else '  extrapolated'}"
