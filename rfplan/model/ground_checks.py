# SPDX-License-Identifier: Apache-2.0
"""What a ground check looks for beyond the loss budget: channels to key, limits, fixed steps."""

from __future__ import annotations

from dataclasses import dataclass, field

from rfplan.model.record import RECORD, ById, Count, Text
from rfplan.units import Resistance, Time


@dataclass(frozen=True, slots=True)
class KeyDown:
    """Channels, by the name a radio shows, whose harmonics fall on a GNSS signal."""

    __pydantic_config__ = RECORD

    dwell_s: Time
    channels: tuple[Text, ...]
    source: Text
    fine: tuple[Text, ...] = ()
    """Names that only sets with 8.33 kHz spacing have."""
    remark: Text | None = None


@dataclass(frozen=True, slots=True)
class BondLimit:
    """The most that a bond may have between an antenna base and its ground plane."""

    __pydantic_config__ = RECORD

    most_ohm: Resistance
    source: Text


@dataclass(frozen=True, slots=True)
class CheckStep:
    """A step in fixed words, done once, or for each path or zone of the kinds it names.

    `number` tells which check it belongs to; it is the same in every plan.
    """

    __pydantic_config__ = RECORD

    number: Count
    do: Text
    expect: Text
    source: Text
    limit: Text | None = None
    paths: tuple[Text, ...] = ()
    zones: tuple[Text, ...] = ()


@dataclass(frozen=True, slots=True)
class Interval:
    """How often a rule wants the equipment of a radio or family looked at."""

    __pydantic_config__ = RECORD

    months: Count
    source: Text


@dataclass(frozen=True, slots=True)
class GroundChecks:
    """Everything the ground-check sheet adds to what an assessment tells."""

    __pydantic_config__ = RECORD

    bond: BondLimit | None = None
    key_down: KeyDown | None = None
    intervals: ById[Interval] = field(default_factory=ById)
    steps: ById[CheckStep] = field(default_factory=ById)
