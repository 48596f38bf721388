# SPDX-License-Identifier: Apache-2.0
"""What `assess` returns: every number a screen, a sheet or a program shows."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Literal

from rfplan.model.air_load import AirLoad
from rfplan.model.catalog import Catalog
from rfplan.model.electrical import Feed, GroupSpread, Reception, Retermination
from rfplan.model.findings import Finding, OpenPoint, Verdict, worst
from rfplan.model.loss_figure import Obtained, Tolerance
from rfplan.model.plan import Plan
from rfplan.model.record import ById
from rfplan.model.rulebook import Rulebook, Strictness
from rfplan.model.weight import WeightChange


@dataclass(frozen=True, slots=True)
class Extent:
    """A number between the least and the most it can be; `most` is infinite where unknown."""

    least: float
    nominal: float
    most: float


@dataclass(frozen=True, slots=True)
class LengthTerms:
    """What a cut length is made of."""

    routed_m: float
    drops_m: float
    drip_loop_m: float
    service_loops_m: float
    retermination_m: float
    rounding_m: float

    @property
    def finished_m(self) -> float:
        """Length from plug plane to plug plane, with loops and re-termination allowance."""
        return (
            self.routed_m
            + self.drops_m
            + self.drip_loop_m
            + self.service_loops_m
            + self.retermination_m
        )

    @property
    def cut_m(self) -> float:
        """Length to cut from the reel."""
        return self.finished_m + self.rounding_m


@dataclass(frozen=True, slots=True)
class CableRun:
    """One assembly on its way: nodes, the terms of its length, and its electrical length.

    `ageing_ratio` is the allowance for its growing older, None where it is not known.
    """

    id: str
    type: str
    nodes: tuple[str, ...]
    terms: LengthTerms | None
    as_built_m: float | None
    length_m: Extent
    drop_estimated: bool
    supports: int | None
    bend: tuple[float, str] | None
    mass_kg: float | None
    unknown: tuple[str, ...] = ()
    ageing_ratio: float | None = 0.0


@dataclass(frozen=True, slots=True)
class ChainItem:
    """One element of a path, in order from the unit.

    `extrapolated_in` are the bands in which its loss is read beyond the end of its table.
    """

    kind: str
    id: str | None
    type: str
    loss_db: float | None
    basis: str | None
    extrapolated_in: tuple[str, ...]
    source: str
    source_class: str
    impedance_ohm: float | None = None
    attenuation_db_per_m: float | None = None
    designation: str | None = None
    tolerance: Tolerance | None = None

    @property
    def extrapolated(self) -> bool:
        """Whether its loss is read beyond the end of its table in some band."""
        return bool(self.extrapolated_in)


@dataclass(frozen=True, slots=True)
class Corner:
    """The least or the most loss of a band, and where it occurs."""

    loss_db: float | None
    temperature_c: float
    frequency_hz: float


@dataclass(frozen=True, slots=True)
class Window:
    """The loss a port accepts, with the datum of the limit."""

    min_db: float | None
    max_db: float | None
    min_stated: str
    max_stated: str
    plugs_included: bool | None
    datum: str
    source: str


@dataclass(frozen=True, slots=True)
class BandLoss:
    """The loss of one path over one band, judged against its window."""

    name: str
    low_hz: float
    high_hz: float
    nominal_db: tuple[float | None, float | None, float | None]
    min_corner: Corner
    max_corner: Corner
    rss_db: tuple[float | None, float | None]
    judged_db: tuple[float | None, float | None]
    window: Window
    margin_to_min_db: float | None
    margin_to_max_db: float | None
    nominal_verdict: Verdict
    verdict: Verdict
    near: bool
    bounded: bool
    item_db: tuple[tuple[float | None, float | None, float | None], ...]
    item_db_per_m: tuple[float | None, ...]
    item_obtained: tuple[Obtained | None, ...]
    mismatch_db: tuple[float, float] | None
    item_ageing_db: tuple[float | None, ...]
    undecided_by: tuple[str, ...] = ()

    @property
    def ageing_db(self) -> float | None:
        """What the whole line is allowed to age by, which its max corner holds."""
        known = [one for one in self.item_ageing_db if one is not None]
        return sum(known) if len(known) == len(self.item_ageing_db) else None

    @property
    def mid_hz(self) -> float:
        """The middle of the band."""
        return (self.low_hz + self.high_hz) / 2.0


@dataclass(frozen=True, slots=True)
class PathLoss:
    """The worst band of a path, and the cable lengths the windows allow."""

    verdict: Verdict
    near: bool
    governing_band: str | None
    varying_cable: str | None
    shortest_m: float | None
    longest_m: float | None


@dataclass(frozen=True, slots=True)
class Transmit:
    """Transmitter power at the antenna end of the line against its limits."""

    unit_w: float
    antenna_w: float | None
    antenna_most_w: float | None
    antenna_dbw: float | None
    min_dbw: float | None
    max_dbw: float | None
    verdict: Verdict | None
    source: str


@dataclass(frozen=True, slots=True)
class Receive:
    """Receiver sensitivity referred to the antenna end of the line against its limits."""

    name: str
    least_dbm: float | None
    most_dbm: float | None
    min_dbm: float | None
    max_dbm: float | None
    verdict: Verdict | None
    source: str


@dataclass(frozen=True, slots=True)
class Reading:
    """One measurement beside its prediction.

    `in_window_of` tells what stands in the window: the reading, where it can be carried to the
    corners, else the prediction.
    `vswr` is as read at the unit, `antenna_vswr` what that makes of the antenna, None where
    the line hides it or its loss is not known, `antenna_vswr_stated` what the data of the antenna
    state; `match` says whether these agree.
    """

    id: str
    path: str
    state: str
    frequency_hz: float
    loss_db: float | None
    predicted_db: float | None
    difference_db: float | None
    allowed_db: float | None
    in_window: Verdict
    agreement: str | None
    stale: bool
    in_window_of: Literal["reading", "prediction"] = "prediction"
    vswr: float | None = None
    antenna_vswr: float | None = None
    antenna_vswr_stated: float | None = None
    match: str | None = None


@dataclass(frozen=True, slots=True)
class PathAssessment:
    """Everything about one path."""

    id: str
    radio: str
    unit: str
    port: str
    antenna: str
    direction: str
    chain: tuple[ChainItem, ...]
    mated_pairs: int
    cables: tuple[str, ...]
    bands: tuple[BandLoss, ...]
    loss: PathLoss
    transmit: Transmit | None
    receive: tuple[Receive, ...]
    readings: tuple[Reading, ...]
    findings: tuple[str, ...]
    overall: Verdict
    receiver: tuple[Reception, ...] = ()
    feed: Feed | None = None
    retermination: Retermination | None = None


@dataclass(frozen=True, slots=True)
class AntennaPlace:
    """Where an antenna stands, as snapped to its surface."""

    id: str
    type: str
    surface: str
    point_m: tuple[float, float, float]
    normal: tuple[float, float, float]
    inside: bool
    radius_m: float
    zones: tuple[str, ...]
    overall: Verdict


@dataclass(frozen=True, slots=True)
class SpacingFact:
    """The distance of one pair of antennas and the rule that speaks for it."""

    a: str
    b: str
    centre_m: float
    edge_m: float | None
    skin_m: float | None
    need_m: float | None
    datum: str | None
    margin_m: float | None
    strictness: Strictness | None
    rule: str | None
    verdict: Verdict | None


@dataclass(frozen=True, slots=True)
class Assessment:
    """The verdict of one plan in one state, and every fact behind it."""

    plan: Plan
    catalog: Catalog
    rulebook: Rulebook
    verdict: Verdict
    paths: tuple[PathAssessment, ...]
    cables: ById[CableRun]
    antennas: tuple[AntennaPlace, ...]
    spacing: tuple[SpacingFact, ...]
    findings: tuple[Finding, ...]
    open_points: tuple[OpenPoint, ...]
    weight: WeightChange = field(default_factory=WeightChange)
    air_loads: tuple[AirLoad, ...] = ()
    groups: tuple[GroupSpread, ...] = ()

    def word_of(self, antenna: str) -> Verdict:
        """Return the worst word of an antenna's place and of the paths that end at it."""
        places = (place.overall for place in self.antennas if place.id == antenna)
        paths = (path.overall for path in self.paths if path.antenna == antenna)
        return worst((*places, *paths))
