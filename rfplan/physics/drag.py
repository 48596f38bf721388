# SPDX-License-Identifier: Apache-2.0
"""The air load on an antenna, which its attachment has to hold."""

from __future__ import annotations

from rfplan.physics.domain import FloatOrArray, at_least
from rfplan.sources import AC_43_13_2B_CH3, OWN_COMPUTATION, cites

_DOCUMENT = AC_43_13_2B_CH3.at("drag load of an antenna")
_DERIVED = OWN_COMPUTATION.at("flat plate at sea level, 90 % taken off for streamlining")

_LBF_N = 4.4482216152605
_FOOT_M = 0.3048
_MILE_PER_HOUR_M_PER_S = 0.44704

BLADE_LBF_PER_FT2_MPH2 = 0.000327
"""The constant of the advisory circular, from memory; 0.00032723 when derived again."""

BLADE_KG_PER_M3 = BLADE_LBF_PER_FT2_MPH2 * _LBF_N / (_FOOT_M**2 * _MILE_PER_HOUR_M_PER_S**2)
STREAMLINED_RATIO = 0.1
"""What is left of the drag of a flat plate on a streamlined blade; a bluff body keeps it all."""


@cites(_DOCUMENT, _DERIVED, returns="N")
def blade_drag_n(area_m2: FloatOrArray, speed_m_per_s: FloatOrArray) -> FloatOrArray:
    """Return the drag of a streamlined blade antenna.

    Parameters
    ----------
    area_m2 : float or array
        Frontal area. [m2]
    speed_m_per_s : float or array
        Airspeed; the never-exceed speed for a load. [m/s]

    Returns
    -------
    float or array
        Drag; shape of the broadcast inputs. [N]

    Raises
    ------
    ValueError
        If any argument is negative.

    Notes
    -----
    D = 0.000327 A V^2 in lbf, ft2 and mph, which is half the sea-level density times 1.28 for a
    flat plate, times a tenth for streamlining. Knots come first as m/s. No side load.

    Examples
    --------
    >>> round(blade_drag_n(0.135 * 0.3048**2, 250 * 0.44704) / 4.4482216, 3)
    2.759
    """
    at_least(0.0, area_m2=area_m2, speed_m_per_s=speed_m_per_s)
    return BLADE_KG_PER_M3 * area_m2 * speed_m_per_s**2


@cites(_DOCUMENT, _DERIVED, returns="N")
def bluff_drag_n(area_m2: FloatOrArray, speed_m_per_s: FloatOrArray) -> FloatOrArray:
    """Return the drag of a bluff antenna: a round whip, or one whose shape is not known.

    Parameters
    ----------
    area_m2 : float or array
        Frontal area. [m2]
    speed_m_per_s : float or array
        Airspeed; the never-exceed speed for a load. [m/s]

    Returns
    -------
    float or array
        Drag; shape of the broadcast inputs. [N]

    Raises
    ------
    ValueError
        If any argument is negative.

    Notes
    -----
    Ten times the blade: the flat plate with nothing taken off. A round whip has nearly that.

    Examples
    --------
    >>> round(float(bluff_drag_n(0.01, 60.0) / blade_drag_n(0.01, 60.0)), 6)
    10.0
    """
    return blade_drag_n(area_m2, speed_m_per_s) / STREAMLINED_RATIO
