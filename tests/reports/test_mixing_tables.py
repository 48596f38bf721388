# SPDX-License-Identifier: Apache-2.0
"""The tables of mixing products and their answer for programs say what was worked out, calmly."""

from __future__ import annotations

import pytest
from crowded_aircraft import facts_with_radios
from demo_plans import DEMOS, assessed
from sheet_tables import cells_of, rows_of

from rfplan.analysis.mixing import mixing
from rfplan.model.mixing import Mixing
from rfplan.reports.context import Context
from rfplan.reports.contract import check_json
from rfplan.reports.mixing_tables import bands_table, product_text
from rfplan.reports.sheet import Sheet
from rfplan.reports.sheets import ground_check, interference
from rfplan.reports.study import facts_of


def built(demo: str, context: Context) -> Sheet:
    return interference.build(assessed(demo), context)


def mixed(demo: str) -> Mixing:
    return mixing(facts_of(assessed(demo)))


@pytest.mark.parametrize(
    ("weights", "names", "text"),
    [
        ((1, 4), ("xpdr", "com1"), "4 com1 + xpdr"),
        ((-1, 2), ("com1", "com2"), "2 com2 - com1"),
        ((1, -1, 1), ("com1", "com2", "uat"), "com1 + uat - com2"),
        ((-1, -1, 3), ("a", "b", "c"), "3 c - a - b"),
    ],
)
def test_a_product_is_written_as_by_hand(
    weights: tuple[int, ...], names: tuple[str, ...], text: str
) -> None:
    assert product_text(weights, names) == text


@pytest.mark.parametrize("demo", DEMOS)
def test_the_sheet_is_not_swamped(demo: str, context: Context) -> None:
    sheet = built(demo, context)
    rows = [len(rows_of(sheet, key)) for key in ("mixing", "channel_pairs")]
    assert all(rows)
    assert sum(rows) <= 20


@pytest.mark.parametrize("demo", DEMOS)
def test_sheet_and_json_tell_the_same(demo: str, context: Context) -> None:
    found, sheet = mixed(demo), built(demo, context)
    answer = check_json(assessed(demo), context)
    bands, channels = cells_of(sheet, "mixing"), cells_of(sheet, "channel_pairs")
    assert sum(row["products"].value for row in bands) == sum(one.products for one in found.bands)
    lowest = {", ".join(one.victims): one.order for one in reversed(found.bands)}
    assert {row["victims"].value for row in bands} == set(lowest)
    assert all(row["order"].value == lowest[row["victims"].value] for row in bands)
    first = {(one.victims, one.victim_hz): one.pairs for one in reversed(found.channels)}
    assert sorted(row["pairs"].value for row in channels) == sorted(first.values())
    told = [(one["order"], one["products"], one["victims"]) for one in answer["mixing"]]
    assert told == [(one.order, one.products, list(one.victims)) for one in found.bands]
    counts = [(one["pairs"], one["close_pairs"]) for one in answer["channel_pairs"]]
    assert counts == [(one.pairs, one.close_pairs) for one in found.channels]


def test_a_row_says_who_mixes_and_where_it_falls(context: Context) -> None:
    rows = rows_of(built("amphibian", context), "mixing")
    assert {
        "victims": "gnss1, gnss2, gnss3",
        "order": "5",
        "product": "2 uat - 3 (com1 or com2)",
        "falls": "1545 .. 1602.075",
        "meets": "1563.42 .. 1587.42",
        "products": "5",
    } in rows
    assert "978" in {row["meets"] for row in rows}


def test_a_pair_of_channels_is_told_by_name_and_by_carrier(context: Context) -> None:
    first = rows_of(built("amphibian", context), "channel_pairs")[0]
    assert first["example"] == "2 com1 on 118.000 - com2 on 123.000"
    assert first["carriers"] == "118.00000, 123.00000"
    assert (first["lands"], first["share"]) == ("113.00000", "38.22")


def test_alike_transmitters_are_told_once_and_two_of_them_by_their_names() -> None:
    one = mixing(facts_with_radios(radalt=2, satcom_l=1, transponder=1))
    told = [row[2].text for row in bands_table(one.bands).rows]
    assert "(p_radalt_0 or p_radalt_1) - 2 p_satcom_l_0" in told
    two = mixing(facts_with_radios(radalt=2, vor_loc=1))
    assert bands_table(two.bands).rows[0][2].text == "p_radalt_0 - p_radalt_1"


def test_the_notes_say_where_and_not_how_strong(context: Context) -> None:
    notes = " ".join(built("twin", context).notes)
    assert "where they fall, not how strong" in notes
    assert "none has a verdict" in notes


@pytest.mark.parametrize(
    ("demo", "victims", "all_of"),
    [("amphibian", "vor", {"vor"}), ("twin", "vor1, vor2", {"vor1, vor2", "adf"})],
)
def test_the_ground_check_keys_both_coms_once_for_each_receiver_that_can_be_tuned(
    demo: str, victims: str, all_of: set[str], context: Context
) -> None:
    rows = rows_of(ground_check.build(assessed(demo), context), "systems")
    keyed = {row["object"]: row["do"] for row in rows if "at one time" in row["do"]}
    assert set(keyed) == all_of
    told = "tune 113 MHz; key com1 on 118.000 and com2 on 123.000 at one time, both free"
    assert keyed[victims] == told
