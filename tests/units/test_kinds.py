# SPDX-License-Identifier: Apache-2.0
"""The table of units against pint, and what it may hold."""

from __future__ import annotations

import math
import re
from typing import Any

import numpy as np
import pint
import pytest

from rfplan import units
from rfplan.units import (
    KINDS,
    LEVEL,
    POWER,
    TEMPERATURE,
    Kind,
    Range,
    from_unit,
    parse,
    parse_range,
)

NOT_IN_PINT = {"dBm", "dBW", "dB", "dBi", "dBic", "dBd", "dBHz", "dB-Hz", "dBm/Hz", "dBW/Hz", "od"}


# fmt: off
PINT_NAMES = {
    "": "dimensionless", "%": "percent", "kt": "knot", "lb": "pound", "oz": "ounce",
    "yr": "year", "min": "minute", "h": "hour", "dB": "count",
}


# fmt: on
STRAIGHT = [
    (kind, name)
    for kind in KINDS.values()
    for name, unit in kind.units.items()
    if unit.laws is None and name not in NOT_IN_PINT
]


def pint_unit(name: str) -> Any:
    """Return one of our linear units, such as 'lb/100 ft', built from the units of pint."""
    spelled = name.translate({0x3A9: "ohm", 0x2126: "ohm", 0xB0: "deg"})
    top, _, bottom = spelled.partition("/")
    hundreds, per = re.fullmatch(r"(\d*) ?(.*)", bottom).groups()  # type: ignore[union-attr]
    one = pint.Quantity(1.0, PINT_NAMES.get(top, re.sub(r"2$", "**2", top)))
    if not per:
        return one
    return one / pint.Quantity(float(hundreds or 1), PINT_NAMES.get(per, per))


@pytest.mark.parametrize(("kind", "name"), STRAIGHT, ids=lambda part: getattr(part, "name", part))
def test_the_table_agrees_with_pint(kind: Kind, name: str) -> None:
    si_unit = pint_unit(kind.si).units
    if kind is TEMPERATURE:
        expected = pint.Quantity(-40.5, pint_unit(name).units).to(si_unit).magnitude
        assert from_unit(-40.5, kind, name) == pytest.approx(expected, rel=1e-12)
    else:
        expected = pint_unit(name).to(si_unit).magnitude
        assert from_unit(1.0, kind, name) == pytest.approx(expected, rel=1e-12)


def test_every_unit_that_pint_does_not_check_is_named_here() -> None:
    every = {name for kind in KINDS.values() for name in kind.units}
    logarithmic = {(kind.name, name) for kind in (POWER, LEVEL) for name in kind.units}
    assert every - {name for _, name in STRAIGHT} == NOT_IN_PINT
    assert {
        (kind.name, name)
        for kind in KINDS.values()
        for name, unit in kind.units.items()
        if unit.laws is not None
    } < logarithmic


def test_a_half_wave_dipole_has_the_gain_that_dbd_refers_to() -> None:
    theta = (np.arange(200_000) + 0.5) * math.pi / 200_000
    pattern = (np.cos(math.pi / 2 * np.cos(theta)) / np.sin(theta)) ** 2
    mean = np.sum(pattern * np.sin(theta)) * (math.pi / 200_000) / 2
    assert round(float(10 * np.log10(1.0 / mean)), 2) == units.DIPOLE_GAIN_DBI


def test_no_unit_name_can_be_read_as_part_of_a_number() -> None:
    for kind in KINDS.values():
        for name in kind.units:
            assert name == "" or name[0] not in "+-.0123456789 "
            assert name == name.strip()


def test_the_examples_in_messages_can_be_read() -> None:
    for kind in KINDS.values():
        for example in re.split(", | or ", kind.example):
            assert math.isfinite(parse(example, kind))
        assert isinstance(parse_range(kind.range_example, kind), Range)
