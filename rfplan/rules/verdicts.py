# SPDX-License-Identifier: Apache-2.0
"""Facts to the records of an assessment: paths with their bands, chains and readings."""

from __future__ import annotations

import math
from collections.abc import Callable

import numpy as np

from rfplan.analysis.element_loss import ItemLoss
from rfplan.analysis.facts import Facts
from rfplan.analysis.loss_budget import BandBudget
from rfplan.analysis.signal_path import Chain, Element
from rfplan.model.assessment import (
    BandLoss,
    CableRun,
    ChainItem,
    Corner,
    PathAssessment,
    PathLoss,
    Window,
)
from rfplan.model.catalog import Cable, Connector, InlinePart
from rfplan.model.findings import RANK, Finding, Verdict, worst
from rfplan.model.plan import Port
from rfplan.rules import receivers
from rfplan.rules.readings import reading
from rfplan.rules.rf401_loss_window import judge, loss_range
from rfplan.rules.rf402_power_at_antenna import receive, transmit
from rfplan.rules.room import Floats, plan_source
from rfplan.units import UNKNOWN, Missing, Range


def path_assessment(facts: Facts, id: str, findings: tuple[Finding, ...]) -> PathAssessment:
    """Return everything about one path: chain, bands, power, readings, the worst word."""
    chain = facts.chains[id]
    radio = facts.rulebook.radios[chain.port.radio]
    bands = tuple(band_loss(facts, chain, budget) for budget in facts.budgets[id])
    loss = path_loss(facts, chain, bands)
    own = [finding for finding in findings if id in finding.paths]
    source = plan_source(facts.scene, chain.port.source).words()
    sent, received = transmit(chain, radio, bands, source), tuple(receive(chain, radio, bands))
    words = [Verdict.NEAR if loss.near else loss.verdict, *(one.verdict for one in own)]
    words += [one.verdict for one in (sent, *received) if one is not None and one.verdict]
    return PathAssessment(
        id=id,
        radio=chain.port.radio,
        unit=chain.unit,
        port=chain.port_id,
        antenna=chain.antenna,
        direction=_direction(chain.directions(radio)),
        chain=chain_items(facts, chain),
        mated_pairs=len(chain.pairs),
        cables=tuple(run.id for run in chain.runs),
        bands=bands,
        loss=loss,
        transmit=sent,
        receive=received,
        readings=tuple(
            reading(facts, name, one, bands)
            for name, one in facts.readings.items()
            if one.path == id
        ),
        findings=tuple(finding.id for finding in own),
        overall=worst(words),
        receiver=receivers.receptions(facts, chain),
        feed=receivers.feed(facts, chain),
        retermination=receivers.new_plugs(facts, chain),
    )


def _direction(directions: set[str]) -> str:
    return "txrx" if len(directions) == 2 else next(iter(directions), "rx")


def chain_items(facts: Facts, chain: Chain) -> tuple[ChainItem, ...]:
    """Return the elements of a chain with their nominal loss at the middle of the first band."""
    return tuple(_chain_item(facts, chain, index) for index in range(len(chain.elements)))


def _chain_item(facts: Facts, chain: Chain, index: int) -> ChainItem:
    element, budgets = chain.elements[index], facts.budgets[chain.id]
    item, mid = budgets[0].items[index], budgets[0].grid.mid
    entry = _entry(facts, element)
    return ChainItem(
        kind=element.kind,
        id=element.id,
        type=element.type,
        loss_db=_number(_at(item.nominal, mid)),
        basis=item.basis,
        extrapolated_in=tuple(one.grid.name for one in budgets if one.items[index].extrapolated),
        source=item.source.words(),
        source_class=item.source.class_,
        impedance_ohm=entry.impedance_ohm.value if entry and entry.impedance_ohm else None,
        attenuation_db_per_m=_db_per_m(item, mid),
        designation=_designation(entry, element, chain),
        tolerance=item.tolerance,
    )


def _db_per_m(item: ItemLoss, index: int) -> float | None:
    return None if item.db_per_m is None else _number(_at(item.db_per_m, index))


def _entry(facts: Facts, element: Element) -> Cable | InlinePart | Connector | None:
    """The entry of the catalogue behind an element; a pigtail is part of its antenna's."""
    catalog = facts.catalog
    if element.run is not None:
        return catalog.cables.get(element.type)
    return element.part or catalog.connectors.get(element.type)


def _designation(
    entry: Cable | InlinePart | Connector | None, element: Element, chain: Chain
) -> str | None:
    """What the catalogue calls an element."""
    match entry:
        case Cable():
            return entry.designation
        case InlinePart():
            return entry.title
        case Connector():
            return f"{entry.series}, {entry.form}"
    return chain.antenna_type.title if element.id == chain.antenna else None


