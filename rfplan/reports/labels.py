# SPDX-License-Identifier: Apache-2.0
"""What is printed on the sleeves at both ends of a cable, so that plugs cannot be swapped."""

from __future__ import annotations

from dataclasses import dataclass

from rfplan.model.catalog import Catalog
from rfplan.model.plan import Installation

SLEEVE = 24
"""Characters that fit a label sleeve."""


@dataclass(frozen=True, slots=True)
class Ends:
    """An assembly between two members of a chain, ports included, and the paths that use it."""

    id: str
    near: str
    far: str
    paths: tuple[str, ...]


def assembly_ends(fitted: Installation, catalog: Catalog) -> dict[str, Ends]:
    """Return, for each assembly in a path, what it connects; the first path by id decides."""
    ends: dict[str, Ends] = {}
    for path_id in sorted(fitted.paths):
        chain = fitted.paths[path_id].chain
        for near, member, far in zip(chain, chain[1:], chain[2:], strict=False):
            if member in fitted.cables:
                near = _faced(near, fitted, catalog, by_branch=False)
                far = _faced(far, fitted, catalog, by_branch=True)
                known = ends.get(member, Ends(member, near, far, ()))
                ends[member] = Ends(member, known.near, known.far, (*known.paths, path_id))
    return ends


def _faced(member: str, fitted: Installation, catalog: Catalog, *, by_branch: bool) -> str:
    """The plug a cable meets: a branch of a part on its way in, the common on its way out.

    A combiner stands the other way round: its branches are those of its antennas.
    """
    id, _, branch = member.partition(".")
    part = fitted.parts.get(id)
    if part is None or not branch:
        return member
    if catalog.inline_parts[part.type].kind == "combiner":
        by_branch = not by_branch
    return member if by_branch else f"{id}.common"


def labels(ends: Ends) -> tuple[str, str]:
    """Return the labels of the near and the far end: PATH-FROM/TO, as short as the sleeve."""
    return _label(ends, ends.near, ends.far, "A"), _label(ends, ends.far, ends.near, "B")


def _label(ends: Ends, here: str, there: str, end: str) -> str:
    """The first wording that fits: with ports, without them, then assembly and end alone."""
    name = ends.paths[0] if len(ends.paths) == 1 else ends.id
    wordings = (
        f"{name}-{here}/{there}",
        f"{name}-{_thing(here)}/{_thing(there)}",
        f"{ends.id}-{_thing(here)}/{_thing(there)}",
        f"{ends.id[: SLEEVE - 2]}-{end}",
    )
    return next(one for one in wordings if len(one) <= SLEEVE).upper()


def _thing(member: str) -> str:
    return member.partition(".")[0]
