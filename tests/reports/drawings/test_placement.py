# SPDX-License-Identifier: Apache-2.0
"""The placement drawing: to scale, inert, the same bytes each time, no text over another."""

from __future__ import annotations

import math
import re
from collections.abc import Iterator
from dataclasses import replace
from itertools import combinations, pairwise
from xml.etree import ElementTree

import pytest
from crowded_aircraft import crowded_catalog, crowded_plan
from demo_plans import DEMOS, assessed
from plan_files import shipped_rulebook
from sample import sample_assessment, sample_plan
from sheet_tables import hostile_plan

from rfplan.assess import assess
from rfplan.model.assessment import Assessment
from rfplan.model.plan import Person, State
from rfplan.model.record import ById
from rfplan.reports.context import Context
from rfplan.reports.drawing import text_width
from rfplan.reports.drawings.arrangement import view_pages
from rfplan.reports.drawings.marks import subject_of
from rfplan.reports.drawings.page import BORDER, FLOOR, FRAME, HEIGHT, WIDTH
from rfplan.reports.drawings.paper import Window
from rfplan.reports.drawings.placement import placement, placement_svg
from rfplan.reports.paper import FOOT_MM, HEAD_MM, MARGIN_MM, SIZES_MM
from rfplan.reports.strokes import LETTERINGS, PENS, XY, Lines, Picture, Points, Text

SVG = "{http://www.w3.org/2000/svg}"
NARROW = 0.85
"""Widths are told on the wide side; a text takes at least so much of it."""


def words(pictures: tuple[Picture, ...]) -> str:
    return "\n".join(text.text for picture in pictures for text in picture.texts)


def box(text: Text) -> tuple[float, float, float, float]:
    """Return the paper a text takes, on the narrow side."""
    (x, y), size = text.at, text.size
    width = text_width(text.text, size) * NARROW
    left = {"middle": x - width / 2.0, "end": x - width}.get(text.anchor, x)
    return left, y - size * 0.7, left + width, y


def clashes(picture: Picture) -> list[tuple[str, str]]:
    shown = [(box(text), text.text) for text in picture.texts]
    return [
        (mine, other)
        for (a, mine), (b, other) in combinations(shown, 2)
        if a[0] < b[2] and b[0] < a[2] and a[1] < b[3] and b[1] < a[3]
    ]


@pytest.fixture(scope="module")
def crowded() -> Assessment:
    """Forty antennas on one hull."""
    return assess(crowded_plan(), crowded_catalog(), shipped_rulebook())


def views(demo: str, context: Context) -> list[Window]:
    pages = view_pages(subject_of(assessed(demo), context))
    return [window for page in pages for window in page]


# --- what can be read ---------------------------------------------------------------------------


@pytest.mark.parametrize("demo", DEMOS)
@pytest.mark.parametrize("units", ["in", "mm"])
def test_no_text_is_written_over_another(demo: str, units: str, context: Context) -> None:
    for picture in placement(assessed(demo), replace(context, units=units)):
        assert clashes(picture) == []


@pytest.mark.parametrize("demo", DEMOS)
@pytest.mark.parametrize("units", ["in", "mm"])
def test_all_text_stays_inside_its_frame(demo: str, units: str, context: Context) -> None:
    for picture in placement(assessed(demo), replace(context, units=units)):
        for left, top, right, bottom in map(box, picture.texts):
            assert left >= BORDER and right <= WIDTH - BORDER
            assert top >= BORDER and bottom <= HEIGHT - BORDER


@pytest.mark.parametrize("demo", DEMOS)
def test_every_line_and_text_has_a_pen_that_is_known(demo: str, context: Context) -> None:
    for picture in placement(assessed(demo), context):
        assert {shape.pen for shape in picture.shapes} <= set(PENS)
        assert {text.lettering for text in picture.texts} <= set(LETTERINGS)


@pytest.mark.parametrize("demo", DEMOS)
def test_every_antenna_has_a_detail_with_its_place(demo: str, context: Context) -> None:
    assessment = assessed(demo)
    told = words(placement(assessment, context))
    for antenna in assessment.antennas:
        fs_m, bl_m, wl_m = (one / 0.0254 for one in antenna.point_m)
        side = "" if abs(bl_m) < 1e-3 else "R" if bl_m > 0.0 else "L"
        place = f"FS {fs_m:.1f}   BL {side}{abs(bl_m):.1f}   WL {wl_m:.1f}   in"
        assert place in told
    assert told.count("Section, seen from behind") == len(assessment.antennas)


def test_distances_are_told_to_a_tenth_of_an_inch(context: Context) -> None:
    told = words(placement(assessed("amphibian"), context))
    assert (
        "6.0 in aft of fs92; 13.0 in left of the centre line; 3.7 in clear of Z3 windshield" in told
    )


def test_forty_antennas_are_all_listed_and_none_over_another(
    crowded: Assessment, context: Context
) -> None:
    pictures = placement(crowded, context)
    told = words(pictures).splitlines()
    assert len(crowded.antennas) == 40
    for antenna in crowded.antennas:
        assert told.count(antenna.id) >= 1
    assert "Antennas, places in inches, continued" in told
    legend = next(picture for picture in pictures if "Notes" in words((picture,)).splitlines())
    assert clashes(legend) == []


def test_the_title_block_names_plan_revision_and_hash(clean: Assessment, context: Context) -> None:
    told = words(placement(clean, context))
    assert "sample/A/design/placement" in told
    assert "DRAFT" in told
    assert context.hashes.plan[:12] in told
    assert "1 of 6" in told and "6 of 6" in told
    assert "Planning aid:" in told
    assert "True to scale where this frame is 250 mm wide." in told


