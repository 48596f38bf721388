# SPDX-License-Identifier: Apache-2.0
"""The contract of `rfplan check --json`: every key at every level, with its exact type."""

from __future__ import annotations

import json
import math
from collections.abc import Iterator
from dataclasses import dataclass, replace
from typing import Any

import pytest
from amplified import amplified_catalog, amplified_plan
from contract_shapes import CHECK, faults
from sample import refitted, sample_assessment, sample_plan, with_entry

from rfplan.model.assessment import Assessment
from rfplan.model.findings import Verdict
from rfplan.model.plan import Group, State
from rfplan.model.record import ById
from rfplan.reports.context import Context
from rfplan.reports.contract import check_json, failed_json
from rfplan.reports.json_text import json_text, rounded
from rfplan.units import Toleranced


def printed(answer: dict[str, object]) -> Any:
    """Return an answer as a program reads it."""
    return json.loads(json_text(answer))


@pytest.mark.parametrize("state", list(State))
def test_every_key_is_there_with_its_type_in_every_state(state: State, context: Context) -> None:
    answer = printed(check_json(sample_assessment(sample_plan(state=state)), context))
    assert not list(faults(answer, CHECK))


def test_gain_supply_groups_and_pieces_have_their_keys_too(context: Context) -> None:
    plan = amplified_plan(sample_plan(groups=ById({"pair": Group(length_m=0.01)})))
    for id in ("w21", "w31"):
        plan = refitted(plan, "cables", id, group="pair")
    catalog = with_entry(
        amplified_catalog(), "cables", "coax_5mm", impedance_ohm=Toleranced(75.0, 3.0)
    )
    answer = printed(check_json(sample_assessment(plan, catalog), context))
    assert not list(faults(answer, CHECK))
    path = answer["paths"][1]
    assert path["receiver"][0]["net_gain_db"][0] < path["receiver"][0]["net_gain_db"][1]
    assert path["feed"]["antenna_v"][0] < 4.7
    assert path["retermination"]["cuts_left"] >= 0
    assert [trial["pad"] for trial in path["pads"]] == [None, "pad_3db"]
    assert path["pieces"][0]["worst_vswr"] == 2.25
    assert path["loaded_line"]["vswr"] == 2.0
    assert answer["groups"][0]["members"] == ["w21", "w31"]
    assert answer["groups"][0]["delay_s"][0] > 1e-9
    assert answer["measure_first"]


def test_every_key_is_there_where_things_fail_are_waived_or_unknown(
    busy: Assessment, context: Context
) -> None:
    answer = printed(check_json(busy, context))
    assert not list(faults(answer, CHECK))
    assert answer["paths"][1]["measured"]
    assert any(finding["waiver"] for finding in answer["findings"])
    assert answer["open_points"][0] | {"line": 0} == {
        "id": "xp1.ant.loss",
        "blocking": True,
        "object": "xp1.ant",
        "field": "loss",
        "file": "plan.yaml",
        "line": 0,
        "text": "xp1.ant: loss is not known, and it decides path xpdr1",
        "who": None,
        "accepted": None,
        "bound": None,
    }


def test_the_shapes_can_tell_a_missing_key_and_a_wrong_type(
    clean: Assessment, context: Context
) -> None:
    answer = printed(check_json(clean, context))
    del answer["paths"][0]["bands"][0]["window"]["source"]
    answer["paths"][0]["bands"][0]["low_hz"] = 1.5
    answer["exit_code"] = True
    answer["verdict"] = None
    found = list(faults(answer, CHECK))
    assert ".paths[0].bands[0].window.source is missing" in found
    assert any(".low_hz" in one for one in found)
    assert any(one.startswith(".exit_code") for one in found)
    assert any(one.startswith(".verdict") for one in found)


def test_the_sample_gives_these_words_and_numbers(busy: Assessment, context: Context) -> None:
    answer = printed(check_json(busy, context))
    assert (answer["verdict"], answer["exit_code"]) == ("FAIL", 1)
    assert answer["counts"]["paths"]["FAIL"] == 2
    assert answer["counts"]["findings"]["WAIVED"] == 1
    assert (answer["counts"]["open_blocking"], answer["counts"]["open_to_confirm"]) == (1, 2)
    assert answer["aircraft"] == {
        "id": "sample",
        "name": "Sample two-seater",
        "serial": "17",
        "variant": "base",
    }
    failed = answer["findings"][0]
    assert failed["id"] == "RF501/gnss1+xpdr1/design"
    assert (failed["value"], failed["limit"], failed["unit"]) == (0.1524, 0.3048, "m")
    assert failed["text"] == "xpdr1 is 6.0 in from gnss1; needs 12.0 in"


