# SPDX-License-Identifier: Apache-2.0
"""Text to quantities: a closed grammar; nothing is evaluated and nothing is guessed."""

from __future__ import annotations

import math
import re
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from datetime import date
from difflib import get_close_matches

from rfplan.units.kinds import (
    BUTT_RANGE,
    DATE,
    KINDS,
    LENGTH,
    PLACE,
    RATIO,
    Kind,
    Missing,
    QuantityError,
    Unit,
)

LONGEST_TEXT = 64
_TOO_LONG = f"the text is longer than {LONGEST_TEXT} characters"

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
    written = " or ".join(dict.fromkeys(meant.values()))
    return f"{next(iter(meant))} in {_quoted(text)}; write {written}"


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
