# SPDX-License-Identifier: Apache-2.0
"""An invented aircraft with forty antennas, made to order for tests of everything in pairs."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from functools import cache

import numpy as np
from plan_files import shipped_rulebook
from sample import (
    inch,
    place,
    sample_antenna,
    sample_assembly,
    sample_catalog,
    sample_installation,
    sample_plan,
    sample_unit,
)

from rfplan.analysis.facts import Facts, gather
from rfplan.model.catalog import AntennaType, Catalog
from rfplan.model.plan import Antenna, Path, Plan, Port
from rfplan.model.record import ById
from rfplan.units import NONE, Range

RADIOS = {
    "vhf_com": 6,
    "gnss_l1": 8,
    "gnss_l1_l5": 4,
    "transponder": 4,
    "dme": 3,
    "uat_978": 2,
    "vor_loc": 3,
    "glideslope": 2,
    "marker": 2,
    "elt": 2,
    "radalt": 2,
    "satcom_l": 2,
}
"""How many antennas there are of each kind of radio: forty."""

SENDS = ("vhf_com", "transponder", "dme", "uat_978", "elt", "radalt", "satcom_l")


def crowded_catalog(radios: Mapping[str, int] = RADIOS) -> Catalog:
    """Return the sample catalogue with one antenna type for each kind of radio."""
    types: list[AntennaType] = [
        sample_antenna(f"for_{radio}", radio, gain_dbi=Range(-2.0, 2.15)) for radio in radios
    ]
    return sample_catalog(antennas=ById((one.id, one) for one in types))


def crowded_plan(radios: Mapping[str, int] = RADIOS) -> Plan:
    """Return the sample's hull with all its antennas strewn over its top and belly."""
    names = [f"{radio}_{number}" for radio, many in radios.items() for number in range(many)]
    draw = np.random.default_rng(40)
    stations, butts = draw.uniform(75.0, 190.0, len(names)), draw.uniform(-12.0, 12.0, len(names))
    surfaces = ("top", "belly")
    units, antennas, cables, paths = {}, {}, {}, {}
    for index, name in enumerate(names):
        radio = name.rpartition("_")[0]
        at = place(float(stations[index]), float(butts[index]))
        units[f"u_{name}"] = sample_unit(ant=_port(radio))
        antennas[name] = Antenna(f"for_{radio}", surfaces[index % 2], at, source="sheet")
        cables[f"w_{name}"] = sample_assembly(length_m=inch(90))
        paths[f"p_{name}"] = Path((f"u_{name}.ant", f"w_{name}", name))
    fitted = sample_installation(
        units=ById(units), antennas=ById(antennas), cables=ById(cables), paths=ById(paths)
    )
    return sample_plan(found=fitted, design=fitted, built=fitted)


@cache
def crowded_facts() -> Facts:
    """Return the facts of that aircraft with the shipped tables."""
    return facts_with_radios(**RADIOS)


def facts_with_radios(**radios: int) -> Facts:
    """Return the facts of such an aircraft with other radios, so many of each kind."""
    return gather(crowded_plan(radios), crowded_catalog(radios), shipped_rulebook())


def _port(radio: str) -> Port:
    port = Port(radio, plug="bnc", loss_db=ById({"all": Range(NONE, 4.0)}), source="sheet")
    if radio not in SENDS:
        return replace(port, overload_dbm=-10.0)
    harmonics = ById({"12": 95.0, "13": 95.0}) if radio == "vhf_com" else ById()
    return replace(port, power_w=Range(10.0, 16.0), harmonics_db=harmonics, overload_dbm=-10.0)