def band_loss(facts: Facts, chain: Chain, budget: BandBudget) -> BandLoss:
    """Return one band of a path, judged against its window."""
    policy, port, grid = facts.plan.policy, chain.port, budget.grid
    judged = judge(budget, port, policy)
    cold, hot = policy.temperature_c.known()
    at_least, at_most = int(budget.least.argmin()), int(budget.most.argmax())
    frequency, mid = grid.frequency_hz, grid.mid
    return BandLoss(
        name=grid.name,
        low_hz=float(frequency[0]),
        high_hz=float(frequency[-1]),
        nominal_db=(
            _number(budget.nominal[0]),
            _number(budget.nominal[mid]),
            _number(budget.nominal[-1]),
        ),
        min_corner=Corner(_number(budget.least[at_least]), cold, float(frequency[at_least])),
        max_corner=Corner(_number(budget.most[at_most]), hot, float(frequency[at_most])),
        rss_db=(_number(budget.rss[0].min()), _number(budget.rss[1].max())),
        judged_db=(judged.least_db, judged.most_db),
        window=window(facts, port, loss_range(port, grid.name)),
        margin_to_min_db=judged.margin_to_min_db,
        margin_to_max_db=judged.margin_to_max_db,
        nominal_verdict=judged.nominal_verdict,
        verdict=judged.verdict,
        near=judged.near,
        bounded=judged.bounded,
        item_db=tuple(
            (
                _number(_at(item.least, at_least)),
                _number(_at(item.nominal, mid)),
                _number(_at(item.most, at_most)),
            )
            for item in budget.items
        ),
        item_db_per_m=tuple(_db_per_m(item, mid) for item in budget.items),
        item_obtained=tuple(item.obtained for item in budget.items),
        mismatch_db=budget.mismatch_db,
        item_ageing_db=tuple(_number(_at(item.ageing, at_most)) for item in budget.items),
        undecided_by=judged.undecided_by,
    )


_PLUGS = {None: None, "included": True, "excluded": False}


def window(facts: Facts, port: Port, limit: Range) -> Window:
    """Return the window of a port with its datum in words."""
    plugs = "both end pairs counted" if port.plugs in (None, "included") else f"pairs {port.plugs}"
    where = "at room temperature" if port.limit_at == "room" else "over the temperature range"
    datum = [plugs, port.terminations or "matched", where]
    assumed = port.plugs is None and port.terminations is None and port.limit_at is None
    return Window(
        min_db=None if isinstance(limit.low, Missing) else limit.low,
        max_db=None if isinstance(limit.high, Missing) else limit.high,
        min_stated=_stated(limit.low),
        max_stated=_stated(limit.high),
        plugs_included=_PLUGS.get(port.plugs),
        datum=", ".join(datum) + (" (no datum stated)" if assumed else ""),
        source=plan_source(facts.scene, port.source).words(),
    )


def _stated(end: float | Missing) -> str:
    if isinstance(end, Missing):
        return "unknown" if end is UNKNOWN else "none"
    return "value"


def path_loss(facts: Facts, chain: Chain, bands: tuple[BandLoss, ...]) -> PathLoss:
    """Return the worst band of a path, and how short and long its longest cable may be."""
    governing = min(
        bands, key=lambda band: (RANK[band.verdict], not band.near, _least_margin(band))
    )
    varying = chain.varying
    shortest, longest = _allowed_m(facts, chain, varying) if varying else (None, None)
    return PathLoss(
        verdict=governing.verdict,
        near=governing.verdict is Verdict.PASS and any(band.near for band in bands),
        governing_band=governing.name,
        varying_cable=varying.id if varying else None,
        shortest_m=shortest,
        longest_m=longest,
    )


def _least_margin(band: BandLoss) -> float:
    margins = [m for m in (band.margin_to_min_db, band.margin_to_max_db) if m is not None]
    return min(margins, default=math.inf)


def _allowed_m(facts: Facts, chain: Chain, run: CableRun) -> tuple[float | None, float | None]:
    """Return the finished lengths at which the least and the most loss just meet the windows."""
    longest: list[float] = []
    shortest: list[float] = []
    above = run.length_m.most - run.length_m.nominal
    below = run.length_m.nominal - run.length_m.least
    room = chain.port.limit_at == "room"
    for budget in facts.budgets[chain.id]:
        limit = loss_range(chain.port, budget.grid.name)
        metre = facts.book.metre_loss(run.type, budget.grid)
        if not isinstance(limit.high, Missing):
            total, per_m = (
                (budget.most_20, metre.most_20) if room else (budget.most, metre.most_hot)
            )
            ends = total, per_m * (1.0 + (run.ageing_ratio or 0.0))
            longest.append(float(_length_at_m(limit.high, *ends, run.length_m.most).min()) - above)
        if not isinstance(limit.low, Missing):
            ends = (budget.least_20, metre.least_20) if room else (budget.least, metre.least_cold)
            shortest.append(float(_length_at_m(limit.low, *ends, run.length_m.least).max()) + below)
    return _not_negative(shortest, max), _not_negative(longest, min)


def _length_at_m(limit_db: float, total_db: Floats, metre_db: Floats, length_m: float) -> Floats:
    """Return the length of one cable at which its path just meets a limit; NaN where unknown."""
    known = np.isfinite(total_db) & np.isfinite(metre_db) & (metre_db > 0.0)
    if known.all():
        return length_m + (limit_db - total_db) / metre_db
    slope = np.where(known, metre_db, 1.0)
    spare_db = limit_db - np.where(known, total_db, 0.0)
    return np.where(known, length_m + spare_db / slope, np.nan)


def _not_negative(lengths_m: list[float], worst_of: Callable[[list[float]], float]) -> float | None:
    if not lengths_m or not all(map(math.isfinite, lengths_m)):
        return None
    return max(0.0, worst_of(lengths_m))


def _at(values: Floats, index: int) -> float:
    return float(values[index] if len(values) > 1 else values[0])


def _number(value: float) -> float | None:
    return float(value) if math.isfinite(value) else None
