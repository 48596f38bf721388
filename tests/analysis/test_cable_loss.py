# SPDX-License-Identifier: Apache-2.0
"""Loss of a metre of cable: tables, laws, tolerances and temperature, worked out by hand."""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from sample import MHZ, SOURCES, sample_cable

from rfplan.analysis.cable_loss import MetreLoss, law_of, loss_at_20, metre_losses, prepare
from rfplan.model.catalog import AttenuationPoint, AttenuationSet, Cable, Fit
from rfplan.model.plan import Policy
from rfplan.model.record import ById
from rfplan.model.source import Source
from rfplan.units import Range

FACTOR_COLD = math.sqrt(1 + 0.00393 * (-55 - 20))
FACTOR_HOT = math.sqrt(1 + 0.00393 * (70 - 20))


def table(rows: dict[float, float], **changes: object) -> AttenuationSet:
    """Return a set from MHz: dB/m."""
    points = tuple(AttenuationPoint(f * MHZ, loss) for f, loss in rows.items())
    return replace(AttenuationSet(points=points, source="sheet"), **changes)  # type: ignore[arg-type]


def cable(dielectric: object = None, **sets: AttenuationSet) -> Cable:
    """Return a cable with these attenuation sets, all of its loss in the conductors."""
    return sample_cable(attenuation=ById(sets), dielectric=dielectric)


def law_rows(k1: float, k2: float, *megahertz: float) -> dict[float, float]:
    """Return rows that obey the law exactly, in dB/m."""
    return {f: (k1 * math.sqrt(f) + k2 * f) / 100 for f in megahertz}


def metre(one: Cable, *megahertz: float, policy: Policy | None = None) -> MetreLoss:
    """Return the loss per metre at some frequencies."""
    return metre_losses(prepare(one), [np.array(megahertz) * MHZ], policy or Policy())[0]


def test_between_two_rows_the_loss_runs_log_log() -> None:
    # 0.1 at 100 and 0.4 at 1600 MHz: at 400, half way in log f, sqrt(0.1 x 0.4) = 0.2
    one = cable(nominal=table({100: 0.1, 1600: 0.4}))
    assert metre(one, 400).nominal[0] == pytest.approx(0.2)


def test_beyond_the_table_the_fitted_law_is_used_and_flagged() -> None:
    # 1.0 sqrt(f) + 0.02 f: at 1600 MHz (40 + 32) / 100 = 0.72
    one = cable(nominal=table(law_rows(1.0, 0.02, 100, 400, 1000)))
    beyond, within = metre(one, 1600), metre(one, 1000)
    assert beyond.nominal[0] == pytest.approx(0.72)
    assert beyond.extrapolated and not beyond.out_of_reach
    assert not within.extrapolated


def test_beyond_twice_the_end_of_the_table_nothing_is_known() -> None:
    one = cable(nominal=table(law_rows(1.0, 0.02, 100, 400, 1000)))
    for reached in (metre(one, 2000), metre(one, 50)):
        assert reached.extrapolated and not reached.out_of_reach
    for lost in (metre(one, 2001), metre(one, 49)):
        assert lost.out_of_reach and not lost.extrapolated
        assert math.isnan(lost.nominal[0])
        assert (lost.least_20[0], lost.least_cold[0]) == (0.0, 0.0)
        assert (lost.most_20[0], lost.most_hot[0]) == (math.inf, math.inf)


def test_a_band_partly_out_of_reach_is_out_of_reach() -> None:
    one = cable(nominal=table(law_rows(1.0, 0.02, 100, 400, 1000)))
    lost = metre(one, 900, 2500)
    assert lost.out_of_reach
    assert math.isfinite(lost.most_hot[0])


def test_a_law_that_misses_its_table_by_more_than_a_twentieth_is_not_used_beyond_it() -> None:
    rows = law_rows(1.0, 0.02, 100, 400, 1000)
    rows[400] *= 1.25
    one = cable(nominal=table(rows))
    assert metre(one, 400).nominal[0] == pytest.approx(rows[400])
    assert metre(one, 1100).out_of_reach


def test_two_constants_serve_without_a_table_and_reach_twice_beyond_their_range() -> None:
    fit = Fit(1.0, 0.02, Range(100 * MHZ, 1000 * MHZ))
    one = cable(nominal=AttenuationSet(fit=fit, source="sheet"))
    # at 400 MHz (20 + 8) / 100
    assert metre(one, 400).nominal[0] == pytest.approx(0.28)
    assert metre(one, 2000).extrapolated
    assert metre(one, 2001).out_of_reach


# ----- kinds of a number

ROWS = {100.0: 0.1, 1600.0: 0.4}  # 0.2 at 400 MHz
TALLER = {100.0: 0.15, 1600.0: 0.6}  # 0.3
LOWER = {100.0: 0.08, 1600.0: 0.32}  # 0.16
ROOM = Policy(temperature_c=Range(20.0, 20.0))


