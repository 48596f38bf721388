# SPDX-License-Identifier: Apache-2.0
"""How long a judgement takes, as a multiple of a calibration timed in the same process."""

from __future__ import annotations

import os
import time
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest
from command_line import fresh
from crowded_aircraft import RADIOS, crowded_catalog, crowded_facts, crowded_plan
from demo_plans import DEMOS, FOLDER, judged, plan_of
from plan_files import shipped_catalog, shipped_rulebook
from sample import sample_facts

from rfplan.analysis import known_ways
from rfplan.analysis.antenna_pairs import antenna_pairs
from rfplan.analysis.facts import gather
from rfplan.analysis.isolation import isolation
from rfplan.analysis.lacking import lacking
from rfplan.analysis.placement import hull_places
from rfplan.assess import assess
from rfplan.propose.places import grid
from rfplan.rules import MODULES
from rfplan.units import Place

pytestmark = [
    pytest.mark.thorough,
    pytest.mark.skipif(os.environ.get("RFPLAN_THOROUGH") != "1", reason="RFPLAN_THOROUGH is not 1"),
]


def best_s(run: Callable[[], object], times: int = 7) -> float:
    """Return the shortest of several runs."""
    laps: list[float] = []
    for _ in range(times):
        start = time.perf_counter()
        run()
        laps.append(time.perf_counter() - start)
    return min(laps)


def least_wall_s(*words: str) -> float:
    """Return the shortest of seven times that a command in a process of its own takes."""
    laps: list[float] = []
    for _ in range(7):
        start = time.perf_counter()
        fresh(*words)
        laps.append(time.perf_counter() - start)
    return min(laps)


@pytest.fixture(scope="module")
def calibration_s() -> float:
    """Time five thousand interpolations of 21 points; about 7 ms."""
    at, table = np.linspace(1.0, 2.0, 21), np.linspace(0.0, 3.0, 8)

    def interpolate() -> None:
        for _ in range(5000):
            np.exp(np.interp(np.log(at), table, table))

    return best_s(interpolate)


@pytest.mark.parametrize("demo", DEMOS)
def test_judging_a_demo_aircraft_takes_a_few_calibrations(demo: str, calibration_s: float) -> None:
    plan = plan_of(demo)
    judged(plan)
    assert best_s(lambda: judged(plan)) < 3.5 * calibration_s


@pytest.mark.parametrize("demo", DEMOS)
def test_moving_one_antenna_takes_a_few_calibrations_too(demo: str, calibration_s: float) -> None:
    plan = plan_of(demo)
    antenna = plan.design.antennas["gnss1"]

    def moved(step: int) -> None:
        at = Place(antenna.at.fs_m + 0.01 * step, antenna.at.bl_m, antenna.at.wl_m)
        antennas = plan.design.antennas.having("gnss1", replace(antenna, at=at))
        judged(replace(plan, design=replace(plan.design, antennas=antennas)))

    steps = iter(range(100))
    assert best_s(lambda: moved(next(steps))) < 3.5 * calibration_s


def test_one_sheet_of_a_demo_aircraft_takes_little_more_than_starting(
    calibration_s: float, tmp_path: Path
) -> None:
    """0.6 s on a machine that calibrates in 6.5 ms, even where Python compiles all files anew."""
    file = tmp_path / "loss.html"
    words = ("sheet", str(FOLDER / "amphibian"), "loss_budget", "-o", str(file), "--force")
    start_s, sheet_s = least_wall_s("--version"), least_wall_s(*words)
    print(f"one sheet {1e3 * (sheet_s - start_s):.0f} ms beyond {1e3 * start_s:.0f} ms")
    assert file.stat().st_size > 10_000
    assert sheet_s - start_s < 92.0 * calibration_s


def crowded_s(share: int) -> float:
    """Return how long it takes to judge an aircraft with a share of forty antennas, 40 in all."""
    radios = {radio: max(1, many * share // 40) for radio, many in RADIOS.items()}
    plan, catalog, rulebook = crowded_plan(radios), crowded_catalog(radios), shipped_rulebook()
    return best_s(lambda: assess(plan, catalog, rulebook), times=3)


def test_forty_antennas_are_judged_in_time_and_cost_no_more_than_their_pairs(
    calibration_s: float,
) -> None:
    """2 s on a machine that calibrates in 7 ms; twice the antennas, at most four times as long."""
    forty_s, eighty_s = crowded_s(40), crowded_s(80)
    print(f"40 antennas {1e3 * forty_s:.0f} ms, 80 antennas {1e3 * eighty_s:.0f} ms")
    assert forty_s < 285.0 * calibration_s
    assert eighty_s < 4.4 * forty_s


def test_a_step_of_one_antenna_renews_its_pairs_in_time(calibration_s: float) -> None:
    """15 ms on a machine that calibrates in 7 ms, ways along the skin and ten frequencies."""
    scene, frequency_hz = crowded_facts().scene, np.linspace(118e6, 1600e6, 10)
    one, *others = scene.fitted

    def step() -> None:
        known_ways._known.clear()
        isolation(antenna_pairs(scene, [(one, other) for other in others]), frequency_hz)

    step_s = best_s(step)
    print(f"39 pairs of one antenna {1e3 * step_s:.1f} ms")
    assert step_s < 2.1 * calibration_s


def test_room_at_ten_thousand_places_takes_a_few_calibrations(calibration_s: float) -> None:
    facts = sample_facts()
    scene = facts.scene
    fs, bl = np.meshgrid(np.linspace(1.6, 4.0, 100), np.linspace(-0.5, 0.5, 100))
    places = hull_places(scene.hull, "top", fs.ravel(), bl.ravel())
    rooms = [module.room for module in MODULES if hasattr(module, "room")]
    slow = {"rf204_behind_opaque_skin", "rf205_ground_plane_small"}  # 320 points a place
    fast = [room for room in rooms if room.__module__.rpartition(".")[2] not in slow]
    assert len(fast) >= 5

    def everywhere() -> None:
        for room in fast:
            room(facts, scene.fitted["gnss1"], places)

    assert best_s(everywhere) < 4.0 * calibration_s


@pytest.mark.parametrize("antenna", ["com1", "xpdr2_b", "dme_b"])
def test_isolation_at_five_thousand_places_is_worked_out_in_time(
    antenna: str, calibration_s: float
) -> None:
    """0.5 s on a machine that calibrates in 7 ms, no way along the skin being known yet."""
    plan = plan_of("twin")
    facts = gather(plan, shipped_catalog(), shipped_rulebook())
    places = grid(facts.scene.hull, "belly", 0.0508, np.zeros(2))
    assert len(places.point_m) > 5000

    def everywhere() -> None:
        known_ways._known.clear()
        lacking(facts, facts.scene.fitted[antenna], places)

    everywhere_s = best_s(everywhere, times=3)
    print(f"isolation of {antenna} at {len(places.point_m)} places {1e3 * everywhere_s:.0f} ms")
    assert everywhere_s < 71.0 * calibration_s
