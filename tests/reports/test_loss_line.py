# SPDX-License-Identifier: Apache-2.0
"""The loss of a path reads as one line: limit, least, most, limit."""

from __future__ import annotations

from dataclasses import replace

import pytest
from sample import sample_assessment

from rfplan.model.assessment import BandLoss
from rfplan.reports.loss_line import nearer_margin, window_text


def band(judged, limits, stated=("value", "value")) -> BandLoss:
    """Return a band with some loss in some window."""
    one = sample_assessment().paths[1].bands[0]
    (least, most), (low, high) = judged, limits
    return replace(
        one,
        judged_db=judged,
        window=replace(
            one.window, min_db=low, max_db=high, min_stated=stated[0], max_stated=stated[1]
        ),
        margin_to_min_db=None if None in (low, least) else least - low,
        margin_to_max_db=None if None in (high, most) else high - most,
    )


@pytest.mark.parametrize(
    ("judged", "limits", "stated", "text", "margin"),
    [
        (
            (2.86, 3.01),
            (1.5, 6.5),
            ("value", "value"),
            "1.50 < 2.86 .. 3.01 < 6.50 dB",
            "+1.36 to min",
        ),
        (
            (5.0, 5.86),
            (1.5, 6.5),
            ("value", "value"),
            "1.50 < 5.00 .. 5.86 < 6.50 dB",
            "+0.64 to max",
        ),
        (
            (1.2, 3.0),
            (1.5, 6.5),
            ("value", "value"),
            "1.50 > 1.20 .. 3.00 < 6.50 dB",
            "-0.30 to min",
        ),
        ((1.2, 3.0), (None, 2.5), ("none", "value"), "1.20 .. 3.00 > 2.50 dB", "-0.50 to max"),
        ((1.2, 3.0), (None, None), ("none", "none"), "1.20 .. 3.00 dB", "no limit"),
        ((1.2, None), (1.0, None), ("value", "unknown"), "1.00 < 1.20 .. ? < ? dB", "+0.20 to min"),
    ],
)
def test_the_line_and_its_nearer_margin(judged, limits, stated, text, margin) -> None:
    one = band(judged, limits, stated)
    assert window_text(one) == text
    assert nearer_margin(one).text == margin


def test_a_failed_tie_shows_one_digit_more_everywhere_on_the_line() -> None:
    one = band((2.0, 6.504), (1.5, 6.5))
    assert window_text(one) == "1.500 < 2.000 .. 6.504 > 6.500 dB"
    assert nearer_margin(one).text == "-0.004 to max"


def test_a_tie_that_passes_is_left_as_it_prints() -> None:
    one = band((2.0, 6.496), (1.5, 6.5))
    assert window_text(one) == "1.50 < 2.00 .. 6.50 < 6.50 dB"
    assert nearer_margin(one).text == "+0.00 to max"
