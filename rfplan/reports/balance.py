# SPDX-License-Identifier: Apache-2.0
"""Empty weight and centre of gravity before and after a change, and how they are judged."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from functools import partial
from typing import TypeVar

from rfplan.model.airframe import Airframe, Weight
from rfplan.model.assessment import Assessment
from rfplan.model.findings import Finding, Verdict
from rfplan.model.weight import WeightChange, WeightItem
from rfplan.physics.balance import (
    NEGLIGIBLE_SHIFT_RATIO,
    is_negligible,
    mass_to_reach_kg,
    negligible_mass_kg,
    on_mac_ratio,
)
from rfplan.reports.cells import (
    MASS_UNITS,
    LengthUnit,
    mass,
    nothing,
    number,
    printed,
    quantity,
    verdict_cell,
    words,
    words_or_nothing,
)
from rfplan.reports.context import Context
from rfplan.reports.sheet import Cell, Field, Table, number_field, table, text_field
from rfplan.reports.wording import spoken
from rfplan.rules.rf601_cg_outside_limits import RULE
from rfplan.sources import FAA_H_8083_1B
from rfplan.units import LENGTH, MASS, Missing, in_unit

T = TypeVar("T")

MOMENT_UNITS: dict[LengthUnit, str] = {"in": "lb in", "mm": "kg m"}
MOMENT_DIGITS: dict[LengthUnit, int] = {"in": 2, "mm": 3}
CG_DIGITS: dict[LengthUnit, int] = {"in": 2, "mm": 1}
SHIFT_DIGITS = 3
PART_OF_MAC = "% MAC"


def moment(key: str, title: str, units: LengthUnit, told: Callable[[T], float | None]) -> Field[T]:
    """Return a column of moments: pound inches beside inches, else kilogram metres."""
    return number_field(
        key, title, MOMENT_UNITS[units], lambda thing: moment_cell(told(thing), units)
    )


def moment_cell(moment_kg_m: float | None, units: LengthUnit) -> Cell:
    """Return a moment without its unit."""
    return number(_moment(moment_kg_m, units), MOMENT_UNITS[units], digits=MOMENT_DIGITS[units])


def _moment(moment_kg_m: float | None, units: LengthUnit) -> float | None:
    if moment_kg_m is None or units == "mm":
        return moment_kg_m
    return in_unit(in_unit(moment_kg_m, MASS, "lb"), LENGTH, "in")


@dataclass(frozen=True, slots=True)
class _Sum:
    name: str
    mass_kg: float
    moment_kg_m: float


def sums_table(assessment: Assessment, context: Context) -> Table:
    """Return what came out, what went in, and the difference; known items only."""
    units, items = context.units, [one for one in assessment.weight.items if one.is_known]
    sums = [
        _sum("removed", [item for item in items if not item.installed]),
        _sum("installed", [item for item in items if item.installed]),
        _sum("change", items),
    ]
    fields: list[Field[_Sum]] = [
        text_field("sum", "sum of known items", lambda one: words(one.name)),
        number_field("mass", "mass", MASS_UNITS[units], lambda one: mass(one.mass_kg, units)),
        moment("moment", "moment", units, lambda one: one.moment_kg_m),
    ]
    return table("sums", "Sums", fields, sums)


def _sum(name: str, items: list[WeightItem]) -> _Sum:
    masses = sum(item.change_kg or 0.0 for item in items)
    return _Sum(name, masses, sum(item.moment_kg_m or 0.0 for item in items))


NOT_BOUNDED = nothing()


@dataclass(frozen=True, slots=True)
class _Line:
    """One figure before, after, and by how much it changed."""

    name: str
    before: Cell
    after: Cell
    change: Cell
    within: Cell = NOT_BOUNDED


def balance_table(assessment: Assessment, context: Context) -> Table:
    """Return empty weight and CG as found and new; empty where the airframe states no weight."""
    fields: list[Field[_Line]] = [
        text_field("figure", "figure", lambda line: words(line.name)),
        text_field("before", "as found", lambda line: line.before),
        text_field("after", "new, known items", lambda line: line.after),
        text_field("change", "change", lambda line: line.change),
        text_field("within", "new, within bounds", lambda line: line.within),
    ]
    lines = _lines(assessment.weight, context.units)
    return table("balance", "Empty weight and centre of gravity", fields, lines)


def _lines(change: WeightChange, units: LengthUnit) -> Iterator[_Line]:
    before, empty_kg, cg_m = change.before, change.empty_kg, change.cg_m
    if before is None or empty_kg is None or cg_m is None:
        return
    yield _Line(
        "empty weight",
        _mass(before.empty_kg, units),
        _mass(empty_kg, units),
        _mass(change.change_kg, units),
        _between(change.empty_within_kg, partial(_mass, units=units)),
    )
    yield _Line(
        "empty CG",
        _station(before.cg_m, units),
        _station(cg_m, units),
        _shift(cg_m - before.cg_m, units),
        _between(change.cg_within_m, partial(_station, units=units)),
    )
    if before.lemac_m is not None and before.mac_m is not None:
        on_mac = partial(on_mac_ratio, lemac_m=before.lemac_m, mac_m=before.mac_m)
        was, now = (float(on_mac(arm_m)) for arm_m in (before.cg_m, cg_m))
        within = _between(change.cg_within_m, lambda arm_m: _percent(float(on_mac(arm_m))))
        yield _Line("empty CG", _percent(was), _percent(now), _percent(now - was), within)
    moments = before.empty_kg * before.cg_m, empty_kg * cg_m, change.moment_kg_m
    yield _Line("moment", *(_turning(one, units) for one in moments))
    useful = _mass(-change.change_kg, units)
    yield _Line("useful load, same most weight", nothing(), nothing(), useful)


def _between(ends: tuple[float, float] | None, cell: Callable[[float], Cell]) -> Cell:
    """Both ends of a figure that is bounded, each with its unit."""
    return nothing() if ends is None else words(" .. ".join(cell(end).text for end in ends))


def _mass(mass_kg: float, units: LengthUnit) -> Cell:
    cell = mass(mass_kg, units)
    return Cell(f"{cell.text} {cell.unit}", cell.value, cell.unit)


def _station(station_m: float, units: LengthUnit) -> Cell:
    return quantity(in_unit(station_m, LENGTH, units), units, digits=CG_DIGITS[units])


def _shift(shift_m: float, units: LengthUnit) -> Cell:
    return quantity(in_unit(shift_m, LENGTH, units), units, digits=SHIFT_DIGITS)


def _percent(ratio: float) -> Cell:
    return quantity(100.0 * ratio, PART_OF_MAC, digits=SHIFT_DIGITS)


def _turning(moment_kg_m: float, units: LengthUnit) -> Cell:
    return quantity(_moment(moment_kg_m, units), MOMENT_UNITS[units], digits=MOMENT_DIGITS[units])


@dataclass(frozen=True, slots=True)
class _Judged:
    question: str
    value: Cell
    limit: Cell
    word: Cell
    source: Cell


def judgement_table(assessment: Assessment, context: Context) -> Table:
    """Return the empty CG against its range, and both criteria of a negligible change."""
    fields: list[Field[_Judged]] = [
        text_field("question", "question", lambda one: words(one.question)),
        text_field("value", "value", lambda one: one.value),
        text_field("limit", "limit", lambda one: one.limit),
        text_field("word", "answer", lambda one: one.word),
        text_field("source", "source", lambda one: one.source),
    ]
    change = assessment.weight
    rows: list[_Judged] = []
    if change.before is not None and change.cg_m is not None:
        rows = [
            _in_range(assessment, change.before, change.cg_m, context.units),
            *_reach(assessment, change.before, context.units),
            *_negligible(change, change.before, change.cg_m, context.units),
        ]
    return table("judgement", "Judgement", fields, rows)


def _in_range(assessment: Assessment, before: Weight, cg_m: float, units: LengthUnit) -> _Judged:
    """The empty CG in its range; the word is that of the finding, where there is one."""
    limits = before.limits_m
    question, within_m = "empty CG inside its range?", assessment.weight.cg_within_m
    value = _between(within_m, partial(_station, units=units))
    value = _station(cg_m, units) if within_m is None else value
    if limits is None or before.source is None:
        return _Judged(question, value, nothing("no range stated"), nothing(), nothing())
    ends = [end if isinstance(end, float) else None for end in (limits.low, limits.high)]
    low, high = ("none" if end is None else _station(end, units).text for end in ends)
    finding = next((one for one in assessment.findings if one.rule == RULE.id), None)
    source = _named(before.source, assessment)
    word = _word(finding, assessment.weight)
    return _Judged(question, value, words(f"{low} .. {high}"), word, words(source))


def _word(finding: Finding | None, change: WeightChange) -> Cell:
    if finding is not None:
        return words(spoken(finding.verdict), str(finding.verdict))
    if change.cg_within_m is not None:
        return words("PASS, bounded", str(Verdict.PASS))
    return verdict_cell(Verdict.INCOMPLETE if change.unknown else Verdict.PASS)


def _named(source: str, assessment: Assessment) -> str:
    plan = assessment.plan
    known = plan.airframe.sources.get(source) or plan.sources.get(source)
    return known.words() if known else source


def _reach(assessment: Assessment, before: Weight, units: LengthUnit) -> Iterator[_Judged]:
    """How heavy unknown items would have to be at the worse end of the hull to reach a limit."""
    change = assessment.weight
    if not change.unknown or change.cg_within_m is not None or before.limits_m is None:
        return
    reach_kg = _reach_kg(assessment.plan.airframe, before, change)
    if reach_kg is not None:
        question = "unknown items that would reach it, all at that end of the hull"
        yield _Judged(question, _mass(reach_kg, units), nothing(), nothing(), words("computed"))


def _reach_kg(airframe: Airframe, before: Weight, change: WeightChange) -> float | None:
    ends_m = airframe.sections[0].fs_m, airframe.sections[-1].fs_m
    assert before.limits_m is not None and change.empty_kg is not None
    assert change.cg_m is not None
    masses = [
        mass_to_reach_kg(change.empty_kg, change.cg_m, limit_m, end_m)
        for limit_m, end_m in zip((before.limits_m.low, before.limits_m.high), ends_m, strict=True)
        if not isinstance(limit_m, Missing)
    ]
    return min((mass_kg for mass_kg in masses if 0.0 < mass_kg < float("inf")), default=None)


def _negligible(
    change: WeightChange, before: Weight, cg_m: float, units: LengthUnit
) -> Iterator[_Judged]:
    """Yield both criteria apart, then whether both hold; remembered, so it decides nothing."""
    source = words(f"{FAA_H_8083_1B.title} ({FAA_H_8083_1B.source_class.words})")
    line_kg = negligible_mass_kg(before.empty_kg)
    light = abs(change.change_kg) <= line_kg
    yield _Judged(
        "weight change negligible?",
        _mass(change.change_kg, units),
        _mass(line_kg, units),
        _yes(light, change),
        source,
    )
    if before.mac_m is None:
        yield _Judged("shift negligible?", nothing(), nothing("no MAC stated"), nothing(), source)
        return
    shift_ratio = float(on_mac_ratio(cg_m - before.cg_m, 0.0, before.mac_m))
    still = abs(shift_ratio) < NEGLIGIBLE_SHIFT_RATIO
    limit = words(f"below {printed(100.0 * NEGLIGIBLE_SHIFT_RATIO, PART_OF_MAC)} {PART_OF_MAC}")
    yield _Judged("shift negligible?", _percent(shift_ratio), limit, _yes(still, change), source)
    both = is_negligible(before.empty_kg, change.change_kg, cg_m - before.cg_m, before.mac_m)
    yield _Judged("negligible, both?", nothing(), nothing(), _yes(both, change), source)


def _yes(holds: bool, change: WeightChange) -> Cell:
    """Yes or no; with a mass missing, a yes is not known."""
    if holds and change.unknown:
        return words_or_nothing("not known")
    return words("yes" if holds else "no")
