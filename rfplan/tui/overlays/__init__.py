# SPDX-License-Identifier: Apache-2.0
"""What lies over a screen and takes the keys until it is closed."""
