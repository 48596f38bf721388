# SPDX-License-Identifier: Apache-2.0
"""RF304: losses read beyond the end of their table."""

from __future__ import annotations

from rooms import findings
from sample import MHZ, sample_catalog, with_entry

from rfplan.model.catalog import AttenuationPoint, AttenuationSet, Catalog
from rfplan.model.findings import Verdict
from rfplan.model.record import ById


def table_to(megahertz: float) -> Catalog:
    """Return the catalogue with a cable whose table ends at a frequency."""
    rows = (10, 100, megahertz)
    points = tuple(AttenuationPoint(f * MHZ, 0.015 * f**0.5) for f in rows)
    sets = ById({"nominal": AttenuationSet(points=points, source="sheet")})
    return with_entry(sample_catalog(), "cables", "coax_5mm", attenuation=sets)


def test_a_band_inside_the_table_is_fine() -> None:
    assert findings("RF304") == []
    assert findings("RF304", catalog=table_to(1587.42)) == []


def test_a_band_beyond_the_table_is_told_once_for_each_entry() -> None:
    # beyond 1 GHz lie GNSS and both directions of the transponder
    (one,) = findings("RF304", catalog=table_to(1000))
    assert one.objects == ("coax_5mm",)
    assert one.verdict is Verdict.ADVICE


def test_more_than_twice_beyond_is_no_extrapolation() -> None:
    # 1587 MHz is out of reach of 600, 1030 and 1090 are not
    assert len(findings("RF304", catalog=table_to(600))) == 1
    assert findings("RF304", catalog=table_to(500)) == []
