# SPDX-License-Identifier: Apache-2.0
"""The catalogue: cables, connectors, inline parts, antenna types; figures with sources."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Literal

from rfplan.model.air_load import Shape
from rfplan.model.record import RECORD, ById, Flag, Number, Text
from rfplan.model.source import Source
from rfplan.units import (
    Area,
    Attenuation,
    CapacitancePerLength,
    Current,
    CurrentRange,
    Frequency,
    FrequencyRange,
    GainRange,
    Length,
    Loss,
    LossRange,
    Mass,
    MassPerLength,
    Power,
    Ratio,
    Resistance,
    ResistancePerLength,
    ResistanceToleranced,
    TemperatureRange,
    VoltageRange,
)

Basis = Literal["minimum", "nominal", "maximum", "estimate"]


@dataclass(frozen=True, slots=True)
class AttenuationPoint:
    """One row of an attenuation table at 20 degC."""

    __pydantic_config__ = RECORD

    frequency_hz: Frequency
    attenuation_db_per_m: Attenuation


@dataclass(frozen=True, slots=True)
class Fit:
    """The law k1 sqrt(f) + k2 f, in dB/100 m with f in MHz, where no table is at hand."""

    __pydantic_config__ = RECORD

    k1: Number
    k2: Number
    range_hz: FrequencyRange


@dataclass(frozen=True, slots=True)
class AttenuationSet:
    """One source's attenuation of a cable: a table of points, or a fit."""

    __pydantic_config__ = RECORD

    basis: Basis | None = None
    use: Flag | None = None
    tolerance_ratio: Ratio | None = None
    points: tuple[AttenuationPoint, ...] = ()
    fit: Fit | None = None
    remark: Text | None = None
    source: Text | None = None


@dataclass(frozen=True, slots=True)
class Conductor:
    """A centre conductor or a shield."""

    __pydantic_config__ = RECORD

    of: Text | None = None
    make: Text | None = None
    resistance_ohm_per_m: ResistancePerLength | None = None
    diameter_m: Length | None = None
    ferrous: Flag = False
    source: Text | None = None


@dataclass(frozen=True, slots=True)
class Dielectric:
    """What lies between the conductors."""

    __pydantic_config__ = RECORD

    of: Text
    loss_tangent: Number | None = None
    diameter_m: Length | None = None
    source: Text | None = None


@dataclass(frozen=True, slots=True)
class Cable:
    """One coaxial cable."""

    __pydantic_config__ = RECORD

    designation: Text
    impedance_ohm: ResistanceToleranced
    velocity_ratio: Ratio
    attenuation: ById[AttenuationSet]
    id: Text = ""
    diameter_m: Length | None = None
    mass_kg_per_m: MassPerLength | None = None
    capacitance_f_per_m: CapacitancePerLength | None = None
    centre: Conductor | None = None
    shield: Conductor | None = None
    dielectric: Dielectric | None = None
    jacket: Text | None = None
    rated_c: TemperatureRange | None = None
    bend_m: Length | None = None
    power_w: Power | None = None
    power_at_hz: Frequency | None = None
    invented: Flag = False
    remarks: tuple[Text, ...] = ()
    sources: ById[Source] = field(default_factory=ById)
    source: Text | None = None


@dataclass(frozen=True, slots=True)
class LossPoint:
    """One row of an insertion-loss table."""

    __pydantic_config__ = RECORD

    frequency_hz: Frequency
    loss_db: Loss


@dataclass(frozen=True, slots=True)
class LossSet:
    """An insertion loss: one value for all frequencies, or a table read log-log."""

    __pydantic_config__ = RECORD

    loss_db: Loss | None = None
    points: tuple[LossPoint, ...] = ()
    tolerance_db: Loss | None = None
    source: Text | None = None


@dataclass(frozen=True, slots=True)
class Connector:
    """A plug of one series; the loss is that of one mated pair."""

    __pydantic_config__ = RECORD

    series: Text
    id: Text = ""
    form: Literal["straight", "angle"] = "straight"
    impedance_ohm: ResistanceToleranced | None = None
    to_hz: Frequency | None = None
    coupling: Text | None = None
    safety_wire: Flag | None = None
    vswr: Number | None = None
    loss: ById[LossSet] = field(default_factory=ById)
    strip_m: Length | None = None
    mass_kg: Mass | None = None
    invented: Flag = False
    remarks: tuple[Text, ...] = ()
    sources: ById[Source] = field(default_factory=ById)
    source: Text | None = None