def test_who_stands_for_a_plan_is_named_and_a_missing_name_is_a_line(context: Context) -> None:
    people = ById({"prepared": Person("A. One", "technician"), "checked": Person("?")})
    told = words(placement(sample_assessment(sample_plan(people=people)), context)).splitlines()
    assert "A. One" in told and "technician" in told
    pages = sum(line.endswith(" of 6") for line in told)
    assert told.count("_" * 22) == 2 * pages > 0


# --- true to scale ------------------------------------------------------------------------------


def test_the_views_are_true_to_scale(context: Context) -> None:
    above, below, left = views("amphibian", context)
    assert above.scale == left.scale == below.scale == 50
    one, other = above.of((1.0, 0.0, 0.0)), above.of((2.0, 0.0, 0.0))
    assert math.dist(one, other) == pytest.approx(20.0)
    assert left.of((1.0, 0.0, 0.0))[0] == one[0] == below.of((1.0, 0.0, 0.0))[0]
    assert above.of((1.0, 0.5, 0.0))[1] < one[1] < above.of((1.0, -0.5, 0.0))[1]
    assert below.of((1.0, 0.5, 0.0))[1] > below.of((1.0, -0.5, 0.0))[1]


def test_the_base_of_an_antenna_is_drawn_as_large_as_it_is(context: Context) -> None:
    picture = placement(assessed("amphibian"), context)[3]
    xs, ys = zip(*next(_runs(picture, "new")), strict=True)
    # 4.7 by 3.0 in at 1:15
    assert max(xs) - min(xs) == pytest.approx(4.7 * 25.4 / 15.0)
    assert max(ys) - min(ys) == pytest.approx(3.0 * 25.4 / 15.0)


def test_a_dimension_line_does_not_lie_on_the_edge_of_a_zone(context: Context) -> None:
    picture = placement(assessed("amphibian"), context)[3]
    edges = [x for run in _runs(picture, "zone") for x, _ in run]
    upright = [one[0] for one, other in _runs(picture, "dimension") if _rise(one, other) > 15.0]
    assert len(upright) == 2  # the way to the centre line of both antennas
    assert all(abs(x - edge) > 1.3 for x in upright for edge in edges)


def _runs(picture: Picture, pen: str) -> Iterator[Points]:
    for shape in picture.shapes:
        if isinstance(shape, Lines) and shape.pen == pen:
            yield from shape.runs


def _rise(one: XY, other: XY) -> float:
    return abs(other[1] - one[1]) if abs(other[0] - one[0]) < 1e-6 else 0.0


@pytest.mark.parametrize("paper", SIZES_MM)
def test_a_page_is_printed_on_either_paper_without_being_scaled(paper: str) -> None:
    width, height = SIZES_MM[paper]  # type: ignore[index]
    assert width - 2.0 * MARGIN_MM >= WIDTH
    assert height - HEAD_MM - FOOT_MM >= HEIGHT
    assert (WIDTH - 2.0 * BORDER, HEIGHT - 2.0 * BORDER) == FRAME == (250.0, 182.0)


@pytest.mark.parametrize("demo", DEMOS)
def test_the_views_of_a_page_do_not_run_into_each_other(demo: str, context: Context) -> None:
    for page in view_pages(subject_of(assessed(demo), context)):
        for one, other in pairwise(page):
            assert one.bottom + 16.0 < other.top
        assert page[-1].bottom + 16.0 < FLOOR
        assert all(BORDER < one.left < one.right < WIDTH - BORDER for one in page)


# --- the file -----------------------------------------------------------------------------------


@pytest.mark.parametrize("demo", DEMOS)
def test_the_same_plan_gives_the_same_bytes(demo: str, context: Context) -> None:
    assessment = assessed(demo)
    assert placement_svg(assessment, context) == placement_svg(assessment, context)


@pytest.mark.parametrize("demo", DEMOS)
def test_every_text_of_every_page_is_in_the_file(demo: str, context: Context) -> None:
    assessment = assessed(demo)
    root = ElementTree.fromstring(placement_svg(assessment, context))
    found = [one.text for one in root.iter(f"{SVG}text")]
    drawn = [text.text for one in placement(assessment, context) for text in one.texts]
    assert found == drawn


def test_nothing_is_fetched_and_nothing_runs(context: Context) -> None:
    svg = placement_svg(sample_assessment(hostile_plan()), context)
    root = ElementTree.fromstring(svg)
    tags = {one.tag.removeprefix(SVG) for one in root.iter()}
    assert tags == {
        *("svg", "title", "style", "g", "defs", "clipPath", "rect", "path", "circle", "text")
    }
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
    texts = ElementTree.fromstring(svg).iter(f"{SVG}text")
    assert all((one.text or "").isprintable() for one in texts)


def test_a_plan_without_antennas_has_views_and_legend_alone(context: Context) -> None:
    plan = sample_plan()
    bare = replace(plan.design, antennas=ById(), cables=ById(), paths=ById())
    pictures = placement(sample_assessment(replace(plan, design=bare)), context)
    told = words(pictures).splitlines()
    assert told.count("Placement of antennas: legend") == 1
    assert "Section, seen from behind" not in words(pictures)
    assert f"{len(pictures)} of {len(pictures)}" in told


@pytest.mark.parametrize("state", State)
def test_every_state_of_a_plan_can_be_drawn(state: State, context: Context) -> None:
    assert "1 of " in words(placement(sample_assessment(sample_plan(state=state)), context))
