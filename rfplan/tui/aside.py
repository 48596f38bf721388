# SPDX-License-Identifier: Apache-2.0
"""Work away from the keys: what takes long is done in a thread, and told step by step."""

from __future__ import annotations

from collections.abc import Callable
from functools import partial
from typing import TYPE_CHECKING, NoReturn

from textual.message import Message

if TYPE_CHECKING:
    from textual.app import App

    from rfplan.tui.request import Steps


class Told(Message):
    """A step that was taken, to be told."""

    def __init__(self, tell: Callable[[], object]) -> None:
        super().__init__()
        self.tell = tell


def follow(app: App[int], steps: Steps) -> None:
    """Take all steps; a fault of our own is handed over like one of them."""
    try:
        for tell in steps:
            app.post_message(Told(tell))
    except Exception as fault:
        app.post_message(Told(partial(_raise, fault)))


def _raise(fault: Exception) -> NoReturn:
    raise fault
