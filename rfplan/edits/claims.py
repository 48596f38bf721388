# SPDX-License-Identifier: Apache-2.0
"""Edits of what people put their name to: waivers, accepted points, readings, a revision."""

from __future__ import annotations

from dataclasses import dataclass, replace

from rfplan.edits.edit import Edit
from rfplan.edits.fitting import EditError
from rfplan.edits.values import Value, with_values
from rfplan.model.plan import AcceptedPoint, Measurement, Person, Plan, Waiver
from rfplan.model.record import ById, is_name
from rfplan.units import FREQUENCY, LOSS, show

SHORTEST_REASON = 20
"""Least number of characters in the reason of a waiver."""


@dataclass(frozen=True, slots=True)
class AddWaiver(Edit):
    """Accept a finding by name and with a reason."""

    section = "waivers"

    id: str
    waiver: Waiver

    def apply(self, plan: Plan) -> Plan:
        if self.id in plan.waivers:
            raise EditError(f"there is a waiver {self.id} already")
        length = len(self.waiver.reason.strip())
        if length < SHORTEST_REASON:
            raise EditError(f"the reason has {length} characters, {SHORTEST_REASON} are needed")
        if not is_name(self.waiver.who):
            raise EditError("a waiver needs the name of who signs it")
        return replace(plan, waivers=plan.waivers.having(self.id, self.waiver))

    def words(self, plan: Plan) -> str:
        finding = self.waiver.finding
        return f"{finding.rule} for {' and '.join(finding.of)} waived by {self.waiver.who}"


@dataclass(frozen=True, slots=True)
class RemoveWaiver(Edit):
    """Take a waiver back."""

    section = "waivers"

    id: str

    def apply(self, plan: Plan) -> Plan:
        if self.id not in plan.waivers:
            raise EditError(f"there is no waiver {self.id}")
        return with_values(plan, [Value(("waivers", self.id), None)])

    def words(self, plan: Plan) -> str:
        return f"waiver {self.id} taken back"


@dataclass(frozen=True, slots=True)
class AcceptPoint(Edit):
    """Accept by name that an open point to confirm stays open, in place of who did before."""

    section = "accepted"

    id: str
    accepted: AcceptedPoint

    def apply(self, plan: Plan) -> Plan:
        if not is_name(self.accepted.who):
            raise EditError("an open point needs the name of who accepts it")
        return replace(plan, accepted=plan.accepted.having(self.id, self.accepted))

    def words(self, plan: Plan) -> str:
        return f"{self.id} accepted by {self.accepted.who}"


@dataclass(frozen=True, slots=True)
class SetMeasurement(Edit):
    """Record a reading, a new one or in place of one."""

    section = "measurements"

    id: str
    measurement: Measurement

    def apply(self, plan: Plan) -> Plan:
        path, state = self.measurement.path, self.measurement.state
        if path not in getattr(plan, state).paths:
            raise EditError(f"there is no path {path} in {state}")
        if self.measurement.at_hz <= 0.0:
            raise EditError("a reading needs a frequency above zero")
        if self.measurement.loss_db is None and self.measurement.vswr is None:
            raise EditError("a reading needs a loss or a VSWR")
        if self.measurement.vswr is not None and self.measurement.vswr < 1.0:
            raise EditError("a VSWR is never below 1")
        uncertainty_db = self.measurement.uncertainty_db
        if uncertainty_db is not None and uncertainty_db < 0.0:
            raise EditError("an uncertainty is never negative")
        return replace(plan, measurements=plan.measurements.having(self.id, self.measurement))

    def words(self, plan: Plan) -> str:
        reading = self.measurement
        told = [] if reading.loss_db is None else [show(reading.loss_db, LOSS, "dB")]
        told += [] if reading.vswr is None else [f"VSWR {reading.vswr:g}"]
        return (
            f"{reading.path} measured {', '.join(told)} at {show(reading.at_hz, FREQUENCY, 'MHz')}"
        )


@dataclass(frozen=True, slots=True)
class RemoveMeasurement(Edit):
    """Take a reading out."""

    section = "measurements"

    id: str

    def apply(self, plan: Plan) -> Plan:
        if self.id not in plan.measurements:
            raise EditError(f"there is no reading {self.id}")
        return with_values(plan, [Value(("measurements", self.id), None)])

    def words(self, plan: Plan) -> str:
        return f"reading {self.id} taken out"


@dataclass(frozen=True, slots=True)
class SetRevision(Edit):
    """Give the revision its letter, and the names of those who stand for it."""

    letter: str
    people: ById[Person]

    def changes(self, plan: Plan) -> tuple[str, ...]:
        return ("revision",)

    def apply(self, plan: Plan) -> Plan:
        if not self.letter.strip():
            raise EditError("a revision needs a letter")
        for role, person in self.people.items():
            if not person.name.strip():
                raise EditError(f"{role}: a name is needed, or ? where there is none yet")
        revision = replace(plan.revision, letter=self.letter)
        return replace(plan, revision=revision, people=self.people)

    def words(self, plan: Plan) -> str:
        names = (f"{role} by {person.name}" for role, person in self.people.items())
        return ", ".join([f"revision {self.letter}", *names])
