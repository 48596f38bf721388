# SPDX-License-Identifier: Apache-2.0
"""How much cable a change needs: cut lengths by type, waste, whole spools, and what is left."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from rfplan.analysis.spools import cut_from_spools, spools_to_hold
from rfplan.model.assessment import Assessment, CableRun
from rfplan.model.plan import ANY_CABLE
from rfplan.reports.cells import length, listed, nothing, number, printed, words, words_or_nothing
from rfplan.reports.context import Context
from rfplan.reports.heading import signature
from rfplan.reports.sheet import Cell, Field, Table, number_field, table, text_field
from rfplan.reports.since_found import new_cables

PART_NUMBER = "part number"
TO_FILL_IN = "____"


def cut_m(run: CableRun) -> float | None:
    """Return the length to cut, or of a piece that lies there already; None where not known."""
    return run.as_built_m if run.terms is None else run.terms.cut_m


@dataclass(frozen=True, slots=True)
class CableOrder:
    """All new assemblies of one type of cable with what each is cut to, NaN where not known."""

    type: str
    pieces_m: Mapping[str, float]
    waste_ratio: float | None
    spool_m: float | None

    @property
    def sum_m(self) -> float:
        """The sum of the cut lengths."""
        return math.fsum(self.pieces_m.values())

    @property
    def with_waste_m(self) -> float:
        """The sum and the waste that the policy states."""
        return self.sum_m * (1.0 + (self.waste_ratio or 0.0))

    @property
    def too_long(self) -> tuple[str, ...]:
        """The pieces that no spool holds."""
        if self.spool_m is None:
            return ()
        return tuple(id for id, piece_m in self.pieces_m.items() if piece_m > self.spool_m)

    @property
    def spools(self) -> tuple[tuple[str, ...], ...]:
        """The pieces by the spool they are cut from; spools for the waste alone have none."""
        if self.spool_m is None or math.isnan(self.sum_m) or self.too_long:
            return ()
        used = cut_from_spools(self.pieces_m, self.spool_m)
        return used + ((),) * (spools_to_hold(self.with_waste_m, self.spool_m) - len(used))

    @property
    def order_m(self) -> float | None:
        """Whole spools, else the sum with waste; None where neither can be told."""
        if self.spool_m is not None:
            return len(self.spools) * self.spool_m if self.spools else None
        return None if self.waste_ratio is None else self.with_waste_m


def cable_orders(assessment: Assessment) -> list[CableOrder]:
    """Return one order for each type of cable."""
    policy, by_type = assessment.plan.policy, dict[str, dict[str, float]]()
    for id in new_cables(assessment):
        run = assessment.cables[id]
        known_m = cut_m(run)
        by_type.setdefault(run.type, {})[id] = math.nan if known_m is None else known_m
    any_m = policy.spool_m.get(ANY_CABLE)
    return [
        CableOrder(type, pieces_m, policy.waste_ratio, policy.spool_m.get(type, any_m))
        for type, pieces_m in sorted(by_type.items())
    ]


def cable_table(assessment: Assessment, context: Context) -> Table:
    """Return cable by type: every cut length, their sum, waste, and what is ordered."""
    units = context.units
    fields: list[Field[CableOrder]] = [
        text_field("type", "cable", lambda order: words(order.type)),
        text_field("designation", "designation", lambda order: _designation(order, assessment)),
        number_field("assemblies", "assemblies", "", lambda order: number(len(order.pieces_m), "")),
        text_field("cuts", "cut lengths", lambda order: _cuts(order, order.pieces_m, context)),
        number_field("sum", "sum", units, lambda order: length(order.sum_m, units)),
        text_field("waste", "waste", _waste),
        number_field("spool", "spool length", units, lambda order: _spool(order, context)),
        number_field("spools", "spools", "", _spools),
        number_field("order", "order", units, lambda order: _ordered(order, context)),
        text_field("part_number", PART_NUMBER, lambda order: signature()),
    ]
    return table("cable", "Cable by type", fields, cable_orders(assessment))


def _designation(order: CableOrder, assessment: Assessment) -> Cell:
    cable = assessment.catalog.cables.get(order.type)
    return words_or_nothing(cable.designation if cable else None)


def _cuts(order: CableOrder, ids: Mapping[str, float] | tuple[str, ...], context: Context) -> Cell:
    return listed(f"{id} {length(order.pieces_m[id], context.units).text}" for id in ids)


def _waste(order: CableOrder) -> Cell:
    if order.waste_ratio is None:
        return nothing("none stated")
    return words(f"{printed(100.0 * order.waste_ratio, '%')} %")


def _spool(order: CableOrder, context: Context) -> Cell:
    return length(order.spool_m, context.units, absent="not stated")


def _spools(order: CableOrder) -> Cell:
    if order.too_long:
        return nothing(f"{', '.join(order.too_long)} longer than one")
    return nothing() if order.spool_m is None else number(len(order.spools) or None, "")


def _ordered(order: CableOrder, context: Context) -> Cell:
    """What is ordered; left to be filled in where neither spool nor waste is stated."""
    stated = order.spool_m is not None or order.waste_ratio is not None
    return length(order.order_m, context.units) if stated else nothing(TO_FILL_IN)


@dataclass(frozen=True, slots=True)
class _Spool:
    """One spool of an order and the pieces that are cut from it."""

    order: CableOrder
    number: int
    pieces: tuple[str, ...]

    @property
    def left_m(self) -> float:
        """What is left over."""
        assert self.order.spool_m is not None
        return self.order.spool_m - math.fsum(self.order.pieces_m[id] for id in self.pieces)


def spools_table(assessment: Assessment, context: Context) -> Table:
    """Return which pieces are cut from which spool; empty where no spool length is stated."""
    units = context.units
    fields: list[Field[_Spool]] = [
        text_field("type", "cable", lambda spool: words(spool.order.type)),
        number_field("number", "spool", "", lambda spool: number(spool.number, "")),
        text_field("cuts", "cut lengths", lambda spool: _cuts(spool.order, spool.pieces, context)),
        number_field("left", "left over", units, lambda spool: length(spool.left_m, units)),
    ]
    return table("spools", "Cable by spool", fields, _cut_spools(assessment), stub=2)


def _cut_spools(assessment: Assessment) -> Iterator[_Spool]:
    for order in cable_orders(assessment):
        for place, pieces in enumerate(order.spools, start=1):
            yield _Spool(order, place, pieces)
