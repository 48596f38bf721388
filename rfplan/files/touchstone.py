# SPDX-License-Identifier: Apache-2.0
"""Read a Touchstone version 1 file of one or two ports, or refuse it with every problem."""

from __future__ import annotations

import cmath
import math
from collections.abc import Callable
from dataclasses import dataclass, field, replace
from os.path import lexists
from pathlib import Path

from rfplan.files.faults import Faults, one_of, quoted
from rfplan.files.nodes import Mark
from rfplan.files.opening import read_bytes, refuse_binary
from rfplan.files.problems import Problem, ProblemsError, visible
from rfplan.files.touchstone_lines import Line, lines_of, number_fault, number_of
from rfplan.files.touchstone_options import OPTION_EXAMPLE, Options, read_options
from rfplan.model.sweep import Sweep

MAX_BYTES = 20_000_000

PORTS = {".s1p": 1, ".s2p": 2}
COLUMNS = {1: 3, 2: 9}
NOISE_COLUMNS = 5

LONGEST_LINE = 1000
"""Characters of a line without its comment; nine columns need a quarter of it."""

LARGEST_RATIO = 1.0e6
"""No amplifier gains more than this; a larger number was not measured."""

_COMPRESSED = (b"\x1f\x8b", b"PK\x03\x04", b"BZh", b"\xfd7zXZ")
_START = Mark(1, 1, 0, 0)
_A_SWEEP = "a sweep of one or two ports, .s1p or .s2p"


def read_sweep(
    path: Path, display_name: str | None = None, plan_folder: Path | None = None
) -> Sweep:
    """Read a sweep of at most 20 MB; its problems name it by `display_name`, else by its path.

    Where there is none, sweeps beside it and in the folder of the plan are offered.
    """
    file = str(path) if display_name is None else display_name
    if not lexists(path):
        raise ProblemsError([_absent(path, file, plan_folder)])
    content = read_bytes(path, file, MAX_BYTES)
    ports = _ports(path, file)
    if content.startswith(_COMPRESSED):
        raise ProblemsError([Problem(file, 1, 1, "the file is compressed", "it unpacked")])
    refuse_binary(content, file)
    text = content.decode("utf-8-sig", errors="replace")  # comments come in any encoding
    return parse_sweep(text, file, ports)


def _absent(path: Path, file: str, plan_folder: Path | None) -> Problem:
    """Say which folder was searched, and which sweeps there are nearby."""
    folder = path.parent
    names = _sweeps_in(folder)
    if plan_folder is not None and plan_folder.absolute() != folder.absolute():
        names += [str(plan_folder / name) for name in _sweeps_in(plan_folder)]
    there = "no such file in" if folder.is_dir() else "no folder"
    message = f"there is {there} {visible(str(folder.absolute()), LONGEST_LINE)}"
    expected = one_of(names, path.name, "a sweep") if names else f"{_A_SWEEP}; none is there"
    return Problem(file, 1, 1, message, expected)


def _sweeps_in(folder: Path) -> list[str]:
    try:
        return sorted(one.name for one in folder.iterdir() if one.suffix.lower() in PORTS)
    except (OSError, ValueError):  # ValueError: a NUL in the path
        return []


def _ports(path: Path, file: str) -> int:
    """Return what the ending of the name says; the columns are counted against it."""
    if (ports := PORTS.get(path.suffix.lower())) is not None:
        return ports
    ending = f"the name ends in {quoted(path.suffix)}" if path.suffix else "the name has no ending"
    raise ProblemsError([Problem(file, 1, 1, ending, _A_SWEEP)])


def parse_sweep(text: str, file: str, ports: int) -> Sweep:
    """Read the text of a sweep; raises ProblemsError with all that is wrong."""
    faults = Faults(file)
    option_lines, rows = _sorted_out(text, faults)
    options = _options(option_lines, rows, faults)
    if faults.problems:  # what the rows mean is not known; their words are read all the same
        options = replace(options, format="RI")
    points = _Points(faults, ports, options)
    points.take_all(rows)
    faults.raise_any()
    return Sweep(
        frequency_hz=tuple(points.frequency_hz),
        s=tuple(points.s),
        reference_ohm=options.reference_ohm,
        file=file,
        ports=ports,
        notes=points.notes(),
    )


def _sorted_out(text: str, faults: Faults) -> tuple[list[Line], list[Line]]:
    """Return option lines and rows; a keyword of version 2 ends the reading."""
    option_lines: list[Line] = []
    rows: list[Line] = []
    for line in lines_of(text):
        first = line.text.lstrip()[0]
        if len(line.text) > LONGEST_LINE:
            told = f"the line has {len(line.text)} characters"
            faults.add(
                Mark(line.number, 1, line.start, line.start), told, f"{LONGEST_LINE} at most"
            )
            faults.raise_any()
        if first == "[":
            told = f"the keyword {quoted(line.words()[0])} belongs to version 2 of the format"
            faults.add(line.mark(0), told, "a file exported as version 1")
            faults.raise_any()
        (option_lines if first == "#" else rows).append(line)
    return option_lines, rows


