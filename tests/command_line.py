# SPDX-License-Identifier: Apache-2.0
"""The command line as a user meets it, in this process or in one of its own."""

from __future__ import annotations

import os
import subprocess
import sys
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

from plan_files import AIRFRAME, edited, write_aircraft

PLAN = """\
rfplan: plan/1
airframe: airframe.yaml
title: one antenna, one cable
revision: {letter: A, status: released, date: 2026-11-20, serial: 12}
sources:
  book: {class: specification, read: invented, document: invented installation data V-3, issue: "2"}
source: book
units:
  vhf1:
    at: 56 L4 46 in
    node: pan
    ports:
      com: {radio: vhf_com, plug: bnc, loss: none .. 2.5 dB, plugs: included,
            terminations: matched, limit_at: range, power: 10 W}
antennas:
  com: {type: com_whip, on: top, at: 140 0 in}
cables:
  w1:
    found: {type: rg_400_u, plugs: [bnc, bnc], length: 10 ft}
    design: {length: 11 ft}
paths:
  com: {chain: [vhf1.com, w1, com]}
"""
"""An invented plan that meets its limits."""

FAILING = edited(PLAN, ("loss: none .. 2.5 dB", "loss: none .. 0.5 dB"))
INCOMPLETE = edited(PLAN, ("loss: none .. 2.5 dB", 'loss: "?"'))
WAIVED = (
    edited(PLAN, ("power: 10 W", "power: 10 W, ground_plane: 18 in"))
    + """\
waivers:
  v1: {finding: {rule: RF205, of: [com]}, reason: a test needs one, who: A. Person}
"""
)

NAMES = """\
people:
  prepared: {name: A. Person}
  checked: {name: B. Person}
  released: {name: C. Person}
accepted:
  bnc.loss: {who: C. Person, date: 2026-11-20}
  rg_400_u.loss: {who: C. Person, date: 2026-11-20}
"""
"""What a release needs beside a plan that meets its limits."""


@dataclass(frozen=True, slots=True)
class Answer:
    """What a command came to: its exit code and what it printed."""

    code: int
    out: str
    err: str


Run = Callable[..., Answer]


def aircraft(folder: Path, plan: str = PLAN) -> str:
    """Write an invented aircraft into a new folder and return its name."""
    folder.mkdir(exist_ok=True)
    return str(write_aircraft(folder, plan, AIRFRAME))


def fresh(
    *arguments: str, stdout: int = subprocess.PIPE, **environment: str
) -> subprocess.CompletedProcess[bytes]:
    """Run rfplan in a process of its own, whose output waits in a buffer as it does for users."""
    return subprocess.run(
        [sys.executable, "-m", "rfplan", *arguments],
        stdout=stdout,
        stderr=subprocess.PIPE,
        check=False,
        timeout=60,
        env={**os.environ, "PYTHONUNBUFFERED": "", **environment},
    )
