# SPDX-License-Identifier: Apache-2.0
"""What could be better: room on the skin, and places that an antenna might move to."""