def _options(lines: list[Line], rows: list[Line], faults: Faults) -> Options:
    """Return what the one option line says, above all data."""
    if not rows:
        faults.add(_START, "the file holds no data", "frequencies with scattering parameters")
    if not lines:
        faults.add(rows[0].mark(0) if rows else _START, "no option line", OPTION_EXAMPLE)
        return Options()
    for line in lines[1:]:
        told = f"a second option line, after the one in line {lines[0].number}"
        faults.add(line.mark(0), told, "one option line")
    if rows and rows[0].number < lines[0].number:
        faults.add(rows[0].mark(0), "data above the option line", "the option line first")
    return read_options(lines[0], faults)


@dataclass(slots=True)
class _Points:
    """The rows of one file made into frequencies and matrices."""

    faults: Faults
    ports: int
    options: Options
    frequency_hz: list[float] = field(default_factory=list)
    s: list[tuple[complex, ...]] = field(default_factory=list)
    noise: list[Line] = field(default_factory=list)

    def notes(self) -> tuple[str, ...]:
        """Say what was left out."""
        if not self.noise:
            return ()
        first, last = self.noise[0].number, self.noise[-1].number
        return (f"noise data of the amplifier in lines {first} to {last} left out",)

    def take_all(self, rows: list[Line]) -> None:
        """Read every row; rows written for another number of ports are said once."""
        columns = len(rows[0].words()) if rows else 0
        if columns in COLUMNS.values() and columns != COLUMNS[self.ports]:
            other = next(ports for ports, count in COLUMNS.items() if count == columns)
            told = f"rows of {columns} columns are those of a .s{other}p file"
            self.faults.add(rows[0].mark(0), told, f"{COLUMNS[self.ports]} columns")
            return
        for row in rows:
            self._take(row)

    def _take(self, row: Line) -> None:
        words = row.words()
        if self._is_noise(words):
            self.noise.append(row)
        elif len(words) != COLUMNS[self.ports]:
            told = f"the row has {len(words)} column{'s' * (len(words) != 1)}"
            self.faults.add(row.mark(COLUMNS[self.ports]), told, str(COLUMNS[self.ports]))
        elif self.noise:
            self.faults.add(row.mark(0), "a row of the network after noise data")
        elif (values := self._numbers(row, words)) is not None:
            self._take_frequency(row, values[0])
            self._take_matrix(row, values[1:])

    def _is_noise(self, words: list[str]) -> bool:
        """Whether a row is one of noise: five columns, and the first of them starts anew."""
        if self.ports != 2 or len(words) != NOISE_COLUMNS or not self.frequency_hz:
            return False
        frequency = number_of(words[0])
        starts = frequency is not None and frequency * self.options.unit_hz <= self.frequency_hz[-1]
        return bool(self.noise) or starts

    def _numbers(self, row: Line, words: list[str]) -> list[float] | None:
        """Return the numbers of a row, or None and say which words are none."""
        values = [number_of(word) for word in words]
        known = [value for value in values if value is not None]
        if len(known) == len(values):
            return known
        for index, value in enumerate(values):
            if value is None:
                told = number_fault(words[index])
                self.faults.add(row.mark(index), told, "a number like -3.5e-2")
        return None

    def _take_frequency(self, row: Line, frequency: float) -> None:
        frequency_hz = frequency * self.options.unit_hz
        if frequency_hz < 0.0 or not math.isfinite(frequency_hz):
            told = f"{quoted(row.words()[0])} is not a frequency"
            self.faults.add(row.mark(0), told, "zero or above")
        elif self.frequency_hz and frequency_hz <= self.frequency_hz[-1]:
            told = f"the frequency {quoted(row.words()[0])} does not rise"
            self.faults.add(row.mark(0), told, "one above that of the row before")
        else:
            self.frequency_hz.append(frequency_hz)

    def _take_matrix(self, row: Line, values: list[float]) -> None:
        pairs = list(zip(values[::2], values[1::2], strict=True))
        for index, (first, second) in enumerate(pairs):
            if fault := _size_fault(self.options.format, first, second):
                words = row.words()[1 + 2 * index : 3 + 2 * index]
                self.faults.add(row.mark(1 + 2 * index), f"{quoted(' '.join(words))} {fault}")
                return
        ratio = _RATIOS[self.options.format]
        order = (0,) if self.ports == 1 else (0, 2, 1, 3)  # a file writes S21 before S12
        self.s.append(tuple(ratio(*pairs[index]) for index in order))


def _size_fault(format: str, first: float, second: float) -> str:
    """Return why two numbers cannot be a scattering parameter, or nothing."""
    size = _SIZES[format](first, second)
    if size < 0.0:
        return "has a negative magnitude"
    return "is too large for a scattering parameter" if size > LARGEST_RATIO else ""


_SIZES: dict[str, Callable[[float, float], float]] = {
    "RI": math.hypot,
    "MA": lambda magnitude, angle: magnitude,
    "DB": lambda level_db, angle: 10.0 ** (min(level_db, 1000.0) / 20.0),
}
_RATIOS: dict[str, Callable[[float, float], complex]] = {
    "RI": complex,
    "MA": lambda magnitude, angle: cmath.rect(magnitude, math.radians(angle)),
    "DB": lambda level_db, angle: cmath.rect(10.0 ** (level_db / 20.0), math.radians(angle)),
}
