# SPDX-License-Identifier: Apache-2.0
"""Keys as the table of actions names them."""

from __future__ import annotations

from textual.events import Key


def name_of(event: Key) -> str:
    """Return a key as the table of actions names it: the character itself where it is one."""
    if event.is_printable and event.character is not None:
        return event.character
    return event.key
