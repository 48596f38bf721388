# SPDX-License-Identifier: Apache-2.0
"""What is filed: packages that can be recomputed years later, and the revisions of a plan."""
