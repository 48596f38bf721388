# SPDX-License-Identifier: Apache-2.0
"""rfplan drawing: write the placement drawing of a plan."""

from __future__ import annotations

from argparse import Namespace

from rfplan.commands.opening import judge, refuse
from rfplan.commands.output import deliver
from rfplan.files.problems import ProblemsError
from rfplan.reports.drawings.placement import placement_svg


def run(options: Namespace) -> int:
    """Print or write the drawing as SVG; 0 if it could be made, whatever the verdict."""
    try:
        judged = judge(options.plan, options)
    except ProblemsError as error:
        return refuse(error)
    return deliver(placement_svg(judged.assessment, judged.context), options, 0)
