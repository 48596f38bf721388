# SPDX-License-Identifier: Apache-2.0
"""Shortest ways along the loft between any pairs of skin points, both ways round the hull."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from rfplan.physics.skin_geometry import Hull, girth_angle_rad, point_at_angle_m
from rfplan.physics.surface_ray import Way
from rfplan.sources import OWN_COMPUTATION, cites

Floats = NDArray[np.float64]
Bools = NDArray[np.bool_]

NODES = 17
"""Nodes of a chain; an odd number, since every other one gives the coarser length."""

_STEP_M = 2.0e-3
_TOLERANCE = 1.0e-6
_MOST_ROUNDS = 30
_ROUND = 256


@cites(OWN_COMPUTATION.at("girth of the section polygon"), returns="m")
def girth_m(hull: Hull) -> Floats:
    """Return the way once round each section.

    Parameters
    ----------
    hull : Hull
        Section arrays. [m]

    Returns
    -------
    array
        One length a section. [m]

    Notes
    -----
    Sum of 96 chords: short by 0.02 % on a circle, which is made up for.
    """
    count = 96
    angle = np.linspace(0.0, 2.0 * np.pi, count + 1)
    points = point_at_angle_m(hull, hull.fs_m[:, None], angle)
    chords_m = np.linalg.norm(np.diff(points, axis=-2), axis=-1).sum(axis=-1)
    return np.asarray(chords_m * (np.pi / count) / np.sin(np.pi / count))


@cites(OWN_COMPUTATION.at("chain relaxed by Newton steps on its length"), returns="m, m^(1/3), rad")
def skin_ways(hull: Hull, a_m: Floats, b_m: Floats, nodes: int = NODES) -> Way:
    """Return the shortest way along the skin between pairs of points, each way round.

    Parameters
    ----------
    hull : Hull
        Section arrays. [m]
    a_m, b_m : array
        Points (FS, BL, WL) on the skin in the last axis. [m]
    nodes : int
        Nodes of each chain, odd. [1]

    Returns
    -------
    Way
        Arrays in which the last axis holds the way of the smaller turn, then the other one.
        [m, m^(1/3), rad]

    Raises
    ------
    ValueError
        If the number of nodes is even or below 5.

    Notes
    -----
    A chain of nodes starts straight in (station, girth angle); each inner node may move across
    it. The length is minimised for all chains at once, then extrapolated from every node and
    every other one. The bend counts the curvature of the sections alone: what the hull is bent
    lengthwise casts no shade, which is the safe side. The twist takes a section as a circle of
    its girth. No way leads round nose or tail.
    The other way round a strong taper may slide along it without end: it then stops where it is.
    """
    if nodes < 5 or nodes % 2 == 0:
        raise ValueError(f"nodes must be odd and at least 5, got {nodes}")
    a_m, b_m = np.broadcast_arrays(a_m, b_m)
    shape = (*a_m.shape[:-1], 2)
    chains = _straight(hull, a_m.reshape(-1, 3), b_m.reshape(-1, 3), nodes)
    _relax(hull, chains)
    chord = np.diff(chains.points_m(hull), axis=1)
    length = np.maximum(np.linalg.norm(chord, axis=-1), 1.0e-12)
    length_m = _length_m(chord)
    arc = length * (length_m / length.sum(axis=1))[:, None]
    return Way(
        length_m.reshape(shape),
        _bend_m13(hull, chains, arc, chord[..., 0]).reshape(shape),
        _twist_rad(hull, chains, arc, chord[..., 0]).reshape(shape),
    )


@dataclass(slots=True)
class _Chains:
    """Chains of nodes on the hull, shape (chains, nodes), and how far each node was moved."""

    fs_m: Floats
    angle_rad: Floats
    across_fs: Floats
    across_rad_per_m: Floats
    moved_m: Floats

    def points_m(self, hull: Hull, further_m: float = 0.0) -> Floats:
        """Return the nodes in space, each moved a little further."""
        return point_at_angle_m(hull, self.at_fs_m(hull, further_m), self.at_rad(further_m))

    def at_fs_m(self, hull: Hull, further_m: float = 0.0) -> Floats:
        """Return the stations of the nodes, none beyond the hull."""
        fs_m = self.fs_m + (self.moved_m + further_m) * self.across_fs
        return np.clip(fs_m, hull.fs_m[0], hull.fs_m[-1])

    def at_rad(self, further_m: float = 0.0) -> Floats:
        """Return the girth angles of the nodes."""
        return self.angle_rad + (self.moved_m + further_m) * self.across_rad_per_m

    def only(self, those: NDArray[np.intp]) -> _Chains:
        """Return some of the chains."""
        return _Chains(
            self.fs_m[those],
            self.angle_rad[those],
            self.across_fs[those],
            self.across_rad_per_m[those],
            self.moved_m[those],
        )


def _straight(hull: Hull, a_m: Floats, b_m: Floats, nodes: int) -> _Chains:
    """Return two chains a pair, straight in station and girth angle, one each way round."""
    t = np.linspace(0.0, 1.0, nodes)
    start, end = girth_angle_rad(hull, a_m), girth_angle_rad(hull, b_m)
    turn = (end - start + np.pi) % (2.0 * np.pi) - np.pi
    turns = np.stack([turn, turn - np.copysign(2.0 * np.pi, turn)], axis=-1).reshape(-1, 1)
    a_fs, start = np.repeat(a_m[:, 0], 2)[:, None], np.repeat(start, 2)[:, None]
    run = np.repeat(b_m[:, 0] - a_m[:, 0], 2)[:, None]
    radius_m = np.interp(a_fs + run / 2.0, hull.fs_m, girth_m(hull)) / (2.0 * np.pi)
    across = np.maximum(np.hypot(run, radius_m * turns), 1.0e-9)
    return _Chains(
        a_fs + t * run,
        start + t * turns,
        -radius_m * turns / across,
        run / (across * radius_m),
        np.zeros((len(turns), nodes)),
    )


def _relax(hull: Hull, chains: _Chains) -> None:
    """Move the inner nodes until no chain gets shorter; a step that lengthens one is damped."""
    active = np.arange(len(chains.moved_m))
    damping = np.zeros(len(active))
    for _ in range(_MOST_ROUNDS):
        now = chains.only(active)
        step_m, length_m = _newton_step_m(hull, now, damping[active])
        now.moved_m[:, 1:-1] += step_m
        longer_m = np.linalg.norm(np.diff(now.points_m(hull), axis=1), axis=-1).sum(axis=1)
        better = longer_m <= length_m
        chains.moved_m[active[better]] = now.moved_m[better]
        damping[active] = np.where(better, damping[active] / 8.0, 8.0 * damping[active] + 0.05)
        gain = np.abs(longer_m - length_m) > _TOLERANCE * length_m
        active = active[gain & (damping[active] < 1.0e4)]
        if not len(active):
            return


def _newton_step_m(hull: Hull, chains: _Chains, damping: Floats) -> tuple[Floats, Floats]:
    """Return the step of every inner node that should make its chain shortest, and its length."""
    points = chains.points_m(hull)
    ahead, behind = chains.points_m(hull, _STEP_M), chains.points_m(hull, -_STEP_M)
    slope = (ahead - behind) / (2.0 * _STEP_M)
    bend = (ahead - 2.0 * points + behind) / _STEP_M**2
    chord = np.diff(points, axis=1)
    length = np.maximum(np.linalg.norm(chord, axis=-1), 1.0e-12)
    unit = chord / length[..., None]
    kink = unit[:, :-1] - unit[:, 1:]
    left, right = slope[:, :-1], slope[:, 1:]
    left_along, right_along = _dot(left, unit), _dot(right, unit)
    stiff = (_dot(left, left) - left_along**2) / length
    other = (_dot(right, right) - right_along**2) / length
    off = -(_dot(left, right) - left_along * right_along) / length
    inner = slice(1, -1)
    pull = _dot(slope[:, inner], kink)
    own = stiff[:, 1:] + other[:, :-1] + _dot(bend[:, inner], kink)
    least = np.abs(off[:, 1:]) + np.abs(off[:, :-1])
    own = np.maximum(own, least) * (1.0 + damping[:, None]) + 1.0e-12
    return -_solved(own, off[:, inner], pull), length.sum(axis=1)


def _dot(a: Floats, b: Floats) -> Floats:
    return np.asarray(np.einsum("...i,...i->...", a, b))


def _solved(diagonal: Floats, off: Floats, right: Floats) -> Floats:
    """Solve symmetric tridiagonal systems, one a row."""
    diagonal, right = diagonal.copy(), right.copy()
    for i in range(1, diagonal.shape[1]):
        factor = off[:, i - 1] / diagonal[:, i - 1]
        diagonal[:, i] -= factor * off[:, i - 1]
        right[:, i] -= factor * right[:, i - 1]
    right[:, -1] /= diagonal[:, -1]
    for i in range(diagonal.shape[1] - 2, -1, -1):
        right[:, i] = (right[:, i] - off[:, i] * right[:, i + 1]) / diagonal[:, i]
    return right


def _length_m(chord: Floats) -> Floats:
    """Return the length of the smooth curve through the nodes: extrapolated from two polygons."""
    fine = np.linalg.norm(chord, axis=-1).sum(axis=1)
    coarse = np.linalg.norm(chord[:, ::2] + chord[:, 1::2], axis=-1).sum(axis=1)
    return np.asarray(np.maximum(fine + (fine - coarse) / 3.0, 1.0e-12))


def _bend_m13(hull: Hull, chains: _Chains, arc: Floats, run: Floats) -> Floats:
    """Return the integral of curvature^(2/3), from what the sections hold between the nodes."""
    round_it = np.maximum(1.0 - (run / arc) ** 2, 0.0)
    held = np.abs(np.diff(_held_m13(hull, chains.at_fs_m(hull), chains.at_rad()), axis=1))
    return np.asarray(np.sum(held * round_it ** (1.0 / 6.0), axis=1))


def _held_m13(hull: Hull, fs_m: Floats, angle_rad: Floats) -> Floats:
    """Return the integral of curvature^(2/3) round the section from the top to an angle."""
    table = _section_bend_m13(hull)
    turns, part = np.divmod(angle_rad / (2.0 * np.pi), 1.0)
    place = part * (table.shape[1] - 1)
    column = np.minimum(place.astype(np.intp), table.shape[1] - 2)
    along = np.interp(fs_m, hull.fs_m, np.arange(len(hull.fs_m)))
    row = np.minimum(along.astype(np.intp), len(hull.fs_m) - 2)
    ahead, behind = (
        table[at, column]
        + (place - column) * (table[at, column + 1] - table[at, column])
        + turns * table[at, -1]
        for at in (row, row + 1)
    )
    return np.asarray(ahead + (along - row) * (behind - ahead))


def _section_bend_m13(hull: Hull) -> Floats:
    """Return that integral at 256 angles round each section."""
    step = 2.0 * np.pi / _ROUND
    angle = (np.arange(_ROUND) + 0.5) * step
    three = angle[:, None] + np.array([-1.0, 0.0, 1.0]) * step / 2.0
    behind, middle, ahead = np.moveaxis(
        point_at_angle_m(hull, hull.fs_m[:, None, None], three), -2, 0
    )
    one, other = middle - behind, ahead - middle
    size = np.linalg.norm(one, axis=-1), np.linalg.norm(other, axis=-1)
    sine = np.linalg.norm(np.cross(one, other), axis=-1) / (size[0] * size[1])
    arc = size[0] + size[1]
    curvature = np.arcsin(np.minimum(sine, 1.0)) / (arc / 2.0)
    held = np.cumsum(curvature ** (2.0 / 3.0) * arc, axis=1)
    return np.concatenate([np.zeros((len(held), 1)), held], axis=1)


def _twist_rad(hull: Hull, chains: _Chains, arc: Floats, run: Floats) -> Floats:
    """Return the integral of sin^2(helix angle) over the radius of the girth."""
    fs_m = chains.at_fs_m(hull)
    between = (fs_m[:, :-1] + fs_m[:, 1:]) / 2.0
    curvature = 2.0 * np.pi / np.interp(between, hull.fs_m, girth_m(hull))
    return np.asarray(np.sum(run**2 / arc * curvature, axis=1))
