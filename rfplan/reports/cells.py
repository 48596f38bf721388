# SPDX-License-Identifier: Apache-2.0
"""Cells from values: the declared digits of each unit, and nothing but the value printed."""

from __future__ import annotations

import math
from collections.abc import Iterable
from typing import Literal

from rfplan.model.findings import Verdict
from rfplan.reports.sheet import Cell
from rfplan.units import ANGLE, AREA, CURRENT, FORCE, FREQUENCY, LENGTH, MASS, TIME, in_unit

LengthUnit = Literal["in", "mm"]

DIGITS = {
    "dB": 2,
    "in": 1,
    "mm": 0,
    "m": 3,
    "lb": 2,
    "kg": 3,
    "degC": 0,
    "W": 1,
    "dBW": 1,
    "dBm": 1,
    "dBHz": 1,
    "V": 2,
    "mA": 1,
    "K": 0,
    "ns": 3,
    "deg": 1,
    "N": 1,
    "lbf": 2,
    "cm2": 1,
    "in2": 1,
    "kt": 0,
}
"""Digits behind the point, by unit; a unit that is not named has as many as it needs."""

MASS_UNITS: dict[LengthUnit, str] = {"in": "lb", "mm": "kg"}

AREA_UNITS: dict[LengthUnit, str] = {"in": "in2", "mm": "cm2"}
FORCE_UNITS: dict[LengthUnit, str] = {"in": "lbf", "mm": "N"}

_SHOWN_IN = {"A": (CURRENT, "mA"), "s": (TIME, "ns"), "rad": (ANGLE, "deg")}
"""Units of findings that are too large to be read in."""

MOST_DIGITS = 9
UNKNOWN = "?"
NOT_APPLICABLE = "-"
DIM = "dim"


def words(text: str, token: str = "") -> Cell:
    """Return a cell of words."""
    return Cell(text, text, token=token)


def nothing(text: str = NOT_APPLICABLE) -> Cell:
    """Return a cell for a value that does not apply or is not known."""
    return Cell(text, None, token=DIM)


def words_or_nothing(text: str | None) -> Cell:
    """Return a cell of words, dim where there are none."""
    return words(text) if text else nothing()


def listed(texts: Iterable[str]) -> Cell:
    """Return a cell of several words with commas between them."""
    return words_or_nothing(", ".join(texts))


def verdict_cell(verdict: Verdict | None) -> Cell:
    """Return a verdict in its own colour."""
    return words(str(verdict), str(verdict)) if verdict is not None else nothing()


def printed(value: float, unit: str, digits: int | None = None) -> str:
    """Return a number with the digits of its unit, or as many as asked; never minus zero."""
    places = DIGITS.get(unit) if digits is None else digits
    if places is None:
        return f"{value:z.6f}".rstrip("0").rstrip(".")
    return f"{value:z.{places}f}"


def number(
    value: float | None, unit: str, *, digits: int | None = None, absent: str = UNKNOWN
) -> Cell:
    """Return the number alone, for a column whose heading tells the unit."""
    if value is None or not math.isfinite(value):
        return nothing(absent)
    return Cell(printed(value, unit, digits), value, unit)


def quantity(
    value: float | None, unit: str, *, digits: int | None = None, absent: str = UNKNOWN
) -> Cell:
    """Return the number with its unit, for a column or heading of mixed ones."""
    cell = number(value, unit, digits=digits, absent=absent)
    return cell if cell.value is None else Cell(f"{cell.text} {unit}".rstrip(), cell.value, unit)


def decibels(loss_db: float | None, *, digits: int | None = None, absent: str = UNKNOWN) -> Cell:
    """Return a loss or a margin."""
    return number(loss_db, "dB", digits=digits, absent=absent)


def length(
    length_m: float | None, unit: LengthUnit, *, digits: int | None = None, absent: str = UNKNOWN
) -> Cell:
    """Return a length in the unit of the sheet."""
    return number(_converted(length_m, unit), unit, digits=digits, absent=absent)


def mass(mass_kg: float | None, units: LengthUnit) -> Cell:
    """Return a mass in pounds beside inches, in kilograms beside millimetres."""
    unit = MASS_UNITS[units]
    return number(None if mass_kg is None else in_unit(mass_kg, MASS, unit), unit)


def area(area_m2: float | None, units: LengthUnit) -> Cell:
    """Return an area in square inches beside inches, in square centimetres beside millimetres."""
    unit = AREA_UNITS[units]
    return number(None if area_m2 is None else in_unit(area_m2, AREA, unit), unit)


def force(force_n: float | None, units: LengthUnit) -> Cell:
    """Return a force in pounds beside inches, in newtons beside millimetres."""
    unit = FORCE_UNITS[units]
    return number(None if force_n is None else in_unit(force_n, FORCE, unit), unit)


def frequency(frequency_hz: float) -> Cell:
    """Return a frequency in megahertz with as many digits as it has."""
    return number(in_unit(frequency_hz, FREQUENCY, "MHz"), "MHz")


def in_shown_unit(value: float | None, unit: str, units: LengthUnit) -> tuple[float | None, str]:
    """Return a value of a finding in the unit it is shown in: lengths as the sheet."""
    if unit == "m":
        return _converted(value, units), units
    shown = _SHOWN_IN.get(unit)
    if shown is None:
        return value, unit
    kind, name = shown
    return None if value is None else in_unit(value, kind, name), name


def telling_digits(value: float | None, limit: float | None, unit: str, *, fails: bool) -> int:
    """Return the digits at which a value that breaks its limit no longer prints the same as it."""
    digits = DIGITS.get(unit, 0)
    if not fails or value is None or limit is None:
        return digits
    while digits < MOST_DIGITS and printed(value, unit, digits) == printed(limit, unit, digits):
        digits += 1
    return digits


def _converted(length_m: float | None, unit: LengthUnit) -> float | None:
    return None if length_m is None else in_unit(length_m, LENGTH, unit)
