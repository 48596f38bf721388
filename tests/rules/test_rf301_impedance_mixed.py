# SPDX-License-Identifier: Apache-2.0
"""RF301: impedances that differ by more than their tolerances."""

from __future__ import annotations

import pytest
from rooms import findings
from sample import sample_catalog, sample_plan, with_entry

from rfplan.model.catalog import Catalog
from rfplan.model.findings import Verdict
from rfplan.model.plan import Part, Path, Plan
from rfplan.model.record import ById
from rfplan.units import Toleranced


def with_pad(value: float, tolerance: float) -> tuple[Plan, Catalog]:
    """Return the sample with a pad of another impedance behind the 50 +- 2 ohm cable."""
    plan = sample_plan()
    chain = Path(("nav1.gnss", "w11", "pad1", "w31", "gnss1"))
    fitted = plan.design.__class__(
        units=plan.design.units,
        antennas=plan.design.antennas,
        cables=plan.design.cables,
        parts=ById({"pad1": Part("pad_3db", "apl")}),
        paths=ById({"gnss1": chain}),
    )
    catalog = with_entry(
        sample_catalog(), "inline_parts", "pad_3db", impedance_ohm=Toleranced(value, tolerance)
    )
    return sample_plan(design=fitted), catalog


def test_parts_of_one_impedance_are_fine() -> None:
    assert findings("RF301") == []
    assert findings("RF301", *with_pad(50.0, 0.0)) == []


@pytest.mark.parametrize(("value", "tolerance"), [(54.0, 2.0), (75.0, 23.0)])
def test_tolerances_that_touch_are_fine(value: float, tolerance: float) -> None:
    assert findings("RF301", *with_pad(value, tolerance)) == []


def test_a_piece_of_another_impedance_is_advised_against() -> None:
    (one,) = findings("RF301", *with_pad(75.0, 3.0))
    assert one.objects == ("gnss1",)
    assert one.verdict is Verdict.ADVICE
    assert one.text == "gnss1 mixes coax_5mm 50 ohm, pad_3db 75 ohm"
    assert one.source_class == "from memory"
