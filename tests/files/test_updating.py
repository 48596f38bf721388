# SPDX-License-Identifier: Apache-2.0
"""Edits in the text of a plan: each state's own words, the author's units, and nothing else."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from datetime import date
from difflib import unified_diff
from pathlib import Path
from typing import Any

import pytest
from plan_files import PLAN, edited, loaded, write_aircraft

from rfplan.edits import (
    AcceptPoint,
    AddWaiver,
    Edit,
    MoveAntenna,
    RemoveMeasurement,
    RemoveWaiver,
    SetCable,
    SetEnds,
    SetGroundPlane,
    SetLengths,
    SetMeasurement,
    SetRevision,
    SetRoute,
)
from rfplan.files.problems import ProblemsError
from rfplan.files.updating import updated
from rfplan.model.plan import (
    Accepted,
    AcceptedPoint,
    FindingRef,
    Measurement,
    Person,
    State,
    Waiver,
)
from rfplan.model.record import ById
from rfplan.units import Place

IN = 0.0254
WAIVER = Waiver(
    FindingRef("RF501", ("gnss", "com")),
    "no free place: see sheet 3",
    "A. Person",
    date=date(2026, 11, 25),
    accepted=Accepted("35 in", "36 in"),
)


@pytest.fixture
def change(tmp_path: Path) -> Callable[..., list[str]]:
    """Return what edits do to the lines of a plan file."""

    def changed(*edits: Edit, state: State = State.DESIGN, plan: str = PLAN) -> list[str]:
        file = loaded(write_aircraft(tmp_path, plan), state=state)
        target = file.plan
        for edit in edits:
            target = edit.apply(target)
        new = updated(file.documents[0], file.plan, target)
        assert (new.newline, new.bom) == (file.documents[0].newline, file.documents[0].bom)
        lines = unified_diff(plan.splitlines(), new.text.splitlines(), n=0, lineterm="")
        return [line for line in lines if not line.startswith(("---", "+++", "@@"))]

    return changed


def at(fs_in: float, bl_in: float, wl_in: float | None = None) -> Place:
    """Return a place from inches."""
    return Place(fs_in * IN, bl_in * IN, None if wl_in is None else wl_in * IN)


GNSS = "    design: {type: gnss_l1_active, on: top, at: %s in, ground_plane: foil}"
W1 = "    design: {type: rg_400_u, plugs: [tnc, tnc_angle], via: %s, loops: [%s, %s], source: tape}"


def test_a_move_is_written_under_the_state_that_tells_the_place(change: Any) -> None:
    moved = change(MoveAntenna("gnss", "top", at(130.5, -2)))
    assert moved == [f"-{GNSS % '126 L1'}", f"+{GNSS % '130.5 L2'}"]


def test_a_state_that_only_inherits_gets_a_key_of_its_own(change: Any) -> None:
    moved = change(MoveAntenna("gnss", "top", at(130, 0)), state=State.BUILT)
    assert moved == ["+    built: {at: 130 0 in}"]
    laid = change(SetRoute("w1", ("sil", "aft")), state=State.BUILT)
    assert laid == [
        "-    built: {length: 7 ft 2.5 in}",
        "+    built: {length: 7 ft 2.5 in, via: [sil, aft]}",
    ]


def test_a_new_state_stands_between_the_one_before_and_the_one_after(change: Any) -> None:
    assert change(MoveAntenna("com", "belly", at(85, 0))) == ["+    design: {at: 85 0 in}"]
    text = edited(PLAN, ("    built: {at: 82 0 in}", "    built:\n      at: 82 0 in"))
    assert change(MoveAntenna("com", "belly", at(85, 0)), plan=text) == [
        "+    design:",
        "+      at: 85 0 in",
    ]


def test_a_plain_thing_that_is_changed_by_design_is_told_by_state(change: Any) -> None:
    assert change(MoveAntenna("nav", "top", at(201, 0))) == [
        "-  nav: {type: nav_whip_v, on: top, at: 200 0 in}",
        "+  nav: {found: {type: nav_whip_v, on: top, at: 200 0 in}, design: {at: 201 0 in}}",
    ]


def test_a_plain_thing_that_is_changed_as_found_stays_plain(change: Any) -> None:
    assert change(MoveAntenna("nav", "top", at(201, 0)), state=State.FOUND) == [
        "-  nav: {type: nav_whip_v, on: top, at: 200 0 in}",
        "+  nav: {type: nav_whip_v, on: top, at: 201 0 in}",
    ]


def test_a_copy_of_what_is_changed_stays_what_it_was(change: Any) -> None:
    assert change(SetCable("w3", "rg_400_u"), state=State.FOUND) == [
        "-  w3: {type: rg_58c_u, plugs: [bnc, bnc]}",
        "-  w4: {like: w3, length: 9 in}",
        "-  w5: {like: w3}",
        "+  w3: {type: rg_400_u, plugs: [bnc, bnc]}",
        "+  w4: {like: w3, length: 9 in, type: rg_58c_u}",
        "+  w5: {like: w3, type: rg_58c_u}",
    ]


def test_what_was_built_otherwise_is_written_out_where_it_no_longer_follows(change: Any) -> None:
    moved = change(MoveAntenna("com", "top", at(85, 0)))
    assert moved == [
        "-    built: {at: 82 0 in}",
        "+    design: {on: top, at: 85 0 in}",
        "+    built: {at: 82 0 in, on: belly}",
    ]


def test_what_is_taken_away_is_ended_where_it_is_inherited(change: Any) -> None:
    assert change(SetGroundPlane("gnss", None), state=State.BUILT) == [
        "+    built: {ground_plane: none}"
    ]
    assert change(SetGroundPlane("gnss", None)) == [
        f"-{GNSS % '126 L1'}",
        f"+{(GNSS % '126 L1').replace(', ground_plane: foil', '')}",
    ]
    assert change(SetRoute("w1"), state=State.BUILT)[-1] == (
        "+    built: {length: 7 ft 2.5 in, via: []}"
    )


def test_a_length_keeps_the_unit_and_the_form_it_was_written_in(
    tmp_path: Path, change: Any
) -> None:
    plan = loaded(write_aircraft(tmp_path)).plan
    lengths = SetLengths.of("w1", plan.built.cables["w1"])
    built = change(replace(lengths, length_m=93.5 * IN), state=State.BUILT)
    assert built[-1] == "+    built: {length: 7 ft 9.5 in}"
    metric = edited(PLAN, ("loops: [5 in", "loops: [127 mm"))
    design = replace(SetLengths.of("w1", plan.design.cables["w1"]), loops_m=(0.15, 0.12))
    assert change(design, plan=metric)[1] == f"+{W1 % ('[sil]', '150 mm', '120 mm')}"


def test_a_list_that_grows_keeps_its_items(change: Any) -> None:
    assert change(SetRoute("w1", ("sil", "aft"))) == [
        "-" + W1 % ("[sil]", "5 in", '"?"'),
        "+" + W1 % ("[sil, aft]", "5 in", '"?"'),
    ]


def test_ends_of_a_plain_copy_are_its_own(change: Any) -> None:
    assert change(SetEnds("w5", ("bnc", "tnc")), state=State.FOUND) == [
        "-  w5: {like: w3}",
        "+  w5: {like: w3, plugs: [bnc, tnc]}",
    ]


def test_a_waiver_is_added_in_the_manner_of_its_neighbour(change: Any) -> None:
    assert change(AddWaiver("v2", WAIVER)) == [
        "+  v2:",
        "+    finding: {rule: RF501, of: [gnss, com]}",
        '+    reason: "no free place: see sheet 3"',
        "+    who: A. Person",
        "+    state: design",
        "+    date: 2026-11-25",
        "+    accepted: {have: 35 in, need: 36 in}",
    ]


def test_the_last_waiver_takes_its_section_along_and_the_first_brings_one(change: Any) -> None:
    start = PLAN.index("waivers:")
    removed = change(RemoveWaiver("v1"))
    assert removed == [f"-{line}" for line in PLAN[start:].splitlines()]
    added = change(AddWaiver("v1", WAIVER), plan=PLAN[:start])
    assert added == [
        "+waivers:",
        '+  v1: {finding: {rule: RF501, of: [gnss, com]}, reason: "no free place: see sheet 3",',
        "+       who: A. Person, state: design, date: 2026-11-25, "
        "accepted: {have: 35 in, need: 36 in}}",
    ]
    empty = change(AddWaiver("v1", WAIVER), plan=f"{PLAN[:start]}waivers: {{}}\n")
    assert empty[1].startswith("+waivers: {v1: {finding: {rule: RF501")


def test_an_accepted_point_is_written_under_its_id(change: Any) -> None:
    accepted = AcceptedPoint("A. Person", date(2026, 11, 25), "12345678")
    assert change(AcceptPoint("w1.drops", accepted)) == [
        "+accepted:",
        '+  w1.drops: {who: A. Person, date: 2026-11-25, bound: "12345678"}',
    ]
    again = AcceptPoint("w1.drops", replace(accepted, who="B. Person", bound="5c1e09a2"))
    two = change(AcceptPoint("com_whip pigtail.loss", accepted), again)
    assert two[1:] == [
        '+  com_whip pigtail.loss: {who: A. Person, date: 2026-11-25, bound: "12345678"}',
        "+  w1.drops: {who: B. Person, date: 2026-11-25, bound: 5c1e09a2}",
    ]


def test_readings_are_added_changed_and_taken_out(change: Any) -> None:
    m1 = "  m1: {path: gnss, loss: %s dB, at: 1575.42 MHz, date: 2026-10-29%s}"
    reading = Measurement("gnss", 3.02, at_hz=1575.42e6, date=date(2026, 10, 29), who="J. K.")
    assert change(SetMeasurement("m1", reading)) == [
        f"-{m1 % ('3.1', '')}",
        f"+{m1 % ('3.02', ', who: J. K.')}",
    ]
    added = change(SetMeasurement("m2", Measurement("com", 0.9, at_hz=127e6)))
    assert added == ["+  m2: {path: com, loss: 0.9 dB, at: 127 MHz, state: built}"]
    gone = change(RemoveMeasurement("m1"))
    assert gone == ["-measurements:", f"-{m1 % ('3.1', '')}"]


def test_a_revision_is_written_where_the_file_tells_it_and_else_at_its_end(change: Any) -> None:
    people = {"prepared": Person("M. Probe", stamp="7"), "checked": Person("K. L.", role="chief")}
    edit = SetRevision("C", ById(people))
    assert change(edit)[2:] == [
        "+revision: {letter: C, status: draft, date: 2026-10-30, serial: 12}",
        "+people: {prepared: {name: M. Probe, stamp: 7}, checked: {name: K. L., role: chief}}",
    ]
    heads = ("revision: {", "people: {")
    bare = "".join(row for row in PLAN.splitlines(True) if not row.startswith(heads))
    added = change(edit, plan=bare)
    assert sorted(added) == [
        "+  checked: {name: K. L., role: chief}",
        "+  letter: C",
        '+  prepared: {name: M. Probe, stamp: "7"}',
        "+people:",
        "+revision:",
    ]


def test_edits_that_come_to_nothing_leave_the_text_as_it_is(change: Any) -> None:
    there, back = at(130, 3), at(126, -1)
    assert change(MoveAntenna("gnss", "top", there), MoveAntenna("gnss", "top", back)) == []


def test_what_no_edit_changes_is_refused_at_its_place(tmp_path: Path) -> None:
    file = loaded(write_aircraft(tmp_path))
    target = replace(file.plan, policy=replace(file.plan.policy, near_db=0.1))
    with pytest.raises(ProblemsError) as refusal:
        updated(file.documents[0], file.plan, target)
    (problem,) = refusal.value.problems
    assert problem.line == PLAN[: PLAN.index("policy")].count("\n") + 1
    assert problem.message == "policy near_db cannot be changed from here"
    fewer = replace(file.plan, design=replace(file.plan.design, cables=type(file.plan.waivers)()))
    with pytest.raises(ProblemsError, match="cannot be changed from here"):
        updated(file.documents[0], file.plan, fewer)
