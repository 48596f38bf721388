# SPDX-License-Identifier: Apache-2.0
"""What each screen shows, and where, at each size of terminal."""
