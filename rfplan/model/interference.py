# SPDX-License-Identifier: Apache-2.0
"""What transmitters do to receivers of one aircraft: a matrix of cells, and what is left to key."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from rfplan.model.findings import Verdict

Ends = tuple[float | None, float | None]

CARRIER, NOISE = 1, 0
"""Orders of emissions that are no harmonics."""


class Together(StrEnum):
    """Whether two radios have to work at the same time."""

    YES = "must work together"
    SUPPRESSED = "suppressed"
    NOT_REQUIRED = "not required"


class CellWord(StrEnum):
    """What a number or a cell rests on; TEST says that only a trial on the aircraft decides."""

    COMPUTED = "computed"
    BOUND = "bound"
    MEASURED = "measured"
    TEST = "TEST"


class Harm(StrEnum):
    """What an emission may do to a receiver."""

    MASK = "GNSS mask"
    PULSES = "GNSS pulse limit"
    NOISE = "noise rise"
    IN_BAND = "in band"
    OVERLOAD = "overload"
    DAMAGE = "damage"


@dataclass(frozen=True, slots=True)
class Coupling:
    """The isolation of two antennas at one frequency: by which model, and how far off it may be.

    A better model would say `have_db` + the ends of `band_db`; None where nobody can tell.
    `valid` says that the model was used where it may be.
    """

    have_db: float | None
    model: str
    band_db: Ends
    valid: bool
    word: CellWord


@dataclass(frozen=True, slots=True)
class Exposure:
    """One emission of one transmitter against one limit of one receiver; ids are of paths.

    `order` is 1 for the carrier and NOISE for broadband noise, whose levels are those in 1 Hz.
    `given` says that the level was entered as data. Levels are those at the two antennas; None
    where they, or the limit, are not known. A level above
    `fail_above_dbm` breaks a limit that was read or entered; None where there is no such limit.
    """

    source: str
    victim: str
    order: int
    frequency_hz: float
    harm: Harm
    carrier_dbm: float | None
    level_dbm: float | None
    given: bool
    limit_dbm: float | None
    fail_above_dbm: float | None
    coupling: Coupling
    need_db: float | None
    margin_db: float | None
    verdict: Verdict | None

    @property
    def word(self) -> CellWord:
        """What decides: the coupling, or a trial."""
        return CellWord.TEST if self.verdict is None else self.coupling.word


@dataclass(frozen=True, slots=True)
class MatrixCell:
    """All that antenna `source` does to antenna `victim`, worst first."""

    source: str
    victim: str
    distance_m: float
    exposures: tuple[Exposure, ...]
    together: Together

    @property
    def worst(self) -> Exposure:
        """The exposure that speaks for the cell."""
        return self.exposures[0]


@dataclass(frozen=True, slots=True)
class Matrix:
    """Source antennas against victim antennas; no antenna stands against itself."""

    sources: tuple[str, ...]
    victims: tuple[str, ...]
    cells: tuple[MatrixCell, ...]


@dataclass(frozen=True, slots=True)
class KeyDownStep:
    """One transmitter keyed on one channel, with every receiver that is watched meanwhile."""

    com: str
    channel: str
    carrier_hz: float
    order: int
    close: bool
    victims: tuple[str, ...]
    dwell_s: float
    repeat_with: str | None = None
    """The ELT whose cable comes off for this step; it repeats one that failed."""
