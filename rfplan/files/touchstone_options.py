# SPDX-License-Identifier: Apache-2.0
"""The option line of a Touchstone file: unit of frequency, parameter, format, reference."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace

from rfplan.files.faults import Faults, quoted
from rfplan.files.touchstone_lines import Line, number_of

OPTION_EXAMPLE = "an option line such as '# MHz S RI R 50'"

USUAL_OHM = 50.0

UNITS_HZ = {"HZ": 1.0, "KHZ": 1.0e3, "MHZ": 1.0e6, "GHZ": 1.0e9}
FORMATS = {
    "MA": "magnitude and angle",
    "DB": "decibels and angle",
    "RI": "real and imaginary part",
}
OTHER_PARAMETERS = {
    "Y": "admittances (Y)",
    "Z": "impedances (Z)",
    "H": "hybrid parameters (H)",
    "G": "inverse hybrid parameters (G)",
}

_KINDS = {
    **dict.fromkeys(UNITS_HZ, "unit"),
    **dict.fromkeys(FORMATS, "format"),
    **dict.fromkeys(["S", *OTHER_PARAMETERS], "parameter"),
    "R": "reference",
}
_CHOICES = "Hz, kHz, MHz or GHz, then S, then MA, DB or RI, then R and ohms"


@dataclass(frozen=True, slots=True)
class Options:
    """How rows are written; what an option line leaves out is what the format says."""

    unit_hz: float = UNITS_HZ["GHZ"]
    format: str = "MA"
    reference_ohm: float = USUAL_OHM


def read_options(line: Line, faults: Faults) -> Options:
    """Return what an option line says; each word may stand once, in any order."""
    options = Options()
    seen: set[str] = set()
    bare = replace(line, text=line.text.replace("#", " ", 1))
    for index, word, argument in _settings(bare.words()):
        key = word.upper()
        kind = _KINDS.get(key)
        if kind is None:
            faults.add(bare.mark(index), f"{quoted(word)} is not known in an option line", _CHOICES)
        elif kind in seen:
            faults.add(bare.mark(index), f"a second {kind}, {quoted(word)}", f"one {kind}")
        elif key in OTHER_PARAMETERS:
            told = f"the file holds {OTHER_PARAMETERS[key]}"
            faults.add(bare.mark(index), told, "scattering parameters (S)")
        elif kind == "reference":
            options = replace(options, reference_ohm=_reference_ohm(bare, index, argument, faults))
        elif kind == "unit":
            options = replace(options, unit_hz=UNITS_HZ[key])
        elif kind == "format":
            options = replace(options, format=key)
        seen.add(kind or word)
    return options


def _settings(words: list[str]) -> Iterator[tuple[int, str, str | None]]:
    """Yield each word with its index, and R together with the word behind it."""
    index = 0
    while index < len(words):
        takes = words[index].upper() == "R"
        argument = words[index + 1] if takes and index + 1 < len(words) else None
        yield index, words[index], argument
        index += 1 if argument is None else 2


def _reference_ohm(line: Line, index: int, word: str | None, faults: Faults) -> float:
    """Return the reference resistance; rows are renormalised where it is not 50 ohm."""
    value = None if word is None else number_of(word)
    if value is not None and value > 0.0:
        return value
    fault = "R without a number" if word is None else f"{quoted(word)} is not a resistance"
    faults.add(line.mark(index if word is None else index + 1), fault, "ohms above zero")
    return USUAL_OHM
