# SPDX-License-Identifier: Apache-2.0
"""Where a number of the plan or the catalogue comes from."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from rfplan.model.record import RECORD, Text
from rfplan.units import Date

SourceClassName = Literal["measured", "specification", "calculated", "assumed", "unknown"]


@dataclass(frozen=True, slots=True)
class Source:
    """One named source of a file, or one published document with a place."""

    __pydantic_config__ = RECORD

    class_: SourceClassName
    document: Text | None = None
    issue: Text | None = None
    table: Text | None = None
    place: Text | None = None
    read: Literal["opened", "second hand", "memory", "invented"] | None = None
    who: Text | None = None
    date: Date | None = None
    with_: Text | None = None

    @property
    def unverified(self) -> bool:
        """Whether a figure of this source needs a measurement or somebody's name first."""
        return self.read == "memory" or self.class_ in ("assumed", "unknown")

    @property
    def edition(self) -> str:
        """The document with its issue, empty where none is named."""
        issue = self.issue and f"issue {self.issue}"
        return " ".join(filter(None, (self.document, issue)))

    def words(self) -> str:
        """Return the source as one line: document, issue and place, or who measured and when."""
        document = " ".join(
            filter(
                None,
                [
                    self.edition,
                    self.table and f"table {self.table}",
                    self.place,
                    self.who,
                    self.date.isoformat() if self.date else None,
                    self.with_,
                ],
            )
        )
        kind = self.class_ if self.read is None else f"{self.class_}, {self.read}"
        return f"{document} ({kind})" if document else kind


UNSOURCED = Source(class_="unknown")
