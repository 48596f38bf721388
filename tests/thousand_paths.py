# SPDX-License-Identifier: Apache-2.0
"""An invented plan of a thousand paths as files, and how long and large its judgement is.

Run as a script with a folder to write to, it judges the plan, writes every sheet and the package,
and prints, as JSON, the seconds of each step, those of the processor in all, and the most memory it
took.
"""

from __future__ import annotations

import json
import resource
import sys
import time
from argparse import Namespace
from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise
from pathlib import Path

SENDERS, LISTENERS, BRANCHES = 40, 60, 16
"""Antennas that send have one port each, the others sixteen behind a splitter."""

BAYS = 20


@dataclass(frozen=True, slots=True)
class Kind:
    """A kind of radio with an antenna for it, and what its ports state."""

    radio: str
    antenna: str
    states: str


SENDING = (
    Kind("vhf_com", "com_whip", "power: 10 .. 16 W, harmonics: {12: 95 dB, 13: 95 dB}"),
    Kind("transponder", "xpdr_blade", "class: high, power: 250 .. 350 W"),
    Kind("dme", "dme_blade", "power: 250 .. 300 W"),
    Kind("uat_978", "uat_blade", "class: medium, power: 30 .. 40 W"),
    Kind("elt", "elt_whip", "power: 4 .. 6 W"),
)
LISTENING = (
    Kind("gnss_l1", "gnss_l1_active", "feed: 4.7 .. 5.3 V, current: 60 mA"),
    Kind("vor_loc", "nav_whip_v", "overload: -10 dBm"),
    Kind("marker", "marker_sled", "overload: -10 dBm"),
)

SPLITTER = """\
rfplan: inline_part/1
kind: splitter
title: splitter of many branches
invented: true
common: tnc
ports:
{branches}
impedance: 50 ohm
sources:
  sheet: {{class: specification, read: invented, document: invented sheet T-10}}
source: sheet
"""
AIRFRAME = """\
rfplan: airframe/1
name: Thousand-path tube           # invented
sources:
  tape: {{class: measured, read: invented, who: M. Probe, date: 2026-09-14}}
source: tape
sections:
  unit: in
  rows:
    - [  0, 20.0, 10.0, 60.0, 2.4]
    - [900, 20.0, 10.0, 60.0, 2.4]
skin:
  hull: {{on: all, of: aluminium, thickness: 1 mm}}
zones:
  hatch: {{is: hatch, on: top, fs: 300 .. 320 in, bl: L12 .. R12 in, keep_off: 1 in}}
route:
  nodes:
{nodes}
  segments:
{segments}
weight: {{empty: 9000 lb, cg: 440 in, limits: 400 .. 480 in, lemac: 400 in, mac: 80 in}}
speeds: {{vne: 200 kt}}
"""
PLAN = """\
rfplan: plan/1
airframe: airframe.yaml
title: a thousand paths
revision: {{letter: A, status: draft, date: 2026-11-25}}
people:
  prepared: {{name: M. Probe}}
sources:
  d1: {{class: specification, read: invented, document: data sheet D-1, issue: "2"}}
source: d1
policy: {{waste: 5 %, spool: 500 ft}}
spacing:
  gnss_com: {{from: gnss, to: vhf_com, min: 36 in, datum: centre, strict: required, source: d1}}
units:
{units}
antennas:
{antennas}
cables:
{cables}
parts:
{parts}
paths:
{paths}
measurements:
{measurements}
"""


