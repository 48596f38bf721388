# SPDX-License-Identifier: Apache-2.0
"""Sums over the modes of an infinite conducting cylinder, blurred so that they converge.

Lengths are in units of 1/k: `ka`, `kz`.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from typing import TypeAlias

import numpy as np
from numpy.typing import NDArray

from rfplan.physics.domain import FloatOrArray, positive

Floats = NDArray[np.float64]
Complexes = NDArray[np.complex128]

Modes: TypeAlias = Iterator[tuple[float, Complexes]]
"""Order by order, the spectrum over axial wave numbers."""

_AT_ONCE = 256


@dataclass(frozen=True, slots=True)
class Blur:
    """How the source is blurred so that the sum converges, and how often that is corrected.

    A Gaussian of `width` times the distance, at most `widest`; `order` extrapolations take the
    blur out again to the power 2 `order` of the width.
    """

    width: float = 0.055
    widest: float = 0.25
    order: int = 4

    def width_for(self, nearest: float) -> float:
        """Return the width for points no nearer than this."""
        return min(self.width * nearest, self.widest)

    def last(self, width: float) -> float:
        """Return the wave number from which on nothing is left."""
        return float(np.sqrt(1.0 + (30.0 + 3.0 * np.log(self.order)) / width**2))

    def weight(self, squared: Complexes, width: float) -> Complexes:
        """Return what is left of waves of a squared wave number along the skin."""
        return np.asarray(1.0 - (1.0 - np.exp((1.0 - squared) * width**2)) ** self.order)


SHARP = Blur()


class ModeSum:
    """Where a field is wanted round a cylinder, as seen from its source."""

    def __init__(self, ka: float, phi_rad: FloatOrArray, kz: FloatOrArray) -> None:
        phi, along = np.broadcast_arrays(phi_rad, np.abs(kz))
        distance = np.hypot(ka * phi, along)
        positive(ka=ka, distance=distance)
        self.ka, self.phi_rad, self.kz, self.shape = ka, phi.ravel(), along.ravel(), phi.shape
        self.nearest = float(distance.min())

    def total(
        self, modes: Callable[[Complexes, float, int], Modes], blur: Blur = SHARP, turns: int = 1
    ) -> Complexes:
        """Return the sum over orders and integral over axial wave numbers.

        Orders come in steps of one over `turns`, so that the field repeats after so many turns.
        """
        width = blur.width_for(self.nearest)
        last = blur.last(width)
        most = int(np.ceil(last * self.ka))
        total = np.zeros(self.phi_rad.shape, dtype=complex)
        for h, weight in _path(float(self.kz.max()), last):
            axial = np.cos(np.multiply.outer(h, self.kz)) * weight[:, None]
            for order, spectrum in modes(h, self.ka, most):
                kept = blur.weight(h**2 + (order / self.ka) ** 2, width)
                around = (2.0 if order else 1.0) * np.cos(order * self.phi_rad)
                total += around * ((spectrum * kept) @ axial)
        return np.asarray(total.reshape(self.shape) / turns, dtype=complex)

    @staticmethod
    def radiated(modes: Callable[[Complexes, float, int], Modes], ka: float, most: int) -> float:
        """Return the real part of the sum at distance zero.

        Waves with h > 1 do not radiate, so the path ends at h = 2.
        """
        h, weight = _arch(1.0)
        total = 0.0j
        for order, spectrum in modes(h, ka, most):
            total += (2.0 if order else 1.0) * complex(np.sum(spectrum * weight))
        return total.real


def _path(reach: float, last: float) -> Iterator[tuple[Complexes, Complexes]]:
    """Yield nodes and weights from 0 over the branch point at 1 to the last wave number."""
    pieces = [_arch(reach), _gauss(2.0, last, (last - 2.0) * (reach / 10.0 + 1.0))]
    h, weight = (np.concatenate(parts) for parts in zip(*pieces, strict=True))
    for start in range(0, len(h), _AT_ONCE):
        some = slice(start, start + _AT_ONCE)
        yield h[some], weight[some]


def _arch(reach: float) -> tuple[Complexes, Complexes]:
    """Return the part of the path from 0 to 2 that bows into the upper half plane."""
    height = min(0.35, 3.0 / reach) if reach else 0.35
    s, weight = _gauss(0.0, 2.0, reach / 5.0 + 4.0)
    slope = 1.0 + 0.5j * np.pi * height * np.cos(0.5 * np.pi * s)
    return s + 1j * height * np.sin(0.5 * np.pi * s), weight * slope


def _gauss(start: float, stop: float, pieces: float) -> tuple[Complexes, Complexes]:
    """Return twelve Gauss nodes in each of several equal pieces."""
    node, weight = np.polynomial.legendre.leggauss(12)
    edges = np.linspace(start, stop, int(np.ceil(pieces)) + 1)
    half = np.diff(edges)[:, None] / 2.0
    nodes = edges[:-1, None] + half * (1.0 + node)
    return nodes.ravel().astype(complex), (half * weight).ravel().astype(complex)
