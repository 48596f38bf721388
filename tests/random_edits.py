# SPDX-License-Identifier: Apache-2.0
"""Edits at random, of every kind that a plan admits, for the tests that need a lot of them."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from datetime import date
from random import Random

from rfplan.edits import (
    AcceptPoint,
    AddWaiver,
    Edit,
    EditError,
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
from rfplan.model.plan import Accepted, AcceptedPoint, FindingRef, Measurement, Person, Plan, Waiver
from rfplan.model.record import ById
from rfplan.units import UNKNOWN, Missing, Place

_IN = 0.0254
_CABLES = ("rg_58c_u", "rg_400_u", "?")
_PLUGS = ("bnc", "tnc", "tnc_angle")
_WORDS = ("no free place", "see: sheet 3", '"said" so', "#4 it is", "d\u00e9j\u00e0 vu, again", "?")


def random_edit(random: Random, plan: Plan) -> Edit:
    """Return an edit that a plan admits, in the state it is looked at."""
    kinds = list(_KINDS)
    random.shuffle(kinds)
    return next(edit for kind in kinds if (edit := kind(random, plan)) is not None)


def _move(random: Random, plan: Plan) -> Edit | None:
    """Move an antenna anywhere; a place off the skin is tried again elsewhere."""
    for _ in range(50):
        edit = _any_move(random, plan)
        try:
            edit.apply(plan)
        except EditError:
            continue
        return edit
    return None


def _any_move(random: Random, plan: Plan) -> MoveAntenna:
    id = random.choice(list(plan.installation.antennas))
    first_m, last_m = plan.airframe.sections[0].fs_m, plan.airframe.sections[-1].fs_m
    steps = int((last_m - first_m) / (0.5 * _IN))
    fs_m = first_m + random.randint(0, steps) * 0.5 * _IN
    on = random.choice(("top", "belly", "left", "panel"))
    wl_m = None if on in ("top", "belly") else random.randint(40, 50) * _IN
    return MoveAntenna(id, on, Place(fs_m, random.randint(-9, 9) * _IN, wl_m))


def _ground_plane(random: Random, plan: Plan) -> Edit | None:
    id = random.choice(list(plan.installation.antennas))
    return SetGroundPlane(id, random.choice([None, *plan.installation.ground_planes]))


def _cable(random: Random, plan: Plan) -> Edit | None:
    return SetCable(random.choice(list(plan.installation.cables)), random.choice(_CABLES))


def _ends(random: Random, plan: Plan) -> Edit | None:
    plugs = (random.choice(_PLUGS), random.choice(_PLUGS))
    return SetEnds(random.choice(list(plan.installation.cables)), plugs)


def _route(random: Random, plan: Plan) -> Edit | None:
    nodes = list(plan.airframe.route.nodes)
    via, avoid = (tuple(random.sample(nodes, random.randint(0, 2))) for _ in range(2))
    return SetRoute(random.choice(list(plan.installation.cables)), via, avoid)


def _lengths(random: Random, plan: Plan) -> Edit | None:
    id = random.choice(list(plan.installation.cables))
    lengths = SetLengths.of(id, plan.installation.cables[id])
    return random.choice(
        (
            replace(lengths, length_m=_length_m(random)),
            replace(lengths, loops_m=(_length_m(random), UNKNOWN), tolerance_m=0.5 * _IN),
            replace(lengths, drops_m=(_length_m(random), _length_m(random)), loops_m=None),
            replace(lengths, length_m=None, drip_loop_m=_length_m(random)),
            replace(lengths, retermination_m=None, drip_loop_m=None),
        )
    )


def _length_m(random: Random) -> float | Missing:
    inches, millimetres = random.randint(1, 200) / 4, random.randint(1, 3000)
    return random.choice((inches * _IN, millimetres * 0.001, UNKNOWN))


def _add_waiver(random: Random, plan: Plan) -> Edit | None:
    reason = " ".join(("no place further aft,", *random.choices(_WORDS, k=5)))
    objects = tuple(random.sample(list(plan.installation.antennas), 2))
    accepted = random.choice((None, Accepted("35 in", "36 in")))
    waiver = Waiver(
        FindingRef("RF501", objects),
        reason,
        "A. Person",
        plan.state,
        date=date(2026, 11, random.randint(1, 30)),
        accepted=accepted,
    )
    number = next(n for n in range(1, 999) if f"v{n}" not in plan.waivers)
    return AddWaiver(f"v{number}", waiver)


def _accept(random: Random, plan: Plan) -> Edit | None:
    id = f"{random.choice(list(plan.installation.cables))}.drops"
    bound = random.choice((None, "5c1e09a2", "12345678", "12e45678"))
    return AcceptPoint(id, AcceptedPoint("A. Person", date(2026, 11, random.randint(1, 30)), bound))


def _remove_waiver(random: Random, plan: Plan) -> Edit | None:
    return RemoveWaiver(random.choice(list(plan.waivers))) if plan.waivers else None


def _measure(random: Random, plan: Plan) -> Edit | None:
    reading = Measurement(
        random.choice(list(plan.installation.paths)),
        random.randint(1, 900) / 100,
        plan.state,
        at_hz=random.choice((127.0e6, 1090.0e6, 1575.42e6)),
        vswr=random.choice((None, 1.0, 1.35)),
        temperature_c=random.choice((None, 21.0, -5.5)),
        with_=random.choice((None, "analyser 7 due 2027-03-01", "bridge: old")),
    )
    return SetMeasurement(f"m{random.randint(1, 4)}", reading)


def _remove_reading(random: Random, plan: Plan) -> Edit | None:
    ids = list(plan.measurements)
    return RemoveMeasurement(random.choice(ids)) if ids else None


def _revise(random: Random, plan: Plan) -> Edit | None:
    people = ById(
        (role, Person(random.choice(_WORDS), date=random.choice((None, date(2026, 11, 2)))))
        for role in random.sample(("prepared", "checked", "released"), random.randint(1, 3))
    )
    return SetRevision(random.choice("ABC"), people)


_KINDS: tuple[Callable[[Random, Plan], Edit | None], ...] = (
    _move,
    _ground_plane,
    _cable,
    _ends,
    _route,
    _lengths,
    _add_waiver,
    _remove_waiver,
    _accept,
    _measure,
    _remove_reading,
    _revise,
)
