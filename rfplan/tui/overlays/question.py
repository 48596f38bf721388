# SPDX-License-Identifier: Apache-2.0
"""A question with a few answers, each with a key."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from rfplan.tui.bars import Key
from rfplan.tui.overlays.form import told_text
from rfplan.tui.overlays.overlay import Body, Overlay
from rfplan.tui.runs import Run
from rfplan.tui.tokens import Token

if TYPE_CHECKING:
    from rfplan.tui.workspace import Workspace


@dataclass(frozen=True, slots=True)
class Answer:
    """One answer; `stays` keeps the question open."""

    key: str
    label: str
    do: Callable[[], object]
    stays: bool = False


class QuestionOverlay(Overlay):
    """Words and answers; no other key does anything."""

    columns = 70

    def __init__(
        self, workspace: Workspace, title: str, words: str, answers: Sequence[Answer]
    ) -> None:
        super().__init__(workspace)
        self.title = title
        self.words = words
        self.answers = answers

    @property
    def own_keys(self) -> list[Key]:
        return [Key(answer.key, answer.label) for answer in self.answers]

    def body(self, columns: int, rows: int) -> Body:
        lines = [[], *told_text(self.words, columns, Token.TEXT), []]
        first = len(lines)
        lines += [
            [Run(answer.key.ljust(7), Token.ACCENT), Run(answer.label)] for answer in self.answers
        ]
        lines.append([Run("esc".ljust(7), Token.ACCENT), Run(self.keys[0].label)])
        presses = tuple(
            (first + index, lambda answer=answer: self._do(answer))
            for index, answer in enumerate(self.answers)
        )
        return Body(lines, (0, first), presses)

    def press(self, key: str) -> None:
        chosen = next((answer for answer in self.answers if answer.key == key), None)
        if chosen is not None:
            self._do(chosen)

    def _do(self, answer: Answer) -> None:
        if not answer.stays:
            self.close()
        answer.do()
