# SPDX-License-Identifier: Apache-2.0
"""Edits of a plan as frozen records: apply them, say them in words, keep them as JSON.

An edit acts on the state looked at and on each later state that had the same, up to the first
that differs in anything the edit sets: what was built otherwise than designed stays as built.
"""

from rfplan.edits.antennas import MoveAntenna, SetGroundPlane
from rfplan.edits.as_json import JsonError
from rfplan.edits.cables import SetCable, SetEnds, SetLengths, SetRoute
from rfplan.edits.claims import (
    AcceptPoint,
    AddWaiver,
    RemoveMeasurement,
    RemoveWaiver,
    SetMeasurement,
    SetRevision,
)
from rfplan.edits.edit import Edit, SetValues, named, things
from rfplan.edits.fitting import EditError
from rfplan.edits.reading import EDITED, KINDS, edit_from_json
from rfplan.edits.values import Value, differences, same, with_values

__all__ = [
    "EDITED",
    "KINDS",
    "AcceptPoint",
    "AddWaiver",
    "Edit",
    "EditError",
    "JsonError",
    "MoveAntenna",
    "RemoveMeasurement",
    "RemoveWaiver",
    "SetCable",
    "SetEnds",
    "SetGroundPlane",
    "SetLengths",
    "SetMeasurement",
    "SetRevision",
    "SetRoute",
    "SetValues",
    "Value",
    "differences",
    "edit_from_json",
    "named",
    "same",
    "things",
    "with_values",
]
