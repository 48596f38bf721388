# SPDX-License-Identifier: Apache-2.0
"""Plan and catalogue to facts: one question a file; no verdicts here."""
