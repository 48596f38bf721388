# SPDX-License-Identifier: Apache-2.0
"""Text with a unit to a float in SI and back: a closed grammar and one literal table of factors."""

from __future__ import annotations

import math
import re
from collections.abc import Callable, Iterator, Mapping
from contextlib import contextmanager
from dataclasses import dataclass, field
from datetime import date
from difflib import get_close_matches
from enum import Enum
from typing import Annotated, Any, Literal

LONGEST_TEXT = 64
_TOO_LONG = f"the text is longer than {LONGEST_TEXT} characters"
DIPOLE_GAIN_DBI = 2.15  # half-wave dipole; from memory, and a test integrates its pattern


class Missing(Enum):
    """Why a value is absent: not known yet (an open point), or the document states none."""

    UNKNOWN = "?"
    NONE = "none"


UNKNOWN, NONE = Missing.UNKNOWN, Missing.NONE


class QuantityError(ValueError):
    """A text that is no quantity: `message` is what is wrong, `expected` what should stand there."""

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
TIME = Kind("time", "s", "30 min or 12 ns", "6 .. 30 min", {
    "s": Unit(1.0, 3), "ms": Unit(1e-3, 3), "us": Unit(1e-6, 3), "ns": Unit(1e-9, 1),
    "min": Unit(60.0, 1), "h": Unit(3600.0)})
AGE = Kind("age", "yr", "19 yr", "10 .. 19 yr", {"yr": Unit(1.0, 1), "month": Unit(1 / 12, 0)})
DIAMETERS = Kind("multiple of the diameter", "od", "10 od", "6 .. 10 od", {"od": Unit(1.0, 1)})
AREA = Kind("area", "m2", "0.05 m2 or 80 in2", "70 .. 90 in2", {
    "m2": Unit(1.0, 4), "ft2": Unit(0.09290304), "in2": Unit(0.00064516, 1)})
SPEED = Kind("speed", "m/s", "140 kt or 72 m/s", "90 .. 140 kt", {
    "m/s": Unit(1.0, 1), "km/h": Unit(1 / 3.6, 0), "kt": Unit(1852 / 3600, 0),
    "mph": Unit(0.44704, 0)})
DATE = Kind("date", "", "2026-11-25", "", {})
PLACE = Kind("place", "m", "94 L2 in or 60 L10 50 in", "", LENGTH.units)
BUTT_RANGE = Kind("range of butt lines", "m", "L20 .. R20 in", "", LENGTH.units)

KINDS: dict[str, Kind] = {kind.name: kind for kind in (
    LENGTH, FREQUENCY, POWER, LEVEL, LOSS, GAIN, ATTENUATION, RESISTANCE, RESISTANCE_PER_LENGTH,
    VOLTAGE, CURRENT, MASS, MASS_PER_LENGTH, CAPACITANCE_PER_LENGTH, RATIO, TEMPERATURE, ANGLE,
    TIME, AGE, DIAMETERS, AREA, SPEED)}
# fmt: on

_SIGN = "[+\\-\u2212]?"
_UNSIGNED = r"(?:[0-9]+(?:\.[0-9]+)?|\.[0-9]+)"
_SIGNED = f"{_SIGN}{_UNSIGNED}"
_NUMBER = rf"{_SIGNED}(?:[eE]{_SIGN}[0-9]{{1,3}})?"
_FRACTION = r"(?:([0-9]+) )?([0-9]+)/([0-9]+)"
_BUTT_LINE = rf"[LlRr]{_UNSIGNED}|{_SIGNED}"
_LETTERS = r"(?: ?([^\W\d_]+))?"
_NUMBER_AND_UNIT = re.compile(rf"({_NUMBER})(?: (?=\S))?(.*)")
_FEET_INCHES = re.compile(rf"({_SIGN})(?:([0-9]+) ?ft )?(?:({_UNSIGNED})|{_FRACTION}) ?in")
_UNIT_LIKE = re.compile(r"(?:[^\W\d_]|[%°])[^ ]*(?: \D*)?")
_THOUSANDS_COMMA = re.compile(r",(?=[0-9]{3}(?![0-9]))")
_MISSING_END = re.compile(r"(\?|none)(?: (.+))?")
_BUTT_RANGE = re.compile(rf"({_BUTT_LINE}){_LETTERS} \.\. ({_BUTT_LINE}){_LETTERS}")
_PLACE = re.compile(rf"({_SIGNED}) ({_BUTT_LINE})(?: ({_SIGNED}))?{_LETTERS}")
_FEET_OR_FRACTION = re.compile(r"[0-9] ?ft .|[0-9]/[0-9]|[0-9]['\"]")
_DATE = re.compile(r"([0-9]{4})-([0-9]{2})-([0-9]{2})")
_MISSING = {missing.value: missing for missing in Missing}


