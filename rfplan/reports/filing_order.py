# SPDX-License-Identifier: Apache-2.0
"""The sheets in the order in which they are filed, wherever they are listed, printed or bound."""

FILING_ORDER = (
    "summary",
    "loss_budget",
    "response",
    "findings",
    "open_points",
    "measure_first",
    "placement",
    "spacing",
    "isolation",
    "interference",
    "structure",
    "weight_balance",
    "survey",
    "bill_of_materials",
    "cut_list",
    "revision",
    "sources_used",
    "continued_airworthiness",
    "cautions",
    "ground_check",
)
"""The verdict and what is behind it; places; hull; work on the aircraft; records; the last test."""
