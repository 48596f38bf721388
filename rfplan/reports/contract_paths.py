# SPDX-License-Identifier: Apache-2.0
"""One path in the answer of `rfplan check --json`."""

from __future__ import annotations

from rfplan.model.assessment import (
    Assessment,
    BandLoss,
    CableRun,
    ChainItem,
    Corner,
    PathAssessment,
    PathLoss,
    Reading,
    Receive,
    Transmit,
    Window,
)
from rfplan.model.findings import Verdict
from rfplan.reports.contract_receivers import feed_json, reception_json, retermination_json
from rfplan.reports.json_text import Json, hertz, rounded

_TERMS = (
    "routed_m",
    "drops_m",
    "drip_loop_m",
    "service_loops_m",
    "retermination_m",
    "rounding_m",
    "cut_m",
    "finished_m",
)


def path_json(path: PathAssessment, assessment: Assessment) -> Json:
    """Return everything about one path."""
    return {
        "id": path.id,
        "radio": path.radio,
        "unit": path.unit,
        "port": path.port,
        "antenna": path.antenna,
        "direction": path.direction,
        "overall": str(path.overall),
        "chain": [_item(item) for item in path.chain],
        "mated_pairs": path.mated_pairs,
        "cables": [_cable(assessment.cables[id]) for id in path.cables],
        "bands": [_band(band) for band in path.bands],
        "loss": _loss(path.loss),
        "transmit": None if path.transmit is None else _transmit(path.transmit),
        "receive": [_receive(one) for one in path.receive],
        "measured": [_reading(reading) for reading in path.readings],
        "findings": list(path.findings),
        "receiver": [reception_json(band) for band in path.receiver],
        "feed": None if path.feed is None else feed_json(path.feed),
        "retermination": _new_plugs(path),
    }


def _new_plugs(path: PathAssessment) -> Json | None:
    return None if path.retermination is None else retermination_json(path.retermination)


def _item(item: ChainItem) -> Json:
    return {
        "id": item.id,
        "kind": item.kind,
        "type": item.type,
        "loss_db": rounded(item.loss_db),
        "basis": item.basis,
        "extrapolated": item.extrapolated,
        "extrapolated_in": list(item.extrapolated_in),
        "source": item.source,
        "source_class": item.source_class,
        "impedance_ohm": rounded(item.impedance_ohm),
        "attenuation_db_per_m": rounded(item.attenuation_db_per_m),
    }


def _cable(run: CableRun) -> Json:
    return {
        "id": run.id,
        "type": run.type,
        "nodes": list(run.nodes),
        **{term: rounded(getattr(run.terms, term, None)) for term in _TERMS},
        "as_built_m": rounded(run.as_built_m),
        "mass_kg": rounded(run.mass_kg),
        "least_m": rounded(run.length_m.least),
        "nominal_m": rounded(run.length_m.nominal),
        "most_m": rounded(run.length_m.most),
        "ageing_ratio": rounded(run.ageing_ratio),
    }


def _band(band: BandLoss) -> Json:
    return {
        "name": band.name,
        "low_hz": hertz(band.low_hz),
        "mid_hz": hertz(band.mid_hz),
        "high_hz": hertz(band.high_hz),
        "nominal_db": _numbers(band.nominal_db),
        "min_corner": _corner(band.min_corner),
        "max_corner": _corner(band.max_corner),
        "rss_db": _numbers(band.rss_db),
        "judged_db": _numbers(band.judged_db),
        "window": _window(band.window),
        "margin_to_min_db": rounded(band.margin_to_min_db),
        "margin_to_max_db": rounded(band.margin_to_max_db),
        "nominal_verdict": str(band.nominal_verdict),
        "verdict": str(band.verdict),
        "near": band.near,
        "bounded": band.bounded,
        "undecided_by": list(band.undecided_by),
        "mismatch_db": None if band.mismatch_db is None else _numbers(band.mismatch_db),
        "ageing_db": rounded(band.ageing_db),
    }


def _numbers(values: tuple[float | None, ...]) -> list[float | None]:
    return [rounded(value) for value in values]


def _corner(corner: Corner) -> Json:
    return {
        "loss_db": rounded(corner.loss_db),
        "temperature_c": rounded(corner.temperature_c),
        "frequency_hz": hertz(corner.frequency_hz),
    }


def _window(window: Window) -> Json:
    return {
        "min_db": rounded(window.min_db),
        "max_db": rounded(window.max_db),
        "min_stated": window.min_stated,
        "max_stated": window.max_stated,
        "plugs_included": window.plugs_included,
        "source": window.source,
        "datum": window.datum,
    }


def _loss(loss: PathLoss) -> Json:
    return {
        "verdict": str(loss.verdict),
        "near": loss.near,
        "governing_band": loss.governing_band,
        "shortest_m": rounded(loss.shortest_m),
        "longest_m": rounded(loss.longest_m),
        "varying_cable": loss.varying_cable,
    }


def _transmit(sent: Transmit) -> Json:
    """Power at the antenna; the word is PASS where nothing limits it, both limits being null."""
    return {
        "unit_w": rounded(sent.unit_w),
        "antenna_w": rounded(sent.antenna_w),
        "antenna_dbw": rounded(sent.antenna_dbw),
        "min_dbw": rounded(sent.min_dbw),
        "max_dbw": rounded(sent.max_dbw),
        "verdict": str(sent.verdict or Verdict.PASS),
        "source": sent.source,
        "antenna_most_w": rounded(sent.antenna_most_w),
    }


def _receive(received: Receive) -> Json:
    return {
        "name": received.name,
        "least_dbm": rounded(received.least_dbm),
        "most_dbm": rounded(received.most_dbm),
        "min_dbm": rounded(received.min_dbm),
        "max_dbm": rounded(received.max_dbm),
        "verdict": str(received.verdict or Verdict.PASS),
        "source": received.source,
    }


def _reading(reading: Reading) -> Json:
    return {
        "id": reading.id,
        "state": reading.state,
        "frequency_hz": hertz(reading.frequency_hz),
        "loss_db": rounded(reading.loss_db),
        "predicted_db": rounded(reading.predicted_db),
        "difference_db": rounded(reading.difference_db),
        "allowed_db": rounded(reading.allowed_db),
        "in_window": str(reading.in_window),
        "in_window_of": reading.in_window_of,
        "agreement": reading.agreement,
        "stale": reading.stale,
        "vswr": rounded(reading.vswr),
        "antenna_vswr": rounded(reading.antenna_vswr),
        "antenna_vswr_stated": rounded(reading.antenna_vswr_stated),
        "match": reading.match,
    }
