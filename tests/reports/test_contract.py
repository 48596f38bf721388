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
from sample import refitted, sample_assessment, sample_plan, with_entry

from rfplan.model.assessment import Assessment
from rfplan.model.findings import Verdict
from rfplan.model.plan import Group, State
from rfplan.model.record import ById
from rfplan.reports.context import Context
from rfplan.reports.contract import check_json, failed_json
from rfplan.reports.json_text import json_text, rounded
from rfplan.units import Toleranced

WORD = {"PASS", "FAIL", "FAIL-HIGH", "FAIL-LOW", "INCOMPLETE", "WAIVED", "NEAR", "ADVICE"}
LOSS_WORD = {"PASS", "FAIL-HIGH", "FAIL-LOW", "INCOMPLETE"}
STATE = {"found", "design", "built"}
STATED = {"value", "none", "unknown"}
KIND = {
    "cable",
    "mated_pair",
    "adapter",
    "bulkhead",
    "splitter",
    "diplexer",
    "arrester",
    "pad",
    "filter",
}


@dataclass(frozen=True)
class Or:
    """One of two shapes."""

    one: Any
    other: Any


NUM = float
NUM_OR_NULL = Or(float, None)
STR_OR_NULL = Or(str, None)
ENDS = (NUM_OR_NULL,) * 2
CORNER = {"loss_db": NUM_OR_NULL, "temperature_c": NUM, "frequency_hz": int}
COUNTS = dict.fromkeys(WORD, int)

BAND = {
    "name": str,
    "low_hz": int,
    "mid_hz": int,
    "high_hz": int,
    "nominal_db": (NUM_OR_NULL,) * 3,
    "min_corner": CORNER,
    "max_corner": CORNER,
    "rss_db": (NUM_OR_NULL,) * 2,
    "window": {
        "min_db": NUM_OR_NULL,
        "max_db": NUM_OR_NULL,
        "min_stated": STATED,
        "max_stated": STATED,
        "plugs_included": Or(bool, None),
        "source": str,
    },
    "ageing_db": NUM_OR_NULL,
    "margin_to_min_db": NUM_OR_NULL,
    "margin_to_max_db": NUM_OR_NULL,
    "nominal_verdict": LOSS_WORD,
    "verdict": LOSS_WORD,
    "near": bool,
}

