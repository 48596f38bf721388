# SPDX-License-Identifier: Apache-2.0
"""What the shipped cables promise: figures that do not drift and a standing that never rises."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import numpy as np
import pytest
import yaml

from rfplan.analysis.cable_loss import loss_at_20, prepare
from rfplan.files.catalog_files import load_catalog
from rfplan.model.catalog import AttenuationSet, Cable
from rfplan.model.source import Source
from rfplan.physics.cable_attenuation import (
    attenuation_law_db_per_m,
    dielectric_attenuation_db_per_m,
    fit_attenuation_law,
    interpolated_attenuation_db_per_m,
)
from rfplan.physics.constants import DB_PER_NEPER, SPEED_OF_LIGHT_M_PER_S
from rfplan.physics.dc_feed import most_loop_resistance_ohm_per_m
from rfplan.units import Missing

KEPT: dict[str, dict[str, dict[str, Any]]] = yaml.safe_load(
    (Path(__file__).parent / "authorities" / "cable_attenuation.yaml").read_text(encoding="utf-8")
)
CABLES = load_catalog().cables

LARGEST_RESIDUAL_RATIO = 0.05
COPPER_S_PER_M = 5.8e7
LEAST_TOLERANCE_RATIO = {"nominal": 0.10, "estimate": 0.20}

STANDARD_IDS = sorted(KEPT)
INVENTED_IDS = ["low_loss_11mm", "low_loss_5mm", "low_loss_8mm"]
LINES_OF_50_OHM = [id for id, cable in CABLES.items() if cable.impedance_ohm.value == 50.0]
KEPT_SETS = [(id, name) for id, sets in KEPT.items() for name in sets]

STATUS = {  # how a figure came to be known: the classes it may carry, and how it was read
    "opened": (("specification", "measured"), "opened"),
    "second hand": (("specification",), "second hand"),
    "memory": (("assumed",), "memory"),
    "calculated": (("calculated",), "memory"),
}


def source_of(cable: Cable, attenuation: AttenuationSet) -> Source:
    assert attenuation.source is not None
    return cable.sources[attenuation.source]


def used(cable: Cable) -> AttenuationSet:
    """Return the nominal or estimated set that budgets take."""
    return next(
        table
        for name, table in cable.attenuation.items()
        if table.use and (table.basis or name) in ("nominal", "estimate")
    )


def table_of(attenuation: AttenuationSet) -> tuple[Any, Any]:
    """Return frequencies and attenuation of a table as arrays."""
    rows = [(row.frequency_hz, row.attenuation_db_per_m) for row in attenuation.points]
    return np.array([row[0] for row in rows]), np.array([row[1] for row in rows])


def span_hz(attenuation: AttenuationSet) -> tuple[float, float]:
    if attenuation.fit is not None:
        low, high = attenuation.fit.range_hz.low, attenuation.fit.range_hz.high
        assert not isinstance(low, Missing) and not isinstance(high, Missing)
        return low, high
    return attenuation.points[0].frequency_hz, attenuation.points[-1].frequency_hz


def attenuation_db_per_m(attenuation: AttenuationSet, frequency_hz: float) -> float:
    if attenuation.fit is not None:
        law = attenuation_law_db_per_m(frequency_hz, attenuation.fit.k1, attenuation.fit.k2)
        return float(law)
    return float(interpolated_attenuation_db_per_m(frequency_hz, *table_of(attenuation)))


def smooth_copper_db_per_m(cable: Cable, frequency_hz: float) -> float:
    """Return the attenuation of a coaxial line of smooth copper of the same dimensions."""
    assert cable.centre and cable.dielectric and cable.centre.diameter_m
    assert cable.dielectric.diameter_m and cable.dielectric.loss_tangent
    surface_ohm = np.sqrt(np.pi * frequency_hz * 4e-7 * np.pi / COPPER_S_PER_M)
    per_width_m = 1 / cable.centre.diameter_m + 1 / cable.dielectric.diameter_m
    conductor = DB_PER_NEPER * surface_ohm * per_width_m / np.pi / (2 * cable.impedance_ohm.value)
    return float(conductor) + float(
        dielectric_attenuation_db_per_m(
            frequency_hz, cable.velocity_ratio, cable.dielectric.loss_tangent
        )
    )


def test_the_catalogue_holds_the_standard_cables_and_the_invented_ones() -> None:
    assert sorted(CABLES) == sorted([*STANDARD_IDS, *INVENTED_IDS])
    assert [id for id, cable in CABLES.items() if cable.invented] == INVENTED_IDS


@pytest.mark.parametrize("id", STANDARD_IDS)
def test_a_standard_cable_has_the_kept_sets_and_no_other(id: str) -> None:
    assert list(CABLES[id].attenuation) == list(KEPT[id])


@pytest.mark.parametrize(("id", "name"), KEPT_SETS)
def test_an_attenuation_is_the_figure_that_was_kept(id: str, name: str) -> None:
    attenuation, kept = CABLES[id].attenuation[name], KEPT[id][name]
    if attenuation.fit is not None:
        assert {"k1": attenuation.fit.k1, "k2": attenuation.fit.k2} == kept["law"]
        return
    shown = {row.frequency_hz / 1e6: row.attenuation_db_per_m * 100.0 for row in attenuation.points}
    assert shown == pytest.approx(kept["points"], rel=1e-12)


@pytest.mark.parametrize(("id", "name"), KEPT_SETS)
def test_an_attenuation_has_the_standing_that_was_kept(id: str, name: str) -> None:
    cable = CABLES[id]
    source = source_of(cable, cable.attenuation[name])
    classes, read = STATUS[KEPT[id][name]["how"]]
    assert source.class_ in classes and source.read == read


@pytest.mark.parametrize("id", CABLES)
def test_attenuation_rises_with_frequency(id: str) -> None:
    for attenuation in CABLES[id].attenuation.values():
        frequency_hz, values = table_of(attenuation)
        assert np.all(np.diff(frequency_hz) > 0.0) and np.all(np.diff(values) > 0.0)


@pytest.mark.parametrize("id", LINES_OF_50_OHM)
@pytest.mark.parametrize("frequency_hz", [1090e6, 1575.42e6, 1587.42e6])
def test_a_50_ohm_cable_reaches_the_l_band(id: str, frequency_hz: float) -> None:
    for attenuation in CABLES[id].attenuation.values():
        if attenuation.use:
            assert frequency_hz <= 2.0 * span_hz(attenuation)[1]
            if attenuation.points:
                law = fit_attenuation_law(*table_of(attenuation))
                assert law.worst_residual_ratio <= LARGEST_RESIDUAL_RATIO


@pytest.mark.parametrize("id", CABLES)
def test_the_tolerance_reaches_every_nominal_figure_kept_for_comparison(id: str) -> None:
    cable = CABLES[id]
    taken = used(cable)
    assert taken.tolerance_ratio is not None
    low_hz, high_hz = span_hz(taken)
    for attenuation in cable.attenuation.values():
        if attenuation.basis != "nominal":
            continue
        for row in attenuation.points:
            if low_hz <= row.frequency_hz <= high_hz:
                expected = attenuation_db_per_m(taken, row.frequency_hz)
                difference_ratio = row.attenuation_db_per_m / expected - 1.0
                assert abs(difference_ratio) <= taken.tolerance_ratio


@pytest.mark.parametrize("id", STANDARD_IDS)
def test_a_nominal_gets_ten_percent_at_least_and_an_estimate_twenty(id: str) -> None:
    name, taken = next((n, table) for n, table in CABLES[id].attenuation.items() if table.use)
    assert taken.tolerance_ratio is not None
    assert taken.tolerance_ratio >= LEAST_TOLERANCE_RATIO[name]


def test_no_quoted_maximum_of_a_standard_cable_enters_a_budget() -> None:
    for id in STANDARD_IDS:
        sets = CABLES[id].attenuation.values()
        assert not any(attenuation.use for attenuation in sets if attenuation.basis == "maximum")


def test_rg_400_stays_unverified() -> None:
    cable = CABLES["rg_400_u"]
    assert source_of(cable, used(cable)).unverified


@pytest.mark.parametrize("id", CABLES)
def test_capacitance_velocity_and_impedance_belong_together(id: str) -> None:
    cable = CABLES[id]
    velocity_m_per_s = cable.velocity_ratio * SPEED_OF_LIGHT_M_PER_S
    expected = 1.0 / (velocity_m_per_s * cable.impedance_ohm.value)
    assert cable.capacitance_f_per_m == pytest.approx(expected, rel=0.01)


@pytest.mark.parametrize("id", CABLES)
def test_a_centre_of_clad_steel_is_marked_ferrous(id: str) -> None:
    centre = CABLES[id].centre
    assert centre is not None and centre.of is not None
    assert centre.ferrous is ("steel" in centre.of)
    assert centre.make in ("solid", "stranded")


def test_the_solid_centres_are_those_that_were_read_or_remembered_so() -> None:
    solid = [id for id, cable in CABLES.items() if cable.centre and cable.centre.make == "solid"]
    assert solid == ["rg_142b_u", "rg_223_u", "rg_303_u", "rg_304_u"]


@pytest.mark.parametrize("id", INVENTED_IDS)
def test_an_invented_cable_is_lossier_than_smooth_copper_but_of_its_class(id: str) -> None:
    cable = CABLES[id]
    for row in used(cable).points:
        floor = smooth_copper_db_per_m(cable, row.frequency_hz)
        assert floor < row.attenuation_db_per_m < 1.4 * floor


@pytest.mark.parametrize("id", INVENTED_IDS)
def test_an_invented_maximum_lies_above_nominal_and_tolerance(id: str) -> None:
    sets = CABLES[id].attenuation
    nominal, maximum = sets["nominal"], sets["maximum"]
    assert nominal.use and maximum.use and nominal.tolerance_ratio == pytest.approx(0.05)
    (_, values), (_, most) = table_of(nominal), table_of(maximum)
    assert np.all(most > 1.05 * values)


@pytest.mark.parametrize("id", CABLES)
def test_direct_current_never_meets_more_than_the_loss_of_a_cable_allows(id: str) -> None:
    cable = CABLES[id]
    assert cable.centre is not None
    centre, shield = cable.centre.resistance_ohm_per_m, None
    assert centre is not None
    if cable.shield is not None:
        shield = cable.shield.resistance_ohm_per_m
    law = prepare(cable).reference
    lowest = loss_at_20(law, np.array([law.low_hz]))[0]
    bound = most_loop_resistance_ohm_per_m(lowest, cable.impedance_ohm.value)
    assert float(bound) > centre + (shield or 0.0)
