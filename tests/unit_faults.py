# SPDX-License-Identifier: Apache-2.0
"""What a refused text of a quantity is told."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest

from rfplan.units import (
    QuantityError,
)


def fault(read: Callable[..., object], *arguments: Any, **options: Any) -> str:
    """Return the message with which a text is refused."""
    with pytest.raises(QuantityError) as caught:
        read(*arguments, **options)
    return caught.value.message
