# SPDX-License-Identifier: Apache-2.0
"""The sample aircraft with the shipped GNSS masks, and ways to change who disturbs whom."""

from __future__ import annotations

from dataclasses import replace
from functools import cache

from plan_files import shipped_rulebook
from sample import (
    place,
    sample_antenna,
    sample_assembly,
    sample_catalog,
    sample_facts,
    sample_plan,
    sample_rulebook,
    sample_unit,
    with_radio,
)

from rfplan.analysis.facts import Facts
from rfplan.analysis.interference import interference
from rfplan.model.catalog import Catalog
from rfplan.model.interference import Exposure, Harm, Matrix
from rfplan.model.plan import Antenna, IsolationReading, Path, Plan
from rfplan.model.record import ById
from rfplan.model.rulebook import Rulebook
from rfplan.units import Range


@cache
def masked_rulebook() -> Rulebook:
    """Return the sample's rulebook with the shipped masks and channels, its whips upright."""
    shipped = shipped_rulebook()
    rulebook = replace(
        sample_rulebook(), gnss_masks=shipped.gnss_masks, ground_checks=shipped.ground_checks
    )
    for radio in ("vhf_com", "transponder"):
        rulebook = with_radio(rulebook, radio, polarisation="vertical")
    return rulebook


def facts_with(plan: Plan | None = None, catalog: Catalog | None = None) -> Facts:
    """Return the facts of a plan under the shipped masks."""
    return sample_facts(plan or sample_plan(), catalog or sample_catalog(), masked_rulebook())


def gained_catalog() -> Catalog:
    """Return the sample's catalogue with stated gains of COM whip and GNSS antenna."""
    catalog = sample_catalog()
    antennas = catalog.antennas
    for id, most_dbi in {"com_whip": 2.15, "gnss_active": 5.0}.items():
        antennas = antennas.having(id, replace(antennas[id], gain_dbi=Range(-3.0, most_dbi)))
    return replace(catalog, antennas=antennas)


def two_transponders(damage_dbm: float | None) -> Plan:
    """Return the sample with a second transponder 30 in behind the first, which it may damage."""
    plan = sample_plan()
    fitted = plan.design
    port = replace(fitted.units["xp1"].ports["ant"], damage_dbm=damage_dbm)
    stub = Antenna("xpdr_stub", "belly", place(140, 0), source="sheet")
    design = replace(
        fitted,
        units=fitted.units.having("xp2", sample_unit(ant=port)),
        antennas=fitted.antennas.having("xpdr2", stub),
        cables=fitted.cables.having("w32", sample_assembly()),
        paths=fitted.paths.having("xpdr2", Path(("xp2.ant", "w32", "xpdr2"))),
    )
    return replace(plan, design=design)


def with_elt(plan: Plan) -> tuple[Plan, Catalog, Rulebook]:
    """Return a plan with an ELT, and the catalogue and rulebook that know it."""
    fitted, catalog, rulebook = plan.design, sample_catalog(), masked_rulebook()
    port = replace(fitted.units["nav1"].ports["com"], radio="elt", power_w=Range(4.0, 5.0))
    design = replace(
        fitted,
        units=fitted.units.having("elt1", sample_unit(ant=port)),
        antennas=fitted.antennas.having(
            "elt1", Antenna("elt_whip", "top", place(180, 0), source="sheet")
        ),
        cables=fitted.cables.having("w41", sample_assembly()),
        paths=fitted.paths.having("elt1", Path(("elt1.ant", "w41", "elt1"))),
    )
    whip = sample_antenna("elt_whip", "elt")
    radio = shipped_rulebook().radios["elt"]
    return (
        replace(plan, design=design),
        replace(catalog, antennas=catalog.antennas.having("elt_whip", whip)),
        replace(rulebook, radios=rulebook.radios.having("elt", radio)),
    )


def reading_of(
    plan: Plan, source: str, victim: str, at_hz: float, isolation_db: float, off_m: float = 0.0
) -> Plan:
    """Return a plan with an isolation read to 2 dB where its antennas stand, or stood by then."""
    cells = interference(facts_with(plan)).cells
    apart_m = next(c.distance_m for c in cells if (c.source, c.victim) == (source, victim))
    reading = IsolationReading(
        (source, victim), isolation_db, 2.0, at_hz, apart_m + off_m, plan.state
    )
    return replace(plan, isolation=ById({"i1": reading}))


def exposures(matrix: Matrix, source: str, victim: str) -> tuple[Exposure, ...]:
    """Return what one antenna does to another, worst first."""
    return next(
        cell.exposures for cell in matrix.cells if (cell.source, cell.victim) == (source, victim)
    )


def exposure(
    matrix: Matrix, source: str, victim: str, order: int = 1, harm: Harm | None = None
) -> Exposure:
    """Return one exposure of a cell by the order of the emission, and the harm."""
    return next(
        one
        for one in exposures(matrix, source, victim)
        if one.order == order and harm in (None, one.harm)
    )


HARMONICS = ById({"12": 95.0, "13": 95.0})
