# SPDX-License-Identifier: Apache-2.0
"""The files of an invented aircraft, and what the loader says of a copy with one thing changed."""

from __future__ import annotations

from functools import cache
from pathlib import Path

from rfplan.files.load import LoadedPlan, load_catalog, load_plan, load_rulebook
from rfplan.files.problems import ProblemsError
from rfplan.model.catalog import Catalog
from rfplan.model.plan import State
from rfplan.model.rulebook import Rulebook

AIRFRAME = """\
rfplan: airframe/1
name: Demo tandem                  # invented
datum: FS 0 is the spinner tip
sources:
  tape: {class: measured, who: M. Probe, date: 2026-09-14, with: steel tape}
  drawing: {class: specification, document: three-view DT-7, issue: C}
source: drawing

sections:
  unit: in
  rows:
    - [ 10,  8.0, 30.0, 46.0, 2.0]
    - [ 50, 18.0, 24.0, 56.0, 2.5]
    - [100, 16.0, 26.0, 66.0, 2.5]
    - [220,  3.0, 44.0, 52.0, 2.0]
plates:
  wing:
    root: [60 0 26 in, 110 0 26 in]
    tip: [66 R180 32 in, 96 R180 32 in]
    thickness: 5 in
    mirror: true
skin:
  floor: {on: bottom, fs: 40 .. 90 in, of: carbon}
  flank: {on: side, fs: 40 .. 90 in, bl: L30 .. L10 in, of: glass}
  hull:  {on: all, of: glass, thickness: 2 mm}
zones:
  canopy: {is: window, on: top, fs: 60 .. 120 in, bl: L12 .. R12 in, keep_off: 1 in}
  compass: {is: sensor, at: 48 0 52 in, radius: 10 in, source: AC_43_13_1B 12-37}
frames:
  firewall: {fs: 38 in}
route:
  source: tape
  nodes:
    pan: {at: 58 L8 48 in, is: panel}
    sil: {at: 70 L15 40 in}
    aft: {at: 130 0 50 in, is: bulkhead, passes: 3, bulkhead: tnc_feedthrough}
    tip: {at: 150 0 58 in}
  segments:
    pan-sil: 18 in
    sil-aft: {length: 5 ft 6 in, source: drawing}
    aft-tip: "?"
weight: {empty: 880 lb, cg: 88.0 in}
variants:
  early: {serials: [1 .. 9, 12]}
  late:  {serials: 20 .., segments: {sil-aft: +2 in, pan-sil: 19 in}, closed: [aft-tip]}
"""

PLAN = """\
rfplan: plan/1
airframe: airframe.yaml
title: GNSS antenna to the turtle deck
revision: {letter: B, status: draft, date: 2026-10-30, serial: 12}
people: {prepared: {name: M. Probe, stamp: 7}, checked: "?"}
sources:
  book: {class: specification, document: invented installation data V-3, issue: 2}
  tape: {class: measured, who: M. Probe, date: 2026-09-14}
source: tape
policy: {near: 0.4 dB, stack: rss, agreement: required}
spacing:
  gnss_com: {from: gnss, to: vhf_com, min: 30 in, strict: required, source: book}

units:
  vhf1:
    at: 56 L4 46 in
    source: book
    ports:
      gnss: {radio: gnss_l1, plug: tnc, loss: 2 .. 7 dB, feed: 4.5 .. 5.5 V}
      com: {radio: vhf_com, plug: bnc, loss: {rx: "?", tx: none .. 3 dB}, power: 10 W}
      vor: {radio: vor_loc, plug: bnc, loss: none, source: AC_43_13_2A 37}
  vhf2: {like: vhf1, at: 56 R4 46 in, ports: {com: {radio: vhf_com, plug: bnc, loss: "?"}}}

antennas:
  gnss:
    found: {type: gnss_l1_old, on: panel, at: 55 0 54 in}
    design: {type: gnss_l1_active, on: top, at: 126 L1 in, ground_plane: foil}
  com:
    found: {type: com_whip, on: bottom, at: 80 0 in}
    built: {at: 82 0 in}
  nav: {type: nav_whip_v, on: top, at: 200 0 in}
  spare:
    found: {type: com_whip, on: side, at: 80 R15 40 in}
    design: none
ground_planes:
  foil:
    design: {of: copper foil, on: top, fs: 121 .. 132 in, bl: L5 .. R5 in, verified: "?"}

cables:
  source: book
  w1:
    found: {type: rg_58c_u, plugs: [tnc, tnc], length: 40 in, age: 11 yr, ageing: 15 %}
    design: {type: rg_400_u, plugs: [tnc, tnc_angle], via: [sil], loops: [5 in, "?"], source: tape}
    built: {length: 7 ft 2.5 in}
  w2: {type: "?", plugs: [bnc, bnc]}
  w3: {type: rg_58c_u, plugs: [bnc, bnc]}
  w4: {like: w3, length: 9 in}
  w5: {like: w3}
parts:
  split: {type: splitter_2, at: aft}
paths:
  gnss: {chain: [vhf1.gnss, w1, gnss]}
  com: {chain: [vhf1.com, w2, com]}
  vor1: {chain: [vhf1.vor, w3, split.a, w5, nav]}
  vor2: {chain: [vhf2.vor, w4, split.b, w5, nav]}
measurements:
  m1: {path: gnss, loss: 3.1 dB, at: 1575.42 MHz, date: 2026-10-29}
waivers:
  v1:
    finding: {rule: RF501, of: [gnss, com]}
    reason: no other place
    who: A. Person
"""


@cache
def shipped_catalog() -> Catalog:
    """Return the shipped catalogue, read once."""
    return load_catalog()


@cache
def shipped_rulebook() -> Rulebook:
    """Return the shipped rulebook, read once."""
    return load_rulebook()


def edited(text: str, *changes: tuple[str, str]) -> str:
    """Return a text with each old piece, which has to be in it once, replaced by a new one."""
    for old, new in changes:
        assert text.count(old) == 1, f"{old!r} stands {text.count(old)} times"
        text = text.replace(old, new)
    return text


def write_aircraft(folder: Path, plan: str = PLAN, airframe: str = AIRFRAME) -> Path:
    """Write the two files of an aircraft and return their folder."""
    (folder / "plan.yaml").write_text(plan, encoding="utf-8")
    (folder / "airframe.yaml").write_text(airframe, encoding="utf-8")
    return folder


def loaded(path: Path, *, state: State = State.DESIGN, serial: str | None = None) -> LoadedPlan:
    """Return a plan read with the shipped catalogue and tables."""
    catalog, rulebook = shipped_catalog(), shipped_rulebook()
    return load_plan(path, catalog=catalog, rulebook=rulebook, state=state, serial=serial)


def problems_of(path: Path, serial: str | None = None) -> list[str]:
    """Return what the loader has to say of a plan, each file by its name alone."""
    try:
        loaded(path, serial=serial)
    except ProblemsError as error:
        folder = path if path.is_dir() else path.parent
        return [problem.text().replace(f"{folder}/", "") for problem in error.problems]
    return []
