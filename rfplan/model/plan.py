# SPDX-License-Identifier: Apache-2.0
"""The plan: equipment, antennas, cables and paths in three states, with readings and waivers."""

from __future__ import annotations

from dataclasses import dataclass, field
from enum import StrEnum
from typing import Literal

from rfplan.model.airframe import Airframe
from rfplan.model.record import RECORD, ById, Flag, Number, Text
from rfplan.model.rulebook import Spacing, Strictness
from rfplan.model.source import UNSOURCED, Source
from rfplan.units import (
    NONE,
    Age,
    Angle,
    ButtRange,
    CarrierToNoise,
    Current,
    CurrentRange,
    Date,
    Diameters,
    Frequency,
    FrequencyRange,
    Length,
    LengthOrMissing,
    LengthRange,
    Level,
    LevelRange,
    Loss,
    LossRange,
    Mass,
    MassRange,
    NoiseDensity,
    NoiseTemperature,
    PlaceText,
    PowerRange,
    Range,
    Ratio,
    RatioOrMissing,
    Temperature,
    TemperatureRange,
    Time,
    VoltageRange,
)


class State(StrEnum):
    """The three truths one plan tells."""

    FOUND = "found"
    DESIGN = "design"
    BUILT = "built"


class StackUp(StrEnum):
    """How tolerances add up in the verdict."""

    WORST_CASE = "worst_case"
    RSS = "rss"
    NOMINAL = "nominal"


ANY_CABLE = "all"
"""In place of a type of cable: whatever type it is."""


@dataclass(frozen=True, slots=True)
class Policy:
    """The shop's choices; the defaults are common practice, no source.

    `retermination_cut: 2 in` is what one new plug takes off a cable; `antenna_noise: 100 K` is
    what a GNSS antenna picks up from sky and ground; `noise_rise: 1 dB` is how much a transmitter
    may lift the noise of a receiver; `waste: 10 %` is bought on top of cable, whole spools where
    `spool: 100 ft` or, by type, `spool: {rg_400_u: 100 ft}` is stated; `ageing: 10 %` is allowed on
    top of the most that each cable loses as new.
    """

    __pydantic_config__ = RECORD

    near_db: Loss = 0.5
    temperature_c: TemperatureRange = field(default_factory=lambda: Range(-55.0, 70.0))
    stack: StackUp = StackUp.WORST_CASE
    agree_db: Loss = 0.5
    agreement: Strictness = Strictness.ADVICE
    bend_od: Diameters = 10.0
    model: Literal["conductor", "k1_only"] = "conductor"
    tolerance_m: Length = 0.0
    cut_step_m: Length = 0.0
    strip_m: Length = 0.0
    retermination_cut_m: Length = 0.0508
    antenna_noise_k: NoiseTemperature = 100.0
    noise_rise_db: Loss | None = None
    waste_ratio: Ratio | None = None
    spool_m: ById[Length] = field(default_factory=ById)
    ageing_ratio: Ratio | None = None


@dataclass(frozen=True, slots=True)
class Person:
    """Who prepared, checked or released."""

    __pydantic_config__ = RECORD

    name: Text
    role: Text | None = None
    stamp: Text | None = None
    date: Date | None = None


@dataclass(frozen=True, slots=True)
class Revision:
    """The working revision."""

    __pydantic_config__ = RECORD

    letter: Text | None = None
    status: Literal["draft", "released", "as built", "superseded"] | None = None
    date: Date | None = None
    serial: Text | None = None


_NOTHING = Range(NONE, NONE)


