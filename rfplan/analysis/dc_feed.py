# SPDX-License-Identifier: Apache-2.0
"""What does an antenna get of its port's supply? Volts, current, and what blocks the way."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from rfplan.analysis.cable_loss import PreparedCable, loss_at_20, spread_ratio
from rfplan.analysis.element_loss import LossBook
from rfplan.analysis.signal_path import PLAIN, Chain, Element
from rfplan.model.assessment import CableRun
from rfplan.model.catalog import Cable, Conductor
from rfplan.model.plan import Policy
from rfplan.model.record import ById
from rfplan.model.source import UNSOURCED
from rfplan.physics.cable_temperature import resistance_factor_ratio
from rfplan.physics.dc_feed import feed_drop_bounds_v, feed_drop_v, most_loop_resistance_ohm_per_m
from rfplan.units import NONE, UNKNOWN, Missing, Range

Bounds = tuple[float, float]
ANYTHING: Bounds = (0.0, math.inf)


@dataclass(frozen=True, slots=True)
class Supply:
    """One path as a way for direct current; infinite where something is not known.

    `resistance_ohm` is cold and hot. `carries` is None where it hangs on a part that does not say
    whether it passes current.
    """

    port_v: Bounds
    current_a: Bounds
    resistance_ohm: Bounds
    temperature_c: Bounds
    blocked_by: tuple[str, ...]
    load_ohm: float | None
    silent: tuple[str, ...]
    unknown: tuple[str, ...]

    @property
    def antenna_v(self) -> Bounds:
        """Volts at the antenna: hot and loaded most, then cold and loaded least."""
        least_v, most_v = self.port_v
        least_a, most_a = self.current_a
        least_ohm, most_ohm = self.resistance_ohm
        most_drop_v = most_a * most_ohm if most_a and most_ohm else 0.0
        return least_v - most_drop_v, most_v - least_a * least_ohm

    @property
    def seen_a(self) -> Bounds:
        """The current that the port sees: the antenna's, or that of the load before a block."""
        if not self.blocked_by:
            return self.current_a
        if self.load_ohm is None:
            return ANYTHING
        return max(0.0, self.port_v[0]) / self.load_ohm, self.port_v[1] / self.load_ohm

    @property
    def carries(self) -> bool | None:
        """Whether current reaches the antenna."""
        return False if self.blocked_by else None if self.silent else True


def supplies(chains: ById[Chain], book: LossBook, policy: Policy) -> ById[Supply]:
    """Return the paths whose port sends direct current up the line."""
    found = ((id, supply(chain, book, policy)) for id, chain in chains.items())
    return ById((id, way) for id, way in found if way)


def supply(chain: Chain, book: LossBook, policy: Policy) -> Supply | None:
    """Return a path as a way for direct current, or None where the port sends none up the line."""
    volts = chain.port.feed_v
    if volts is None or not feeds(volts):
        return None
    current, current_unknown = _current(chain)
    loop, ends_c = _resistance(chain, book), policy.temperature_c.known()
    cold, hot = (float(resistance_factor_ratio(end_c)) for end_c in ends_c)
    blocks = [element for element in chain.elements if element.dc == "block"]
    return Supply(
        port_v=_ends(volts, -math.inf),
        current_a=current,
        resistance_ohm=(loop.least_ohm * cold, loop.most_ohm * hot),
        temperature_c=ends_c,
        blocked_by=tuple(element.id or element.type for element in blocks),
        load_ohm=_load_ohm(blocks[0]) if blocks else None,
        silent=tuple(f"{one.type}.dc" for one in chain.elements if one.dc is None),
        unknown=(
            *(("port.feed",) if UNKNOWN in (volts.low, volts.high) else ()),
            *current_unknown,
            *loop.unknown,
        ),
    )


def feeds(volts: Range) -> bool:
    """Whether a port sends volts up its line: it does not where its document says `none`."""
    return (volts.low, volts.high) != (NONE, NONE)


def _load_ohm(element: Element) -> float | None:
    """What the first block shows the port in place of the antenna."""
    branch = element.part.ports[element.port] if element.part and element.port else None
    return branch.load_ohm if branch else None


