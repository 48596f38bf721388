# SPDX-License-Identifier: Apache-2.0
"""Ground check of interference: satellites, each COM keyed on its channels, each GNSS alone."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from rfplan.analysis.before_keying import to_measure
from rfplan.analysis.isolation_models import Rung
from rfplan.analysis.key_down import TRIED, key_down
from rfplan.model.assessment import Assessment, PathAssessment
from rfplan.model.ground_checks import KeyDown
from rfplan.model.interference import KeyDownStep, Matrix
from rfplan.reports.cells import decibels, frequency, listed, nothing, number, printed, words
from rfplan.reports.check_lines import PRACTICE, VSWR
from rfplan.reports.check_steps import Step, cited, numbered, step
from rfplan.reports.heading import signature
from rfplan.reports.sheet import Cell, Field, Table, number_field, table, text_field
from rfplan.reports.study import facts_of, matrix_of, mixing_of
from rfplan.units import FREQUENCY, in_unit

SATELLITES, KEY, ELT_OFF, ALONE, MIXED, OTHERS = 7, 8, 9, 10, 13, 14

STRONGEST_ORDER = 3
"""Mixing products of two COMs up to this order are listened for; higher ones are weaker."""

TUNED = ("vor_loc", "glideslope", "adf")
"""Receivers that can be tuned to where a product falls."""

GNSS, COM, ELT = "gnss", "vhf_com", "elt"
WATCHED = "no satellite lost, no flag, no change of accuracy"
UNCHANGED = "as in 8, no change"


def paths_of(assessment: Assessment, *kinds: str) -> list[PathAssessment]:
    """Return the paths whose radio is one of some radios, or belongs to one of some families."""
    radios = assessment.rulebook.radios
    return [
        path
        for path in assessment.paths
        if path.radio in kinds or radios[path.radio].family in kinds
    ]


def named_once(
    paths: Iterable[PathAssessment], *, each_antenna: bool
) -> list[tuple[str, PathAssessment]]:
    """Return paths with the name they are checked under: lines of one radio once, by its unit."""
    lines: dict[tuple[str, ...], list[PathAssessment]] = {}
    for path in paths:
        key = path.unit, path.radio, path.antenna if each_antenna else ""
        lines.setdefault(key, []).append(path)
    return [(one[0].id if len(one) == 1 else one[0].unit, one[0]) for one in lines.values()]


def satellite_steps(assessment: Assessment) -> Iterator[Step]:
    """Yield one step for each GNSS receiver, outdoors with a clear view."""
    for path in paths_of(assessment, GNSS):
        do, expect = "satellites, best C/N0", "as its data ask"
        yield step(SATELLITES, path.id, do, expect, None, PRACTICE)


def key_down_table(assessment: Assessment) -> Table:
    """Return the channels that this aircraft asks for, with a blank for every GNSS watched."""
    plan = assessment.rulebook.ground_checks.key_down
    gnss = paths_of(assessment, GNSS)
    fields: list[Field[tuple[str, KeyDownStep]]] = [
        text_field("step", "step", lambda row: words(row[0])),
        text_field("com", "key", lambda row: words(row[1].com)),
        text_field("channel", "channel", lambda row: words(row[1].channel)),
        number_field("carrier", "carrier", "MHz", lambda row: _carrier(row[1])),
        text_field("only", "sets", lambda row: words("8.33 kHz" if row[1].close else "all")),
        *(_watched(path.id) for path in gnss),
        text_field("others", "watch also", lambda row: _watched_also(row[1], gnss)),
        text_field("outcome", "PASS/FAIL", lambda row: signature()),
        text_field("initials", "initials", lambda row: signature()),
    ]
    title = _title(plan) if plan else f"{KEY} Key-down: no dwell is known"
    return table("key_down", title, fields, numbered(_keyed(assessment), lambda _: KEY), stub=3)


def _carrier(step: KeyDownStep) -> Cell:
    return number(in_unit(step.carrier_hz, FREQUENCY, "MHz"), "MHz", digits=5)


def _watched(path: str) -> Field[tuple[str, KeyDownStep]]:
    def blank(row: tuple[str, KeyDownStep]) -> Cell:
        return signature() if path in row[1].victims else nothing()

    return text_field(f"seen_{path}", f"watch {path}", blank)


def _watched_also(step: KeyDownStep, gnss: list[PathAssessment]) -> Cell:
    own = {path.id for path in gnss}
    return listed(id for id in step.victims if id not in own)


def isolation_steps(assessment: Assessment) -> Iterator[Step]:
    """Yield one step for each two antennas of which one may damage a receiver on the other."""
    facts = facts_of(assessment)
    for pair, one in to_measure(facts, matrix_of(assessment, Rung.DEFAULT)):
        at = frequency(one.frequency_hz).text
        do = f"isolation at {at} MHz between the plugs, both units disconnected"
        expect = decibels(one.coupling.have_db).text
        limit = f"{decibels(one.need_db).text} dB at least"
        yield step(VSWR, " to ".join(pair), do, f"{expect} dB or more", limit, PRACTICE)


def _keyed(assessment: Assessment) -> list[KeyDownStep]:
    """The steps with everything connected; the ELT has a table of its own."""
    facts = facts_of(assessment)
    steps = key_down(facts, matrix_of(assessment, Rung.DEFAULT))
    return [step for step in steps if step.repeat_with is None]


def _title(plan: KeyDown) -> str:
    seconds = printed(plan.dwell_s, "s")
    return (
        f"{KEY} Key each COM for {seconds} s, GNSS watched: {WATCHED}. Channels whose harmonic is "
        f"nearest to a signal in use, and one for the carrier, by name; dwell: "
        f"{cited(plan.source)}"
    )


def elt_steps(assessment: Assessment) -> Iterator[Step]:
    """Yield one step for each ELT and COM: the channels that failed, its cable off."""
    plan = assessment.rulebook.ground_checks.key_down
    source = cited(plan.source) if plan else PRACTICE
    for elt in paths_of(assessment, ELT):
        for com in paths_of(assessment, COM):
            do = f"key {com.id}"
            expect = "fails as before"
            yield step(ELT_OFF, elt.id, do, expect, None, source)


def alone_steps(assessment: Assessment) -> Iterator[Step]:
    """Yield one step for each GNSS receiver: it alone, the others off and their antennas unfed."""
    receivers = paths_of(assessment, GNSS)
    for path in receivers if len(receivers) > 1 else ():
        do, expect = "it alone, then all", "the same C/N0"
        yield step(ALONE, path.id, do, expect, None, PRACTICE)


def mixed_steps(assessment: Assessment) -> Iterator[Step]:
    """Yield one step for each band that two COMs keyed at one time mix into most strongly."""
    tuned = {path.id for path in paths_of(assessment, *TUNED)}
    for told in mixing_of(assessment).channels:
        if told.order <= STRONGEST_ORDER and tuned.issuperset(told.victims):
            pair, at = told.example, frequency(told.example.lands_hz).text
            keyed = " and ".join(map("{} on {}".format, pair.coms, pair.channels))
            do = f"tune {at} MHz; key {keyed} at one time, both free"
            expect = "needle and flag stay, nothing more is heard"
            yield step(MIXED, ", ".join(told.victims), do, expect, None, PRACTICE)


def other_steps(assessment: Assessment) -> Iterator[Step]:
    """Yield one step for each transmitter that is neither COM nor ELT, and who is watched."""
    talking = {path.id for path in paths_of(assessment, COM, ELT)}
    others = [p for p in assessment.paths if p.direction != "rx" and p.id not in talking]
    gnss = {path.id for path in paths_of(assessment, GNSS)}
    matrix = matrix_of(assessment, Rung.DEFAULT)
    for id, path in named_once(others, each_antenna=False):
        units = {other.id for other in others if other.unit == path.unit}
        also = sorted(_undecided(matrix, units) - gnss)
        if gnss or also:
            do = f"{path.unit} transmits" + (f"; watch also {', '.join(also)}" if also else "")
            yield step(OTHERS, id, do, UNCHANGED, None, PRACTICE)


def _undecided(matrix: Matrix, sources: set[str]) -> set[str]:
    """The paths that some transmitters may disturb, and only a trial decides."""
    return {
        one.victim
        for cell in matrix.cells
        for one in cell.exposures
        if one.source in sources and one.verdict is None and one.harm in TRIED
    }
