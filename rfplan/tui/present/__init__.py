# SPDX-License-Identifier: Apache-2.0
"""From an assessment to rows of text in inks: pure functions, without a terminal."""
