# SPDX-License-Identifier: Apache-2.0
"""Interference that a GNSS receiver must bear, row by row with how well each row is known."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Literal

from rfplan.model.record import RECORD, ById, Flag, Text
from rfplan.units import Frequency, Level, Loss, Ratio, Time

RowStatus = Literal["read", "memory", "unconfirmed"]
"""Only rows that were read may decide FAIL."""


@dataclass(frozen=True, slots=True)
class MaskCorner:
    """A corner of a limit: a frequency of the interference, or its bandwidth."""

    __pydantic_config__ = RECORD

    level_dbm: Level
    status: RowStatus
    frequency_hz: Frequency | None = None
    bandwidth_hz: Frequency | None = None
    source: Text | None = None


@dataclass(frozen=True, slots=True)
class Mask:
    """A limit at the output of the passive antenna element, straight between its corners."""

    __pydantic_config__ = RECORD

    title: Text
    corners: tuple[MaskCorner, ...]
    satcom: Flag | None = None
    source: Text | None = None


@dataclass(frozen=True, slots=True)
class Tightening:
    """How much lower the limits lie in one phase of work of the receiver."""

    __pydantic_config__ = RECORD

    loss_db: Loss
    status: RowStatus
    source: Text


@dataclass(frozen=True, slots=True)
class PulseLimit:
    """Peak power of pulses that a receiver must bear."""

    __pydantic_config__ = RECORD

    peak_dbm: Level
    status: RowStatus
    source: Text
    width_s: Time | None = None
    duty_ratio: Ratio | None = None


@dataclass(frozen=True, slots=True)
class GnssMasks:
    """The table of all of them; empty where a rulebook has none."""

    __pydantic_config__ = RECORD

    masks: ById[Mask] = field(default_factory=ById)
    tightenings: ById[Tightening] = field(default_factory=ById)
    pulses: ById[PulseLimit] = field(default_factory=ById)
