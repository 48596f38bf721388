# SPDX-License-Identifier: Apache-2.0
"""Drawings of a plan, to scale: what stands where, and how far from what can be measured."""
