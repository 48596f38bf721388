# SPDX-License-Identifier: Apache-2.0
"""The kinds of quantities: one literal table of units and factors to SI."""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from enum import Enum

DIPOLE_GAIN_DBI = 2.15  # half-wave dipole; from memory, and a test integrates its pattern


class Missing(Enum):
    """Why a value is absent: not known yet (an open point), or the document states none."""

    UNKNOWN = "?"
    NONE = "none"


UNKNOWN = Missing.UNKNOWN
NONE = Missing.NONE


class QuantityError(ValueError):
    """A text that is no quantity: `message` says what is wrong, `expected` what should be."""

    def __init__(self, message: str, expected: str) -> None:
        super().__init__(message, expected)
        self.message, self.expected = message, expected

    def __str__(self) -> str:
        link = " Expected" if self.message.endswith("?") else "; expected"
        return f"{self.message}{link} {self.expected}"


Law = Callable[[float], float]


def _db_of(ratio: float) -> float:
    return 10.0 * math.log10(ratio) if ratio > 0.0 else math.nan


def _ratio_of(db: float) -> float:
    return 10.0 ** (db / 10.0) if db < 3000.0 else math.inf


@dataclass(frozen=True, slots=True)
class Unit:
    """SI value = laws[0]((number + offset) * factor); `digits` are shown after the point."""

    factor: float
    digits: int = 2
    offset: float = 0.0
    laws: tuple[Law, Law] | None = None  # towards SI, and back

    def to_si(self, number: float) -> float:
        """Return the SI value of a number in this unit; not finite where there is none."""
        value = (number + self.offset) * self.factor
        return self.laws[0](value) if self.laws else value

    def from_si(self, value: float) -> float:
        """Return the number in this unit of an SI value."""
        return (self.laws[1](value) if self.laws else value) / self.factor - self.offset


@dataclass(frozen=True, slots=True)
class Kind:
    """What a quantity measures, the unit it is kept in and the units it may be written in."""

    name: str
    si: str
    example: str
    range_example: str
    units: Mapping[str, Unit] = field(hash=False, repr=False)

    @property
    def phrase(self) -> str:
        """Return the name with its article: 'a length', 'an angle'."""
        return f"{'an' if self.name[0] in 'aeiou' else 'a'} {self.name}"

    @property
    def expected(self) -> str:
        """Return what a message says was expected."""
        return f"{self.phrase} such as {self.example}"


# fmt: off
LENGTH = Kind("length", "m", "126 in, 10 ft 6 in or 3.2 m", "98 .. 108 in", {
    "m": Unit(1.0, 3), "mm": Unit(0.001, 1), "cm": Unit(0.01, 1), "km": Unit(1000.0, 6),
    "in": Unit(0.0254, 1), "ft": Unit(0.3048, 3)})
FREQUENCY = Kind("frequency", "Hz", "1575.42 MHz or 1.09 GHz", "118 .. 137 MHz", {
    "Hz": Unit(1.0, 0), "kHz": Unit(1e3), "MHz": Unit(1e6), "GHz": Unit(1e9, 5)})
POWER = Kind("power", "W", "16 W or 42 dBm", "125 .. 500 W", {
    "W": Unit(1.0, 1), "mW": Unit(0.001, 1), "kW": Unit(1000.0, 3),
    "dBW": Unit(1.0, 1, 0.0, (_ratio_of, _db_of)), "dBm": Unit(1.0, 1, -30.0, (_ratio_of, _db_of))})
LEVEL = Kind("level", "dBm", "-73 dBm or 16 W", "-77 .. -69 dBm", {
    "dBm": Unit(1.0, 1), "dBW": Unit(1.0, 1, 30.0),
    "W": Unit(1000.0, 1, 0.0, (_db_of, _ratio_of)), "mW": Unit(1.0, 1, 0.0, (_db_of, _ratio_of))})
LOSS = Kind("loss", "dB", "1.5 dB", "1.5 .. 6.5 dB", {"dB": Unit(1.0)})
GAIN = Kind("gain", "dBi", "2.15 dBi or 0 dBd", "26 .. 33 dBi", {  # dBic counts as dBi
    "dBi": Unit(1.0), "dBic": Unit(1.0), "dBd": Unit(1.0, 2, DIPOLE_GAIN_DBI)})
ATTENUATION = Kind("attenuation", "dB/m", "0.12 dB/m or 12 dB/100 ft", "0.10 .. 0.14 dB/m", {
    "dB/m": Unit(1.0, 4), "dB/100 m": Unit(0.01), "dB/100m": Unit(0.01), "dB/km": Unit(0.001, 1),
    "dB/ft": Unit(1 / 0.3048, 4), "dB/100 ft": Unit(1 / 30.48), "dB/100ft": Unit(1 / 30.48)})
RESISTANCE = Kind("resistance", "ohm", "50 ohm or 2.5 mohm", "48 .. 52 ohm", {
    "ohm": Unit(1.0), "mohm": Unit(0.001), "kohm": Unit(1000.0, 3),
    "\u03a9": Unit(1.0), "m\u03a9": Unit(0.001), "k\u03a9": Unit(1000.0, 3),  # the Greek letter
    "\u2126": Unit(1.0), "m\u2126": Unit(0.001), "k\u2126": Unit(1000.0, 3)})  # the ohm sign
