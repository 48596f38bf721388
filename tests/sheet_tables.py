# SPDX-License-Identifier: Apache-2.0
"""Sheets read back: a table by its key, its rows as words by column."""

from __future__ import annotations

from dataclasses import replace

from sample import sample_airframe, sample_installation, sample_plan

from rfplan.model.airframe import Frame, Zone
from rfplan.model.plan import GroundPlane, Part, Person, Plan
from rfplan.model.record import ById
from rfplan.model.source import Source
from rfplan.reports.sheet import Cell, Sheet, Table
from rfplan.units import Range

HOSTILE = "\x1b]0;x\x07 \u202e| =cmd()\r\n`<script>alert(1)</script>\"&'"
"""What a file may hold and no output may pass on."""


def table_of(sheet: Sheet, key: str) -> Table:
    """Return one table of a sheet."""
    return next(table for table in sheet.tables if table.key == key)


def cells_of(sheet: Sheet, key: str) -> list[dict[str, Cell]]:
    """Return the rows of a table, each cell by the key of its column."""
    table = table_of(sheet, key)
    names = [column.key for column in table.columns]
    return [dict(zip(names, row, strict=True)) for row in table.rows]


def rows_of(sheet: Sheet, key: str) -> list[dict[str, str]]:
    """Return the rows of a table in words."""
    return [{name: cell.text for name, cell in row.items()} for row in cells_of(sheet, key)]


def values_of(sheet: Sheet, key: str, column: str) -> list[float]:
    """Return the numbers of a column, those that are not known left out."""
    values = [row[column].value for row in cells_of(sheet, key)]
    return [value for value in values if isinstance(value, (int, float))]


def hostile_plan() -> Plan:
    """Return the sample with hostile words wherever a file may hold words."""
    airframe = sample_airframe()
    zone = Zone("hatch", on="top", fs_m=Range(1.0, 1.5), bl_m=Range(-0.2, 0.2), why=HOSTILE)
    nodes = airframe.route.nodes
    route = replace(airframe.route, nodes=nodes.having("p1", replace(nodes["p1"], is_=HOSTILE)))
    fitted = sample_installation()
    units = fitted.units.having("nav1", replace(fitted.units["nav1"], title=HOSTILE))
    foil = GroundPlane(HOSTILE, "top", Range(1.8, 2.2), Range(-0.3, 0.3), verified=HOSTILE)
    design = replace(
        fitted,
        units=units,
        ground_planes=ById({"foil": foil}),
        parts=ById({"pad1": Part("pad_3db", at="rf1")}),
    )
    sources = {"sheet": Source("specification", document=HOSTILE, issue=HOSTILE, who=HOSTILE)}
    return sample_plan(
        title=HOSTILE,
        design=design,
        people=ById({"prepared": Person(HOSTILE, HOSTILE, HOSTILE)}),
        sources=ById(sources),
        airframe=replace(
            airframe,
            name=HOSTILE,
            datum=HOSTILE,
            zones=ById({"z": zone}),
            frames=ById({"f": Frame(2.5, HOSTILE)}),
            route=route,
        ),
    )