@dataclass(frozen=True, slots=True)
class Port:
    """One antenna connection of a unit with the limits its document states.

    `loss: 1.5 .. 6.5 dB` or, each signal its own, `loss: {l1: 1.5 .. 6.5 dB, l5: 1 .. 6 dB}`; so
    also `net_gain: 20 .. 40 dB`, what an amplified antenna and its line leave. `feed` are the
    volts that the port sends up the line, `current` the most it can give, `supervision: 15 .. 60
    mA` what it takes for a healthy antenna; `noise_figure` is the receiver's own, `bandwidth: 8
    MHz` what it takes in at a time, `cn0: 37 dBHz` the least carrier to noise density that it
    needs. `power: none` states that a port sends nothing, though its radio does: the receiving one
    of two; `sensitivity: none` that it hears nothing. `harmonics: {12: 95 dB, 13: 95 dB}` is how
    far below the carrier a transmitter's harmonics lie, by their number, `noise: -140 dBm/Hz` or
    `noise: {all: -140 dBm/Hz, gnss: -165 dBm/Hz}` the most of its noise outside its own bands,
    where a family of radios listens; above `overload: -10 dBm` at the plug a receiver loses its
    signal, above `damage: 20 dBm` it breaks.
    """

    __pydantic_config__ = RECORD

    radio: Text
    plug: Text | None = None
    loss_db: ById[LossRange] = field(default_factory=ById)
    plugs: Literal["included", "at unit", "at antenna", "excluded"] | None = None
    terminations: Literal["matched", "mismatched"] | None = None
    limit_at: Literal["room", "range"] | None = None
    band_hz: FrequencyRange | None = None
    power_w: PowerRange | None = None
    antenna_power_w: PowerRange | None = None
    class_: Text | None = None
    sensitivity_dbm: ById[LevelRange] = field(default_factory=ById)
    feed_v: VoltageRange | None = None
    current_a: Current | None = None
    supervision_a: CurrentRange | None = None
    net_gain_db: ById[LossRange] = field(default_factory=ById)
    noise_figure_db: Loss | None = None
    bandwidth_hz: Frequency | None = None
    cn0_dbhz: CarrierToNoise | None = None
    harmonics_db: ById[Loss] = field(default_factory=ById)
    overload_dbm: Level | None = None
    damage_dbm: Level | None = None
    noise_dbm_per_hz: ById[NoiseDensity] = field(default_factory=ById)
    vswr: Number | None = None
    mounting: Literal["outside skin"] | None = None
    cable: Literal["free", "matched", "fixed"] | None = None
    cable_type: Text | None = None
    cable_length_m: Length | None = None
    distance_m: Length | None = None
    ground_plane_m: Length | None = None
    unused: Flag = False
    source: Text | None = None

    @property
    def silent(self) -> set[str]:
        """Which of 'tx' and 'rx' its document says that it does not do: one of two ports."""
        levels = self.sensitivity_dbm.values()
        deaf = bool(levels) and all(one == _NOTHING for one in levels)
        return {way for way, not_so in (("tx", self.power_w == _NOTHING), ("rx", deaf)) if not_so}


@dataclass(frozen=True, slots=True)
class Unit:
    """A radio in the aircraft."""

    __pydantic_config__ = RECORD

    ports: ById[Port]
    at: PlaceText | None = None
    node: Text | None = None
    title: Text | None = None
    mass_kg: Mass | None = None
    source: Text | None = None


@dataclass(frozen=True, slots=True)
class Antenna:
    """An antenna and its place; on the outer hull the water line follows from the skin."""

    __pydantic_config__ = RECORD

    type: Text
    on: Text
    at: PlaceText
    ground_plane: Text | None = None
    node: Text | None = None
    title: Text | None = None
    source: Text | None = None


@dataclass(frozen=True, slots=True)
class GroundPlane:
    """Conducting foil or mesh laid behind a skin."""

    __pydantic_config__ = RECORD

    of: Text
    on: Text
    fs_m: LengthRange
    bl_m: ButtRange
    verified: Text | None = None
    source: Text | None = None
    mass_kg: Mass | None = None


@dataclass(frozen=True, slots=True)
class Assembly:
    """A cable assembly: made, cut and bought once, however many paths use it.

    `ageing: 5 %` is what its loss is allowed to grow by, instead of what the policy allows.
    """

    __pydantic_config__ = RECORD

    type: Text
    plugs: tuple[Text, Text]
    length_m: LengthOrMissing | None = None
    via: tuple[Text, ...] = ()
    avoid: tuple[Text, ...] = ()
    loops_m: tuple[LengthOrMissing, LengthOrMissing] | None = None
    drops_m: tuple[LengthOrMissing | None, LengthOrMissing | None] | None = None
    drip_loop_m: LengthOrMissing | None = None
    retermination_m: LengthOrMissing | None = None
    tolerance_m: Length | None = None
    group: Text | None = None
    age_yr: Age | None = None
    ageing_ratio: RatioOrMissing | None = None
    source: Text | None = None


@dataclass(frozen=True, slots=True)
class Part:
    """An inline part at a node; `ports` says what is done with each unused port."""

    __pydantic_config__ = RECORD

    type: Text
    at: Text | None = None
    ports: ById[Literal["terminated", "open"]] = field(default_factory=ById)
    source: Text | None = None


@dataclass(frozen=True, slots=True)
class Path:
    """One signal path: unit.port, what the signal goes through, the antenna."""

    __pydantic_config__ = RECORD

    chain: tuple[Text, ...]
    redundant: Text | None = None
    source: Text | None = None


@dataclass(frozen=True, slots=True)
class Group:
    """Assemblies that must match each other: how far apart loss, length, delay, phase may be."""

    __pydantic_config__ = RECORD

    loss_db: Loss | None = None
    length_m: Length | None = None
    delay_s: Time | None = None
    phase_rad: Angle | None = None
    source: Text | None = None


@dataclass(frozen=True, slots=True)
class StatedMass:
    """What one thing weighs, or between what, where neither plan nor catalogue says it elsewhere.

    `masses: {tnc: 10 .. 30 g}` by the id of a thing or of its type; `each` is one of it.
    """

    __pydantic_config__ = RECORD

    each_kg: MassRange
    source: Text | None = None