PATH = {
    "id": str,
    "radio": str,
    "unit": str,
    "port": str,
    "antenna": str,
    "direction": {"rx", "tx", "txrx"},
    "overall": WORD,
    "chain": [
        {
            "id": STR_OR_NULL,
            "kind": KIND,
            "type": str,
            "loss_db": NUM_OR_NULL,
            "basis": Or({"maximum", "nominal", "estimate", "measured"}, None),
            "extrapolated": bool,
            "extrapolated_in": [str],
            "source": str,
            "impedance_ohm": NUM_OR_NULL,
            "attenuation_db_per_m": NUM_OR_NULL,
        }
    ],
    "mated_pairs": int,
    "cables": [
        {
            "id": str,
            "type": str,
            "nodes": [str],
            "routed_m": NUM_OR_NULL,
            "drops_m": NUM_OR_NULL,
            "drip_loop_m": NUM_OR_NULL,
            "service_loops_m": NUM_OR_NULL,
            "retermination_m": NUM_OR_NULL,
            "rounding_m": NUM_OR_NULL,
            "cut_m": NUM_OR_NULL,
            "as_built_m": NUM_OR_NULL,
            "mass_kg": NUM_OR_NULL,
            "ageing_ratio": NUM_OR_NULL,
        }
    ],
    "bands": [BAND],
    "loss": {
        "verdict": LOSS_WORD,
        "near": bool,
        "governing_band": STR_OR_NULL,
        "shortest_m": NUM_OR_NULL,
        "longest_m": NUM_OR_NULL,
    },
    "transmit": Or(
        {
            "unit_w": NUM_OR_NULL,
            "antenna_w": NUM_OR_NULL,
            "antenna_dbw": NUM_OR_NULL,
            "min_dbw": NUM_OR_NULL,
            "max_dbw": NUM_OR_NULL,
            "verdict": WORD,
            "source": str,
        },
        None,
    ),
    "measured": [
        {
            "id": str,
            "state": STATE,
            "frequency_hz": int,
            "loss_db": NUM_OR_NULL,
            "predicted_db": NUM_OR_NULL,
            "difference_db": NUM_OR_NULL,
            "allowed_db": NUM_OR_NULL,
            "in_window": WORD,
            "in_window_of": {"reading", "prediction"},
            "agreement": Or({"AGREES", "DIFFERS"}, None),
            "stale": bool,
            "vswr": NUM_OR_NULL,
            "antenna_vswr": NUM_OR_NULL,
            "antenna_vswr_stated": NUM_OR_NULL,
            "match": Or({"AGREES", "DIFFERS"}, None),
        }
    ],
    "findings": [str],
    "receiver": [
        {
            "name": str,
            "passive": bool,
            "gain_db": ENDS,
            "net_gain_db": ENDS,
            "window_db": ENDS,
            "margin_to_min_db": NUM_OR_NULL,
            "margin_to_max_db": NUM_OR_NULL,
            "noise_figure_db": NUM_OR_NULL,
            "system_noise_k": NUM_OR_NULL,
            "line_c": NUM,
            "cn0_dbhz": NUM_OR_NULL,
            "cn0_min_dbhz": NUM_OR_NULL,
            "carrier_dbm": NUM_OR_NULL,
            "antenna_dbi": NUM,
            "antenna_noise_k": NUM,
            "verdict": Or(WORD, None),
            "undecided_by": [str],
        }
    ],
    "feed": Or(
        {
            "port_v": ENDS,
            "antenna_v": ENDS,
            "supply_v": ENDS,
            "current_a": ENDS,
            "supervision_a": ENDS,
            "resistance_ohm": ENDS,
            "cold_c": NUM,
            "hot_c": NUM,
            "blocked_by": [str],
            "verdict": Or(WORD, None),
            "undecided_by": [str],
        },
        None,
    ),
    "retermination": Or(
        {
            "cable": str,
            "cut_m": NUM,
            "margins_db": (NUM,) * 3,
            "cuts_left": int,
            "slack_cuts": int,
        },
        None,
    ),
    "response": Or(
        [
            {
                "name": str,
                "points": int,
                "loss_db": (NUM,) * 2,
                "steps_db": (NUM,) * 2,
                "input_vswr": Or((NUM,) * 2, None),
                "delivered_db": Or((NUM,) * 2, None),
                "swing_db": NUM_OR_NULL,
                "delivered_w": NUM_OR_NULL,
            }
        ],
        None,
    ),
    "loaded_line": Or(
        {
            "cable": str,
            "vswr": NUM,
            "frequency_hz": int,
            "handbook_db": NUM,
            "exact_db": (NUM,) * 2,
            "holds": {"both", "exact only"},
        },
        None,
    ),
    "pieces": [
        {
            "cable": str,
            "impedance_ohm": NUM,
            "port_ohm": NUM,
            "length_m": NUM,
            "frequency_hz": int,
            "adds_db": NUM,
            "worst_db": NUM,
            "worst_vswr": NUM,
            "best_m": NUM,
            "worst_m": NUM,
        }
    ],
    "pads": [
        {
            "pad": STR_OR_NULL,
            "loss_db": NUM,
            "fitted": bool,
            "holds": bool,
            "reasons": [str],
        }
    ],
}

