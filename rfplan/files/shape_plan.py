# SPDX-License-Identifier: Apache-2.0
"""The shape of a plan file: what all states share, and one tree of fitted things for each state."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from functools import partial

from rfplan.files.faults import Faults
from rfplan.files.nodes import Node
from rfplan.files.shape import (
    by_id,
    changed,
    each,
    entries,
    material,
    on_surface,
    spread_source,
    under,
    without,
)
from rfplan.files.states import by_state
from rfplan.model.plan import ANY_CABLE, State

INSTALLED = ("units", "antennas", "ground_planes", "cables", "parts", "paths")
"""The sections that are told by state."""

_NONE_FITTED = ("ground_plane", "node", "group")  # here `none` is an absent name, not a value


def shape_head(root: Node) -> Node:
    """Return what a plan says outside of the sections told by state."""
    return changed(
        without(root, INSTALLED),
        policy=partial(changed, spool=under(ANY_CABLE)),
        people=each(under("name")),
        spacing=spread_source,
        groups=spread_source,
        masses=_masses,
        sources=by_id,
        measurements=by_id,
        isolation=by_id,
        waivers=by_id,
        accepted=by_id,
    )


def _masses(section: Node) -> Node:
    """Return masses, a lone quantity as that of each; the section's source is theirs too."""
    whole, shared = under("each"), ("source",)
    told = {id: e if id in shared else whole(e) for id, e in entries(by_id(section)).items()}
    return spread_source(replace(by_id(section), value=told))


def shape_installations(root: Node, faults: Faults) -> dict[State, Node]:
    """Return, for each state, a mapping of the sections with what is fitted in it."""
    told = {
        name: by_state(section, name, faults)
        for name, section in entries(root).items()
        if name in INSTALLED
    }
    return {state: _installation(root, {n: told[n][state] for n in told}) for state in State}


def _installation(root: Node, sections: dict[str, Node]) -> Node:
    key_marks = {name: root.key_marks[name] for name in sections}
    shaped = {name: each(_SHAPES[name])(section) for name, section in sections.items()}
    return Node.mapping(shaped, key_marks, root.mark)


def _unit(unit: Node) -> Node:
    """Return a unit whose ports tell their limits by band."""
    whole = under("all")
    port = partial(changed, loss=whole, sensitivity=whole, net_gain=whole, noise=whole)
    return changed(_named(unit), ports=each(port))


def _on_skin(entry: Node) -> Node:
    return changed(on_surface(_named(entry)), of=material)


def _named(entry: Node) -> Node:
    """Return an entry without the names that are given as `none`."""
    children = entries(entry)
    absent = [key for key in _NONE_FITTED if key in children and children[key].value == "none"]
    return without(entry, absent)


_SHAPES: dict[str, Callable[[Node], Node]] = {
    "units": _unit,
    "antennas": _on_skin,
    "ground_planes": _on_skin,
    "cables": _named,
    "parts": _named,
    "paths": _named,
}
