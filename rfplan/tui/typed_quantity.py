# SPDX-License-Identifier: Apache-2.0
"""Numbers as they are typed into a field that names its unit."""

from __future__ import annotations

from rfplan.edits import EditError
from rfplan.units import Kind, QuantityError, parse


def typed_quantity(text: str, kind: Kind, unit: str, example: str) -> float | None:
    """Return the SI value of a number, in the field's unit if it brings none; None for no text.

    Raises EditError with words for a screen.
    """
    if not text:
        return None
    try:
        return parse(f"{text} {unit}", kind)
    except QuantityError:
        pass
    try:
        return parse(text, kind)
    except QuantityError as error:
        if len(text.split()) > 1:
            raise EditError(str(error)) from None
        raise EditError(f"{text} is not a number. Example {example}") from None
