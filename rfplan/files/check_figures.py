# SPDX-License-Identifier: Apache-2.0
"""Figures of gain, noise and supply that no formula could work with."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from rfplan.files.check_names import check_known
from rfplan.files.draft import PlanDraft
from rfplan.files.faults import Faults, quoted
from rfplan.files.nodes import Location, Node
from rfplan.files.shape_plan import INSTALLED
from rfplan.model.catalog import AntennaType, Cable, Catalog, InlinePart
from rfplan.model.plan import ANY_CABLE, Group, Port
from rfplan.units import Missing

Figures = Iterable[tuple[Location, float | None, str]]
"""Where a figure stands, what it is, and an example of one."""

HARMONICS = tuple(str(order) for order in range(2, 41))
"""The numbers of harmonics that a port may tell of."""

COLDEST_C = -200.0
"""Below this the resistance of copper is no longer a straight line of the temperature."""


def check_policy_figures(draft: PlanDraft, catalog: Catalog) -> None:
    """Add a problem for each figure of the policy that nothing can be worked out with."""
    policy, faults, root = draft.head.policy, draft.faults, draft.root
    figures: list[tuple[Location, float | None, str]] = [
        (("policy", "retermination_cut"), policy.retermination_cut_m, "2 in"),
        (("policy", "antenna_noise"), policy.antenna_noise_k, "100 K"),
        (("policy", "noise_rise"), policy.noise_rise_db, "1 dB"),
        *((("policy", "spool", type), one, "100 ft") for type, one in policy.spool_m.items()),
    ]
    _above_zero(figures, root, faults)
    shares = ("waste", policy.waste_ratio), ("ageing", policy.ageing_ratio)
    _not_negative([(("policy", key), one, "10 %") for key, one in shares], root, faults)
    for type in policy.spool_m:
        known = {ANY_CABLE, *catalog.cables}
        check_known(type, "cable", known, (root, ("policy", "spool", type)), faults)
    low, high = policy.temperature_c.low, policy.temperature_c.high
    loc = ("policy", "temperature")
    if isinstance(low, Missing) or isinstance(high, Missing):
        faults.say(root, loc, "both ends are needed", "such as -55 .. 70 degC")
    elif low < COLDEST_C:
        faults.say(root, loc, "colder than any formula reaches", "such as -55 .. 70 degC")
    for id, group in draft.head.groups.items():
        _not_negative(_group(("groups", id), group), root, faults)


def check_masses(draft: PlanDraft, catalog: Catalog) -> None:
    """Add a problem for each mass of nothing known, or that no thing can have."""
    faults, root = draft.faults, draft.root
    known = {*catalog.cables, *catalog.connectors, *catalog.inline_parts, *catalog.antennas}
    known |= {id for section in INSTALLED for id in draft.named(section)}
    for id, stated in draft.head.masses.items():
        loc: Location = ("masses", id)
        check_known(id, "thing or type of thing", known, (root, loc), faults)
        low, high = stated.each_kg.low, stated.each_kg.high
        if isinstance(low, Missing) or isinstance(high, Missing):
            faults.say(root, (*loc, "each"), "both ends are needed", "such as 10 .. 30 g")
        elif low < 0.0:
            faults.say(root, (*loc, "each"), "never negative", "such as 10 .. 30 g")


def check_port_figures(loc: Location, port: Port, root: Node, faults: Faults) -> None:
    """Add a problem for each figure of a port that cannot be."""
    _not_negative([((*loc, "noise_figure"), port.noise_figure_db, "4 dB")], root, faults)
    _above_zero([((*loc, "bandwidth"), port.bandwidth_hz, "8 MHz")], root, faults)
    harmonics = port.harmonics_db.items()
    below: Figures = [((*loc, "harmonics", order), one, "95 dB") for order, one in harmonics]
    _not_negative(below, root, faults)
    for order in port.harmonics_db:
        if order not in HARMONICS:
            message = f"{quoted(order)} is no number of a harmonic"
            faults.say(root, (*loc, "harmonics", order), message, "2 to 40, such as 13: 95 dB")


def check_cable_figures(cable: Cable, root: Node, faults: Faults) -> None:
    """Add a problem for a conductor that resists less than nothing."""
    figures: list[tuple[Location, float | None, str]] = [
        ((name, "resistance"), conductor.resistance_ohm_per_m, "39 ohm/km")
        for name, conductor in (("centre", cable.centre), ("shield", cable.shield))
        if conductor is not None
    ]
    _not_negative(figures, root, faults)


def check_part_figures(part: InlinePart, root: Node, faults: Faults) -> None:
    """Add a problem for each figure of an inline part's supply or stop band that cannot be."""
    _not_negative([(("resistance",), part.resistance_ohm, "0.4 ohm")], root, faults)
    _above_zero([(("rejection",), part.rejection_db, "35 dB")], root, faults)
    if (part.stop_hz is None) != (part.rejection_db is None):
        key, other = ("stop", "rejection") if part.rejection_db is None else ("rejection", "stop")
        faults.say(root, (key,), f"without a {other}", "stop: 1563 .. 1588 MHz, rejection: 35 dB")
    loads = [
        (("ports", name, "load"), port.load_ohm, "200 ohm") for name, port in part.ports.items()
    ]
    _above_zero(loads, root, faults)


def check_antenna_figures(antenna: AntennaType, root: Node, faults: Faults) -> None:
    """Add a problem for an amplifier that adds less noise than none, a front of no size."""
    figures = [(("noise_figure", id), one, "2.5 dB") for id, one in antenna.noise_figure_db.items()]
    _not_negative(figures, root, faults)
    _above_zero([(("frontal_area",), antenna.frontal_area_m2, "7.5 in2")], root, faults)


def _group(loc: Location, group: Group) -> Iterator[tuple[Location, float | None, str]]:
    yield (*loc, "loss"), group.loss_db, "0.2 dB"
    yield (*loc, "length"), group.length_m, "0.5 in"
    yield (*loc, "delay"), group.delay_s, "0.1 ns"
    yield (*loc, "phase"), group.phase_rad, "5 deg"


def _not_negative(figures: Figures, root: Node, faults: Faults) -> None:
    for loc, value, example in figures:
        if value is not None and value < 0.0:
            faults.say(root, loc, "never negative", f"such as {example}")


def _above_zero(figures: Figures, root: Node, faults: Faults) -> None:
    for loc, value, example in figures:
        if value is not None and value <= 0.0:
            faults.say(root, loc, "not above zero", f"such as {example}")
