# SPDX-License-Identifier: Apache-2.0
"""RF302: new runs of cable with a solid centre."""

from __future__ import annotations

from dataclasses import replace

from rooms import findings
from sample import sample_catalog, sample_plan, with_entry

from rfplan.model.catalog import Catalog, Conductor
from rfplan.model.findings import Verdict
from rfplan.model.record import ById


def solid() -> Catalog:
    """Return the catalogue with a solid centre in the cable that all runs use."""
    return with_entry(sample_catalog(), "cables", "coax_5mm", centre=Conductor("copper", "solid"))


def test_stranded_centres_are_fine() -> None:
    assert findings("RF302") == []


def test_a_solid_centre_left_in_place_is_not_spoken_of() -> None:
    assert findings("RF302", catalog=solid()) == []  # all three cables were found so


def test_a_solid_centre_in_a_run_that_was_not_there_is_advised_against() -> None:
    plan = sample_plan()
    bare = replace(plan, found=replace(plan.found, cables=ById(), paths=ById()))
    found = findings("RF302", bare, solid())
    assert [one.objects for one in found] == [("w11",), ("w21",), ("w31",)]
    assert {one.verdict for one in found} == {Verdict.ADVICE}
    assert "11-120" in found[0].source


def test_a_cable_of_another_type_than_was_found_is_a_new_run() -> None:
    plan = sample_plan()
    was = replace(plan.found.cables["w21"], type="coax_3mm")
    found = replace(plan.found, cables=plan.found.cables.having("w21", was))
    (one,) = findings("RF302", replace(plan, found=found), solid())
    assert one.objects == ("w21",)
