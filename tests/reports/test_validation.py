# SPDX-License-Identifier: Apache-2.0
"""The published checks pass, could fail, and are counted for what they are worth."""

from __future__ import annotations

import json
import math
from collections.abc import Callable
from dataclasses import replace

import pytest

from rfplan.reports.validation import (
    Kind,
    Row,
    counts,
    published_checks,
    validation_json,
    validation_rows,
)
from rfplan.sources import SourceClass

ROWS = validation_rows()
IDS = [row.check.id for row in ROWS]
BY_ID = dict(zip(IDS, ROWS, strict=True))

DECIDING = (
    "cable_attenuation.attenuation_law_db_per_m",
    "cable_attenuation.fit_attenuation_law",
    "cable_attenuation.interpolated_attenuation_db_per_m",
    "cable_attenuation.dielectric_attenuation_db_per_m",
    "cable_temperature.temperature_factor_ratio",
    "cable_temperature.attenuation_at_temperature_db_per_m",
    "mismatch.mismatch_bounds_db",
    "mismatch.mismatch_loss_db",
    "path_loss.path_loss_db",
    "path_loss.root_sum_square_db",
    "transponder.max_line_loss_db",
    "transponder.sensitivity_line_loss_db",
    "bend.largest_bend_radius_m",
    "free_space.free_space_loss_db",
    "free_space.quarter_wave_m",
    "dc_feed.feed_drop_v",
    "dc_feed.feed_drop_bounds_v",
    "dc_feed.most_loop_resistance_ohm_per_m",
    "mismatched_line.lossy_impedance_ohm",
    "noise.carrier_to_noise_dbhz",
    "noise.passive_noise_figure_db",
    "odd_piece.odd_piece_loss_db",
    "odd_piece.odd_piece_worst_vswr",
    "supports.support_count",
)

# The wrong formulas themselves, so that the value a row rejects is not made up.
WRONG: dict[str, Callable[[], float]] = {
    "ml_01": lambda: 0.444 * math.sqrt(100.0),
    "s2_rg316_1050": lambda: 0.7727 * math.sqrt(1.05),
    "held_out_rg58c_150": lambda: 10.83 + (38.55 - 10.83) * (150 - 50) / (450 - 50),
    "tp_01_conductor": lambda: 0.055 * (1 + 0.00393 * (37.7778 - 20)),
    "temperature_dielectric": lambda: 0.5 * math.sqrt(1 + 0.00393 * 50),
    "dielectric_ptfe": lambda: 2 * 3.929,
    "chain_rg400": lambda: 4 * 0.51994276 + 0.0522,
    "mu_09": lambda: 0.51153 + 0.17729 - 20 * math.log10(1 - 1 / 15),
    "bounds_line": lambda: 3 + 2 * 1.24939 + 20 * math.log10(1 + 0.25 * 10 ** (-3 / 20)),
    "xpdr_line_loss_max_250w": lambda: 10 * math.log10(250 / 125),
    "bend_60deg": lambda: 100 * math.tan(math.pi / 6),
    "bend_60deg_half": lambda: 0.2 / math.tan(math.pi / 6),
    "dc_feed_drop": lambda: 1000 * 0.1 * 10 * 0.039,
    "dc_bound_by_loss": lambda: 1000 * 2 * 50 * 0.046 * math.log(10) / 10,
    "tl_12_z0": lambda: -402.75 * 0.0031167979 / 0.0419169004,
    "cn0_university": lambda: -128.2 - 10 * math.log10(1.380649e-20 * 290),
    "odd_piece_quarter": lambda: -10 * math.log10(1 - 0.2**2),
    "nf_04": lambda: 10 * math.log10(10**0.25 + (10 - 1) / 10**1.5),
}


@pytest.mark.parametrize("row", ROWS, ids=IDS)
def test_every_published_check_passes(row: Row) -> None:
    assert row.passed, f"{row.check.says}: {row.computed} against {row.check.expected}"