@dataclass(frozen=True, slots=True)
class Measurement:
    """A reading of one path at one frequency, of its loss or VSWR; it never changes a prediction.

    `vswr` is read at the plug of the unit, with the antenna connected.
    """

    __pydantic_config__ = RECORD

    path: Text
    loss_db: Loss | None = None
    at_hz: Frequency = field(kw_only=True)
    vswr: Number | None = field(default=None, kw_only=True)
    state: State = State.BUILT
    temperature_c: Temperature | None = None
    uncertainty_db: Loss | None = None
    with_: Text | None = None
    who: Text | None = None
    date: Date | None = None
    bound: Text | None = None


@dataclass(frozen=True, slots=True)
class IsolationReading:
    """A reading between the plugs of two antennas at one frequency, with how far apart they stood.

    It stands for both directions, and for the band it lies in, while they stand as far apart.
    """

    __pydantic_config__ = RECORD

    between: tuple[Text, Text]
    isolation_db: Loss
    uncertainty_db: Loss
    at_hz: Frequency
    apart_m: Length
    state: State = State.BUILT
    with_: Text | None = None
    who: Text | None = None
    date: Date | None = None


@dataclass(frozen=True, slots=True)
class FindingRef:
    """The finding that a waiver speaks of: rule and objects."""

    __pydantic_config__ = RECORD

    rule: Text
    of: tuple[Text, ...]


@dataclass(frozen=True, slots=True)
class Accepted:
    """The values at which a finding was accepted; the tool writes them."""

    __pydantic_config__ = RECORD

    have: Text
    need: Text


@dataclass(frozen=True, slots=True)
class Waiver:
    """A finding accepted by name and with a reason, bound to the values of that day.

    `accepted` are the values of a finding that has any, `bound` eight hex digits of the rest that
    it accepts: what it is about and the document behind its limit. `check` is what is done on the
    aircraft to make up for it, a step of the ground check.
    """

    __pydantic_config__ = RECORD

    finding: FindingRef
    reason: Text
    who: Text
    state: State = State.DESIGN
    role: Text | None = None
    date: Date | None = None
    accepted: Accepted | None = None
    approved_data: Text | None = None
    bound: Text | None = None
    check: Text | None = None


@dataclass(frozen=True, slots=True)
class AcceptedPoint:
    """Who takes it upon himself that an open point to confirm stays open.

    `bound` are eight hex digits of the value that is accepted as it is, `check` what is done on
    the aircraft to make up for it.
    """

    __pydantic_config__ = RECORD

    who: Text
    date: Date
    bound: Text | None = None
    check: Text | None = None


@dataclass(frozen=True, slots=True)
class Installation:
    """Everything fitted in one state."""

    __pydantic_config__ = RECORD

    units: ById[Unit] = field(default_factory=ById)
    antennas: ById[Antenna] = field(default_factory=ById)
    ground_planes: ById[GroundPlane] = field(default_factory=ById)
    cables: ById[Assembly] = field(default_factory=ById)
    parts: ById[Part] = field(default_factory=ById)
    paths: ById[Path] = field(default_factory=ById)


@dataclass(frozen=True, slots=True)
class Plan:
    """One plan: all three states, and which of them, for which serial number, is looked at."""

    id: str
    title: str
    airframe: Airframe
    found: Installation
    design: Installation
    built: Installation
    state: State = State.DESIGN
    serial: str | None = None
    revision: Revision = field(default_factory=Revision)
    people: ById[Person] = field(default_factory=ById)
    sources: ById[Source] = field(default_factory=ById)
    policy: Policy = field(default_factory=Policy)
    spacing: ById[Spacing] = field(default_factory=ById)
    groups: ById[Group] = field(default_factory=ById)
    masses: ById[StatedMass] = field(default_factory=ById)
    measurements: ById[Measurement] = field(default_factory=ById)
    isolation: ById[IsolationReading] = field(default_factory=ById)
    waivers: ById[Waiver] = field(default_factory=ById)
    accepted: ById[AcceptedPoint] = field(default_factory=ById)

    @property
    def installation(self) -> Installation:
        """What is fitted in the state looked at."""
        return {State.FOUND: self.found, State.DESIGN: self.design, State.BUILT: self.built}[
            self.state
        ]

    def source(self, id: str | None) -> Source:
        """Return a source of the plan or its airframe by id."""
        return self.sources.get(id or "") or self.airframe.sources.get(id or "") or UNSOURCED

    @property
    def variant(self) -> str | None:
        """The airframe variant of the serial number, if exactly one names it."""
        if self.serial is None or not self.serial.isdigit():
            return None
        number = int(self.serial)
        ids = [
            id
            for id, variant in self.airframe.variants.items()
            if any(first <= number <= last for first, last in variant.serials)
        ]
        return ids[0] if len(ids) == 1 else None
