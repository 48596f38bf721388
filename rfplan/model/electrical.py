# SPDX-License-Identifier: Apache-2.0
"""What is told of a path beyond its loss: gain, noise, supply, reflections, matching."""

from __future__ import annotations

from dataclasses import dataclass

from rfplan.model.findings import Verdict

Ends = tuple[float | None, float | None]
"""The least and the most of something; None where it is not known or not stated."""


@dataclass(frozen=True, slots=True)
class Reception:
    """What antenna and line leave of gain, noise and signal in one band of a receiver."""

    name: str
    passive: bool
    gain_db: Ends
    net_gain_db: Ends
    window_db: Ends
    margins_db: Ends
    noise_figure_db: float | None
    noise_k: float | None
    line_c: float
    cn0_dbhz: float | None
    cn0_least_dbhz: float | None
    carrier_dbm: float | None
    carrier_source: str
    antenna_dbi: float
    antenna_noise_k: float
    verdict: Verdict | None
    undecided_by: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Feed:
    """Direct current from a port to an amplified antenna, cold and hot."""

    port_v: Ends
    antenna_v: Ends
    supply_v: Ends
    current_a: Ends
    supervision_a: Ends
    resistance_ohm: Ends
    temperature_c: tuple[float, float]
    blocked_by: tuple[str, ...]
    verdict: Verdict | None
    undecided_by: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Retermination:
    """What new plugs leave: the margin to the least loss after 0, 1 and 2 cuts at its corner."""

    cable: str
    cut_m: float
    margins_db: tuple[float, float, float]
    cuts_left: int
    slack_cuts: int


@dataclass(frozen=True, slots=True)
class GroupSpread:
    """How far apart the assemblies of a group are, and how far they may be."""

    id: str
    members: tuple[str, ...]
    loss_db: Ends
    length_m: Ends
    delay_s: Ends
    phase_rad: Ends
    frequency_hz: float | None
    verdict: Verdict
    undecided_by: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class BandResponse:
    """A path as a two-port over one band, at nominal loss and 20 degC: least and most.

    `steps_db` is what steps of impedance inside the line add. With the reflections of unit and
    antenna at any phase, `delivered_db` is the loss from one to the other and `swing_db` how far
    it moves over the band. `delivered_w` is the least power of the unit less the most of it all.
    """

    name: str
    points: int
    loss_db: tuple[float, float]
    steps_db: tuple[float, float]
    input_vswr: tuple[float, float] | None
    delivered_db: tuple[float, float] | None
    swing_db: float | None
    delivered_w: float | None


@dataclass(frozen=True, slots=True)
class LoadedLine:
    """The loss of a path's longest cable into its antenna: by the handbook, and exactly."""

    cable: str
    vswr: float
    frequency_hz: float
    handbook_db: float
    exact_db: tuple[float, float]
    holds: str


@dataclass(frozen=True, slots=True)
class OddPiece:
    """A cable of another impedance than the port: what it adds, at best and at worst."""

    cable: str
    ohm: float
    port_ohm: float
    length_m: float
    frequency_hz: float
    adds_db: float
    worst_db: float
    worst_vswr: float
    best_m: float
    worst_m: float


@dataclass(frozen=True, slots=True)
class Response:
    """A path over frequency."""

    bands: tuple[BandResponse, ...]


@dataclass(frozen=True, slots=True)
class PadTrial:
    """A path with one pad of the catalogue at its unit, or with none, and what is against it."""

    pad: str | None
    loss_db: float
    fitted: bool
    reasons: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Decider:
    """A value that is not known, or not well enough, and the verdicts that hang on it."""

    object: str
    field: str
    text: str
    resolves: tuple[str, ...]
    spread_db: float | None
