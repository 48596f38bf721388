# SPDX-License-Identifier: Apache-2.0
"""What the tool reports: sheets, their formats, the formulas and their validation."""
