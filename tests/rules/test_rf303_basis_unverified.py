# SPDX-License-Identifier: Apache-2.0
"""RF303: losses that nobody read in a document."""

from __future__ import annotations

from rooms import findings
from sample import SOURCES, sample_catalog, with_entry

from rfplan.model.findings import Verdict
from rfplan.model.source import Source


def test_losses_with_a_document_are_fine() -> None:
    assert findings("RF303") == []


def test_a_loss_from_memory_is_told_once_for_each_entry() -> None:
    memory = SOURCES.having("sheet", Source("assumed", read="memory", document="handbook"))
    (one,) = findings(
        "RF303", catalog=with_entry(sample_catalog(), "cables", "coax_5mm", sources=memory)
    )
    assert one.objects == ("coax_5mm",)  # three paths use it
    assert (one.verdict, one.source_class) == (Verdict.ADVICE, "assumed")
    assert one.source == "handbook (assumed, memory)"


def test_a_loss_without_any_source_is_unverified() -> None:
    catalog = with_entry(sample_catalog(), "connectors", "tnc", sources=SOURCES.__class__())
    (one,) = findings("RF303", catalog=catalog)
    assert (one.objects, one.source) == (("tnc",), "unknown")
