# SPDX-License-Identifier: Apache-2.0
"""rfplan verify: is a package whole, and does it still come out the same?"""

from __future__ import annotations

from argparse import Namespace
from pathlib import Path

from rfplan.commands.opening import refuse
from rfplan.commands.output import complain, deliver, text_width
from rfplan.files.opening import read_bytes
from rfplan.files.problems import ProblemsError
from rfplan.records.container import MOST_BYTES, DamagedError
from rfplan.records.number_changes import number_changes
from rfplan.records.verify import verification_sheet, verify
from rfplan.reports.outcome import NOT_JUDGED
from rfplan.reports.printing import together

DIFFERS = 1
"""The exit code where a package is whole, and this version of rfplan says otherwise."""


def run(options: Namespace) -> int:
    """Print what differs; 0 if nothing does, 2 for what is no whole package."""
    try:
        content = read_bytes(Path(options.package), options.package, MOST_BYTES)
        verification = verify(content, number_changes())
    except ProblemsError as error:
        return refuse(error)
    except DamagedError as error:
        complain(f"rfplan: {options.package} is damaged or changed: {error}")
        return NOT_JUDGED
    sheet = verification_sheet(verification, Path(options.package).name)
    text = together([sheet], options.format, text_width(options))
    return deliver(text, options, DIFFERS if verification.differences else 0)