def parse(text: str, kind: Kind) -> float:
    """Return the SI value of a number with its unit."""
    value = _read(text, kind)
    if value is None:
        raise QuantityError(_fault(text, kind), kind.expected)
    return value


def _read(text: str, kind: Kind) -> float | None:
    if len(text) > LONGEST_TEXT:
        return None
    found = _NUMBER_AND_UNIT.fullmatch(text)
    unit = kind.units.get(found[2]) if found else None
    if found is None or unit is None:
        return _read_feet_inches_m(text) if kind is LENGTH else None
    value = unit.to_si(_number(found[1]))
    return value if math.isfinite(value) else None


def _number(digits: str) -> float:
    return float(digits.replace("\u2212", "-"))


def _read_feet_inches_m(text: str) -> float | None:
    found = _FEET_INCHES.fullmatch(text)
    if found is None:
        return None
    sign, feet, decimal, whole, top, bottom = found.groups()
    if top and int(top) >= int(bottom):
        return None
    inches = float(decimal) if decimal else int(whole or 0) + int(top) / int(bottom)
    if feet and inches >= 12.0:
        return None
    length_m = (12 * int(feet or 0) + inches) * LENGTH.units["in"].factor
    return length_m if sign in ("", "+") else -length_m


def _fault(text: str, kind: Kind) -> str:
    """Return what is wrong with a text that does not read."""
    if len(text) > LONGEST_TEXT:
        return _TOO_LONG
    found = _NUMBER_AND_UNIT.fullmatch(text)
    if found and not found[2]:
        return f"the number {text} has no unit"
    if found and found[2] in kind.units:
        return f"{_quoted(text)} is not a finite number of {kind.si}"
    if slip := _slip(text, kind):
        return slip
    is_unit_like = found and _UNIT_LIKE.fullmatch(found[2])
    return _unit_fault(found[2], kind) if found and is_unit_like else _not_a(kind, text)


def _not_a(kind: Kind, text: str) -> str:
    return f"{_quoted(text)} is not {kind.phrase}" if text.strip() else "nothing is written"


def _slip(text: str, kind: Kind) -> str:
    """Return the usual slip that explains a text, with the text as it should be."""
    slips = {
        "decimal comma": text.replace(",", "."),
        "thousands comma": _THOUSANDS_COMMA.sub("", text),
        "too many spaces": " ".join(text.split()),
        "foot or inch mark": " ".join(text.replace("'", " ft ").replace('"', " in").split()),
    }
    meant = {slip: fixed for slip, fixed in slips.items() if _read(fixed, kind) is not None}
    if not meant:
        return ""
    return f"{next(iter(meant))} in {_quoted(text)}; write {' or '.join(dict.fromkeys(meant.values()))}"


def _unit_fault(unit: str, kind: Kind) -> str:
    if not unit:
        return "the unit is missing"
    fault = f"unit {_quoted(unit)} is not {kind.phrase} unit"
    if any(unit in other.units for other in KINDS.values()):
        return fault
    same_letters = [name for name in kind.units if name.casefold() == unit.casefold()]
    close = same_letters or get_close_matches(unit, kind.units, n=1, cutoff=0.5)
    return f"{fault}; did you mean {close[0]}?" if close else fault


def _quoted(text: str) -> str:
    return repr(text if len(text) <= 40 else f"{text[:37]}...")


