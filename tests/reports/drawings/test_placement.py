# SPDX-License-Identifier: Apache-2.0
"""The placement drawing: to scale, inert, the same bytes each time, no text over another."""

from __future__ import annotations

import math
import re
from dataclasses import replace
from itertools import combinations, pairwise
from xml.etree import ElementTree

import pytest
from demo_plans import DEMOS, assessed
from sample import sample_assessment, sample_plan
from sheet_tables import hostile_plan

from rfplan.model.assessment import Assessment
from rfplan.model.plan import State
from rfplan.model.record import ById
from rfplan.reports.context import Context
from rfplan.reports.drawing_svg import text_width
from rfplan.reports.drawings.arrangement import windows
from rfplan.reports.drawings.marks import subject_of
from rfplan.reports.drawings.page import HEIGHT
from rfplan.reports.drawings.placement import placement_svg

SVG = "{http://www.w3.org/2000/svg}"


def texts(svg: str) -> list[ElementTree.Element]:
    return list(ElementTree.fromstring(svg).iter(f"{SVG}text"))


def words(svg: str) -> str:
    return "\n".join(one.text or "" for one in texts(svg))


def box(one: ElementTree.Element) -> tuple[float, float, float, float]:
    """Return the paper a text takes, on the narrow side."""
    x, y, size = (float(one.get(key, "")) for key in ("x", "y", "font-size"))
    width = text_width(one.text or "", size) * 0.85
    left = {"middle": x - width / 2.0, "end": x - width}.get(one.get("text-anchor", ""), x)
    return left, y - size * 0.7, left + width, y


@pytest.mark.parametrize("demo", DEMOS)
def test_the_same_plan_gives_the_same_bytes(demo: str, context: Context) -> None:
    assessment = assessed(demo)
    assert placement_svg(assessment, context) == placement_svg(assessment, context)


@pytest.mark.parametrize("demo", DEMOS)
@pytest.mark.parametrize("units", ["in", "mm"])
def test_no_text_is_written_over_another(demo: str, units: str, context: Context) -> None:
    svg = placement_svg(assessed(demo), replace(context, units=units))
    shown = [(box(one), one.text) for one in texts(svg) if (one.text or "").strip()]
    clashes = [
        (mine, other)
        for (a, mine), (b, other) in combinations(shown, 2)
        if a[0] < b[2] and b[0] < a[2] and a[1] < b[3] and b[1] < a[3]
    ]
    assert not clashes


@pytest.mark.parametrize("demo", DEMOS)
def test_all_text_stays_inside_its_page(demo: str, context: Context) -> None:
    for one in texts(placement_svg(assessed(demo), context)):
        left, top, right, bottom = box(one)
        assert left >= 10.0 and right <= 410.0
        assert top % HEIGHT >= 10.0 and bottom % HEIGHT <= 287.0


def test_nothing_is_fetched_and_nothing_runs(context: Context) -> None:
    svg = placement_svg(sample_assessment(hostile_plan()), context)
    root = ElementTree.fromstring(svg)
    tags = {one.tag.removeprefix(SVG) for one in root.iter()}
    assert not tags & {"script", "image", "use", "a", "foreignObject", "animate", "set", "link"}
    for one in root.iter():
        assert not [key for key in one.attrib if key.startswith("on") or "href" in key]
        for value in one.attrib.values():
            assert "javascript" not in value.lower()
    links = re.findall(r"url\(([^)]*)\)", svg)
    assert links and all(link.startswith("#") for link in links)
    assert svg.count("http") == 1


def test_hostile_words_are_shown_and_inert(context: Context) -> None:
    svg = placement_svg(sample_assessment(hostile_plan()), context)
    assert "<script" not in svg
    assert all((one.text or "").isprintable() for one in texts(svg))


@pytest.mark.parametrize("demo", DEMOS)
def test_every_antenna_has_a_detail_with_its_place(demo: str, context: Context) -> None:
    assessment = assessed(demo)
    told = words(placement_svg(assessment, context))
    for antenna in assessment.antennas:
        fs_m, bl_m, wl_m = (one / 0.0254 for one in antenna.point_m)
        side = "" if abs(bl_m) < 1e-3 else "R" if bl_m > 0.0 else "L"
        place = f"FS {fs_m:.1f}   BL {side}{abs(bl_m):.1f}   WL {wl_m:.1f}   in"
        assert place in told
    assert told.count("Section, seen from behind") == len(assessment.antennas)


def test_distances_are_told_to_a_tenth_of_an_inch(context: Context) -> None:
    told = words(placement_svg(assessed("amphibian"), context))
    assert (
        "6.0 in aft of fs92; 13.0 in left of the centre line; 3.7 in clear of Z3 windshield" in told
    )


def test_the_views_are_true_to_scale(context: Context) -> None:
    subject = subject_of(assessed("amphibian"), context)
    above, left, below = windows(subject, 0.0)
    assert above.scale == left.scale == below.scale == 50
    one, other = above.of((1.0, 0.0, 0.0)), above.of((2.0, 0.0, 0.0))
    assert math.dist(one, other) == pytest.approx(20.0)
    assert left.of((1.0, 0.0, 0.0))[0] == one[0] == below.of((1.0, 0.0, 0.0))[0]
    assert above.of((1.0, 0.5, 0.0))[1] < one[1] < above.of((1.0, -0.5, 0.0))[1]
    assert below.of((1.0, 0.5, 0.0))[1] > below.of((1.0, -0.5, 0.0))[1]


@pytest.mark.parametrize("demo", DEMOS)
def test_the_views_do_not_run_into_each_other(demo: str, context: Context) -> None:
    placed = windows(subject_of(assessed(demo), context), 0.0)
    for one, other in pairwise(placed):
        assert one.bottom + 16.0 < other.top
    assert placed[-1].bottom + 16.0 < HEIGHT - 36.0


def test_the_title_block_names_plan_revision_and_hash(clean: Assessment, context: Context) -> None:
    told = words(placement_svg(clean, context))
    assert "sample/A/design/placement" in told
    assert "DRAFT" in told
    assert context.hashes.plan[:20] in told
    assert "1 of 2" in told and "2 of 2" in told
    assert "Planning aid." in told


def test_a_plan_without_antennas_is_one_page(context: Context) -> None:
    plan = sample_plan()
    bare = replace(plan.design, antennas=ById(), cables=ById(), paths=ById())
    svg = placement_svg(sample_assessment(replace(plan, design=bare)), context)
    assert 'height="297mm"' in svg


@pytest.mark.parametrize("state", State)
def test_every_state_of_a_plan_can_be_drawn(state: State, context: Context) -> None:
    assert "1 of " in words(placement_svg(sample_assessment(sample_plan(state=state)), context))
