# SPDX-License-Identifier: Apache-2.0
"""The loss budget: bands, elements, lengths, power and readings."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest
from demo_plans import DEMOS, assessed
from sample import refitted, sample_assessment, sample_catalog, sample_plan
from sheet_tables import cells_of

from rfplan.model.assessment import Assessment
from rfplan.model.catalog import AttenuationPoint, AttenuationSet, Fit, LossSet
from rfplan.model.record import ById
from rfplan.reports.budget_power import why_no_antenna
from rfplan.reports.context import Context
from rfplan.reports.sheet import Cell, Table
from rfplan.reports.sheets import loss_budget
from rfplan.units import UNKNOWN, Range


@pytest.fixture
def tables(busy: Assessment, context: Context) -> dict[str, Table]:
    sheet = loss_budget.build(busy, context)
    return {table.key: table for table in sheet.tables}


def rows(table: Table) -> list[dict[str, Cell]]:
    keys = [column.key for column in table.columns]
    return [dict(zip(keys, row, strict=True)) for row in table.rows]


def test_a_path_has_its_overall_word_apart_from_the_loss(tables) -> None:
    told = {
        row["path"].text: (row["overall"].text, row["loss"].text) for row in rows(tables["paths"])
    }
    assert told == {
        "com1": ("WAIVED", "PASS"),
        "gnss1": ("FAIL", "PASS"),
        "xpdr1": ("FAIL", "INCOMPLETE"),
    }


def test_there_is_one_row_for_each_path_and_band(tables) -> None:
    pairs = [(row["path"].text, row["band"].text) for row in rows(tables["bands"])]
    assert pairs == [
        ("com1", "rx"),
        ("com1", "tx"),
        ("gnss1", "rx"),
        ("xpdr1", "rx"),
        ("xpdr1", "tx"),
    ]


def test_a_band_shows_corners_with_temperature_and_frequency(tables, busy: Assessment) -> None:
    row, band = rows(tables["bands"])[2], busy.paths[1].bands[0]
    assert row["least"].value == band.min_corner.loss_db
    assert (row["least_c"].text, row["least_hz"].text) == ("-55", "1563.42")
    assert row["most"].value == band.max_corner.loss_db
    assert (row["most_c"].text, row["most_hz"].text) == ("70", "1587.42")
    assert (row["low"].text, row["mid"].text, row["high"].text) == ("1563.42", "1575.42", "1587.42")


def test_a_window_end_that_no_document_states_differs_from_an_unknown_one(tables) -> None:
    ends = {(row["path"].text): row["window_min"].text for row in rows(tables["bands"])}
    assert ends == {"com1": "none", "gnss1": "0.50", "xpdr1": "?"}


def test_the_margin_that_does_not_exist_is_a_dash(tables) -> None:
    assert rows(tables["bands"])[0]["to_min"].text == "-"


def test_near_and_bounded_stand_as_flags(busy: Assessment, context: Context) -> None:
    path = busy.paths[1]
    band = replace(path.bands[0], near=True, bounded=True)
    close = replace(busy, paths=(replace(path, bands=(band,)),))
    table = {one.key: one for one in loss_budget.build(close, context).tables}["bands"]
    assert rows(table)[0]["flags"].text == "NEAR, bounded"


def test_a_band_that_fails_on_a_tie_shows_one_digit_more_in_its_whole_row(
    busy: Assessment, context: Context
) -> None:
    path = busy.paths[1]
    band = replace(path.bands[0], judged_db=(1.0, 4.004), margin_to_max_db=-0.004)
    tie = replace(busy, paths=(replace(path, bands=(band,)),))
    row = rows({one.key: one for one in loss_budget.build(tie, context).tables}["bands"])[0]
    assert (row["judged_most"].text, row["window_max"].text) == ("4.004", "4.000")
    assert row["to_max"].text == "-0.004"


def test_elements_stand_in_the_order_of_the_chain_and_sum_to_the_nominal(
    tables, busy: Assessment
) -> None:
    mine = [row for row in rows(tables["elements"]) if row["path"].text == "gnss1"]
    assert [row["kind"].text for row in mine] == ["mated pair", "cable", "mated pair"]
    assert [row["place"].text for row in mine] == ["1", "2", "3"]
    total = sum(row["nominal"].value for row in mine)
    assert total == pytest.approx(busy.paths[1].bands[0].nominal_db[1])


@pytest.mark.parametrize(
    ("allowed", "share", "ageing"), [(None, "-", "-"), (0.10, "10", "0.17"), (UNKNOWN, "?", "?")]
)
def test_what_a_cable_may_age_by_has_a_column_beside_its_most(
    allowed: Any, share: str, ageing: str, context: Context
) -> None:
    plan = refitted(sample_plan(), "cables", "w11", ageing_ratio=allowed)
    sheet = loss_budget.build(sample_assessment(plan), context)
    told = {table.key: rows(table) for table in sheet.tables}
    mine = [row["ageing"].text for row in told["elements"] if row["path"].text == "gnss1"]
    assert mine == ["-", ageing, "-"]
    assert [row["ageing"].text for row in told["bands"] if row["path"].text == "gnss1"] == [ageing]
    assert told["lengths"][0]["ageing"].text == share


@pytest.mark.parametrize("demo", DEMOS)
def test_the_heading_names_each_document_that_a_window_is_cited_from_once(
    demo: str, context: Context
) -> None:
    assessment = assessed(demo)
    named = dict(loss_budget.build(assessment, context).header)["basis documents"].text.split("; ")
    assert len(named) == len(set(named))
    windows = [band.window.source for path in assessment.paths for band in path.bands]
    for source in windows:
        assert sum(source.startswith(document) for document in named) == 1
    for document in named:
        assert any(source.startswith(document) for source in windows)


def test_a_path_tells_what_it_is_for(tables, busy: Assessment) -> None:
    told = {row["path"].text: row["function"].text for row in rows(tables["paths"])}
    assert told["gnss1"] == busy.rulebook.radios["gnss_l1"].title


def test_an_element_bears_the_name_that_the_catalogue_gives_it(tables, busy: Assessment) -> None:
    cable, plug = busy.catalog.cables["coax_5mm"], busy.catalog.connectors["tnc"]
    mine = [row["part"].text for row in rows(tables["elements"]) if row["path"].text == "gnss1"]
    pair = f"{plug.series}, {plug.form}"
    assert mine == [pair, cable.designation, pair]


def test_a_pigtail_bears_the_name_of_its_antenna(context: Context) -> None:
    catalog = sample_catalog()
    antenna = catalog.antennas["gnss_active"]
    tailed = replace(antenna, pigtail=ById({"nominal": LossSet(0.3, tolerance_db=0.05)}))
    antennas = catalog.antennas.having("gnss_active", tailed)
    row = elements(sample_assessment(catalog=replace(catalog, antennas=antennas)), context)[-1]
    assert (row["part"].text, row["tolerance"].text) == (antenna.title, "0.05 dB")


def elements(
    assessment: Assessment, context: Context, path: str = "gnss1"
) -> list[dict[str, Cell]]:
    """Return the elements of one path."""
    sheet = loss_budget.build(assessment, context)
    return [row for row in cells_of(sheet, "elements") if row["path"].text == path]


def with_attenuation(context: Context, **sets: AttenuationSet) -> dict[str, Cell]:
    """Return the cable of the GNSS path where the catalogue has these figures for it."""
    catalog = sample_catalog()
    cable = replace(catalog.cables["coax_5mm"], attenuation=ById(sets))
    catalog = replace(catalog, cables=catalog.cables.having("coax_5mm", cable))
    return elements(sample_assessment(catalog=catalog), context)[1]


def rising(to_hz: float, **told: Any) -> AttenuationSet:
    """Return a table that rises with the root of the frequency."""
    points = (AttenuationPoint(100e6, 0.1), AttenuationPoint(to_hz, 0.1 * (to_hz / 100e6) ** 0.5))
    return AttenuationSet(points=points, source="sheet", **told)


def test_a_loss_tells_whether_a_table_a_fit_or_neither_reaches_it(context: Context) -> None:
    fit = AttenuationSet(fit=Fit(1.0, 0.0, Range(100e6, 2000e6)), source="sheet")
    assert with_attenuation(context, nominal=rising(2000e6))["obtained"].text == "table"
    assert with_attenuation(context, nominal=rising(1000e6))["obtained"].text == "extrapolated"
    assert with_attenuation(context, nominal=rising(500e6))["obtained"].text == "?"
    assert with_attenuation(context, nominal=fit)["obtained"].text == "fit"


def test_a_mated_pair_of_one_figure_is_stated(tables) -> None:
    mine = [row for row in rows(tables["elements"]) if row["path"].text == "gnss1"]
    assert mine[0]["obtained"].text == "stated"


def test_a_tolerance_is_stated_assumed_or_a_figure_of_its_own(context: Context) -> None:
    def told(**sets: AttenuationSet) -> str:
        return with_attenuation(context, **sets)["tolerance"].text

    plain, most = rising(2000e6), rising(2000e6, basis="maximum")
    assert told(nominal=plain) == "none stated"
    assert told(nominal=replace(plain, tolerance_ratio=0.055)) == "5.5 %"
    assert told(nominal=replace(plain, tolerance_ratio=0.0)) == "0 %"
    assert told(estimate=plain) == "20 % assumed"
    assert told(nominal=plain, maximum=most) == "none stated, own most"
    assert told(nominal=plain, maximum=most, minimum=plain) == "own least and most"


def test_the_sheet_tells_which_tolerance_is_assumed_of_which_source(
    busy: Assessment, context: Context
) -> None:
    (note,) = [one for one in loss_budget.build(busy, context).notes if "Elements" in one]
    estimate = with_attenuation(context, estimate=rising(2000e6))["tolerance"].text
    assert f"{estimate.removesuffix(' assumed')} of an estimate" in note
    assert "10 % of a figure from memory" in note


@pytest.mark.parametrize("demo", DEMOS)
def test_the_attenuation_of_a_cable_is_that_of_the_band_its_loss_is_told_for(
    demo: str, context: Context
) -> None:
    assessment = assessed(demo)
    for row in cells_of(loss_budget.build(assessment, context), "elements"):
        if row["kind"].text == "cable" and row["nominal"].value is not None:
            metres = assessment.cables[row["id"].text].length_m.nominal
            assert row["per_m"].value * metres == pytest.approx(row["nominal"].value)


def test_the_terms_of_a_length_come_to_the_cut_length(tables) -> None:
    row = rows(tables["lengths"])[0]
    terms = ("routed", "drops", "drip_loop", "service_loops", "retermination", "rounding")
    assert row["cut"].value == pytest.approx(sum(row[term].value for term in terms))


def test_transmitters_receivers_and_readings_have_their_own_tables(tables) -> None:
    assert [row["path"].text for row in rows(tables["transmit"])] == ["com1", "xpdr1"]
    assert rows(tables["transmit"])[0]["min"].text == "none"
    assert [row["limit"].text for row in rows(tables["receive"])] == ["atcrbs", "mode_s"]
    reading = rows(tables["readings"])[0]
    assert (reading["measured"].text, reading["agreement"].text) == ("1.62", "AGREES")
    assert reading["with"].text == "analyser 7"
    assert reading["window_of"].text == "the prediction: no temperature and no uncertainty"
    assert (reading["vswr"].text, reading["stated"].text) == ("1.40", "-")
    # 0.1667 of the wave came back through 1.62 dB, twice: 0.2420 from the antenna
    assert reading["antenna_vswr"].text == "1.64"


def test_what_was_not_read_is_a_dash_and_what_the_line_hides_is_told_so(
    busy: Assessment, context: Context
) -> None:
    def told(**changes: Any) -> dict[str, Cell]:
        plan = busy.plan
        reading = replace(plan.measurements["m1"], **changes)
        changed = replace(plan, measurements=plan.measurements.having("m1", reading))
        sheet = loss_budget.build(sample_assessment(changed), context)
        (table,) = (one for one in sheet.tables if one.key == "readings")
        return rows(table)[0]

    match = told(loss_db=None)
    assert [match[key].text for key in ("measured", "difference", "agreement")] == ["-", "-", "-"]
    loss = told(vswr=None)
    assert [loss[key].text for key in ("vswr", "antenna_vswr", "stated")] == ["-", "-", "-"]
    assert match["window_of"].text == "the prediction: no loss"
    assert told(loss_db=9.0)["antenna_vswr"].text == "hidden by the line"


@pytest.mark.parametrize(
    ("loss_db", "predicted_db", "why"),
    [
        (9.0, 1.6, "hidden by the line"),
        (None, 9.0, "hidden by the line"),
        (9.0, None, "hidden by the line"),
        (None, None, "loss of the line not known"),
    ],
)
def test_a_line_hides_an_antenna_only_where_its_loss_is_known(
    busy: Assessment, loss_db: float | None, predicted_db: float | None, why: str
) -> None:
    (reading,) = (one for path in busy.paths for one in path.readings)
    changed = replace(reading, loss_db=loss_db, predicted_db=predicted_db, antenna_vswr=None)
    assert why_no_antenna(changed) == why