CHECK = {
    "format": {"rfplan-check/1"},
    "tool": {"name": str, "version": str},
    "inputs": {"plan_sha256": str, "catalog_sha256": str, "rules_sha256": str},
    "aircraft": {"id": str, "name": str, "serial": STR_OR_NULL, "variant": STR_OR_NULL},
    "state": STATE,
    "revision": {"letter": STR_OR_NULL, "status": STR_OR_NULL, "date": STR_OR_NULL},
    "policy": {
        "near_db": NUM,
        "cold_c": NUM,
        "hot_c": NUM,
        "agree_db": NUM,
        "stack": {"worst_case", "rss", "nominal"},
    },
    "verdict": WORD,
    "exit_code": {0, 1, 2, 3},
    "counts": {
        "paths": COUNTS,
        "findings": COUNTS,
        "open_blocking": int,
        "open_to_confirm": int,
    },
    "problems": [
        {
            "file": str,
            "line": int,
            "column": int,
            "key": STR_OR_NULL,
            "message": str,
            "expected": str,
        }
    ],
    "paths": [PATH],
    "antennas": [
        {
            "id": str,
            "type": str,
            "surface": str,
            "fs_m": NUM,
            "bl_m": NUM,
            "wl_m": NUM,
            "normal": (NUM,) * 3,
            "zone": [str],
            "overall": WORD,
        }
    ],
    "spacing": [
        {
            "a": str,
            "b": str,
            "centre_m": NUM_OR_NULL,
            "edge_m": NUM_OR_NULL,
            "skin_m": NUM_OR_NULL,
            "need_m": NUM_OR_NULL,
            "datum": Or({"centre", "edge", "skin"}, None),
            "margin_m": NUM_OR_NULL,
            "strictness": Or({"required", "advice"}, None),
            "rule": STR_OR_NULL,
            "verdict": Or(WORD, None),
        }
    ],
    "isolation": [
        {
            "source": str,
            "victim": str,
            "source_path": str,
            "victim_path": str,
            "frequency_hz": int,
            "order": int,
            "harm": {"GNSS mask", "GNSS pulse limit", "noise rise", "overload", "damage"},
            "together": {"must work together", "suppressed", "not required"},
            "level_dbm": NUM_OR_NULL,
            "limit_dbm": NUM_OR_NULL,
            "have_db": NUM_OR_NULL,
            "need_db": NUM_OR_NULL,
            "margin_db": NUM_OR_NULL,
            "model": str,
            "band_db": (NUM_OR_NULL,) * 2,
            "valid": bool,
            "verdict": Or({"PASS", "FAIL"}, None),
            "cell": {"computed", "bound", "measured", "TEST"},
        }
    ],
    "mixing": [
        {
            "order": {2, 3, 4, 5, 6, 7},
            "senders": [[str]],
            "team": [str],
            "weights": [int],
            "product_hz": (int,) * 2,
            "victims": [str],
            "victim_hz": (int,) * 2,
            "overlap_hz": (int,) * 2,
            "products": int,
        }
    ],
    "channel_pairs": [
        {
            "order": {2, 3, 4, 5, 6, 7},
            "coms": ([str],) * 2,
            "victims": [str],
            "victim_hz": (int,) * 2,
            "pairs": int,
            "all_pairs": int,
            "close_pairs": int,
            "all_close_pairs": int,
            "example": {
                "coms": (str,) * 2,
                "channels": (str,) * 2,
                "carriers_hz": (int,) * 2,
                "weights": (int,) * 2,
                "lands_hz": int,
            },
        }
    ],
    "findings": [
        {
            "id": str,
            "rule": str,
            "name": str,
            "strictness": {"required", "advice"},
            "objects": [str],
            "state": STATE,
            "value": NUM_OR_NULL,
            "limit": NUM_OR_NULL,
            "unit": str,
            "text": str,
            "remedy": str,
            "source": str,
            "source_class": str,
            "verdict": {"FAIL", "WAIVED", "ADVICE", "INCOMPLETE"},
            "waiver": Or(
                {
                    "check": STR_OR_NULL,
                    "id": str,
                    "who": str,
                    "date": STR_OR_NULL,
                    "reason": str,
                    "reopened": bool,
                    "unbound": bool,
                    "approved_data": STR_OR_NULL,
                    "accepted": Or({"have": str, "need": str}, None),
                },
                None,
            ),
            "bound": str,
            "file": STR_OR_NULL,
            "line": Or(int, None),
            "column": Or(int, None),
        }
    ],
    "open_points": [
        {
            "id": str,
            "blocking": bool,
            "object": str,
            "field": str,
            "file": str,
            "line": int,
            "text": str,
            "who": STR_OR_NULL,
            "accepted": Or({"who": str, "date": str, "reopened": bool, "unbound": bool}, None),
            "bound": STR_OR_NULL,
        }
    ],
    "groups": [
        {
            "id": str,
            "members": [str],
            "loss_db": ENDS,
            "length_m": ENDS,
            "delay_s": ENDS,
            "phase_rad": ENDS,
            "frequency_hz": Or(int, None),
            "verdict": WORD,
            "undecided_by": [str],
        }
    ],
    "measure_first": [
        {
            "object": str,
            "field": str,
            "text": str,
            "resolves": [str],
            "spread_db": NUM_OR_NULL,
        }
    ],
}


def faults(thing: Any, shape: Any, at: str = "") -> Iterator[str]:
    """Yield where a value does not have a shape; keys may be more than the shape names."""
    if isinstance(shape, Or):
        if list(faults(thing, shape.one, at)) and list(faults(thing, shape.other, at)):
            yield f"{at}: {thing!r}"
    elif isinstance(shape, dict):
        if not isinstance(thing, dict):
            yield f"{at}: {thing!r} is no object"
            return
        yield from (f"{at}.{key} is missing" for key in shape if key not in thing)
        for key, inner in shape.items():
            yield from faults(thing.get(key), inner, f"{at}.{key}")
    elif isinstance(shape, list):
        if not isinstance(thing, list) or (not shape and thing):
            yield f"{at}: {thing!r} is no such list"
            return
        for index, one in enumerate(thing):
            yield from faults(one, shape[0], f"{at}[{index}]")
    elif isinstance(shape, tuple):
        if not isinstance(thing, list) or len(thing) != len(shape):
            yield f"{at}: {thing!r} has not {len(shape)} parts"
            return
        for index, one in enumerate(thing):
            yield from faults(one, shape[index], f"{at}[{index}]")
    elif isinstance(shape, set):
        if type(thing) not in (str, int) or thing not in shape:
            yield f"{at}: {thing!r} is none of {sorted(map(str, shape))}"
    elif shape is float:
        if type(thing) not in (int, float) or not math.isfinite(thing):
            yield f"{at}: {thing!r} is no number"
    elif (shape is None and thing is not None) or (shape is not None and type(thing) is not shape):
        yield f"{at}: {thing!r} is no {shape}"


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
