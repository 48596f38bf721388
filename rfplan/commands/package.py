# SPDX-License-Identifier: Apache-2.0
"""rfplan package: one file that holds a judged plan and all it rests on."""

from __future__ import annotations

from argparse import Namespace
from pathlib import Path

from rfplan.commands.opening import catalog_folder, given_date, refuse
from rfplan.commands.output import deliver_file, progress
from rfplan.files.problems import ProblemsError
from rfplan.model.plan import State
from rfplan.records.package import package
from rfplan.records.settings import Settings


def run(options: Namespace) -> int:
    """Write the package; 0 if it could be made, whatever the verdict."""
    try:
        content = package(Path(options.plan), settings(options), catalog_folder(options), progress)
    except ProblemsError as error:
        return refuse(error)
    return deliver_file(content, options, 0)


def settings(options: Namespace) -> Settings:
    """Return how a plan is to be judged and shown."""
    return Settings(
        state=State(options.state),
        serial=options.serial,
        units=options.units,
        date=given_date(options.date),
    )
