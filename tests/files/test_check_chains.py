# SPDX-License-Identifier: Apache-2.0
"""A pair of antennas behind one port: two paths that part in a combiner, and nowhere else."""

from __future__ import annotations

from pathlib import Path

import pytest
from plan_files import PLAN, edited, problems_of, shipped_catalog, shipped_rulebook, write_aircraft

from rfplan.files.load import load_plan

SECOND_ANTENNA = "  nav: {type: nav_whip_v, on: top, at: 200 0 in}\n"
PATHS = (
    "  vor1: {chain: [vhf1.vor, w3, split.a, w5, nav]}\n"
    "  vor2: {chain: [vhf2.vor, w4, split.b, w5, nav]}\n"
)


def with_pair(left: str, right: str, type: str = "combiner_2") -> str:
    """Return the plan with two whips, and the two chains of one receiver to them."""
    paths = f"  left: {{chain: [{left}]}}\n  right: {{chain: [{right}]}}\n"
    return edited(
        PLAN,
        ("split: {type: splitter_2, at: aft}", f"comb: {{type: {type}, at: aft}}"),
        (SECOND_ANTENNA, SECOND_ANTENNA + SECOND_ANTENNA.replace("nav:", "nav_r:")),
        (PATHS, paths),
    )


def test_two_blades_join_in_a_combiner_and_share_the_line_to_their_receiver(tmp_path: Path) -> None:
    plan = with_pair(
        "vhf1.vor, w3, comb.a, w4, nav",
        "vhf1.vor, w3, comb.b, w5, nav_r",
    )
    write_aircraft(tmp_path, plan)
    loaded = load_plan(tmp_path, catalog=shipped_catalog(), rulebook=shipped_rulebook()).plan
    assert [path.chain[-1] for path in loaded.design.paths.values()][-2:] == ["nav", "nav_r"]


@pytest.mark.parametrize(
    ("left", "right", "type", "said"),
    [
        (
            "vhf1.vor, w3, comb.a, w4, nav",
            "vhf1.vor, w3, comb.b, w5, nav_r",
            "splitter_2",
            "right.chain.1: 'vhf1.vor' is already used by the path left",
        ),
        (
            "vhf1.vor, w3, comb.a, w4, nav",
            "vhf1.vor, w3, comb.a, w4, nav_r",
            "combiner_2",
            "right.chain.1: 'vhf1.vor' is already used by the path left",
        ),
        (
            "vhf1.vor, w3, comb.a, w4, nav",
            "vhf1.vor, w3, comb.b, w4, nav_r",
            "combiner_2",
            "right.chain.4: 'w4' is already fed by 'comb.a' in the path left",
        ),
    ],
)
def test_they_part_nowhere_else(
    left: str, right: str, type: str, said: str, tmp_path: Path
) -> None:
    write_aircraft(tmp_path, with_pair(left, right, type))
    assert any(said in problem for problem in problems_of(tmp_path)), problems_of(tmp_path)
