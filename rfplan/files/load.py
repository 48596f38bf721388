# SPDX-License-Identifier: Apache-2.0
"""From files to the model: the plan with its airframe, the catalogue, the rulebook."""

from __future__ import annotations

from dataclasses import dataclass, replace
from os.path import isdir, isfile
from pathlib import Path

from rfplan.files.airframe_file import AirframeFile, airframe_path, read_airframe
from rfplan.files.catalog_files import load_catalog
from rfplan.files.checks import check_plan
from rfplan.files.draft import PlanDraft, PlanHead
from rfplan.files.entry_files import with_ids
from rfplan.files.faults import Faults, one_of, quoted
from rfplan.files.kinds import body, read_kind
from rfplan.files.marks import Document
from rfplan.files.nodes import Location, Node
from rfplan.files.problems import Problem, ProblemsError
from rfplan.files.record_types import as_written, types_by_key
from rfplan.files.shape import entries, without
from rfplan.files.shape_plan import INSTALLED, shape_head, shape_installations
from rfplan.files.sourcing import published_sources, with_sources
from rfplan.files.table_files import load_rulebook
from rfplan.files.validation import read_record
from rfplan.model.airframe import Airframe
from rfplan.model.catalog import Catalog
from rfplan.model.plan import Installation, Plan, State
from rfplan.model.record import ById
from rfplan.model.rulebook import Rulebook
from rfplan.model.source import Source

__all__ = ["LoadedPlan", "load_catalog", "load_plan", "load_rulebook"]

PLAN_FILE = "plan.yaml"


@dataclass(frozen=True, slots=True)
class LoadedPlan:
    """A plan and the files it came from: the documents as written, the nodes as resolved."""

    plan: Plan
    documents: tuple[Document, Document]
    trees: dict[State, Node]
    airframe_tree: Node

    def line_of(self, state: State, loc: Location) -> tuple[str, int, int]:
        """Return file, line and column of an object or field, or of the nearest thing above it.

        A way begins with a section of the plan, or with 'airframe' and a section of that.
        """
        plan_document, airframe_document = self.documents
        if loc[:1] == ("airframe",) and len(loc) > 1:
            document, tree, loc = airframe_document, self.airframe_tree, loc[1:]
        else:
            document, tree = plan_document, self.trees[state]
        mark = tree.mark_at(as_written(tree, loc), key=True)
        return document.file, mark.line, mark.column


def load_plan(
    path: Path,
    *,
    catalog: Catalog,
    rulebook: Rulebook,
    state: State = State.DESIGN,
    serial: str | None = None,
) -> LoadedPlan:
    """Read a plan, a file or the folder it is in, with its airframe; raises ProblemsError."""
    file = _plan_file(path)
    document = read_kind(file, ("plan",))
    root, faults = body(document), Faults(document.file, "plan")
    airframe, problems = _airframe(root, file.parent, faults)
    draft = _draft(root, airframe, faults)
    cited = published_sources(root, faults)
    check_plan(draft, catalog, rulebook, serial)
    problems += faults.problems + (airframe.draft.faults.problems if airframe else [])
    if problems or airframe is None:
        raise ProblemsError(problems)
    id = file.resolve().parent.name if file.name == PLAN_FILE else file.stem
    plan = _plan(id, draft, airframe.record(id), cited)
    return LoadedPlan(
        replace(plan, state=state, serial=plan.serial if serial is None else serial),
        (document, airframe.document),
        {each: _joined(root, draft.trees[each]) for each in State},
        airframe.draft.tree,
    )


def _airframe(
    root: Node, folder: Path, faults: Faults
) -> tuple[AirframeFile | None, list[Problem]]:
    """Return the airframe file, or None and why it cannot be used at all."""
    path = airframe_path(root, folder, faults)
    if path is None:
        return None, []
    try:
        return read_airframe(path), []
    except ProblemsError as error:
        return None, list(error.problems)


def _draft(root: Node, airframe: AirframeFile | None, faults: Faults) -> PlanDraft:
    """Return all of a plan file that can be read."""
    known = {*types_by_key(PlanHead), *INSTALLED}
    unknown = [key for key in entries(root) if key not in known]
    for key in unknown:
        message = f"plan: unknown key {quoted(key)}"
        faults.add(root.key_marks[key], message, one_of(known, key, "a key"), (key,))
    asked = shape_head(without(root, unknown))
    head = read_record(PlanHead, asked, faults, {"title": "", "airframe": ""})
    trees = shape_installations(root, faults)
    fitted = {state: read_record(Installation, trees[state], faults) for state in State}
    return PlanDraft(
        head=head or PlanHead("", ""),
        root=root,
        trees=trees,
        fitted={state: installation or Installation() for state, installation in fitted.items()},
        airframe=airframe.draft if airframe else None,
        faults=faults,
    )


def _plan(id: str, draft: PlanDraft, airframe: Airframe, cited: dict[str, Source]) -> Plan:
    """Return the plan with the nearest source in each of its records."""
    head = with_sources(draft.head, None)
    fitted = {state: with_sources(draft.fitted[state], head.source) for state in State}
    return Plan(
        id=id,
        title=head.title,
        airframe=airframe,
        found=fitted[State.FOUND],
        design=fitted[State.DESIGN],
        built=fitted[State.BUILT],
        serial=head.revision.serial,
        revision=head.revision,
        people=head.people,
        sources=ById({**head.sources, **cited}),
        policy=head.policy,
        spacing=with_ids(head.spacing),
        groups=head.groups,
        masses=head.masses,
        measurements=head.measurements,
        isolation=head.isolation,
        waivers=head.waivers,
        accepted=head.accepted,
    )


def _joined(root: Node, installation: Node) -> Node:
    """Return one tree of what all states share and what is fitted in one of them."""
    children = {**entries(shape_head(root)), **entries(installation)}
    return replace(root, value=children)


def _plan_file(path: Path) -> Path:
    """Return the plan file that a file or a folder stands for."""
    if not isdir(path):  # unlike Path.is_dir, without an error for a name that is too long
        return path
    if not isfile(path / PLAN_FILE):
        message = f"the folder holds no {PLAN_FILE}"
        raise ProblemsError([Problem(str(path), 1, 1, message, "a plan or its folder")])
    return path / PLAN_FILE