@dataclass(frozen=True, slots=True)
class Line:
    """An antenna with the ports behind it; one that sends has a single port and no splitter."""

    number: int
    kind: Kind
    ports: int

    @property
    def name(self) -> str:
        return f"{self.number:03}"

    @property
    def place(self) -> str:
        """Top or belly, one antenna every eight inches."""
        across = (self.number * 7) % 17 - 8
        side = f"{'L' if across < 0 else 'R'}{abs(across)}" if across else "0"
        return f"{30 + 840 * self.number / (SENDERS + LISTENERS):.1f} {side} in"

    def units(self) -> Iterator[str]:
        yield f"u{self.name}:"
        yield "  at: 24 R8 45 in"
        yield "  node: r0"
        yield "  ports:"
        for port in range(self.ports):
            yield f"    p{port}: {{radio: {self.kind.radio}, plug: tnc, plugs: included,"
            yield f"          loss: none .. 9 dB, {self.kind.states}}}"

    def antennas(self) -> Iterator[str]:
        on = "belly" if self.number % 3 else "top"
        yield f"a{self.name}:"
        yield f"  found:  {{type: {self.kind.antenna}, on: {on}, at: {self.place}}}"
        yield f"  design: {{on: {'top' if on == 'belly' else 'belly'}}}"

    def cables(self) -> Iterator[str]:
        yield f"t{self.name}:"
        yield "  found:  {type: rg_58c_u, plugs: [tnc, tnc], length: 60 in}"
        yield "  design: {type: rg_400_u, retermination: 4 in, loops: [6 in, 6 in]}"
        if self.ports > 1:
            for port in range(self.ports):
                yield f"w{self.name}_{port}: {{type: rg_400_u, plugs: [tnc, tnc], length: 40 in}}"

    def parts(self) -> Iterator[str]:
        if self.ports > 1:
            yield f"s{self.name}: {{type: splitter, at: r{self.number % BAYS}}}"

    def paths(self) -> Iterator[str]:
        for port in range(self.ports):
            through = f"w{self.name}_{port}, s{self.name}.b{port}, " if self.ports > 1 else ""
            chain = f"u{self.name}.p{port}, {through}t{self.name}, a{self.name}"
            yield f"p{self.name}_{port}: {{chain: [{chain}]}}"

    def measurements(self) -> Iterator[str]:
        yield (
            f"m{self.name}: {{path: p{self.name}_0, state: design, loss: 4 dB, at: 1090 MHz, "
            "temperature: 20 degC, uncertainty: 0.2 dB}"
        )


def plan_lines() -> Iterator[Line]:
    """Yield the antennas with their ports, senders and listeners each of every kind."""
    for number in range(SENDERS):
        yield Line(number, SENDING[number % len(SENDING)], 1)
    for number in range(SENDERS, SENDERS + LISTENERS):
        yield Line(number, LISTENING[number % len(LISTENING)], BRANCHES)


def nodes() -> Iterator[str]:
    for bay in range(BAYS):
        for side in "rl":
            yield f"{side}{bay}: {{at: {20 + 44 * bay} {side.upper()}16 50 in}}"


def segments() -> Iterator[str]:
    for bay in range(BAYS):
        yield f"r{bay}-l{bay}: 40 in"
        if bay + 1 < BAYS:
            yield from (f"{side}{bay}-{side}{bay + 1}: 46 in" for side in "rl")


def indented(lines: Iterator[str], by: int = 2) -> str:
    """Return lines, each set in."""
    return "\n".join(" " * by + line for line in lines)


def write(folder: Path) -> None:
    """Write the aircraft, and the catalogue entry that it needs."""
    parts = folder / "catalog" / "inline_parts"
    parts.mkdir(parents=True)
    branches = (f"b{n}: {{plug: tnc, loss: {{nominal: 1.5 dB}}}}" for n in range(BRANCHES))
    splitter = SPLITTER.format(branches=indented(branches))
    (parts / "splitter.yaml").write_text(splitter, "utf-8")
    airframe = AIRFRAME.format(nodes=indented(nodes(), 4), segments=indented(segments(), 4))
    (folder / "airframe.yaml").write_text(airframe, "utf-8")
    sections = ("units", "antennas", "cables", "parts", "paths", "measurements")
    told = {
        name: indented(text for line in plan_lines() for text in getattr(line, name)())
        for name in sections
    }
    (folder / "plan.yaml").write_text(PLAN.format(**told), "utf-8")


def main(folder: Path) -> None:
    """Judge the plan, write every sheet, and tell how long each step took."""
    from rfplan.commands.opening import judge
    from rfplan.records.package import package
    from rfplan.records.settings import Settings
    from rfplan.reports.formats import text
    from rfplan.reports.sheets import FILED, SHEETS

    write(folder)
    options = Namespace(
        catalog=str(folder / "catalog"), date=None, serial=None, state="design", units="in"
    )
    laps = [time.perf_counter()]
    judged = judge(str(folder), options)
    laps.append(time.perf_counter())
    for key in FILED:
        sheet = SHEETS[key].build(judged.assessment, judged.context)
        (folder / f"{key}.txt").write_text(text.write(sheet), "utf-8")
        laps.append(time.perf_counter())
    content = package(folder, Settings(), folder / "catalog")
    (folder / "package.zip").write_bytes(content)
    laps.append(time.perf_counter())
    seconds = [round(end - start, 3) for start, end in pairwise(laps)]
    used = resource.getrusage(resource.RUSAGE_SELF)
    told = {
        "paths": len(judged.assessment.paths),
        "steps_s": dict(zip(("judge", *FILED, "package"), seconds, strict=True)),
        "cpu_s": used.ru_utime + used.ru_stime,
        "peak_mb": used.ru_maxrss / 1024,
    }
    print(json.dumps(told))


if __name__ == "__main__":
    main(Path(sys.argv[1]))
