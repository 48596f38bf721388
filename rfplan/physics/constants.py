# SPDX-License-Identifier: Apache-2.0
"""Constants of nature in SI units, and the one conversion between neper and decibel."""

from __future__ import annotations

import math

SPEED_OF_LIGHT_M_PER_S = 299_792_458.0
BOLTZMANN_J_PER_K = 1.380649e-23
VACUUM_PERMEABILITY_H_PER_M = 4.0e-7 * math.pi
VACUUM_IMPEDANCE_OHM = VACUUM_PERMEABILITY_H_PER_M * SPEED_OF_LIGHT_M_PER_S
VACUUM_PERMITTIVITY_F_PER_M = 1.0 / (VACUUM_IMPEDANCE_OHM * SPEED_OF_LIGHT_M_PER_S)

DB_PER_NEPER = 20.0 / math.log(10.0)

ROOM_TEMPERATURE_C = 20.0
NOISE_REFERENCE_K = 290.0
COPPER_PER_K = 0.00393
"""Relative change of the resistivity of annealed copper per kelvin at 20 degC, from memory."""

COPPER_S_PER_M = 5.813e7
"""Conductivity of copper as Pozar prints it; 1.72e-8 ohm m."""
