# SPDX-License-Identifier: Apache-2.0
"""The sample aircraft with an amplified GNSS antenna that its port feeds and watches."""

from __future__ import annotations

from typing import Any

from sample import sample_cable, sample_catalog, sample_plan, with_entry, with_port

from rfplan.model.catalog import Catalog, Conductor
from rfplan.model.plan import Plan
from rfplan.model.record import ById
from rfplan.units import Range

CENTRE = Conductor("copper", "stranded", 0.030, source="sheet")
SHIELD = Conductor("copper", "one braid", 0.012, source="sheet")


def amplified_catalog(**changes: Any) -> Catalog:
    """Return the catalogue with 26 to 32 dB behind the GNSS antenna, and copper to feed it."""
    amplified: dict[str, Any] = {
        "amplifier_db": ById({"all": Range(26.0, 32.0)}),
        "noise_figure_db": ById({"all": 2.5}),
        "supply_v": Range(4.5, 5.5),
        "current_a": Range(0.020, 0.045),
        "vswr": 2.0,
    }
    catalog = with_entry(sample_catalog(), "antennas", "gnss_active", **{**amplified, **changes})
    cable = sample_cable(centre=CENTRE, shield=SHIELD)
    return with_entry(catalog, "cables", "coax_5mm", centre=cable.centre, shield=cable.shield)


def amplified_plan(plan: Plan | None = None, **changes: Any) -> Plan:
    """Return the plan whose GNSS port states net gain, noise, supply and supervision."""
    port: dict[str, Any] = {
        "net_gain_db": ById({"all": Range(20.0, 32.0)}),
        "noise_figure_db": 4.0,
        "feed_v": Range(4.7, 5.3),
        "current_a": 0.060,
        "supervision_a": Range(0.010, 0.060),
    }
    return with_port(plan or sample_plan(), "nav1", "gnss", **{**port, **changes})
