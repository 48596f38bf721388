# SPDX-License-Identifier: Apache-2.0
from __future__ import annotations

import math
import re
from dataclasses import replace

import pytest
from demo_plans import assessed
from plan_files import shipped_catalog, shipped_rulebook
from sample import refitted, sample_assessment, sample_plan, with_port
from workspaces import look_of

from rfplan.assess import assess
from rfplan.model.assessment import Assessment
from rfplan.model.findings import Verdict
from rfplan.model.plan import State
from rfplan.propose.places import Found, Miss, search
from rfplan.reports.canonical import hashes_of
from rfplan.reports.context import Context
from rfplan.reports.loss_line import governing
from rfplan.reports.outcome import loss_word
from rfplan.reports.sheets import summary
from rfplan.tui.glyphs import ASCII, FULL, Tier
from rfplan.tui.panes import Pane, Scroll, draw_pane
from rfplan.tui.present.antenna import Standing, antenna_pane, sentence
from rfplan.tui.present.findings import findings_pane
from rfplan.tui.present.loss import chain_pane, contributions_pane
from rfplan.tui.present.paths import paths_pane
from rfplan.tui.present.proposals import nothing_free
from rfplan.tui.present.tags import Type
from rfplan.tui.runs import Run, text_of, width
from rfplan.units import Place, Range

TYPE = Type(look_of().glyphs)
DESIGN = assessed("amphibian")
FOUND = assessed("amphibian", State.FOUND)


def lines_of(pane: Pane) -> list[str]:
    return [text_of(row).rstrip() for item in pane.items for row in item.rows]


def line_of(pane: Pane, key: str) -> str:
    return next(text_of(item.rows[0]).rstrip() for item in pane.items if item.key == key)


def test_a_wide_path_row_tells_the_whole_window_and_the_nearer_margin_with_its_side() -> None:
    row = line_of(paths_pane(DESIGN, "gnss3", 80, TYPE), "gnss3")
    assert re.search(r"\d\.\d\d < \d\.\d\d \.\. \d\.\d\d < \d\.\d\d  \+\d\.\d\d to m", row)


def test_a_narrow_path_row_keeps_loss_margin_and_word() -> None:
    row = line_of(paths_pane(FOUND, "gnss1", 42, TYPE), "gnss1")
    assert row.startswith(f"{FULL.fails} gnss1")
    assert re.search(r"\d\.\d\d \.\. \d\.\d\d .\d\.\d\d min FAIL-LOW", row)


def test_a_miss_that_no_distance_tells_is_no_length() -> None:
    missed = Found("belly", miss=Miss(Place(3.0, 0.0, None), math.inf, "", None))
    told = nothing_free(missed, "xpdr1", TYPE)
    assert ", a required rule is not met there. Try" in told
    assert "short of" not in told


@pytest.mark.parametrize("columns", [38, 40, 44, 57, 80, 120])
@pytest.mark.parametrize("assessment", [DESIGN, FOUND])
def test_path_rows_fit_their_columns(columns: int, assessment: Assessment) -> None:
    pane = paths_pane(assessment, None, columns, TYPE)
    assert all(width(item.rows[0]) <= columns for item in pane.items)


def test_path_rows_say_what_the_check_says() -> None:
    hashes = hashes_of(DESIGN.plan, shipped_catalog(), shipped_rulebook())
    table = summary.build(DESIGN, Context(hashes)).tables[0]
    keys = [column.key for column in table.columns]
    pane = paths_pane(DESIGN, None, 120, TYPE)
    for cells in table.rows:
        told = {key: cell.text for key, cell in zip(keys, cells, strict=True)}
        row = line_of(pane, told["path"]).replace(FULL.minus, "-")
        for key in ("overall", "margin"):
            assert told[key] in row
        assert told["window"].removesuffix(" dB") in row


def test_findings_stand_worst_first_with_sign_and_word() -> None:
    lines = lines_of(findings_pane(FOUND, None, 60, TYPE))
    words = [line.split()[1] for line in lines if line[:1].strip()]
    order = ["FAIL-HIGH", "FAIL-LOW", "FAIL", "INCOMPLETE", "WAIVED", "NEAR", "ADVICE"]
    assert words == sorted(words, key=order.index)
    assert "ADVICE" in words


def test_nothing_found_is_said() -> None:
    pane = findings_pane(replace(DESIGN, findings=(), open_points=()), None, 60, TYPE)
    assert "Nothing to report" in pane.text()


def test_findings_do_not_look_clear_while_a_path_fails_its_own_limits() -> None:
    failing = next(path for path in FOUND.paths if loss_word(path).fails)
    passing = next(path for path in DESIGN.paths if loss_word(path) is Verdict.PASS)
    loss = replace(passing.loss, verdict=Verdict.INCOMPLETE)
    unknown = replace(passing, loss=loss, transmit=None, receive=())
    alone = replace(DESIGN, findings=(), open_points=(), paths=(failing, unknown))
    pane = findings_pane(alone, None, 60, TYPE)
    assert text_of(pane.title) == "Findings 0, 1 path fails, 1 INCOMPLETE"
    assert "Nothing to report" not in pane.text()


def test_contributions_have_a_bar_for_each_element_and_both_limits() -> None:
    path = next(path for path in DESIGN.paths if path.id == "gnss1")
    pane = contributions_pane(DESIGN, path, 90, TYPE)
    lines = lines_of(pane)
    assert len(lines) == len(path.chain) + 2
    assert all(line.count("┃") == 2 for line in lines[:-1])
    assert "min 1.50" in lines[-1]
    assert "max 6.50" in lines[-1]


