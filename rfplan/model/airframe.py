# SPDX-License-Identifier: Apache-2.0
"""The airframe: hull sections, plates, skin, zones, frames, the surveyed route graph, variants."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Literal

from rfplan.model.record import RECORD, ById, Count, Flag, Number, Text
from rfplan.model.source import Source
from rfplan.units import (
    ButtRange,
    Length,
    LengthOrMissing,
    LengthRange,
    Mass,
    PlaceText,
    Speed,
    TemperatureRange,
)

OUTER_HULL = ("top", "belly", "left", "right")
INSIDE = ("glareshield", "panel", "cabin", "tailcone", "inside_fin", "inside_wing")


@dataclass(frozen=True, slots=True)
class Section:
    """One hull section: a superellipse between bottom and top, `roundness` 2 being an ellipse."""

    __pydantic_config__ = RECORD

    fs_m: Length
    half_width_m: Length
    bottom_m: Length
    top_m: Length
    roundness: Number
    source: Text | None = None


@dataclass(frozen=True, slots=True)
class Plate:
    """A flat surface such as a wing half or a fin: leading and trailing edge at root and tip."""

    __pydantic_config__ = RECORD

    root: tuple[PlaceText, PlaceText]
    tip: tuple[PlaceText, PlaceText]
    thickness_m: Length
    mirror: Flag = False
    source: Text | None = None


@dataclass(frozen=True, slots=True)
class Panel:
    """A piece of skin: its material where stations, butt lines and surface fit."""

    __pydantic_config__ = RECORD

    on: Text
    of: Text
    fs_m: LengthRange | None = None
    bl_m: ButtRange | None = None
    wl_m: LengthRange | None = None
    thickness_m: Length | None = None
    source: Text | None = None


@dataclass(frozen=True, slots=True)
class Zone:
    """A region with a meaning: on a surface, in space (`fs bl wl`), or round a point (`at`)."""

    __pydantic_config__ = RECORD

    is_: Text
    on: Text | None = None
    fs_m: LengthRange | None = None
    bl_m: ButtRange | None = None
    wl_m: LengthRange | None = None
    at: PlaceText | None = None
    radius_m: Length | None = None
    keep_off_m: Length = 0.0
    drill: Flag | None = None
    temperature_c: TemperatureRange | None = None
    needs: Text | None = None
    why: Text | None = None
    strict: Literal["required", "advice"] | None = None
    source: Text | None = None


@dataclass(frozen=True, slots=True)
class Frame:
    """A frame or bulkhead at one station, for reference and drawing."""

    __pydantic_config__ = RECORD

    fs_m: Length
    is_: Text | None = None
    source: Text | None = None


@dataclass(frozen=True, slots=True)
class Node:
    """A surveyed point of the route: `passes` limits how many cables, `bulkhead` ends them."""

    __pydantic_config__ = RECORD

    at: PlaceText
    is_: Text | None = None
    passes: Count | None = None
    bulkhead: Text | None = None
    source: Text | None = None


@dataclass(frozen=True, slots=True)
class Segment:
    """A way between two nodes, measured along the structure."""

    __pydantic_config__ = RECORD

    length_m: LengthOrMissing
    source: Text | None = None


@dataclass(frozen=True, slots=True)
class Route:
    """The graph of permitted cable ways; a segment's id is its two node ids with a hyphen."""

    __pydantic_config__ = RECORD

    nodes: ById[Node] = field(default_factory=ById)
    segments: ById[Segment] = field(default_factory=ById)
    source: Text | None = None


@dataclass(frozen=True, slots=True)
class Weight:
    """Empty weight, its arm, and the limits it must stay in."""

    __pydantic_config__ = RECORD

    empty_kg: Mass
    cg_m: Length
    limits_m: LengthRange | None = None
    lemac_m: Length | None = None
    mac_m: Length | None = None
    source: Text | None = None


@dataclass(frozen=True, slots=True)
class Speeds:
    """The never-exceed speed, at which antennas outside have to hold."""

    __pydantic_config__ = RECORD

    vne_m_per_s: Speed
    source: Text | None = None


@dataclass(frozen=True, slots=True)
class SegmentChange:
    """What a variant does to one segment: another `length`, or a `change` added to it."""

    __pydantic_config__ = RECORD

    length_m: Length | None = None
    change_m: Length | None = None


@dataclass(frozen=True, slots=True)
class Variant:
    """An overlay by serial number on the lengths of the route."""

    __pydantic_config__ = RECORD

    serials: tuple[tuple[Count, Count], ...]
    segments: ById[SegmentChange] = field(default_factory=ById)
    closed: tuple[Text, ...] = ()
    source: Text | None = None


@dataclass(frozen=True, slots=True)
class Airframe:
    """One airframe file."""

    __pydantic_config__ = RECORD

    name: Text
    sections: tuple[Section, ...]
    id: Text = ""
    datum: Text | None = None
    sources: ById[Source] = field(default_factory=ById)
    source: Text | None = None
    plates: ById[Plate] = field(default_factory=ById)
    skin: ById[Panel] = field(default_factory=ById)
    zones: ById[Zone] = field(default_factory=ById)
    frames: ById[Frame] = field(default_factory=ById)
    route: Route = field(default_factory=Route)
    weight: Weight | None = None
    speeds: Speeds | None = None
    variants: ById[Variant] = field(default_factory=ById)
