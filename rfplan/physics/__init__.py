# SPDX-License-Identifier: Apache-2.0
"""Every formula once, one topic a file; floats and arrays in, floats and arrays out."""
