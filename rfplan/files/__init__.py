# SPDX-License-Identifier: Apache-2.0
"""Files in and out: YAML and Touchstone read with positions, saved without losing a comment."""