def _ends(given: Range, least: float) -> Bounds:
    low = least if isinstance(given.low, Missing) else given.low
    return low, math.inf if isinstance(given.high, Missing) else given.high


def _current(chain: Chain) -> tuple[Bounds, tuple[str, ...]]:
    """What the antenna draws; where it does not say, at most what the port can give."""
    stated, able = chain.antenna_type.current_a, chain.port.current_a
    name = f"{chain.antenna_type.id}.current"
    if stated is not None and not isinstance(stated.high, Missing):
        unknown = (name,) if isinstance(stated.low, Missing) else ()
        return _ends(stated, 0.0), unknown
    return (0.0, math.inf if able is None else able), (name,)


@dataclass(frozen=True, slots=True)
class _Loop:
    """Resistance there and back, between bounds, and what is missing for one number."""

    least_ohm: float
    most_ohm: float
    unknown: tuple[str, ...]


def _resistance(chain: Chain, book: LossBook) -> _Loop:
    """Add up a line at 20 degC: centre and shield of each cable, and the parts."""
    loops = [_loop(element, book) for element in chain.elements if element.kind != "mated_pair"]
    return _Loop(
        sum(loop.least_ohm for loop in loops),
        sum(loop.most_ohm for loop in loops),
        tuple(name for loop in loops for name in loop.unknown),
    )


def _loop(element: Element, book: LossBook) -> _Loop:
    """Of an element there and back; metal from end to end counts as none, like a mated pair."""
    if element.run is not None:
        return _cable_loop(element.run, book)
    part = element.part
    if part is None or (part.resistance_ohm is None and part.kind in PLAIN):
        return _Loop(0.0, 0.0, ())
    if part.resistance_ohm is None:
        return _Loop(*ANYTHING, (f"{part.id}.resistance",))
    return _Loop(part.resistance_ohm, part.resistance_ohm, ())


def _cable_loop(run: CableRun, book: LossBook) -> _Loop:
    if run.type == "?":
        return _Loop(*ANYTHING, (f"{run.id}.type",))
    missing = tuple(f"{run.id}.{name}" for name in run.unknown)
    per_m, unknown = _per_metre(book.prepared(run.type))
    most_m = run.length_m.most
    return _Loop(
        per_m[0] * run.length_m.least,
        per_m[1] * most_m if most_m else 0.0,
        (*missing, *unknown),
    )


def _per_metre(prepared: PreparedCable) -> tuple[Bounds, tuple[str, ...]]:
    """Ohm per metre there and back: a shield resists at most as much as the centre inside it.

    Where the centre is not known either, the loss at the lowest frequency bounds both.
    """
    cable = prepared.cable
    centre, shield = _resisting(cable, cable.centre), _resisting(cable, cable.shield)
    if centre is None:
        least = shield[0] if shield else 0.0
        return (least, _bound_by_loss(prepared)), (f"{cable.id}.centre",)
    if shield is None:
        low = feed_drop_bounds_v(1.0, 1.0, centre[0]).low_v
        high = feed_drop_bounds_v(1.0, 1.0, centre[1]).high_v
        return (float(low), float(high)), (f"{cable.id}.shield",)
    least, most = (float(feed_drop_v(1.0, 1.0, *ends)) for ends in zip(centre, shield, strict=True))
    return (least, most), ()


def _resisting(cable: Cable, conductor: Conductor | None) -> Bounds | None:
    """Ohm per metre of a conductor with the spread that its source deserves."""
    if conductor is None or conductor.resistance_ohm_per_m is None:
        return None
    source = cable.sources.get(conductor.source or "", UNSOURCED)
    spread = spread_ratio("nominal", source)
    ohm = conductor.resistance_ohm_per_m
    return ohm * (1.0 - spread), ohm * (1.0 + spread)


def _bound_by_loss(prepared: PreparedCable) -> float:
    law = prepared.reference
    if law.basis == "minimum" or not math.isfinite(law.low_hz):
        return math.inf
    lowest = float(loss_at_20(law, np.array([law.low_hz]))[0]) * (1.0 + law.tolerance_ratio)
    return float(most_loop_resistance_ohm_per_m(lowest, prepared.cable.impedance_ohm.value))
