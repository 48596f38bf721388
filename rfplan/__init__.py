# SPDX-License-Identifier: Apache-2.0
"""Plan antenna moves and RF cable loss on light aircraft."""

__version__ = "0.1.0"