RESISTANCE_PER_LENGTH = Kind("resistance per length", "ohm/m", "39 ohm/km", "13 .. 15 ohm/km", {
    "ohm/m": Unit(1.0, 4), "ohm/km": Unit(0.001), "mohm/m": Unit(0.001),
    "ohm/1000 ft": Unit(1 / 304.8)})
VOLTAGE = Kind("voltage", "V", "5 V or 120 mV", "4.7 .. 5.3 V", {
    "V": Unit(1.0), "mV": Unit(0.001, 0)})
CURRENT = Kind("current", "A", "60 mA or 1.2 A", "15 .. 60 mA", {
    "A": Unit(1.0, 3), "mA": Unit(0.001, 0)})
MASS = Kind("mass", "kg", "742 lb, 5.5 oz or 0.21 kg", "730 .. 760 lb", {
    "kg": Unit(1.0, 3), "g": Unit(0.001, 0), "lb": Unit(0.45359237), "oz": Unit(0.028349523125, 1)})
MASS_PER_LENGTH = Kind("mass per length", "kg/m", "38 g/m or 5 lb/100 ft", "36 .. 40 g/m", {
    "kg/m": Unit(1.0, 4), "g/m": Unit(0.001, 1), "kg/km": Unit(0.001, 1),
    "lb/ft": Unit(0.45359237 / 0.3048, 4), "lb/100 ft": Unit(0.45359237 / 30.48),
    "lb/1000 ft": Unit(0.45359237 / 304.8, 1)})
CAPACITANCE_PER_LENGTH = Kind("capacitance per length", "F/m", "96 pF/m", "93 .. 99 pF/m", {
    "pF/m": Unit(1e-12, 1), "pF/ft": Unit(1e-12 / 0.3048, 1)})
RATIO = Kind("ratio", "", "0.66 or 66 %", "60 .. 70 %", {"": Unit(1.0, 3), "%": Unit(0.01, 1)})
TEMPERATURE = Kind("temperature", "degC", "-55 degC or 158 degF", "-55 .. 70 degC", {
    "degC": Unit(1.0, 0), "\u00b0C": Unit(1.0, 0),
    "degF": Unit(5 / 9, 0, -32.0), "\u00b0F": Unit(5 / 9, 0, -32.0)})
ANGLE = Kind("angle", "rad", "12 deg", "5 .. 90 deg", {
    "rad": Unit(1.0, 4), "deg": Unit(math.pi / 180, 1)})
NOISE_TEMPERATURE = Kind("noise temperature", "K", "100 K", "50 .. 130 K", {"K": Unit(1.0, 0)})
CARRIER_TO_NOISE = Kind("carrier to noise density", "dBHz", "37 dBHz", "35 .. 45 dBHz", {
    "dBHz": Unit(1.0, 1), "dB-Hz": Unit(1.0, 1)})
NOISE_DENSITY = Kind("noise density", "dBm/Hz", "-140 dBm/Hz", "-150 .. -140 dBm/Hz", {
    "dBm/Hz": Unit(1.0, 1), "dBW/Hz": Unit(1.0, 1, 30.0)})
TIME = Kind("time", "s", "30 min or 12 ns", "6 .. 30 min", {
    "s": Unit(1.0, 3), "ms": Unit(1e-3, 3), "us": Unit(1e-6, 3), "ns": Unit(1e-9, 1),
    "min": Unit(60.0, 1), "h": Unit(3600.0)})
AGE = Kind("age", "yr", "19 yr", "10 .. 19 yr", {"yr": Unit(1.0, 1), "month": Unit(1 / 12, 0)})
DIAMETERS = Kind("multiple of the diameter", "od", "10 od", "6 .. 10 od", {"od": Unit(1.0, 1)})
AREA = Kind("area", "m2", "0.05 m2 or 80 in2", "70 .. 90 in2", {
    "m2": Unit(1.0, 4), "cm2": Unit(0.0001, 1),
    "ft2": Unit(0.09290304), "in2": Unit(0.00064516, 1)})
FORCE = Kind("force", "N", "12 N or 2.7 lbf", "5 .. 12 N", {
    "N": Unit(1.0, 1), "lbf": Unit(4.4482216152605)})
SPEED = Kind("speed", "m/s", "140 kt or 72 m/s", "90 .. 140 kt", {
    "m/s": Unit(1.0, 1), "km/h": Unit(1 / 3.6, 0), "kt": Unit(1852 / 3600, 0),
    "mph": Unit(0.44704, 0)})
DATE = Kind("date", "", "2026-11-25", "", {})
PLACE = Kind("place", "m", "94 L2 in or 60 L10 50 in", "", LENGTH.units)
BUTT_RANGE = Kind("range of butt lines", "m", "L20 .. R20 in", "", LENGTH.units)

KINDS: dict[str, Kind] = {kind.name: kind for kind in (
    LENGTH, FREQUENCY, POWER, LEVEL, LOSS, GAIN, ATTENUATION, RESISTANCE, RESISTANCE_PER_LENGTH,
    VOLTAGE, CURRENT, MASS, MASS_PER_LENGTH, CAPACITANCE_PER_LENGTH, RATIO, TEMPERATURE, ANGLE,
    NOISE_TEMPERATURE, CARRIER_TO_NOISE, NOISE_DENSITY, TIME, AGE, DIAMETERS, AREA, FORCE, SPEED)}
# fmt: on
