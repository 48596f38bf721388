# SPDX-License-Identifier: Apache-2.0
"""What does a match that was read at the unit say of the antenna at the other end of its line?"""

from __future__ import annotations

from rfplan.physics.mismatch import return_loss_db, vswr_from_return_loss
from rfplan.physics.mismatched_line import return_loss_at_load_db

HIDDEN_DB = 1.0
"""Where no more return loss than this is left at the antenna end, the line explains it all."""

TIE_DB = 1.0e-9


def antenna_return_loss_db(unit_db: float, line_db: float) -> float | None:
    """Return the return loss of the antenna behind a matched line; None where the line hides it."""
    if unit_db - 2.0 * line_db <= HIDDEN_DB + TIE_DB:
        return None
    return float(return_loss_at_load_db(unit_db, line_db))


def antenna_vswr(unit_vswr: float, line_db: float) -> float | None:
    """Return the VSWR of the antenna behind a matched line; None where the line hides it."""
    if unit_vswr == 1.0:
        return 1.0
    antenna_db = antenna_return_loss_db(float(return_loss_db(unit_vswr)), line_db)
    return None if antenna_db is None else float(vswr_from_return_loss(antenna_db))


def reflects_more(vswr: float, stated: float) -> bool:
    """Tell whether an antenna reflects more than its data state, as printed: to 0.01."""
    return round(vswr, 2) > stated
