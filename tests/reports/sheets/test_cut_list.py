# SPDX-License-Identifier: Apache-2.0
"""The cut list: what the shop cuts, how it runs, what the sleeves say."""

from __future__ import annotations

from dataclasses import replace

import pytest
from demo_plans import DEMOS, assessed
from sample import refitted, sample_assessment, sample_catalog, sample_plan, with_entry
from sheet_tables import cells_of

from rfplan.model.assessment import Assessment
from rfplan.model.plan import State
from rfplan.reports.context import Context
from rfplan.reports.sheet import Sheet
from rfplan.reports.sheets import cut_list


def row(sheet: Sheet, number: int = 0) -> dict[str, str]:
    keys = [column.key for column in sheet.tables[0].columns]
    return dict(zip(keys, [cell.text for cell in sheet.tables[0].rows[number]], strict=True))


def test_an_assembly_tells_ends_terms_way_and_labels(clean: Assessment, context: Context) -> None:
    told = row(cut_list.build(clean, context))
    assert (told["assembly"], told["cable"]) == ("w11", "coax_5mm")
    assert (told["from"], told["from_plug"]) == ("nav1.gnss", "tnc")
    assert (told["to"], told["to_plug"]) == ("gnss1", "tnc")
    terms = ("routed", "drops", "drip_loop", "service_loops", "retermination", "rounding")
    assert [told[term] for term in terms] == ["66.0", "9.0", "0.0", "12.0", "4.0", "1.0"]
    assert (told["cut"], told["tolerance"], told["as_built"]) == ("92.0", "0.5", "-")
    assert told["route"] == "p1, apl, rf1"
    assert (told["supports"], told["bend_at"]) == ("4", "apl")
    assert told["from_label"] == "GNSS1-NAV1.GNSS/GNSS1"
    assert told["to_label"] == "GNSS1-GNSS1/NAV1.GNSS"
    assert told["signature"] == "________"


def test_each_plug_tells_the_form_that_the_catalogue_gives_it(context: Context) -> None:
    plan = refitted(sample_plan(), "cables", "w11", plugs=("tnc", "tnc_angle"))
    catalog = sample_catalog()
    angle = replace(catalog.connectors["tnc"], id="tnc_angle", form="angle")
    catalog = replace(catalog, connectors=catalog.connectors.having("tnc_angle", angle))
    told = row(cut_list.build(sample_assessment(plan, catalog), context))
    assert (told["from_form"], told["to_form"]) == ("straight", "angle")


def test_where_an_end_is_finished_is_left_to_be_filled_in(
    clean: Assessment, context: Context
) -> None:
    told = row(cut_list.build(clean, context))
    assert (told["from_made"], told["to_made"]) == ("________", "________")


def test_the_least_bend_of_the_cable_stands_beside_the_tightest_of_its_route(
    context: Context,
) -> None:
    def told(**stated: float | None) -> tuple[str, str, str]:
        catalog = with_entry(sample_catalog(), "cables", "coax_5mm", **stated)
        cut = row(cut_list.build(sample_assessment(catalog=catalog), context))
        assert cut["bend"] == "8.0"
        return cut["least_bend"], cut["least_bend_by"], cut["advised_bend"]

    assert told(diameter_m=0.0254, bend_m=0.0635) == ("2.5", "the cable", "10.0")
    assert told(diameter_m=0.0254, bend_m=None) == ("6.0", "6 diameters", "10.0")
    assert told(diameter_m=0.0254, bend_m=0.3048) == ("12.0", "the cable", "12.0")
    assert told(diameter_m=None, bend_m=0.0635) == ("2.5", "the cable", "?")
    assert told(diameter_m=None, bend_m=None) == ("?", "-", "?")


@pytest.mark.parametrize("demo", DEMOS)
def test_a_route_that_no_rule_complains_of_bends_no_tighter_than_its_cable_bears(
    demo: str, context: Context
) -> None:
    assessment = assessed(demo)
    tight = {id for one in assessment.findings if one.rule == "RF306" for id in one.objects}
    for cut in cells_of(cut_list.build(assessment, context), "cut_list"):
        if cut["assembly"].text not in tight and cut["bend"].value is not None:
            assert cut["bend"].value >= cut["least_bend"].value


def test_lengths_follow_the_unit_of_the_sheet(clean: Assessment, context: Context) -> None:
    told = row(cut_list.build(clean, replace(context, units="mm")))
    assert (told["cut"], told["mass"]) == ("2337", "0.164")


def test_a_cable_that_lies_there_already_is_not_cut(context: Context) -> None:
    found = sample_assessment(sample_plan(state=State.FOUND))
    told = row(cut_list.build(found, context))
    assert (told["cut"], told["tolerance"], told["as_built"]) == ("-", "-", "31.0")


def test_as_built_stands_beside_what_was_planned(context: Context) -> None:
    built = sample_assessment(sample_plan(state=State.BUILT))
    told = row(cut_list.build(built, context))
    assert (told["cut"], told["as_built"]) == ("92.0", "91.5")
