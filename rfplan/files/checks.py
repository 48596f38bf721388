# SPDX-License-Identifier: Apache-2.0
"""Everything a plan has to fulfil before it can be judged at all, looked at in one run."""

from __future__ import annotations

from rfplan.files.check_airframe import check_airframe
from rfplan.files.check_chains import ChainCheck
from rfplan.files.check_claims import (
    check_isolation,
    check_measurements,
    check_serial,
    check_spacing,
    check_waivers,
)
from rfplan.files.check_figures import check_masses, check_policy_figures
from rfplan.files.check_fitted import FittedCheck
from rfplan.files.check_names import check_ids
from rfplan.files.draft import PlanDraft
from rfplan.files.nodes import Mark
from rfplan.files.shape import entries
from rfplan.files.shape_plan import INSTALLED
from rfplan.model.catalog import Catalog
from rfplan.model.plan import State
from rfplan.model.rulebook import Rulebook

_BY_ID = (
    *INSTALLED,
    *("people", "sources", "spacing", "groups", "masses", "measurements", "isolation", "waivers"),
)
_ONE_ID = ("units", "antennas", "ground_planes", "cables", "parts")


def check_plan(
    draft: PlanDraft, catalog: Catalog, rulebook: Rulebook, serial: str | None = None
) -> None:
    """Add a problem to the draft for all that contradicts itself or names nothing."""
    check_ids(draft.root, _BY_ID, draft.faults)
    _check_port_ids(draft)
    _check_unique(draft)
    if draft.airframe is not None:
        check_airframe(draft.airframe, catalog, rulebook)
    for state in State:
        FittedCheck(draft, state, catalog, rulebook).run()
        ChainCheck(draft, state, catalog).run()
    check_policy_figures(draft, catalog)
    check_masses(draft, catalog)
    check_spacing(draft, rulebook)
    check_measurements(draft)
    check_isolation(draft)
    check_waivers(draft)
    check_serial(draft, serial)


def _check_port_ids(draft: PlanDraft) -> None:
    for state in State:
        for unit in entries(entries(draft.trees[state]).get("units")).values():
            check_ids(unit, ("ports",), draft.faults)


def _check_unique(draft: PlanDraft) -> None:
    """Add a problem for each id that stands for two things."""
    first: dict[str, tuple[str, Mark]] = {}
    for name, section in entries(draft.root).items():
        if name not in _ONE_ID:
            continue
        for id in entries(section):
            mark = section.key_marks[id]
            where, before = first.setdefault(id, (name, mark))
            if where != name:
                message = f"{draft.faults.subject((id,))}: also an id of the {where}"
                message += f", on line {before.line}"
                draft.faults.add(mark, message, "an id of its own", (name, id))
