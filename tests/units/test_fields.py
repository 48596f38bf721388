# SPDX-License-Identifier: Apache-2.0
"""Quantities as fields of frozen records."""

from __future__ import annotations

import math
import pickle
import re
import subprocess
import sys
from dataclasses import dataclass
from datetime import date
from typing import get_args

import pytest
from pydantic import TypeAdapter, ValidationError
from unit_faults import fault

from rfplan import units
from rfplan.units import (
    KINDS,
    LENGTH,
    NONE,
    RATIO,
    UNKNOWN,
    Place,
    Quantity,
    QuantityError,
    Range,
    Toleranced,
    parse,
    parse_butt_range,
    parse_place,
)


@dataclass(frozen=True, slots=True)
class Run:
    """An invented record with one field of every form."""

    length: units.Length
    drop: units.LengthOrMissing
    window: units.LossRange
    power: units.PowerRange
    impedance: units.ResistanceToleranced
    velocity: units.Ratio
    at: units.PlaceText
    across: units.ButtRange
    made: units.Date
    spare: units.Length | None = None


WRITTEN = {
    "length": "10 ft 6 in",
    "drop": "?",
    "window": "none .. 2.5 dB",
    "power": "16 W",
    "impedance": "50 +- 2 ohm",
    "velocity": 0.66,
    "at": "94 L2 in",
    "across": "L24 .. L80 in",
    "made": "2026-11-25",
}


def problems(**changes: object) -> dict[object, QuantityError]:
    """Return the original error of every field that is refused."""
    with pytest.raises(ValidationError) as caught:
        TypeAdapter(Run).validate_python({**WRITTEN, **changes})
    found: dict[object, QuantityError] = {
        problem["loc"][0]: problem["ctx"]["error"] for problem in caught.value.errors()
    }
    assert all(type(error) is QuantityError for error in found.values())
    return found


def test_a_frozen_record_is_read_from_text() -> None:
    run = TypeAdapter(Run).validate_python({**WRITTEN, "spare": "1 m"})
    assert run == Run(
        length=parse("10 ft 6 in", LENGTH),
        drop=UNKNOWN,
        window=Range(NONE, 2.5),
        power=Range(16.0, 16.0),
        impedance=Toleranced(50.0, 2.0),
        velocity=0.66,
        at=parse_place("94 L2 in"),
        across=parse_butt_range("L24 .. L80 in"),
        made=date(2026, 11, 25),
        spare=1.0,
    )
    assert pickle.loads(pickle.dumps(run)) == run


def test_every_problem_of_a_record_is_reported_at_once() -> None:
    found = problems(length=1.4, window="2.5 dB", at="94 in")
    assert found["length"].message == "the number 1.4 has no unit"
    assert found["length"].expected == LENGTH.expected
    assert found["window"].message == "'2.5 dB' is one value, not a range"
    assert found["at"].expected == "a place such as 94 L2 in or 60 L10 50 in"


@pytest.mark.parametrize(
    ("value", "message"),
    [
        (3, "the number 3 has no unit"),
        (-1.5, "the number -1.5 has no unit"),
        (math.nan, "'nan' is not a length"),
        pytest.param(10**5000, "'a int' is not a length", id="more digits than Python prints"),
        (True, "'true' is not a length"),
        (None, "nothing is written"),
        ([3, "m"], "'a list' is not a length"),
        ({"m": 3}, "'a mapping' is not a length"),
        (b"3 m", "'a bytes' is not a length"),
        (UNKNOWN, "'a Missing' is not a length"),
    ],
)
def test_what_is_not_text_is_refused_in_the_same_words(value: object, message: str) -> None:
    assert problems(length=value)["length"].message == message


def test_a_value_that_is_read_already_is_not_read_again() -> None:
    read = {"window": Range(1.0, 2.0), "at": Place(1.0, 0.0, None), "made": date(2026, 11, 25)}
    assert problems(**read, drop=NONE, impedance=Toleranced(50.0, 2.0)).keys() == {
        *read,
        "drop",
        "impedance",
    }


def test_a_ratio_alone_may_be_a_bare_number() -> None:
    assert Quantity(RATIO).read(1e-07) == 1e-07
    for kind in KINDS.values():
        if kind is not RATIO:
            assert fault(Quantity(kind).read, 0.66) == "the number 0.66 has no unit"


def test_every_alias_reads_the_type_that_it_promises() -> None:
    written = {"value": "{0}", "value_or_missing": "{0}", "toleranced": "{0} +- 5 %"}
    whole = {"place": "94 L2 in", "butt_range": "L2 .. R2 in", "date": "2026-11-25"}
    aliases = {name: alias for name, alias in vars(units).items() if hasattr(alias, "__metadata__")}
    assert len(aliases) >= 38
    for alias in aliases.values():
        promised, marker = get_args(alias)
        first = re.split(", | or ", marker.kind.example)[0]
        text = whole.get(marker.form) or written.get(marker.form, marker.kind.range_example)
        assert isinstance(marker.read(text.format(first)), promised)


def test_only_an_alias_for_missing_values_accepts_a_question_mark_alone() -> None:
    for name, alias in vars(units).items():
        if hasattr(alias, "__metadata__") and not name.endswith(("OrMissing", "Range")):
            assert fault(alias.__metadata__[0].read, "?")


def test_reading_units_needs_nothing_outside_the_standard_library() -> None:
    code = "import sys, rfplan.units; print(sorted({'pint', 'pydantic', 'numpy'} & {*sys.modules}))"
    ran = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert ran.stdout == "[]\n"
