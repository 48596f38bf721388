# SPDX-License-Identifier: Apache-2.0
"""What a formula accepts: a float or an array, inside the range where it holds."""

from __future__ import annotations

from typing import Any, TypeAlias

import numpy as np
from numpy.typing import NDArray

FloatOrArray: TypeAlias = float | NDArray[np.float64]
ComplexOrArray: TypeAlias = complex | NDArray[np.complexfloating[Any, Any]]


def positive(**arguments: FloatOrArray) -> None:
    """Raise ValueError unless every argument is finite and above zero."""
    for name, value in arguments.items():
        if not _all((value > 0.0) & (value < np.inf)):
            raise ValueError(f"{name} must be positive, got {value}")


def at_least(least: float, **arguments: FloatOrArray) -> None:
    """Raise ValueError unless every argument is finite and not below the least value."""
    for name, value in arguments.items():
        if not _all((value >= least) & (value < np.inf)):
            raise ValueError(f"{name} must be at least {least:g}, got {value}")


def within(low: float, high: float, **arguments: FloatOrArray) -> None:
    """Raise ValueError unless every argument lies between the limits, both included."""
    for name, value in arguments.items():
        if not _all((value >= low) & (value <= high)):
            raise ValueError(f"{name} must lie in {low:g} .. {high:g}, got {value}")


def _all(holds: bool | NDArray[np.bool_]) -> bool:
    """Whether something holds everywhere, without what np.all does on top."""
    return holds if isinstance(holds, bool) else bool(holds.all())