def test_elements_sum_up_to_the_total() -> None:
    for path in DESIGN.paths:
        band = governing(path)
        most = [losses[2] for losses in band.item_db]
        if None not in most and band.mismatch_db is None:
            assert sum(filter(None, most)) == pytest.approx(band.max_corner.loss_db)


def test_the_chain_names_a_source_for_every_element() -> None:
    path = next(path for path in DESIGN.paths if path.id == "gnss1")
    text = " ".join(chain_pane(DESIGN, path, 70, TYPE).text().split())
    assert text.startswith("gnss1 chain rx gnss_l1 nav1.gnss")
    for item in path.chain:
        assert item.source in text
        assert item.type in text


def test_a_loss_beyond_its_table_names_the_bands_where_it_is() -> None:
    path = next(one for one in DESIGN.paths if len(one.bands) > 1)
    told = []
    for bands in ((), (path.bands[1].name,), tuple(band.name for band in path.bands)):
        chain = tuple(replace(item, extrapolated_in=bands) for item in path.chain)
        text = chain_pane(DESIGN, replace(path, chain=chain), 200, TYPE).text()
        told.append(
            (", beyond its table:" in text, f"beyond its table in {path.bands[1].name}:" in text)
        )
    assert told == [(False, False), (False, True), (True, False)]


def test_the_chain_tells_what_of_a_cable_is_for_ageing() -> None:
    path = next(path for path in DESIGN.paths if path.id == "gnss1")
    assert "ageing" not in chain_pane(DESIGN, path, 70, TYPE).text()
    plan = refitted(DESIGN.plan, "cables", path.cables[0], ageing_ratio=0.10)
    aged = assess(plan, DESIGN.catalog, DESIGN.rulebook)
    path = next(path for path in aged.paths if path.id == "gnss1")
    (told,) = (one for one in path.bands[0].item_ageing_db if one)
    text = " ".join(chain_pane(aged, path, 70, TYPE).text().split())
    assert f"{told:.2f} dB of it for ageing" in text


def test_distances_stand_with_have_and_need_the_least_margin_first() -> None:
    lines = lines_of(antenna_pane(Standing(DESIGN, "gnss1", "gnss1"), 50, TYPE))
    first = lines[lines.index(next(line for line in lines if line.startswith("Distance"))) + 1]
    assert first.split() == ["≈", "satcom", "26.0", "30.0", f"{FULL.minus}4.0", "WAIVED"]


def test_the_sentence_tells_verdict_loss_margin_and_what_decided() -> None:
    told = text_of(sentence(Standing(DESIGN, "satcom", "satcom"), 150, TYPE))
    assert told.startswith("≈ WAIVED satcom  loss PASS ")
    assert "to max; satcom is 26.0 in from gnss1; needs 30.0 in" in told


def test_the_sentence_of_a_path_that_fails_by_power_names_the_power_first() -> None:
    weak = sample_assessment(with_port(sample_plan(), "xp1", "ant", power_w=Range(120.0, 120.0)))
    standing = Standing(weak, "xpdr1", "xpdr1")
    told = text_of(sentence(standing, 150, TYPE))
    assert told.startswith(f"{FULL.fails} FAIL xpdr1  power at the antenna ")
    assert ", at least 125.0 W; loss PASS " in told
    short = text_of(sentence(standing, 68, TYPE))
    assert short.endswith(", at least 125.0 W")


@pytest.mark.parametrize("columns", range(50, 160, 7))
def test_the_sentence_fits_and_is_never_cut_inside_a_number(columns: int) -> None:
    for place in DESIGN.antennas:
        told = text_of(sentence(Standing(DESIGN, place.id), columns, TYPE))
        assert len(told) <= columns
        assert not told.endswith((".", " "))


def test_another_tier_changes_signs_and_no_words() -> None:
    ascii_type = Type(look_of(tier=Tier.ASCII).glyphs)
    one = antenna_pane(Standing(DESIGN, "gnss1"), 60, TYPE).text()
    other = antenna_pane(Standing(DESIGN, "gnss1"), 60, ascii_type).text()
    assert other.isascii()
    words = [[w for w in text.split() if len(w) > 1 and w.isalpha()] for text in (one, other)]
    assert words[0] == words[1]


def test_millimetres_are_shown_where_they_are_asked_for() -> None:
    pane = antenna_pane(Standing(DESIGN, "gnss1"), 60, Type(look_of().glyphs, "mm"))
    assert "660" in pane.text()


@pytest.mark.parametrize(
    "text",
    [
        "loss FAIL-HIGH 6.86 > 5.00 dB, {}1.86 dB to max",
        "rg-400 {}0.38 .. {}2 min",
        "{}4.4 .. +14.0",
        "{}",
    ],
)
def test_only_numbers_below_zero_get_the_minus_of_the_tier(text: str) -> None:
    plain = text.replace("{}", "-")
    assert Type(FULL).signed(plain) == text.replace("{}", FULL.minus)
    assert Type(ASCII).signed(plain) == plain


def test_a_title_too_long_for_its_pane_gives_way_to_the_count_of_rows_out_of_sight() -> None:
    pane = replace(findings_pane(FOUND, None, 44, TYPE), title=[Run(f"Findings {'12, ' * 20}")])
    face = draw_pane(pane, (44, 6), Scroll(), TYPE.glyphs, focused=False)
    title = text_of(face.rows[0])
    assert width(face.rows[0]) == 44
    assert re.fullmatch(r"  Findings (12, )+12… ─+ \d+ more ↓ ?", title)


def test_a_side_that_lacks_what_every_place_must_have_is_told_with_the_remedy() -> None:
    *_, last = search(FOUND, "xpdr_b", "belly", 0.0508)
    told = nothing_free(last, "xpdr_b", TYPE)
    assert "needs 5.0 in. Add foil or mesh under the skin" in told
    assert told.endswith("; or try the top (S).")