PartKind = Literal[
    "bulkhead", "adapter", "splitter", "diplexer", "combiner", "arrester", "pad", "filter"
]


@dataclass(frozen=True, slots=True)
class PartPort:
    """One branch of a splitter or diplexer, towards a unit; its loss reaches to the common.

    `load: 200 ohm` is what a branch that blocks DC shows the receiver in place of an antenna.
    """

    __pydantic_config__ = RECORD

    plug: Text
    loss: ById[LossSet] = field(default_factory=ById)
    band_hz: FrequencyRange | None = None
    dc: Literal["pass", "block"] | None = None
    load_ohm: Resistance | None = None


@dataclass(frozen=True, slots=True)
class InlinePart:
    """A part in a feed line: two plugs, or a common and several ports.

    Where it passes DC, `resistance: 0.3 ohm` is what the supply meets in it and `current: 250 mA`
    the most it carries. A filter takes at least its `rejection: 35 dB` off over its `stop: 1563 ..
    1588 MHz`; between `band` and `stop` nothing is promised.
    """

    __pydantic_config__ = RECORD

    kind: PartKind
    title: Text
    id: Text = ""
    plugs: tuple[Text, Text] | None = None
    common: Text | None = None
    ports: ById[PartPort] = field(default_factory=ById)
    loss: ById[LossSet] = field(default_factory=ById)
    impedance_ohm: ResistanceToleranced | None = None
    band_hz: FrequencyRange | None = None
    stop_hz: FrequencyRange | None = None
    rejection_db: Loss | None = None
    vswr: Number | None = None
    dc: Literal["pass", "block"] | None = None
    resistance_ohm: Resistance | None = None
    current_a: Current | None = None
    rated_c: TemperatureRange | None = None
    mass_kg: Mass | None = None
    invented: Flag = False
    remarks: tuple[Text, ...] = ()
    sources: ById[Source] = field(default_factory=ById)
    source: Text | None = None


@dataclass(frozen=True, slots=True)
class Base:
    """The footprint of an antenna on the skin: length along FS, width along BL."""

    __pydantic_config__ = RECORD

    length_m: Length
    width_m: Length


@dataclass(frozen=True, slots=True)
class AntennaPort:
    """One plug of an antenna that serves several radios."""

    __pydantic_config__ = RECORD

    plug: Text
    radios: tuple[Text, ...]


@dataclass(frozen=True, slots=True)
class AntennaType:
    """One type of antenna.

    `amplifier: {l1: 26 .. 32 dB, l5: 25 .. 33 dB}` is the gain of its amplifier by signal, `none`
    says that it has none; `noise_figure: 2.5 dB`, by signal too, is that of the same amplifier.
    `frontal_area: 7.5 in2` meets the air; `shape: streamlined` is a blade, a round whip is bluff.
    """

    __pydantic_config__ = RECORD

    title: Text
    radios: tuple[Text, ...]
    id: Text = ""
    plug: Text | None = None
    ports: ById[AntennaPort] = field(default_factory=ById)
    base: Base | None = None
    height_m: Length | None = None
    frontal_area_m2: Area | None = None
    shape: Shape | None = None
    gap_m: Length | None = None
    ground_plane: Literal["quarter_wave", "none"] | None = None
    ground_plane_radius_m: Length | None = None
    vswr: Number | None = None
    gain_dbi: GainRange | None = None
    amplifier_db: ById[LossRange] = field(default_factory=ById)
    noise_figure_db: ById[Loss] = field(default_factory=ById)
    supply_v: VoltageRange | None = None
    current_a: CurrentRange | None = None
    pigtail: ById[LossSet] = field(default_factory=ById)
    mass_kg: Mass | None = None
    invented: Flag = False
    remarks: tuple[Text, ...] = ()
    sources: ById[Source] = field(default_factory=ById)
    source: Text | None = None


@dataclass(frozen=True, slots=True)
class Catalog:
    """All entries by id; a user's folder lies over the shipped one."""

    cables: ById[Cable] = field(default_factory=ById)
    connectors: ById[Connector] = field(default_factory=ById)
    inline_parts: ById[InlinePart] = field(default_factory=ById)
    antennas: ById[AntennaType] = field(default_factory=ById)
