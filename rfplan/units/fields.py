# SPDX-License-Identifier: Apache-2.0
"""Marks for fields of the model: which text a file holds there, and what it stands for."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from datetime import date
from typing import Annotated, Any, Literal

from rfplan.units.grammar import (
    Place,
    Range,
    Toleranced,
    parse,
    parse_butt_range,
    parse_date,
    parse_or_missing,
    parse_place,
    parse_range,
    parse_toleranced,
)
from rfplan.units.kinds import (
    AGE,
    ANGLE,
    AREA,
    ATTENUATION,
    BUTT_RANGE,
    CAPACITANCE_PER_LENGTH,
    CARRIER_TO_NOISE,
    CURRENT,
    DATE,
    DIAMETERS,
    FREQUENCY,
    GAIN,
    LENGTH,
    LEVEL,
    LOSS,
    MASS,
    MASS_PER_LENGTH,
    NOISE_DENSITY,
    NOISE_TEMPERATURE,
    PLACE,
    POWER,
    RATIO,
    RESISTANCE,
    RESISTANCE_PER_LENGTH,
    SPEED,
    TEMPERATURE,
    TIME,
    VOLTAGE,
    Kind,
    Missing,
)

# fmt: off
Form = Literal["value", "value_or_missing", "range", "value_or_range", "toleranced",
               "place", "butt_range", "date"]
# fmt: on
_READERS: dict[Form, Callable[[str, Kind], object]] = {
    "value": parse,
    "value_or_missing": parse_or_missing,
    "range": parse_range,
    "value_or_range": lambda text, kind: parse_range(text, kind, single=True),
    "toleranced": parse_toleranced,
    "place": lambda text, _: parse_place(text),
    "butt_range": lambda text, _: parse_butt_range(text),
    "date": lambda text, _: parse_date(text),
}


@dataclass(frozen=True, slots=True)
class Quantity:
    """Marks a field of the model that files hold as text of this kind and form."""

    kind: Kind
    form: Form = "value"

    def read(self, value: object) -> object:
        """Return what a value of a file stands for; a bare number, list or the like is refused."""
        return _READERS[self.form](_text_of(value), self.kind)

    def __get_pydantic_core_schema__(self, source: Any, handler: Any) -> dict[str, Any]:
        """Return the plain core schema of `read`; pydantic itself is not needed here."""
        return {"type": "function-plain", "function": {"type": "no-info", "function": self.read}}


def _text_of(value: object) -> str:
    if isinstance(value, str):
        return value
    if value is None or isinstance(value, bool):
        return "" if value is None else str(value).lower()
    if isinstance(value, float) or (isinstance(value, int) and value.bit_length() < 200):
        return repr(value)
    return "a mapping" if isinstance(value, dict) else f"a {type(value).__name__}"


# fmt: off
Length = Annotated[float, Quantity(LENGTH)]
LengthOrMissing = Annotated[float | Missing, Quantity(LENGTH, "value_or_missing")]
LengthRange = Annotated[Range, Quantity(LENGTH, "range")]
Frequency = Annotated[float, Quantity(FREQUENCY)]
FrequencyRange = Annotated[Range, Quantity(FREQUENCY, "range")]
Power = Annotated[float, Quantity(POWER)]
PowerRange = Annotated[Range, Quantity(POWER, "value_or_range")]
Level = Annotated[float, Quantity(LEVEL)]
LevelRange = Annotated[Range, Quantity(LEVEL, "value_or_range")]
Loss = Annotated[float, Quantity(LOSS)]
LossRange = Annotated[Range, Quantity(LOSS, "range")]
Gain = Annotated[float, Quantity(GAIN)]
GainRange = Annotated[Range, Quantity(GAIN, "value_or_range")]
Attenuation = Annotated[float, Quantity(ATTENUATION)]
Resistance = Annotated[float, Quantity(RESISTANCE)]
ResistanceOrMissing = Annotated[float | Missing, Quantity(RESISTANCE, "value_or_missing")]
ResistanceToleranced = Annotated[Toleranced, Quantity(RESISTANCE, "toleranced")]
ResistancePerLength = Annotated[float, Quantity(RESISTANCE_PER_LENGTH)]
ResistancePerLengthOrMissing = Annotated[
    float | Missing, Quantity(RESISTANCE_PER_LENGTH, "value_or_missing")]
Voltage = Annotated[float, Quantity(VOLTAGE)]
VoltageRange = Annotated[Range, Quantity(VOLTAGE, "range")]
Current = Annotated[float, Quantity(CURRENT)]
CurrentRange = Annotated[Range, Quantity(CURRENT, "value_or_range")]
Mass = Annotated[float, Quantity(MASS)]
MassRange = Annotated[Range, Quantity(MASS, "value_or_range")]
MassOrMissing = Annotated[float | Missing, Quantity(MASS, "value_or_missing")]
MassPerLength = Annotated[float, Quantity(MASS_PER_LENGTH)]
MassPerLengthOrMissing = Annotated[float | Missing, Quantity(MASS_PER_LENGTH, "value_or_missing")]
CapacitancePerLength = Annotated[float, Quantity(CAPACITANCE_PER_LENGTH)]
Ratio = Annotated[float, Quantity(RATIO)]
RatioOrMissing = Annotated[float | Missing, Quantity(RATIO, "value_or_missing")]
Temperature = Annotated[float, Quantity(TEMPERATURE)]
TemperatureRange = Annotated[Range, Quantity(TEMPERATURE, "range")]
NoiseTemperature = Annotated[float, Quantity(NOISE_TEMPERATURE)]
CarrierToNoise = Annotated[float, Quantity(CARRIER_TO_NOISE)]
NoiseDensity = Annotated[float, Quantity(NOISE_DENSITY)]
Angle = Annotated[float, Quantity(ANGLE)]
Age = Annotated[float, Quantity(AGE)]
Time = Annotated[float, Quantity(TIME)]
Diameters = Annotated[float, Quantity(DIAMETERS)]
Area = Annotated[float, Quantity(AREA)]
Speed = Annotated[float, Quantity(SPEED)]
PlaceText = Annotated[Place, Quantity(PLACE, "place")]
ButtRange = Annotated[Range, Quantity(BUTT_RANGE, "butt_range")]
Date = Annotated[date, Quantity(DATE, "date")]
# fmt: on
