# SPDX-License-Identifier: Apache-2.0
"""Everything a plan holds, object by object and value by value, in one settled order."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import fields

from rfplan.model.airframe import Airframe
from rfplan.model.plan import Installation, Plan
from rfplan.reports.leaves import Leaf, leaves

Objects = dict[str, dict[str, Leaf]]
Groups = dict[str, Mapping[str, object]]


def plan_objects(plan: Plan) -> Objects:
    """Return what a plan holds in the state looked at; the order of its files does not show."""
    groups = {**_fitted(plan.installation), **_records(plan), **_airframe(plan.airframe)}
    things = {f"{kind} {id}": group[id] for kind, group in groups.items() for id in sorted(group)}
    single = {
        "policy": plan.policy,
        "revision": plan.revision,
        "weight": plan.airframe.weight,
        "speeds": plan.airframe.speeds,
        "hull": plan.airframe.sections,
        "skin": {"order": tuple(plan.airframe.skin)},
    }
    return {name: leaves(thing) for name, thing in {**things, **single}.items()}


def _fitted(installation: Installation) -> Groups:
    """Group the things of an installation by the word for one of them."""
    sections = [field.name for field in fields(installation)]
    return {
        section.removesuffix("s").replace("_", " "): getattr(installation, section)
        for section in sections
    }


def _records(plan: Plan) -> Groups:
    return {
        "spacing rule": plan.spacing,
        "group": plan.groups,
        "mass": plan.masses,
        "reading": plan.measurements,
        "isolation reading": plan.isolation,
        "waiver": plan.waivers,
        "accepted point": plan.accepted,
        "source": plan.sources,
        "person": plan.people,
    }


def _airframe(airframe: Airframe) -> Groups:
    return {
        "plate": airframe.plates,
        "skin": airframe.skin,
        "zone": airframe.zones,
        "frame": airframe.frames,
        "node": airframe.route.nodes,
        "segment": airframe.route.segments,
        "variant": airframe.variants,
    }
