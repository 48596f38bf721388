# SPDX-License-Identifier: Apache-2.0
"""What the shop cuts: every assembly with the terms of its length, its way and its labels."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from rfplan.model.assessment import Assessment, CableRun, LengthTerms
from rfplan.model.catalog import Cable, Catalog
from rfplan.model.plan import Assembly
from rfplan.reports.cells import (
    MASS_UNITS,
    NOT_APPLICABLE,
    UNKNOWN,
    length,
    listed,
    mass,
    nothing,
    number,
    words,
)
from rfplan.reports.context import Context
from rfplan.reports.heading import sheet, signature
from rfplan.reports.labels import Ends, assembly_ends, labels
from rfplan.reports.sheet import Cell, Field, Sheet, number_field, table, text_field
from rfplan.rules.rf306_bend import advised_bend_m, least_bend_m

KEY = "cut_list"
TITLE = "Cut list and labels"


@dataclass(frozen=True, slots=True)
class Cut:
    """One assembly as the plan has it, as it was routed, and what it connects."""

    run: CableRun
    assembly: Assembly
    ends: Ends
    tolerance_m: float
    forms: tuple[str | None, str | None]
    cable: Cable | None


def build(assessment: Assessment, context: Context) -> Sheet:
    """Return one row for each assembly that some path uses."""
    fields = [
        *_what(),
        *_lengths(context),
        *_way(context),
        *_bends(assessment, context),
        *_signed(),
    ]
    return sheet(
        assessment, context, KEY, TITLE, table(KEY, "Assemblies", fields, cuts(assessment))
    )


def cuts(assessment: Assessment) -> list[Cut]:
    """Return the assemblies by id."""
    fitted, shop_m = assessment.plan.installation, assessment.plan.policy.tolerance_m
    catalog = assessment.catalog
    ends = assembly_ends(fitted, catalog)
    return [
        Cut(
            run,
            assembly,
            ends[id],
            shop_m if own_m is None else own_m,
            (_form(assembly.plugs[0], catalog), _form(assembly.plugs[1], catalog)),
            catalog.cables.get(run.type),
        )
        for id, run in sorted(assessment.cables.items())
        for assembly in [fitted.cables[id]]
        for own_m in [assembly.tolerance_m]
    ]


def _form(plug: str, catalog: Catalog) -> str | None:
    """Whether a plug is straight or angled."""
    known = catalog.connectors.get(plug)
    return known.form if known else None


def _what() -> list[Field[Cut]]:
    return [
        text_field("assembly", "assembly", lambda cut: words(cut.run.id)),
        text_field("cable", "cable", lambda cut: words(cut.run.type)),
        text_field("from", "from", lambda cut: words(cut.ends.near)),
        text_field("from_plug", "plug", lambda cut: words(cut.assembly.plugs[0])),
        text_field("from_form", "form", lambda cut: _told(cut.forms[0])),
        text_field("to", "to", lambda cut: words(cut.ends.far)),
        text_field("to_plug", "plug", lambda cut: words(cut.assembly.plugs[1])),
        text_field("to_form", "form", lambda cut: _told(cut.forms[1])),
    ]


def _told(form: str | None) -> Cell:
    return words(form) if form else nothing(UNKNOWN)


def _lengths(context: Context) -> list[Field[Cut]]:
    """Each term, what they come to, and what was cut."""
    unit = context.units

    def term(key: str, title: str, told: Callable[[LengthTerms], float]) -> Field[Cut]:
        return number_field(key, title, unit, lambda cut: _term(cut, context, told))

    return [
        term("routed", "routed", lambda terms: terms.routed_m),
        term("drops", "drops", lambda terms: terms.drops_m),
        term("drip_loop", "drip loop", lambda terms: terms.drip_loop_m),
        term("service_loops", "service loops", lambda terms: terms.service_loops_m),
        term("retermination", "re-termination", lambda terms: terms.retermination_m),
        term("rounding", "rounding", lambda terms: terms.rounding_m),
        term("cut", "cut length", lambda terms: terms.cut_m),
        number_field(
            "tolerance", "+-", unit, lambda cut: _term(cut, context, lambda _: cut.tolerance_m)
        ),
        number_field(
            "as_built",
            "as built",
            unit,
            lambda cut: length(cut.run.as_built_m, unit, absent=NOT_APPLICABLE),
        ),
    ]


def _term(cut: Cut, context: Context, told: Callable[[LengthTerms], float]) -> Cell:
    """A term; for a cable that lies there with a stated length nothing is cut."""
    if cut.run.terms is None:
        return nothing(NOT_APPLICABLE if cut.run.as_built_m is not None else UNKNOWN)
    return length(told(cut.run.terms), context.units)


def _way(context: Context) -> list[Field[Cut]]:
    """What it weighs and how it is held."""
    mass_unit = MASS_UNITS[context.units]
    return [
        number_field("mass", "mass", mass_unit, lambda cut: mass(cut.run.mass_kg, context.units)),
        number_field("supports", "supports", "", lambda cut: number(cut.run.supports, "")),
    ]


def _bends(assessment: Assessment, context: Context) -> list[Field[Cut]]:
    """The tightest bend its route leaves room for, the least and the advised one, and its way."""
    limits, policy, units = assessment.rulebook.limits, assessment.plan.policy, context.units

    def least(cut: Cut) -> Cell:
        return length(least_bend_m(cut.cable, limits) if cut.cable else None, units)

    def advised(cut: Cut) -> Cell:
        return length(advised_bend_m(cut.cable, limits, policy) if cut.cable else None, units)

    def by(cut: Cut) -> Cell:
        if least(cut).value is None or cut.cable is None:
            return nothing()
        return words("the cable" if cut.cable.bend_m else f"{limits.bend_floor_od:g} diameters")

    return [
        number_field("bend", "tightest bend", units, lambda cut: _bend(cut, context)[0]),
        text_field("bend_at", "at", lambda cut: _bend(cut, context)[1]),
        number_field("least_bend", "least bend", units, least),
        text_field("least_bend_by", "stated by", by),
        number_field("advised_bend", f"advised, {policy.bend_od:g} diameters", units, advised),
        text_field("route", "route", lambda cut: listed(cut.run.nodes)),
    ]


def _bend(cut: Cut, context: Context) -> tuple[Cell, Cell]:
    if cut.run.bend is None:
        return nothing(), nothing()
    radius_m, node = cut.run.bend
    return length(radius_m, context.units), words(node)


def _signed() -> list[Field[Cut]]:
    return [
        text_field("from_label", "label, from end", lambda cut: words(labels(cut.ends)[0])),
        text_field("to_label", "label, to end", lambda cut: words(labels(cut.ends)[1])),
        text_field("from_made", "finished in shop or aircraft, from end", lambda cut: signature()),
        text_field("to_made", "finished in shop or aircraft, to end", lambda cut: signature()),
        text_field("signature", "cut and finished by", lambda cut: signature()),
    ]
