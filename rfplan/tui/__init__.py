# SPDX-License-Identifier: Apache-2.0
"""The workspace in the terminal: it shows an assessment and never judges one itself."""
