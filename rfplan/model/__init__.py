# SPDX-License-Identifier: Apache-2.0
"""Frozen records of plan, airframe, catalogue, rules and results; no behaviour."""
