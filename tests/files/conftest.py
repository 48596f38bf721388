# SPDX-License-Identifier: Apache-2.0
"""Fixtures of the tests that read YAML."""

from __future__ import annotations

import pytest
import yaml

from rfplan.files import composing


@pytest.fixture(params=sorted({composing.LOADER, yaml.SafeLoader}, key=repr))
def each_yaml_loader(request: pytest.FixtureRequest, monkeypatch: pytest.MonkeyPatch) -> None:
    """Run the test with the C loader of PyYAML, where there is one, and with the Python loader."""
    monkeypatch.setattr(composing, "LOADER", request.param)
