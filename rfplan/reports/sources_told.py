# SPDX-License-Identifier: Apache-2.0
"""Which documents the numbers of a plan rest on, and what each of them is used for."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, fields, is_dataclass
from importlib import import_module
from types import ModuleType

import rfplan.assess
from rfplan.model.assessment import Assessment
from rfplan.model.source import Source
from rfplan.reports.formulas import every_formula
from rfplan.rules import MODULES
from rfplan.sources import Citation, Formula, citation

SECTIONS = ("sections", "plates", "skin", "zones", "frames", "weight", "speeds", "variants")
"""The parts of an airframe file that name their sources."""


@dataclass(frozen=True, slots=True)
class Used:
    """One document, how well it is known, and what rests on it."""

    name: str
    document: str
    known: str
    used: tuple[str, ...]


def plan_documents(assessment: Assessment) -> list[Used]:
    """Return the sources of the plan and what in the state looked at rests on each."""
    plan, fitted = assessment.plan, assessment.plan.installation
    things = {
        id: thing
        for section in fields(fitted)
        for id, thing in getattr(fitted, section.name).items()
    }
    rules = {f"spacing {id}": rule for id, rule in plan.spacing.items()}
    return _named({**things, **rules}, {**plan.airframe.sources, **plan.sources})


def airframe_documents(assessment: Assessment) -> list[Used]:
    """Return the sources of the airframe and which of its parts rest on each."""
    airframe = assessment.plan.airframe
    parts = {part: getattr(airframe, part) for part in SECTIONS}
    route = {"nodes": airframe.route.nodes, "segments": airframe.route.segments}
    return _named({**parts, **route}, airframe.sources)


def catalog_documents(assessment: Assessment) -> list[Used]:
    """Return the sources of each catalogue entry in use."""
    catalog = assessment.catalog
    found: list[Used] = []
    for kind, ids in _entries_in_use(assessment).items():
        for id in sorted(ids):
            entry = getattr(catalog, kind).get(id)
            named = _named({id: entry}, entry.sources) if entry else []
            found += [Used(id, one.document, one.known, (one.name,)) for one in named]
    return found


def _entries_in_use(assessment: Assessment) -> dict[str, set[str]]:
    fitted = assessment.plan.installation
    cables = fitted.cables.values()
    return {
        "cables": {cable.type for cable in cables},
        "connectors": {plug for cable in cables for plug in cable.plugs},
        "inline_parts": {part.type for part in fitted.parts.values()},
        "antennas": {antenna.type for antenna in fitted.antennas.values()},
    }


def table_documents(assessment: Assessment) -> list[Used]:
    """Return the documents of the shipped tables that this plan is held against."""
    rulebook = assessment.rulebook
    speaking = {pair.rule for pair in assessment.spacing if pair.rule}
    used = {
        **{f"radio {path.radio}": rulebook.radios[path.radio] for path in assessment.paths},
        **{f"spacing {id}": one for id, one in rulebook.spacings.items() if id in speaking},
        "ground check": rulebook.ground_checks,
    }
    named: dict[str, tuple[str, ...]] = {}
    for name, record in used.items():
        for reference in dict.fromkeys(_sources_in(record)):
            named[reference] = (*named.get(reference, ()), name)
    for name, reference in rulebook.limits.sources.items():
        named[reference] = (*named.get(reference, ()), f"limit {name}")
    return [_cited(reference, uses) for reference, uses in sorted(named.items())]


def _cited(reference: str, used: tuple[str, ...]) -> Used:
    try:
        source: Citation = citation(reference)
    except LookupError:
        return Used(reference, reference, "not known", used)
    return Used(reference, source.text(), source.document.source_class.words, used)


def _named(things: Mapping[str, object], sources: Mapping[str, Source]) -> list[Used]:
    """The sources that things name anywhere inside, in the order of the file."""
    uses: dict[str, tuple[str, ...]] = {}
    for name, thing in things.items():
        for source in dict.fromkeys(_sources_in(thing)):
            uses[source] = (*uses.get(source, ()), name)
    return [
        Used(id, sources[id].words(), sources[id].class_, uses[id]) for id in sources if id in uses
    ]


def _sources_in(value: object) -> Iterator[str]:
    """Yield every source that a record or something inside it names."""
    if isinstance(value, Mapping):
        for thing in value.values():
            yield from _sources_in(thing)
    elif isinstance(value, tuple):
        for thing in value:
            yield from _sources_in(thing)
    elif is_dataclass(value) and not isinstance(value, Source | type):
        if source := getattr(value, "source", None):
            yield str(source)
        for field in fields(value):
            if field.name != "sources":
                yield from _sources_in(getattr(value, field.name))


def formulas_called() -> list[Formula]:
    """Return the cited formulas that an assessment calls, by way of its analysis and its rules."""
    called = {id(thing) for module in _reached() for thing in vars(module).values()}
    return [formula for formula in every_formula() if id(formula.function) in called]


def _reached() -> list[ModuleType]:
    """The modules an assessment leads to, those of the formulas themselves left out."""
    todo: list[ModuleType] = [rfplan.assess, *MODULES]
    reached: dict[str, ModuleType] = {}
    while todo:
        module = todo.pop()
        if module.__name__ not in reached:
            reached[module.__name__] = module
            todo += [import_module(name) for name in sorted(_leads_to(module))]
    return list(reached.values())


def _leads_to(module: ModuleType) -> set[str]:
    """The modules of analysis and rules that a module takes something from."""
    origins = {
        thing.__name__ if isinstance(thing, ModuleType) else getattr(thing, "__module__", None)
        for thing in vars(module).values()
    }
    rooms = ("rfplan.analysis.", "rfplan.rules.")
    return {name for name in origins if isinstance(name, str) and name.startswith(rooms)}
