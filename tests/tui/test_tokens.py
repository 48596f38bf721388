# SPDX-License-Identifier: Apache-2.0
"""Contrast by the WCAG formula; colour vision by the linear dichromat model of Viénot et al. 1999.

Both formulas and their matrices are from memory; the projection planes are computed here.
"""

from __future__ import annotations

import subprocess
import sys
from itertools import combinations, pairwise

import numpy as np
import pytest

from rfplan.model.findings import Verdict
from rfplan.reports.cells import DIM
from rfplan.tui.tokens import (
    ATTRIBUTES_ONLY,
    DARK,
    LIGHT,
    TEXT_ON,
    Ground,
    Style,
    Theme,
    Token,
    token_of,
)

LMS = np.array(
    [[17.8824, 43.5161, 4.11935], [3.45565, 27.1554, 3.86714], [0.0299566, 0.184309, 1.46709]]
)
XYZ = np.array(
    [
        [0.4124564, 0.3575761, 0.1804375],
        [0.2126729, 0.7151522, 0.0721750],
        [0.0193339, 0.1191920, 0.9503041],
    ]
)
WHITE, BLUE, RED = LMS @ np.ones(3), LMS[:, 2], LMS[:, 0]
MISSING_CONE = {
    "protan": (0, (WHITE, BLUE)),
    "deutan": (1, (WHITE, BLUE)),
    "tritan": (2, (WHITE, RED)),
}
VERDICTS = (Token.PASS, Token.NEAR, Token.FAIL, Token.WAIVED, Token.INCOMPLETE)
COLOURED = (DARK, LIGHT)


def linear(colour: str | None) -> np.ndarray:
    assert colour is not None
    value = np.array([int(colour[i : i + 2], 16) for i in (1, 3, 5)]) / 255.0
    return np.where(value <= 0.04045, value / 12.92, ((value + 0.055) / 1.055) ** 2.4)


def contrast(one: str | None, other: str | None) -> float:
    dark, bright = sorted(float(linear(colour) @ XYZ[1]) for colour in (one, other))
    return (bright + 0.05) / (dark + 0.05)


def lab(rgb: np.ndarray) -> np.ndarray:
    share = XYZ @ np.clip(rgb, 0.0, 1.0) / XYZ.sum(axis=1)
    x, y, z = np.where(share > 216 / 24389, np.cbrt(share), (24389 / 27 * share + 16) / 116)
    return np.array([116 * y - 16, 500 * (x - y), 200 * (y - z)])


def simulation(kind: str) -> np.ndarray:
    """The missing cone answers as the two others do on a plane through black and two colours."""
    missing, anchors = MISSING_CONE[kind]
    others = [cone for cone in range(3) if cone != missing]
    weights = np.linalg.solve(
        np.array([anchor[others] for anchor in anchors]),
        np.array([anchor[missing] for anchor in anchors]),
    )
    seen = np.eye(3)
    seen[missing] = 0.0
    seen[missing, others] = weights
    return np.asarray(np.linalg.inv(LMS) @ seen @ LMS)


@pytest.mark.parametrize("theme", COLOURED, ids=lambda theme: theme.name)
@pytest.mark.parametrize("ground", Ground)
def test_every_text_reads_on_every_ground_it_is_used_on(theme: Theme, ground: Ground) -> None:
    for token in TEXT_ON[ground]:
        style = theme.style(token, ground)
        assert contrast(style.fg, style.bg) >= 4.5, (token, ground)


@pytest.mark.parametrize("theme", COLOURED, ids=lambda theme: theme.name)
@pytest.mark.parametrize("kind", MISSING_CONE)
def test_no_two_verdicts_look_alike_to_any_eye(theme: Theme, kind: str) -> None:
    simulated = simulation(kind)
    for one, other in combinations(VERDICTS, 2):
        seen = [lab(simulated @ linear(theme.inks[token].fg)) for token in (one, other)]
        assert np.linalg.norm(seen[0] - seen[1]) >= 15.0, (one, other)


@pytest.mark.parametrize("kind", MISSING_CONE)
def test_the_simulated_eye_sees_grey_as_it_is(kind: str) -> None:
    assert simulation(kind) @ np.full(3, 0.4) == pytest.approx(np.full(3, 0.4))


@pytest.mark.parametrize("theme", COLOURED, ids=lambda theme: theme.name)
def test_the_room_map_is_a_ramp_of_lightness(theme: Theme) -> None:
    grounds = (Ground.HULL, Ground.ROOM_1, Ground.ROOM_2, Ground.ROOM_3, Ground.ROOM_4)
    light = [lab(linear(theme.grounds[ground].bg))[0] for ground in grounds]
    sense = 1.0 if theme is DARK else -1.0
    steps = [sense * (after - before) for before, after in pairwise(light)]
    assert min(steps[1:]) >= 3.0
    assert steps[0] > 0.0


@pytest.mark.parametrize("theme", COLOURED, ids=lambda theme: theme.name)
def test_the_hull_stands_out_from_the_wing_and_the_wing_from_the_ground(theme: Theme) -> None:
    line, wing, inner = (
        contrast(theme.inks[token].fg, theme.grounds[Ground.BG].bg)
        for token in (Token.LINE, Token.WING, Token.INNER)
    )
    assert line >= 7.0
    assert line > wing > inner >= 1.5
    assert wing >= 2.4


def test_the_plain_theme_has_no_colour_at_all() -> None:
    for token in Token:
        for ground in Ground:
            style = ATTRIBUTES_ONLY.style(token, ground)
            assert style.fg is None
            assert style.bg is None


def test_the_plain_theme_tells_bad_verdicts_by_attributes() -> None:
    looks = {token: ATTRIBUTES_ONLY.style(token) for token in VERDICTS}
    assert looks[Token.FAIL] == Style(bold=True, reverse=True)
    assert looks[Token.NEAR] == Style(bold=True, underline=True)
    assert looks[Token.WAIVED] == Style(underline=True)
    assert looks[Token.PASS] == Style()
    assert ATTRIBUTES_ONLY.style(Token.ON_ACCENT, Ground.ACCENT).reverse


def test_every_verdict_and_every_token_of_a_sheet_has_an_ink() -> None:
    assert {token_of(str(verdict)) for verdict in Verdict if verdict.fails} == {Token.FAIL}
    assert token_of(Verdict.PASS) is Token.PASS
    assert token_of(Verdict.ADVICE) is Token.DIM
    assert token_of("") is Token.TEXT
    assert token_of(DIM) is Token.DIM
    for verdict in Verdict:
        assert token_of(verdict) in TEXT_ON[Ground.HULL]


def test_the_first_paint_needs_nothing_but_the_standard_library() -> None:
    code = (
        "import sys, rfplan.tui.tokens, rfplan.tui.glyphs, rfplan.tui.layout;"
        "print({name.partition('.')[0] for name in sys.modules}"
        " - {'rfplan', '__main__'} - sys.stdlib_module_names)"
    )
    run = subprocess.run([sys.executable, "-S", "-c", code], capture_output=True, text=True)
    assert run.stdout.strip() == "set()", run.stderr
