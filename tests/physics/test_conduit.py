# SPDX-License-Identifier: Apache-2.0
"""The bore of a conduit."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from rfplan.physics.conduit import conduit_bore_m


@given(st.floats(0.0, 0.2))
def test_a_fifth_of_the_bore_stays_free(bundle: float) -> None:
    assert conduit_bore_m(bundle) * 0.8 == pytest.approx(bundle)


def test_a_negative_bundle_is_refused() -> None:
    with pytest.raises(ValueError, match="bundle_m"):
        conduit_bore_m(-0.001)
