# SPDX-License-Identifier: Apache-2.0
"""What to say to a word that is none of those known."""

from __future__ import annotations

from collections.abc import Iterable

_MOST = 5


def not_one_of(what: str, word: str, known: Iterable[str]) -> str:
    """Return "no sheet 'spcing'; did you mean spacing?", or all that there are."""
    from rfplan.files.faults import near_misses, quoted

    choices = list(known)
    near = near_misses(word, choices) or _holding(word, choices)
    if near:
        hint = f"did you mean {' or '.join(near)}?"
    elif choices:
        hint = f"there {'is' if len(choices) == 1 else 'are'} {', '.join(choices)}"
    else:
        hint = "there is none"
    return f"no {what} {quoted(word)}; {hint}"


def _holding(word: str, choices: Iterable[str]) -> list[str]:
    """Return a few choices in which the word stands, whatever its case."""
    sought = word.casefold()
    return [choice for choice in choices if sought and sought in choice.casefold()][:_MOST]
