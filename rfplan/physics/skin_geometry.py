# SPDX-License-Identifier: Apache-2.0
"""The hull as a loft of superellipse sections, and distances on and above it."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from rfplan.sources import OWN_COMPUTATION, cites

Floats = NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class Hull:
    """Section arrays of a hull, rising in station. All in metres, roundness without unit."""

    fs_m: Floats
    half_width_m: Floats
    bottom_m: Floats
    top_m: Floats
    roundness: Floats


@cites(OWN_COMPUTATION.at("ruled loft between sections"), returns="m, m, m, 1")
def section_at(hull: Hull, fs_m: Floats) -> tuple[Floats, Floats, Floats, Floats]:
    """Return half width, mid height, half height and roundness of the section at a station.

    Parameters
    ----------
    hull : Hull
        Section arrays. [m]
    fs_m : array
        Stations. [m]

    Returns
    -------
    four arrays
        Half width, height of the middle, half height and roundness; shape of `fs_m`; NaN ahead
        of the first and aft of the last section. [m, m, m, 1]

    Notes
    -----
    Between two sections all four numbers are interpolated linearly (a ruled loft).
    """

    def between(values: Floats) -> Floats:
        return np.interp(fs_m, hull.fs_m, values, left=np.nan, right=np.nan)

    bottom, top = between(hull.bottom_m), between(hull.top_m)
    return (
        between(hull.half_width_m),
        (top + bottom) / 2,
        (top - bottom) / 2,
        between(hull.roundness),
    )


@cites(OWN_COMPUTATION.at("superellipse solved for one axis"), returns="m")
def superellipse_offset_m(
    along_m: Floats, half_along_m: Floats, half_across_m: Floats, roundness: Floats
) -> Floats:
    """Return how far a superellipse reaches across its axis at a distance along it.

    Parameters
    ----------
    along_m, half_along_m, half_across_m : array
        Distance from the middle, half axis in that direction, half axis across. [m]
    roundness : array
        Exponent; 2 is an ellipse. [1]

    Returns
    -------
    array
        Reach across; shape of the broadcast inputs; NaN beyond the half axis. [m]

    Notes
    -----
    |u/a|^n + |v/b|^n = 1 solved for v.

    Examples
    --------
    >>> float(superellipse_offset_m(np.array(3.0), 5.0, 5.0, 2.0))
    4.0
    """
    ratio = np.abs(along_m / half_along_m)
    inside = np.where(ratio <= 1.0, 1.0 - ratio**roundness, np.nan)
    return np.asarray(half_across_m * inside ** (1.0 / roundness))


@cites(OWN_COMPUTATION.at("superellipse loft"), returns="m")
def skin_point_m(hull: Hull, on: str, fs_m: Floats, across_m: Floats) -> Floats:
    """Return points of the outer skin.

    Parameters
    ----------
    hull : Hull
        Section arrays. [m]
    on : str
        `top` or `belly` (then `across_m` is the butt line), `left` or `right` (then it is the
        water line). [-] [-]
    fs_m, across_m : array
        Station and butt line or water line. [m]

    Returns
    -------
    array
        Points (FS, BL, WL) in the last axis; NaN where there is no skin. [m]

    Raises
    ------
    ValueError
        If `on` is no side of the hull.
    """
    half_width, middle, half_height, roundness = section_at(hull, fs_m)
    if on in ("top", "belly"):
        rise = superellipse_offset_m(across_m, half_width, half_height, roundness)
        bl, wl = across_m, middle + (rise if on == "top" else -rise)
    elif on in ("left", "right"):
        reach = superellipse_offset_m(across_m - middle, half_height, half_width, roundness)
        bl, wl = (-reach if on == "left" else reach), across_m
    else:
        raise ValueError(f"the hull has no side {on!r}")
    return _points(fs_m, bl, wl)


@cites(OWN_COMPUTATION.at("central differences on the loft"), returns="1")
def skin_normal(hull: Hull, on: str, fs_m: Floats, across_m: Floats) -> Floats:
    """Return outward unit normals of the skin by central differences over 2 mm.

    Parameters
    ----------
    hull : Hull
        Section arrays. [m]
    on : str
        Side of the hull, as for `skin_point_m`. [-]
    fs_m, across_m : array
        Station and butt line or water line. [m]

    Returns
    -------
    array
        Unit vectors in the last axis. [1]
    """
    step = 1.0e-3
    around = np.array([[0.0, step, -step, 0.0, 0.0], [0.0, 0.0, 0.0, step, -step]])
    points = skin_point_m(hull, on, fs_m[..., None] + around[0], across_m[..., None] + around[1])
    centre = points[..., :1, :]
    points = np.where(np.isnan(points), centre, points)
    ahead, behind, one, other = (points[..., corner, :] for corner in range(1, 5))
    normal = np.stack(_cross(ahead - behind, one - other), axis=-1)
    length = np.linalg.norm(normal, axis=-1, keepdims=True)
    axis, sign = _OUTWARD[on]
    flip = np.where(normal[..., axis : axis + 1] * sign < 0.0, -1.0, 1.0)
    return np.asarray(normal * flip / np.where(length > 0.0, length, 1.0))


_OUTWARD = {"top": (2, 1.0), "belly": (2, -1.0), "left": (1, -1.0), "right": (1, 1.0)}


@cites(OWN_COMPUTATION.at("sagitta of the loft under a flat base"), returns="m")
def base_gap_m(
    hull: Hull, on: str, place: tuple[Floats, Floats], base_m: tuple[float, float]
) -> Floats:
    """Return the gap under the corners of a flat base that touches a curved skin in its middle.

    Parameters
    ----------
    hull : Hull
        Section arrays. [m]
    on : str
        Side of the hull, as for `skin_point_m`. [-]
    place : two arrays
        Station, and butt or water line of the middle of the base. [m]
    base_m : two floats
        Base length along the station and width across. [m]

    Returns
    -------
    array
        Sum of the sagittas along and across, measured along the normal; NaN off the skin. [m]

    Notes
    -----
    The sagitta is that of the skin itself over the base, not of an osculating circle; the
    normal is that of the chords.
    """
    fs_m, across_m = place
    half, wide = base_m[0] / 2.0, base_m[1] / 2.0
    around = np.array([[0.0, half, -half, 0.0, 0.0], [0.0, 0.0, 0.0, wide, -wide]])
    points = skin_point_m(hull, on, fs_m[..., None] + around[0], across_m[..., None] + around[1])
    centre, ahead, behind, one, other = (points[..., corner, :] for corner in range(5))
    x, y, z = _cross(ahead - behind, one - other)
    along, across = (ahead + behind) / 2.0 - centre, (one + other) / 2.0 - centre
    rises = (
        np.abs(side[..., 0] * x + side[..., 1] * y + side[..., 2] * z) for side in (along, across)
    )
    return np.asarray(sum(rises) / np.sqrt(x * x + y * y + z * z))


def _points(fs_m: Floats, bl_m: Floats, wl_m: Floats) -> Floats:
    """Return points from coordinates that broadcast; np.stack takes longer than all else here."""
    points = np.empty((*np.broadcast(fs_m, bl_m, wl_m).shape, 3))
    points[..., 0], points[..., 1], points[..., 2] = fs_m, bl_m, wl_m
    return points


def _cross(a: Floats, b: Floats) -> tuple[Floats, Floats, Floats]:
    """Return the components of a cross product; np.cross takes longer than all else here."""
    return (
        a[..., 1] * b[..., 2] - a[..., 2] * b[..., 1],
        a[..., 2] * b[..., 0] - a[..., 0] * b[..., 2],
        a[..., 0] * b[..., 1] - a[..., 1] * b[..., 0],
    )


@cites(OWN_COMPUTATION.at("angle round a section"), returns="rad")
def girth_angle_rad(hull: Hull, point_m: Floats) -> Floats:
    """Return the angle of a point round its section, from the top centre line, right positive.

    Parameters
    ----------
    hull : Hull
        Section arrays. [m]
    point_m : array
        Points (FS, BL, WL) in the last axis. [m]

    Returns
    -------
    array
        Angle of the section's parameter, -pi to pi. [rad]
    """
    half_width, middle, half_height, _ = section_at(hull, point_m[..., 0])
    return np.asarray(
        np.arctan2(point_m[..., 1] / half_width, (point_m[..., 2] - middle) / half_height)
    )


@cites(OWN_COMPUTATION.at("superellipse in polar form"), returns="m")
def point_at_angle_m(hull: Hull, fs_m: Floats, angle_rad: Floats) -> Floats:
    """Return the skin point at a station and girth angle.

    Parameters
    ----------
    hull : Hull
        Section arrays. [m]
    fs_m : array
        Station. [m]
    angle_rad : array
        Angle from the top centre line, right positive. [rad]

    Returns
    -------
    array
        Points (FS, BL, WL) in the last axis. [m]
    """
    half_width, middle, half_height, roundness = section_at(hull, fs_m)
    sine, cosine = np.sin(angle_rad), np.cos(angle_rad)
    scale = (np.abs(sine) ** roundness + np.abs(cosine) ** roundness) ** (-1.0 / roundness)
    bl, wl = half_width * sine * scale, middle + half_height * cosine * scale
    return _points(fs_m, bl, wl)


@cites(OWN_COMPUTATION.at("way straight in station and girth angle"), returns="m")
def skin_distance_m(hull: Hull, a_m: Floats, b_m: Floats, steps: int = 17) -> Floats:
    """Return the length along the hull skin between pairs of points, the shorter way round.

    Parameters
    ----------
    hull : Hull
        Section arrays. [m]
    a_m, b_m : array
        Points (FS, BL, WL) on the skin in the last axis. [m]
    steps : int
        Points of the polyline. [1]

    Returns
    -------
    array
        Length along the skin. [m]

    Notes
    -----
    The way is straight in (station, girth angle): exact on a circular cylinder, and never shorter
    than the geodesic; up to a few per cent longer on a tapered hull.
    """
    t = np.linspace(0.0, 1.0, steps)
    a_angle, b_angle = girth_angle_rad(hull, a_m), girth_angle_rad(hull, b_m)
    turn = (b_angle - a_angle + np.pi) % (2.0 * np.pi) - np.pi

    def length(by_angle: Floats) -> Floats:
        fs = a_m[..., 0, None] + t * (b_m[..., 0] - a_m[..., 0])[..., None]
        ways = point_at_angle_m(hull, fs, a_angle[..., None] + t * by_angle[..., None])
        return np.asarray(np.sum(np.linalg.norm(np.diff(ways, axis=-2), axis=-1), axis=-1))

    other_way = turn - np.copysign(2.0 * np.pi, turn)
    return np.minimum(length(turn), length(other_way))