def ends(one: Cable) -> tuple[float, float, float]:
    """Return least, nominal and most at 400 MHz and 20 degC."""
    found = metre(one, 400, policy=ROOM)
    assert found.least_20[0] == found.least_cold[0]
    assert found.most_20[0] == found.most_hot[0]
    return found.least_20[0], found.nominal[0], found.most_20[0]


def test_a_tolerance_widens_a_nominal_to_both_sides() -> None:
    assert ends(cable(nominal=table(ROWS, tolerance_ratio=0.05))) == pytest.approx(
        (0.19, 0.2, 0.21)
    )


def test_a_maximum_takes_the_place_of_nominal_and_tolerance_above_and_only_above() -> None:
    one = cable(nominal=table(ROWS, tolerance_ratio=0.05), maximum=table(TALLER))
    assert ends(one) == pytest.approx((0.19, 0.2, 0.3))


def test_a_minimum_takes_the_place_of_nominal_and_tolerance_below_and_only_below() -> None:
    one = cable(nominal=table(ROWS, tolerance_ratio=0.05), minimum=table(LOWER))
    assert ends(one) == pytest.approx((0.16, 0.2, 0.21))


def test_a_maximum_alone_never_enters_the_least() -> None:
    one = cable(maximum=table(TALLER))
    assert ends(one) == pytest.approx((0.0, 0.3, 0.3))
    assert metre(one, 400).only_maximum
    both = cable(maximum=table(TALLER), minimum=table(LOWER))
    assert ends(both) == pytest.approx((0.16, 0.3, 0.3))
    assert not metre(both, 400).only_maximum


def test_a_minimum_alone_never_enters_the_most() -> None:
    one = cable(minimum=table(LOWER))
    assert ends(one) == (pytest.approx(0.16), pytest.approx(0.16), math.inf)
    assert metre(one, 400).only_minimum


def test_an_estimate_is_known_to_a_fifth() -> None:
    assert ends(cable(estimate=table(ROWS))) == pytest.approx((0.16, 0.2, 0.24))
    calculated = SOURCES.having("sum", Source("calculated"))
    one = replace(cable(nominal=table(ROWS, source="sum")), sources=calculated)
    assert ends(one) == pytest.approx((0.16, 0.2, 0.24))


def test_a_figure_from_memory_is_known_to_a_tenth_whatever_its_kind() -> None:
    memory = SOURCES.having("mind", Source("assumed", read="memory"))
    nominal = replace(cable(nominal=table(ROWS, source="mind")), sources=memory)
    assert ends(nominal) == pytest.approx((0.18, 0.2, 0.22))
    maximum = replace(cable(maximum=table(TALLER, source="mind")), sources=memory)
    assert ends(maximum) == pytest.approx((0.0, 0.3, 0.33))
    minimum = replace(
        cable(nominal=table(ROWS), minimum=table(LOWER, source="mind")), sources=memory
    )
    assert ends(minimum) == pytest.approx((0.144, 0.2, 0.2))


def test_a_stated_tolerance_holds_although_the_figure_is_from_memory() -> None:
    memory = SOURCES.having("mind", Source("assumed", read="memory"))
    stated = table(ROWS, source="mind", tolerance_ratio=0.02)
    assert ends(replace(cable(nominal=stated), sources=memory)) == pytest.approx(
        (0.196, 0.2, 0.204)
    )


def test_two_sources_that_disagree_widen_the_tolerance_to_both() -> None:
    one = cable(
        nominal=table(ROWS, tolerance_ratio=0.05),
        other=table(TALLER, tolerance_ratio=0.10, basis="nominal"),
    )
    # the first is 0.19 .. 0.21, the other 0.27 .. 0.33; the first gives the nominal
    assert ends(one) == pytest.approx((0.19, 0.2, 0.33))
    lower = cable(nominal=table(ROWS), other=table(LOWER, tolerance_ratio=0.10, basis="nominal"))
    assert ends(lower) == pytest.approx((0.144, 0.2, 0.2))  # 0.16 less a tenth


def test_a_set_marked_for_use_keeps_the_others_for_comparison_only() -> None:
    one = cable(nominal=table(ROWS, use=True), other=table(TALLER, basis="nominal"))
    assert ends(one) == pytest.approx((0.2, 0.2, 0.2))
    unused = cable(nominal=table(ROWS), other=table(TALLER, basis="nominal", use=False))
    assert ends(unused) == pytest.approx((0.2, 0.2, 0.2))


def test_a_set_is_of_the_basis_it_states_and_not_of_its_name() -> None:
    one = cable(sheet=table(ROWS, basis="nominal"), ceiling=table(TALLER, basis="maximum"))
    assert ends(one) == pytest.approx((0.2, 0.2, 0.3))


def test_a_maximum_whose_table_ends_too_early_leaves_nominal_and_tolerance() -> None:
    early = table({10: 0.04, 100: 0.15})
    one = cable(nominal=table(ROWS, tolerance_ratio=0.05), maximum=early)
    assert ends(one) == pytest.approx((0.19, 0.2, 0.21))
    assert not metre(one, 400).out_of_reach


