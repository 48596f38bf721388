# SPDX-License-Identifier: Apache-2.0
"""What ships beside the rules: radio kinds, spacing advice, skin materials, zone kinds, numbers."""

from __future__ import annotations

from dataclasses import dataclass, field
from enum import StrEnum
from typing import Literal

from rfplan.model.gnss_masks import GnssMasks
from rfplan.model.ground_checks import GroundChecks
from rfplan.model.record import RECORD, ById, Text
from rfplan.sources import Citation
from rfplan.units import (
    Diameters,
    Frequency,
    Gain,
    Length,
    Level,
    LevelRange,
    Loss,
    PowerRange,
    Ratio,
)


class Strictness(StrEnum):
    """Whether breaking a rule is FAIL, or is mentioned only."""

    REQUIRED = "required"
    ADVICE = "advice"


@dataclass(frozen=True, slots=True)
class Carrier:
    """The weakest signal that a receiver is promised, as an isotropic antenna takes it up."""

    __pydantic_config__ = RECORD

    level_dbm: Level
    source: Text


@dataclass(frozen=True, slots=True)
class Band:
    """One band of a radio in one direction; each GNSS signal is a band of its own."""

    __pydantic_config__ = RECORD

    direction: Literal["rx", "tx"]
    low_hz: Frequency
    high_hz: Frequency
    carrier: Carrier | None = None
    source: Text | None = None


@dataclass(frozen=True, slots=True)
class RadioClass:
    """Limits at the antenna end of the line for one class of a radio kind."""

    __pydantic_config__ = RECORD

    antenna_power_w: PowerRange
    source: Text


@dataclass(frozen=True, slots=True)
class SensitivityLimit:
    """A two-sided limit of receiver sensitivity at the antenna end of the line."""

    __pydantic_config__ = RECORD

    level_dbm: LevelRange
    source: Text


@dataclass(frozen=True, slots=True)
class Radio:
    """One kind of radio: family, bands, and how its cable may be treated."""

    __pydantic_config__ = RECORD

    title: Text
    family: Text
    bands: ById[Band]
    id: Text = ""
    polarisation: Text | None = None
    cable: Literal["free", "matched", "fixed"] = "free"
    classes: ById[RadioClass] = field(default_factory=ById)
    sensitivity: ById[SensitivityLimit] = field(default_factory=ById)
    source: Text | None = None


@dataclass(frozen=True, slots=True)
class Spacing:
    """A distance that two kinds of antennas, or an antenna and a feature, should keep."""

    __pydantic_config__ = RECORD

    from_: Text
    to: Text
    min_m: Length
    id: Text = ""
    datum: Literal["centre", "edge", "skin"] = "centre"
    strict: Strictness = Strictness.ADVICE
    preferred_m: Length | None = None
    source: Text | None = None
    why: Text | None = None


@dataclass(frozen=True, slots=True)
class Material:
    """How a skin material treats radio waves."""

    __pydantic_config__ = RECORD

    title: Text
    skin: Literal["transparent", "lossy", "conductive"]
    source: Text
    id: Text = ""


@dataclass(frozen=True, slots=True)
class ZoneKind:
    """What a kind of zone means for an antenna standing in it."""

    __pydantic_config__ = RECORD

    title: Text
    effect: Literal["forbidden", "removable", "caution", "allowed", "sensor", "hot", "edge"]
    strict: Strictness
    text: Text
    remedy: Text
    source: Text
    id: Text = ""


@dataclass(frozen=True, slots=True)
class Limits:
    """Numbers that rules compare with; each has its source in the same table."""

    __pydantic_config__ = RECORD

    support_spacing_m: Length
    bend_floor_od: Diameters
    bend_advice_od: Diameters
    base_gap_m: Length
    near_db: Loss
    shorter_than_straight_m: Length
    shorter_than_straight_part_ratio: Ratio
    sources: ById[Text]
    gnss_gain_dbi: Gain = -4.5


@dataclass(frozen=True, slots=True)
class Rulebook:
    """All shipped tables by id."""

    radios: ById[Radio]
    spacings: ById[Spacing]
    materials: ById[Material]
    zone_kinds: ById[ZoneKind]
    limits: Limits
    ground_checks: GroundChecks = field(default_factory=GroundChecks)
    gnss_masks: GnssMasks = field(default_factory=GnssMasks)
    sha256: Text = ""


@dataclass(frozen=True, slots=True)
class Rule:
    """The words of one rule; its logic stands beside it in the same file.

    `otherwise` says where a finding has the other strictness, of a rule that decides it each time.
    """

    id: str
    name: str
    title: str
    strictness: Strictness
    why: str
    remedy: str
    known_limits: str
    source: Citation
    otherwise: str = ""

    @property
    def other(self) -> Strictness | None:
        """The other strictness, of a rule whose findings may have it."""
        if not self.otherwise:
            return None
        required = self.strictness is Strictness.REQUIRED
        return Strictness.ADVICE if required else Strictness.REQUIRED