def _unit(kind: Kind, unit: str) -> Unit:
    if unit not in kind.units:
        raise QuantityError(_unit_fault(unit, kind), kind.expected)
    return kind.units[unit]


@dataclass(frozen=True, slots=True)
class Range:
    """The least and the most of a quantity, either of which may be missing."""

    low: float | Missing
    high: float | Missing

    def known(self) -> tuple[float, float]:
        """Return both ends as numbers; TypeError where one is missing."""
        if isinstance(self.low, Missing) or isinstance(self.high, Missing):
            raise TypeError(f"a range with both ends is needed, not {self}")
        return self.low, self.high


@dataclass(frozen=True, slots=True)
class Toleranced:
    """A value and how far the true one may lie to either side."""

    value: float
    plus_minus: float


@dataclass(frozen=True, slots=True)
class Place:
    """Fuselage station, butt line (left negative) and, off the skin, water line."""

    fs_m: float
    bl_m: float
    wl_m: float | None


@contextmanager
def _expecting(text: str, expected: str) -> Iterator[None]:
    """Bound the length of a text and let every fault inside it say what was expected as a whole."""
    try:
        if len(text) > LONGEST_TEXT:
            raise QuantityError(_TOO_LONG, expected)
        yield
    except QuantityError as error:
        raise QuantityError(error.message, expected) from None


def parse_or_missing(text: str, kind: Kind) -> float | Missing:
    """Return the SI value, or what '?' (not known yet) and 'none' (none stated) stand for."""
    if text in _MISSING:
        return _MISSING[text]
    with _expecting(text, f"{kind.expected}, ? or none"):
        return parse(text, kind)


def parse_range(text: str, kind: Kind, *, single: bool = False) -> Range:
    """Return the ends of 'low .. high unit'; with `single`, one value is a range of its own."""
    if text in _MISSING:
        return Range(_MISSING[text], _MISSING[text])
    with _expecting(text, f"a range of {kind.name} such as {kind.range_example}"):
        low_text, dots, high_text = text.partition(" .. ")
        if not dots and not single:
            parse(text, kind)
            raise QuantityError(f"{_quoted(text)} is one value, not a range", "")
        high = _parse_end(high_text if dots else text, kind)
        low = _parse_end(_with_unit(low_text, high_text, kind), kind)
        if isinstance(low, float) and isinstance(high, float) and low > high:
            raise QuantityError(f"the range {_quoted(text)} runs from high to low", "")
        return Range(low, high)


def _parse_end(text: str, kind: Kind) -> float | Missing:
    found = _MISSING_END.fullmatch(text)
    if found is None:
        return parse(text, kind)
    if found[2]:
        _unit(kind, found[2])
    return _MISSING[found[1]]


def _with_unit(text: str, lender: str, kind: Kind) -> str:
    """Return a bare number with the unit that ends the other text; feet-inches lend none."""
    is_bare = text[-1:].isdigit() and not _ending_unit(text, kind)
    lends = is_bare and "ft " not in lender
    return f"{text} {_ending_unit(lender, kind)}".rstrip() if lends else text


def _ending_unit(text: str, kind: Kind) -> str:
    return max((unit for unit in kind.units if text.endswith(unit)), key=len, default="")


def parse_toleranced(text: str, kind: Kind) -> Toleranced:
    """Return 'value +- tolerance', the tolerance in a unit of the kind or in % of the value."""
    example = re.split(",| or ", kind.example)[0]
    with _expecting(text, f"{kind.phrase} with its tolerance such as {example} +- 4 %"):
        value_text, sign, margin_text = text.partition(" +- ")
        if not sign:
            return Toleranced(parse(text, kind), 0.0)
        percent = margin_text.endswith("%")
        value = parse(value_text if percent else _with_unit(value_text, margin_text, kind), kind)
        margin = abs(value) * parse(margin_text, RATIO) if percent else parse(margin_text, kind)
        unit = kind.units.get(_ending_unit(margin_text, kind))
        if not 0.0 <= margin < math.inf or (unit and (unit.offset or unit.laws)):
            raise QuantityError(f"{_quoted(margin_text)} is no fixed distance either way", "")
        return Toleranced(value, margin)


