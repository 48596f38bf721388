# SPDX-License-Identifier: Apache-2.0
"""The shipped numbers that a rule compares with; what a plan states stands over them."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass

from rfplan.model.rulebook import Limits, Rulebook
from rfplan.rules import (
    rf206_base_on_curved_skin,
    rf306_bend,
    rf314_drop_short,
    rf402_power_at_antenna,
    rf410_carrier_to_noise,
    rf501_spacing,
)
from rfplan.sources import citation
from rfplan.units import Missing, Range


@dataclass(frozen=True, slots=True)
class Limit:
    """One shipped limit: not less than `least`, not more than `most`."""

    name: str
    least: float | None
    most: float | None
    unit: str
    source: str


def limits_of(rule: str, rulebook: Rulebook) -> tuple[Limit, ...]:
    """Return the shipped limits of a rule; none where all its limits come with the plan."""
    limits = _LIMITS.get(rule)
    return tuple(limits(rulebook)) if limits else ()


def source_text(reference: str | None) -> str:
    """Return title and place of a document that a table names by its key."""
    try:
        return citation(reference or "").text()
    except LookupError:
        return reference or ""


def _source(limits: Limits, name: str) -> str:
    return source_text(limits.sources.get(name))


def _base_gap(rulebook: Rulebook) -> Iterator[Limit]:
    limits = rulebook.limits
    yield Limit("base_gap", None, limits.base_gap_m, "m", _source(limits, "base_gap"))


def _bends(rulebook: Rulebook) -> Iterator[Limit]:
    limits = rulebook.limits
    yield Limit("bend_floor", limits.bend_floor_od, None, "od", _source(limits, "bend_floor"))
    yield Limit("bend_advice", limits.bend_advice_od, None, "od", _source(limits, "bend_advice"))


def _shortness(rulebook: Rulebook) -> Iterator[Limit]:
    limits, name = rulebook.limits, "shorter_than_straight"
    yield Limit(name, None, limits.shorter_than_straight_m, "m", _source(limits, name))
    part = f"{name}_part"
    ratio = limits.shorter_than_straight_part_ratio
    yield Limit(part, None, ratio, "", _source(limits, part))


def _powers(rulebook: Rulebook) -> Iterator[Limit]:
    for radio in rulebook.radios.values():
        for name, one in radio.classes.items():
            ends = _ends(one.antenna_power_w)
            yield Limit(f"{radio.id}.{name}", *ends, "W", source_text(one.source))
        for name, level in radio.sensitivity.items():
            ends = _ends(level.level_dbm)
            yield Limit(f"{radio.id}.{name}", *ends, "dBm", source_text(level.source))


def _carriers(rulebook: Rulebook) -> Iterator[Limit]:
    """What carrier to noise is worked out from: levels promised, and the least antenna gain."""
    limits, name = rulebook.limits, "gnss_gain"
    yield Limit(name, limits.gnss_gain_dbi, None, "dBi", _source(limits, name))
    for radio in rulebook.radios.values():
        for band, one in radio.bands.items():
            if (carrier := one.carrier) is not None:
                source = source_text(carrier.source)
                yield Limit(f"{radio.id}.{band}", carrier.level_dbm, None, "dBm", source)


def _spacings(rulebook: Rulebook) -> Iterator[Limit]:
    for id, spacing in rulebook.spacings.items():
        yield Limit(id, spacing.min_m, None, "m", source_text(spacing.source))


def _ends(limit: Range) -> tuple[float | None, float | None]:
    low, high = limit.low, limit.high
    return None if isinstance(low, Missing) else low, None if isinstance(high, Missing) else high


_LIMITS: dict[str, Callable[[Rulebook], Iterator[Limit]]] = {
    rf206_base_on_curved_skin.RULE.id: _base_gap,
    rf306_bend.RULE.id: _bends,
    rf314_drop_short.RULE.id: _shortness,
    rf402_power_at_antenna.RULE.id: _powers,
    rf410_carrier_to_noise.RULE.id: _carriers,
    rf501_spacing.RULE.id: _spacings,
}
