# SPDX-License-Identifier: Apache-2.0
"""The shape of the answer for other programs: every key with the type of its value."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

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
            "harm": {
                "GNSS mask",
                "GNSS pulse limit",
                "noise rise",
                "in band",
                "overload",
                "damage",
            },
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
            "undecided_by": [str],
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