@pytest.mark.parametrize("row", ROWS, ids=IDS)
def test_every_published_check_could_fail(row: Row) -> None:
    step = 10.0 * row.check.tolerance or 1.0
    for off in (row.check.expected - step, row.check.expected + step):
        assert not Row(replace(row.check, expected=off), row.computed).passed


@pytest.mark.parametrize("row", [row for row in ROWS if row.check.wrong], ids=lambda r: r.check.id)
def test_the_tolerance_is_narrower_than_the_error_of_the_wrong_formula(row: Row) -> None:
    assert row.check.wrong
    assert not Row(row.check, row.check.wrong.gives).passed


@pytest.mark.parametrize("key", sorted(WRONG))
def test_the_rejected_value_is_what_the_wrong_formula_gives(key: str) -> None:
    wrong = BY_ID[key].check.wrong
    assert wrong
    assert wrong.gives == pytest.approx(WRONG[key](), rel=1e-3)


@pytest.mark.parametrize("name", DECIDING)
def test_every_deciding_formula_has_a_row_that_rejects_a_wrong_one(name: str) -> None:
    rows = [row for row in ROWS if row.check.function == f"rfplan.physics.{name}"]
    assert any(row.check.wrong and row.check.kind is not Kind.SUPPORTING for row in rows)


def test_no_row_stands_higher_than_its_document() -> None:
    for row in ROWS:
        stated = row.check.source.document.source_class
        assert row.check.source_class in (stated, SourceClass.OWN_COMPUTATION, SourceClass.MEMORY)


def test_community_texts_and_memory_never_count_as_published() -> None:
    for row in ROWS:
        weak = row.check.source.document.community or row.check.source_class is SourceClass.MEMORY
        assert not (weak and row.check.kind is Kind.OUTSIDE_PUBLISHED)


def test_inputs_and_expected_values_are_plain_numbers() -> None:
    for check in published_checks():
        numbers = [check.expected, check.tolerance, check.output_scale, check.output_offset]
        for given in check.inputs.values():
            numbers += given if isinstance(given, list) else []
            numbers += given.values() if isinstance(given, dict) else []
            numbers += [given] if not isinstance(given, (list, dict)) else []
        assert all(isinstance(number, (int, float)) for number in numbers), check.id
        assert check.tolerance >= 0.0


def test_a_check_of_a_function_that_cites_nothing_is_refused() -> None:
    for name in ("os.system", "rfplan.physics.domain.positive", "rfplan.physics.nowhere.at_all"):
        with pytest.raises(LookupError, match="not a cited formula"):
            validation_rows([replace(ROWS[0].check, function=name)])


def test_a_part_that_the_result_does_not_have_is_refused() -> None:
    with pytest.raises(LookupError, match="no part '__class__'"):
        validation_rows([replace(ROWS[0].check, take="__class__")])


def test_the_counts_add_up_and_tell_the_kinds_apart() -> None:
    counted = counts(ROWS)
    for groups in counted.values():
        assert sum(groups.values()) == len(ROWS)
    assert set(counted["by_kind"]) == {str(kind) for kind in Kind}
    assert counted["by_outcome"] == {"pass": len(ROWS)}


def test_a_failed_row_is_counted_as_failed() -> None:
    failed = Row(ROWS[0].check, ROWS[0].check.expected + 1.0)
    assert counts([failed])["by_outcome"] == {"fail": 1}


def test_the_answer_of_the_command_has_the_agreed_keys() -> None:
    answer = json.loads(json.dumps(validation_json(ROWS), allow_nan=False))
    assert answer["format"] == "rfplan-validation/1"
    agreed = {
        *("id", "topic", "document_id", "document", "place", "source_class", "function"),
        *("inputs", "expected", "computed", "difference", "tolerance", "unit", "pass"),
    }
    for row in answer["rows"]:
        assert agreed <= set(row)
        assert row["pass"] is True
        assert row["difference"] == pytest.approx(row["computed"] - row["expected"])
    classes = {row["source_class"] for row in answer["rows"]}
    assert classes <= {str(source_class) for source_class in SourceClass}