def test_of_a_cable_without_any_set_in_use_nothing_is_known() -> None:
    found = metre(cable(nominal=table(ROWS, use=False)), 400)
    assert found.out_of_reach and not found.extrapolated
    assert (found.least_cold[0], found.most_hot[0]) == (0.0, math.inf)


# ----- temperature


def test_without_a_dielectric_all_of_the_loss_goes_with_the_conductor() -> None:
    found = metre(cable(nominal=table(ROWS, tolerance_ratio=0.05)), 400)
    assert found.least_cold[0] == pytest.approx(0.19 * FACTOR_COLD)
    assert found.most_hot[0] == pytest.approx(0.21 * FACTOR_HOT)


def test_the_dielectric_part_is_left_alone() -> None:
    # 9.10 sqrt(er) tan d f dB/100 m = 9.10 / 0.695 x 3e-4 x 400 = 1.571 dB/100 m = 0.0157 dB/m
    rows = law_rows(1.0, 0.02, 100, 400, 1600)  # 0.28 at 400, of which k2 f is 0.08
    one = replace(sample_cable(), attenuation=ById({"nominal": table(rows)}))
    found = metre(one, 400)
    dielectric = 9.10 / 0.695 * 3e-4 * 400 / 100
    assert found.unscaled[0] == pytest.approx(dielectric, rel=1e-3)
    assert found.most_hot[0] == pytest.approx(
        (0.28 - dielectric) * FACTOR_HOT + dielectric, rel=1e-4
    )
    assert found.least_cold[0] == pytest.approx(
        (0.28 - dielectric) * FACTOR_COLD + dielectric, rel=1e-4
    )


def test_the_dielectric_part_is_never_more_than_the_part_that_rises_with_frequency() -> None:
    rows = law_rows(1.0, 0.001, 100, 400, 1600)  # k2 f = 0.004 at 400 MHz, less than 0.0157
    one = replace(sample_cable(), attenuation=ById({"nominal": table(rows)}))
    assert metre(one, 400).unscaled[0] == pytest.approx(0.004)


def test_the_other_model_scales_the_root_term_only() -> None:
    rows = law_rows(1.0, 0.02, 100, 400, 1600)
    found = metre(cable(nominal=table(rows)), 400, policy=Policy(model="k1_only"))
    # 0.20 goes with temperature, 0.08 does not
    assert found.most_hot[0] == pytest.approx(0.20 * FACTOR_HOT + 0.08)
    assert found.least_cold[0] == pytest.approx(0.20 * FACTOR_COLD + 0.08)


def test_a_law_is_made_of_one_set() -> None:
    law = law_of("nominal", table(ROWS, tolerance_ratio=0.03), sample_cable())
    assert (law.low_hz, law.high_hz, law.tolerance_ratio) == (100 * MHZ, 1600 * MHZ, 0.03)
    assert loss_at_20(law, np.array([400 * MHZ]))[0] == pytest.approx(0.2)


# ----- properties

LOSSES = st.floats(0.01, 2.0)
SHARES = st.floats(0.0, 0.3)


@settings(max_examples=60, deadline=None)
@given(LOSSES, st.floats(1.2, 5.0), SHARES, st.floats(0.5, 1.0), st.floats(1.0, 2.0))
def test_least_is_at_most_nominal_and_nominal_at_most_most(
    loss: float, rise: float, tolerance: float, low: float, high: float
) -> None:
    rows = {100.0: loss, 1600.0: loss * rise}
    one = replace(
        sample_cable(),
        attenuation=ById(
            {
                "nominal": table(rows, tolerance_ratio=tolerance),
                "minimum": table({f: x * low for f, x in rows.items()}),
                "maximum": table({f: x * high for f, x in rows.items()}),
            }
        ),
    )
    found = metre(one, 100, 400, 1600)
    assert (found.least_cold <= found.least_20 + 1e-12).all()
    assert (found.least_20 <= found.nominal + 1e-12).all()
    assert (found.nominal <= found.most_20 + 1e-12).all()
    assert (found.most_20 <= found.most_hot + 1e-12).all()


@settings(max_examples=60, deadline=None)
@given(LOSSES, st.floats(1.2, 5.0), SHARES, st.floats(1.0, 3.0), st.booleans(), SHARES)
def test_a_larger_maximum_in_place_of_a_nominal_never_raises_the_least(
    loss: float, rise: float, tolerance: float, factor: float, has_minimum: bool, below: float
) -> None:
    rows = {100.0: loss, 400.0: loss * rise**0.5, 1600.0: loss * rise}
    minimum = {"minimum": table({f: x * (1 - below) for f, x in rows.items()})}
    others = minimum if has_minimum else {}
    larger = table({f: x * factor * (1 + (f > 1000)) for f, x in rows.items()})
    nominal = table(rows, tolerance_ratio=tolerance)
    before = replace(sample_cable(), attenuation=ById({"nominal": nominal, **others}))
    after = replace(sample_cable(), attenuation=ById({"maximum": larger, **others}))
    old, new = metre(before, 100, 400, 1600), metre(after, 100, 400, 1600)
    assert (new.least_20 <= old.least_20 + 1e-12).all()
    assert (new.least_cold <= old.least_cold + 1e-12).all()