def test_arrays_are_sorted_whatever_the_order_of_the_assessment(
    busy: Assessment, context: Context
) -> None:
    shuffled = replace(
        busy,
        paths=busy.paths[::-1],
        antennas=busy.antennas[::-1],
        spacing=busy.spacing[::-1],
        findings=busy.findings[::-1],
    )
    assert check_json(shuffled, context) == check_json(busy, context)


def test_the_losses_of_a_chain_sum_to_the_nominal(clean: Assessment, context: Context) -> None:
    for path in printed(check_json(clean, context))["paths"]:
        total = sum(item["loss_db"] for item in path["chain"])
        assert total == pytest.approx(path["bands"][0]["nominal_db"][1], abs=5e-6)


def test_a_cut_length_is_the_sum_of_its_terms(clean: Assessment, context: Context) -> None:
    terms = ("routed", "drops", "drip_loop", "service_loops", "retermination", "rounding")
    for path in printed(check_json(clean, context))["paths"]:
        for cable in path["cables"]:
            assert cable["cut_m"] == pytest.approx(sum(cable[f"{term}_m"] for term in terms))


def test_the_answer_is_ascii_with_one_newline_at_its_end(
    clean: Assessment, context: Context
) -> None:
    plan = sample_plan(airframe=replace(sample_plan().airframe, name="Zwei\u2212\u202e\x1bsitzer"))
    text = json_text(check_json(sample_assessment(plan), context))
    assert text.isascii()
    assert text.endswith("}\n")
    assert json.loads(text)["aircraft"]["name"] == "Zwei\u2212\u202e\x1bsitzer"


def test_numbers_have_at_most_six_decimals(busy: Assessment, context: Context) -> None:
    def numbers(thing: Any) -> Iterator[float]:
        if isinstance(thing, float):
            yield thing
        elif isinstance(thing, dict | list):
            for one in thing.values() if isinstance(thing, dict) else thing:
                yield from numbers(one)

    found = list(numbers(check_json(busy, context)))
    assert len(found) > 100
    assert all(number == round(number, 6) for number in found)
    assert not any(math.copysign(1.0, number) < 0.0 for number in found if number == 0.0)


@pytest.mark.parametrize("value", [None, math.nan, math.inf, -math.inf])
def test_what_is_not_known_is_null(value: float | None) -> None:
    assert rounded(value) is None


def test_minus_zero_is_zero() -> None:
    assert math.copysign(1.0, rounded(-1e-9) or 0.0) == 1.0


def test_strict_changes_the_exit_code_and_nothing_else(busy: Assessment, context: Context) -> None:
    waived = tuple(one for one in busy.findings if one.verdict is Verdict.WAIVED)
    assessment = replace(busy, verdict=Verdict.WAIVED, findings=waived)
    strict = check_json(assessment, context, strict=True)
    assert strict["exit_code"] == 1
    assert check_json(assessment, context) == {**strict, "exit_code": 0}


@dataclass(frozen=True)
class Fault:
    """A fault as a loader reports it."""

    file: str = "plan.yaml"
    line: int = 3
    column: int = 5
    key: str | None = "units.nav1"
    message: str = "unknown key 'prots'"
    expected: str = "'ports'"


def test_a_failed_load_has_every_key_no_verdict_and_all_problems() -> None:
    answer = printed(failed_json([Fault(), Fault(line=9, key=None)], version="1.2"))
    assert set(answer) == set(CHECK)
    assert (answer["verdict"], answer["exit_code"], answer["state"]) == (None, 2, None)
    assert answer["tool"] == {"name": "rfplan", "version": "1.2"}
    assert [problem["line"] for problem in answer["problems"]] == [3, 9]
    for key in ("problems", "counts"):
        assert not list(faults(answer[key], CHECK[key]))
    for key in ("paths", "antennas", "spacing", "isolation", "mixing", "channel_pairs"):
        assert answer[key] == []
    for key in ("findings", "open_points"):
        assert answer[key] == []
    for key in ("inputs", "aircraft", "revision", "policy"):
        assert answer[key] == dict.fromkeys(CHECK[key])