def parse_place(text: str, *, default_unit: str = "") -> Place:
    """Return the place of 'FS side-BL [WL] unit'."""
    with _expecting(text, PLACE.expected):
        found = _PLACE.fullmatch(text)
        if found is None:
            mixed = _FEET_OR_FRACTION.search(text) is not None
            advice = "; feet-inches and fractions are not used inside one" if mixed else ""
            raise QuantityError(_not_a(PLACE, text) + advice, "")
        unit = _unit(LENGTH, found[4] or default_unit)
        wl_m = None if found[3] is None else unit.to_si(_number(found[3]))
        return Place(unit.to_si(_number(found[1])), unit.to_si(_butt_line(found[2])), wl_m)


def parse_butt_range(text: str) -> Range:
    """Return 'L20 .. R20 in' as distances from the centreline, left negative, the lower first."""
    if text in _MISSING:
        return Range(_MISSING[text], _MISSING[text])
    with _expecting(text, BUTT_RANGE.expected):
        found = _BUTT_RANGE.fullmatch(text)
        if found is None:
            raise QuantityError(_not_a(BUTT_RANGE, text), "")
        unit = found[4] or ""
        one = from_unit(_butt_line(found[1]), LENGTH, found[2] or unit)
        other = from_unit(_butt_line(found[3]), LENGTH, unit)
        return Range(min(one, other), max(one, other))


def _butt_line(text: str) -> float:
    number = _number(text.lstrip("LlRr"))
    return -number if text[0] in "Ll" else number


def parse_date(text: str) -> date:
    """Return the day of 'yyyy-mm-dd'."""
    found = _DATE.fullmatch(text)
    if found is None:
        raise QuantityError(_not_a(DATE, text), DATE.expected)
    try:
        return date(int(found[1]), int(found[2]), int(found[3]))
    except ValueError:
        raise QuantityError(f"the calendar has no day {text}", DATE.expected) from None


def in_unit(value: float, kind: Kind, unit: str) -> float:
    """Return an SI value as a number in the unit."""
    return _unit(kind, unit).from_si(value)


def from_unit(number: float, kind: Kind, unit: str) -> float:
    """Return a number in the unit as an SI value."""
    return _unit(kind, unit).to_si(number)


def show(value: float, kind: Kind, unit: str, digits: int | None = None) -> str:
    """Return an SI value as text, '2.86 dB', with the digits of the unit or as many as asked."""
    places = _unit(kind, unit).digits if digits is None else digits
    return f"{in_unit(value, kind, unit):z.{places}f} {unit}".rstrip()


def show_length(value_m: float, unit: str, digits: int = 1) -> str:
    """Return a length as text: '93.5 in'."""
    return show(value_m, LENGTH, unit, digits)


def show_place(place: Place, unit: str = "in") -> str:
    """Return a place as it is written in a file: '94 L2 in'."""
    butt_line = _trimmed(abs(place.bl_m), unit)
    side = "" if butt_line == "0" else "L" if place.bl_m < 0.0 else "R"
    water_line = [] if place.wl_m is None else [_trimmed(place.wl_m, unit)]
    return " ".join([_trimmed(place.fs_m, unit), side + butt_line, *water_line, unit])


def _trimmed(value_m: float, unit: str) -> str:
    return show(value_m, LENGTH, unit).split()[0].rstrip("0").rstrip(".")


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
MassOrMissing = Annotated[float | Missing, Quantity(MASS, "value_or_missing")]
MassPerLength = Annotated[float, Quantity(MASS_PER_LENGTH)]
MassPerLengthOrMissing = Annotated[float | Missing, Quantity(MASS_PER_LENGTH, "value_or_missing")]
CapacitancePerLength = Annotated[float, Quantity(CAPACITANCE_PER_LENGTH)]
Ratio = Annotated[float, Quantity(RATIO)]
Temperature = Annotated[float, Quantity(TEMPERATURE)]
TemperatureRange = Annotated[Range, Quantity(TEMPERATURE, "range")]
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
