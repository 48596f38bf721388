# SPDX-License-Identifier: Apache-2.0
"""RF309: a cable that the equipment fixes differs from what it fixes."""

from collections.abc import Iterator

from rfplan.analysis.facts import Facts
from rfplan.analysis.signal_path import Chain
from rfplan.model.assessment import CableRun
from rfplan.model.findings import Finding
from rfplan.model.plan import Assembly
from rfplan.model.rulebook import Rule, Strictness
from rfplan.rules.room import found, plan_source
from rfplan.sources import COMMON_PRACTICE, Citation
from rfplan.units import Missing

RULE = Rule(
    id="RF309",
    name="fixed-cable-changed",
    title="A cable whose type or length the equipment fixes was changed",
    strictness=Strictness.ADVICE,
    otherwise="where the port itself says `cable: fixed`",
    why="Where the cable is part of a calibration, another length or type falsifies the reading.",
    remedy="keep the cable as found, or enter the type and length that the document states",
    known_limits="without stated data only a change against the state found is seen",
    source=Citation(COMMON_PRACTICE),
)

LENGTH_TOLERANCE_M = 0.0127
"""A length counts as kept within half an inch (common practice, no source)."""


def check(facts: Facts) -> Iterator[Finding]:
    """Yield a finding for each fixed cable that differs from its stated, or its found, self."""
    for chain in facts.chains.values():
        port = chain.port
        kind = port.cable or facts.rulebook.radios[port.radio].cable
        if kind != "fixed":
            continue
        strict = Strictness.REQUIRED if port.cable == "fixed" else Strictness.ADVICE
        source = plan_source(facts.scene, port.source) if port.cable == "fixed" else None
        for run in chain.runs:
            for text in _differences(facts, chain, run):
                yield found(RULE, facts, (run.id,), text, strictness=strict, source=source)
                break


def _differences(facts: Facts, chain: Chain, run: CableRun) -> Iterator[str]:
    port, was = chain.port, facts.plan.found.cables.get(run.id)
    if port.cable_type is not None:
        if run.type != port.cable_type:
            yield f"{run.id} is {run.type}; the equipment fixes {port.cable_type}"
    elif was is not None and was.type != run.type:
        yield f"{run.id} was {was.type} and is now {run.type}"
    elif was is not None and port.cable_length_m is None and _has_other_length(was, run):
        yield f"{run.id} does not have the length that was found"
    if port.cable_length_m is not None and len(chain.runs) == 1:
        if not abs(run.length_m.nominal - port.cable_length_m) <= LENGTH_TOLERANCE_M:
            yield f"{run.id} does not have the length that the equipment fixes"
    elif was is None and port.cable_type is None:
        yield f"{run.id} is new, and the equipment fixes this cable"


def _has_other_length(was: Assembly, run: CableRun) -> bool:
    """Whether a cable whose length was measured as found has another one now."""
    if was.length_m is None or isinstance(was.length_m, Missing):
        return False
    return not abs(run.length_m.nominal - was.length_m) <= LENGTH_TOLERANCE_M
