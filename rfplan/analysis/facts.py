# SPDX-License-Identifier: Apache-2.0
"""Everything rules and verdicts look at, computed once."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass, replace

from rfplan.analysis.air_load import air_loads
from rfplan.analysis.dc_feed import Supply, supplies
from rfplan.analysis.element_loss import BandGrid, ItemLoss, LossBook, band_grids, loss_book
from rfplan.analysis.loss_budget import BandBudget, band_budget
from rfplan.analysis.measured import PredictedReading, readings
from rfplan.analysis.placement import Fitted
from rfplan.analysis.receiver import Gain, all_gains
from rfplan.analysis.routing import End, Network, Site, cable_run, nearest_node, network
from rfplan.analysis.scene import Scene, scene_of
from rfplan.analysis.signal_path import Chain, cable_ends, resolve
from rfplan.analysis.weight import weight_change
from rfplan.model.air_load import AirLoad
from rfplan.model.assessment import CableRun
from rfplan.model.catalog import Catalog
from rfplan.model.plan import Installation, Plan
from rfplan.model.record import ById
from rfplan.model.rulebook import Rulebook
from rfplan.model.weight import WeightChange


@dataclass(frozen=True, slots=True, eq=False)
class Facts:
    """A plan with everything computed that verdicts need; the same only as itself."""

    plan: Plan
    catalog: Catalog
    rulebook: Rulebook
    scene: Scene
    site: Site
    ends: dict[str, tuple[str, str]]
    runs: ById[CableRun]
    chains: ById[Chain]
    budgets: ById[tuple[BandBudget, ...]]
    book: LossBook
    readings: ById[PredictedReading]
    gains: ById[tuple[Gain, ...]]
    supplies: ById[Supply]
    weight: WeightChange
    air_loads: tuple[AirLoad, ...]
    paths_by_object: Mapping[str, tuple[str, ...]]

    @property
    def installation(self) -> Installation:
        """What is fitted in the state looked at."""
        return self.plan.installation

    def loss_sources(self) -> dict[str, ItemLoss]:
        """Return one loss item for each catalogue entry in use, the extrapolated one first."""
        entries: dict[str, ItemLoss] = {}
        for id, chain in sorted(self.chains.items()):
            for budget in self.budgets[id]:
                for element, item in zip(chain.elements, budget.items, strict=True):
                    if element.type != "?" and (element.type not in entries or item.extrapolated):
                        entries[element.type] = item
        return entries

    def paths_of(self, *objects: str) -> tuple[str, ...]:
        """Return the paths that go through any of some units, ports, cables, parts or antennas."""
        through = (self.paths_by_object.get(object, ()) for object in objects)
        return tuple(sorted({id for paths in through for id in paths}))


def end_of(member: str, fitted: Installation, antennas: dict[str, Fitted], net: Network) -> End:
    """Return where a cable ends at a unit, part or antenna, and its node: stated, else nearest."""
    if member in antennas:
        place, node = antennas[member].point_m, antennas[member].antenna.node
        point = None if any(map(math.isnan, place)) else place
    elif member in fitted.units:
        unit = fitted.units[member]
        at = unit.at
        point = (at.fs_m, at.bl_m, at.wl_m or 0.0) if at else None
        node = unit.node
    else:
        node = fitted.parts[member].at
        point = net.points.get(node) if node else None
    if node is None and point is not None:
        node = nearest_node(net, point)
    return End(point, node)


def gather(plan: Plan, catalog: Catalog, rulebook: Rulebook) -> Facts:
    """Return the facts of a plan: places, routes, chains, loss budgets."""
    scene = scene_of(plan, catalog, rulebook)
    fitted = plan.installation
    net = network(plan.airframe, plan.variant)
    site = Site(net, plan.policy, rulebook.limits.support_spacing_m)
    ends = cable_ends(fitted)
    located = {
        member: end_of(member, fitted, scene.fitted, net)
        for member in {member for pair in ends.values() for member in pair}
    }
    runs = ById(
        (id, cable_run(id, fitted.cables[id], site, (located[a], located[b]), catalog))
        for id, (a, b) in ends.items()
    )
    chains = ById(
        (id, resolve(id, path, fitted, runs, catalog)) for id, path in fitted.paths.items()
    )
    book = loss_book(catalog, plan.policy)
    _look_up_cables(chains, rulebook, book)
    budgets = ById((id, path_budgets(chain, rulebook, book)) for id, chain in chains.items())
    return Facts(
        plan=plan,
        catalog=catalog,
        rulebook=rulebook,
        scene=scene,
        site=site,
        ends=ends,
        runs=runs,
        chains=chains,
        budgets=budgets,
        book=book,
        readings=ById(readings(plan, chains, book)),
        gains=all_gains(chains, budgets, plan.policy, rulebook),
        supplies=supplies(chains, book, plan.policy),
        weight=weight_change(plan, catalog, runs, site),
        air_loads=air_loads(plan, catalog),
        paths_by_object=_paths_by_object(fitted),
    )


def _paths_by_object(fitted: Installation) -> dict[str, tuple[str, ...]]:
    """The paths by themselves, and by each unit, port, cable, part and antenna in them."""
    through: dict[str, list[str]] = {}
    for id, path in fitted.paths.items():
        wholes = (member.partition(".")[0] for member in path.chain)
        for object in dict.fromkeys((id, *path.chain, *wholes)):
            through.setdefault(object, []).append(id)
    return {object: tuple(ids) for object, ids in through.items()}


def _look_up_cables(chains: ById[Chain], rulebook: Rulebook, book: LossBook) -> None:
    """Have the book compute each cable over all bands of the paths it is in, in one go."""
    wanted: dict[str, list[BandGrid]] = {}
    for chain in chains.values():
        grids = band_grids(chain.port, rulebook.radios[chain.port.radio])
        for run in chain.runs:
            if run.type != "?":
                wanted.setdefault(run.type, []).extend(grids)
    for type, bands in wanted.items():
        book.look_up(type, bands)


def path_budgets(chain: Chain, rulebook: Rulebook, book: LossBook) -> tuple[BandBudget, ...]:
    """The budget of every band; a radio that sends where it receives has it computed once."""
    computed: dict[tuple[float, float], BandBudget] = {}
    budgets: list[BandBudget] = []
    for grid in band_grids(chain.port, rulebook.radios[chain.port.radio]):
        ends = float(grid.frequency_hz[0]), float(grid.frequency_hz[-1])
        if ends in computed:
            budgets.append(replace(computed[ends], grid=grid))
        else:
            computed[ends] = band_budget(chain, grid, book)
            budgets.append(computed[ends])
    return tuple(budgets)
