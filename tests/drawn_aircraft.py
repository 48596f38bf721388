# SPDX-License-Identifier: Apache-2.0
"""An invented aircraft to draw: hull, wing, tail, zones, a ground plane and seven antennas."""

from __future__ import annotations

import math
from dataclasses import replace
from itertools import combinations

from sample import (
    inch,
    place,
    sample_airframe,
    sample_catalog,
    sample_installation,
    sample_plan,
    sample_rulebook,
)

from rfplan.analysis.placement import hull_of, snap
from rfplan.model.airframe import INSIDE, Airframe, Frame, Node, Plate, Route, Section, Zone
from rfplan.model.assessment import (
    AntennaPlace,
    Assessment,
    CableRun,
    Extent,
    PathAssessment,
    PathLoss,
    SpacingFact,
)
from rfplan.model.findings import Verdict
from rfplan.model.plan import Antenna, GroundPlane, Plan
from rfplan.model.record import ById
from rfplan.model.rulebook import Strictness
from rfplan.units import Range

HULL = [
    (22, 8, 41, 53, 2.2),
    (30, 14, 36, 57, 2.3),
    (60, 21, 30, 61, 2.5),
    (74, 22, 28, 66, 2.6),
    (92, 23, 27, 79, 2.7),
    (118, 23, 27, 79, 2.7),
    (140, 19, 32, 75, 2.6),
    (180, 11, 43, 69, 2.4),
    (226, 4, 54, 65, 2.2),
]
"""Station, half width, bottom, top in inches, and roundness."""


NODES = {"p1": (62, -8, 50), "apl": (72, -20, 58), "rfl": (92, -18, 76), "rf1": (100, -3, 78)}
"""Station, butt line and water line in inches."""


def drawn_airframe() -> Airframe:
    """Return a high-wing two-seater, all figures made up."""
    return sample_airframe(
        name="Drawn two-seater",
        sections=tuple(Section(inch(f), inch(w), inch(b), inch(t), n) for f, w, b, t, n in HULL),
        plates=ById(
            {
                "wing": Plate(
                    (place(86, 0, 80), place(138, 0, 80)),
                    (place(90, 204, 84), place(126, 204, 84)),
                    inch(7),
                    mirror=True,
                ),
                "tail": Plate(
                    (place(196, 0, 62), place(226, 0, 62)),
                    (place(204, 60, 62), place(226, 60, 62)),
                    inch(3),
                    mirror=True,
                ),
                "fin": Plate(
                    (place(186, 0, 67), place(226, 0, 65)),
                    (place(214, 0, 104), place(232, 0, 104)),
                    inch(4),
                ),
            }
        ),
        zones=ById(
            {
                "hatch": Zone("hatch", "top", Range(*inch(112, 126)), Range(*inch(-10, 10))),
                "fuel": Zone("fuel", "wing", Range(*inch(92, 130)), Range(*inch(-80, -30))),
                "fuel_r": Zone("fuel", "wing", Range(*inch(92, 130)), Range(*inch(30, 80))),
                "door": Zone("door", "left", Range(*inch(78, 112)), wl_m=Range(*inch(34, 66))),
                "compass": Zone("sensor", at=place(66, 0, 63), radius_m=inch(8)),
            }
        ),
        route=Route(ById((id, Node(place(*at))) for id, at in NODES.items())),
        frames=ById({"firewall": Frame(inch(60)), "aft": Frame(inch(140))}),
    )


def drawn_plan() -> Plan:
    """Return a plan of seven antennas, one of them inside."""
    antennas = {
        "gnss1": Antenna("gnss_active", "top", place(96, -3)),
        "com1": Antenna("com_whip", "top", place(134, 0)),
        "xpdr1": Antenna("xpdr_stub", "belly", place(110, 0)),
        "com2": Antenna("com_whip", "belly", place(150, 0)),
        "gnss2": Antenna("gnss_active", "glareshield", place(68, 6, 60)),
        "dme": Antenna("xpdr_stub", "belly", place(84, 5)),
        "nav": Antenna("com_whip", "fin", place(222, 0, 100)),
    }
    planes = {
        "foil": GroundPlane("copper foil", "top", Range(*inch(88, 106)), Range(*inch(-12, 6)))
    }
    installation = replace(
        sample_installation(), antennas=ById(antennas), ground_planes=ById(planes)
    )
    return sample_plan(
        airframe=drawn_airframe(), found=installation, design=installation, built=installation
    )


OVERALL = {"com1": Verdict.NEAR, "dme": Verdict.FAIL, "com2": Verdict.WAIVED}
NEED_IN = 36


def drawn_assessment(plan: Plan | None = None) -> Assessment:
    """Return an assessment written by hand: places as snapped, one path, one distance needed."""
    plan = plan or drawn_plan()
    antennas = tuple(_place(plan, id) for id in sorted(plan.installation.antennas))
    return Assessment(
        plan=plan,
        catalog=sample_catalog(),
        rulebook=sample_rulebook(),
        verdict=Verdict.FAIL,
        paths=(_path(),),
        cables=ById({"w11": _run()}),
        antennas=antennas,
        spacing=tuple(_spacing(a, b) for a, b in combinations(antennas, 2)),
        findings=(),
        open_points=(),
    )


def _place(plan: Plan, id: str) -> AntennaPlace:
    antenna = plan.installation.antennas[id]
    places = snap(plan.airframe, hull_of(plan.airframe), antenna.on, [antenna.at])
    fs_m, bl_m, wl_m = places.point_m[0].tolist()
    return AntennaPlace(
        id=id,
        type=antenna.type,
        surface=antenna.on,
        point_m=(fs_m, bl_m, wl_m),
        normal=(0.0, 0.0, 1.0),
        inside=antenna.on in INSIDE,
        radius_m=inch(1.5),
        zones=(),
        overall=OVERALL.get(id, Verdict.PASS),
    )


def _run() -> CableRun:
    length = Extent(inch(90), inch(90), inch(90))
    nodes = tuple(NODES)
    return CableRun("w11", "coax_5mm", nodes, None, None, length, False, None, None, None)


def _path() -> PathAssessment:
    return PathAssessment(
        id="gnss1",
        radio="gnss_l1",
        unit="nav1",
        port="gnss",
        antenna="gnss1",
        direction="rx",
        chain=(),
        mated_pairs=2,
        cables=("w11",),
        bands=(),
        loss=PathLoss(Verdict.PASS, False, None, None, None, None),
        transmit=None,
        receive=(),
        readings=(),
        findings=(),
        overall=Verdict.PASS,
    )


def _spacing(a: AntennaPlace, b: AntennaPlace) -> SpacingFact:
    """The distance of a pair; a rule speaks for gnss1 and com1 alone."""
    centre_m = math.dist(a.point_m, b.point_m)
    if {a.id, b.id} != {"gnss1", "com1"}:
        return SpacingFact(a.id, b.id, centre_m, None, None, *([None] * 6))
    margin_m = centre_m - inch(NEED_IN)
    verdict = Verdict.PASS if margin_m >= 0.0 else Verdict.FAIL
    return SpacingFact(
        a=a.id,
        b=b.id,
        centre_m=centre_m,
        edge_m=None,
        skin_m=None,
        need_m=inch(NEED_IN),
        datum="centre",
        margin_m=margin_m,
        strictness=Strictness.REQUIRED,
        rule="gnss_com",
        verdict=verdict,
    )
