# SPDX-License-Identifier: Apache-2.0
"""Eight hex digits of values: the same for the same values, others for others."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest
from sample import sample_cable, sample_unit

from rfplan.analysis.binding import binding
from rfplan.model.plan import Port
from rfplan.model.record import ById
from rfplan.units import NONE, UNKNOWN, Range

PORT = Port("gnss_l1", loss_db=ById({"all": Range(1.5, 6.5)}), source="sheet")


def test_it_is_eight_hex_digits() -> None:
    assert len(binding("a")) == 8
    assert int(binding("a"), 16) >= 0


@pytest.mark.parametrize(
    "change",
    [
        {"loss_db": ById({"all": Range(1.5, 6.4)})},
        {"loss_db": ById({"all": Range(NONE, 6.5)})},
        {"loss_db": ById({"all": Range(UNKNOWN, 6.5)})},
        {"loss_db": ById({"l1": Range(1.5, 6.5)})},
        {"radio": "sbas"},
        {"unused": True},
    ],
)
def test_another_value_has_another_one(change: dict[str, Any]) -> None:
    assert binding(replace(PORT, **change)) != binding(PORT)


def test_where_a_value_is_from_and_how_it_was_rounded_do_not_count() -> None:
    again = ById({"all": Range(1.5 + 1e-12, 6.5)})
    assert binding(replace(PORT, loss_db=again, source="other")) == binding(PORT)


def test_the_order_of_a_file_does_not_count() -> None:
    one, other = sample_unit(a=PORT, b=PORT), sample_unit(b=PORT, a=PORT)
    assert binding(one) == binding(other)


def test_tables_and_words_count() -> None:
    cable = sample_cable()
    nominal = cable.attenuation["nominal"]
    less = replace(cable, attenuation=ById({"nominal": replace(nominal, tolerance_ratio=0.04)}))
    assert binding(cable.attenuation) != binding(less.attenuation)
    assert binding("a", "b") != binding("b", "a")
