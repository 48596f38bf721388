# SPDX-License-Identifier: Apache-2.0
"""Loss into a mismatched antenna, by the handbook and exactly; pieces of another impedance."""

from __future__ import annotations

import pytest
from sample import sample_catalog, sample_facts, with_entry

from rfplan.analysis.mismatched_cables import AGREES_DB, loaded_line, odd_pieces
from rfplan.model.catalog import Catalog
from rfplan.physics.mismatched_line import line_loss_mismatched_db
from rfplan.physics.odd_piece import odd_piece_loss_db
from rfplan.units import Toleranced


def with_antenna(vswr: float | None, id: str = "com_whip") -> Catalog:
    return with_entry(sample_catalog(), "antennas", id, vswr=vswr)


def test_the_handbook_takes_the_matched_loss_and_the_vswr_at_the_antenna() -> None:
    facts = sample_facts(catalog=with_antenna(3.0))
    line = loaded_line(facts, "com1")
    assert line is not None
    run = facts.runs["w21"]
    metre = facts.book.metre_loss("coax_5mm", facts.budgets["com1"][0].grid).nominal[0]
    expected = line_loss_mismatched_db(metre * run.length_m.nominal, 3.0)
    assert line.handbook_db == pytest.approx(float(expected))
    assert (line.cable, line.frequency_hz, line.vswr) == ("w21", 117.975e6, 3.0)
    assert line.exact_db[0] <= line.handbook_db <= line.exact_db[1]


def test_high_in_frequency_both_hold_and_low_with_much_reflection_only_the_exact_one() -> None:
    high = loaded_line(sample_facts(catalog=with_antenna(1.5, "gnss_active")), "gnss1")
    low = loaded_line(sample_facts(catalog=with_antenna(6.0)), "com1")
    assert high is not None
    assert low is not None
    assert (high.holds, low.holds) == ("both", "exact only")
    assert max(abs(end - low.handbook_db) for end in low.exact_db) > AGREES_DB


def test_a_matched_antenna_leaves_the_matched_loss_to_both() -> None:
    line = loaded_line(sample_facts(catalog=with_antenna(1.0)), "com1")
    assert line is not None
    assert line.exact_db == pytest.approx((line.handbook_db,) * 2, abs=0.01)


def test_without_a_vswr_there_is_no_such_line() -> None:
    assert loaded_line(sample_facts(), "com1") is None


def test_a_cable_of_the_impedance_of_its_ports_is_no_odd_piece() -> None:
    assert list(odd_pieces(sample_facts(), "com1")) == []
    within = with_entry(sample_catalog(), "cables", "coax_5mm", impedance_ohm=Toleranced(51.5, 2.0))
    assert list(odd_pieces(sample_facts(catalog=within), "com1")) == []


def test_an_odd_piece_tells_what_it_adds_and_how_long_it_should_be() -> None:
    catalog = with_entry(
        sample_catalog(), "cables", "coax_5mm", impedance_ohm=Toleranced(75.0, 3.0)
    )
    facts = sample_facts(catalog=catalog)
    (piece,) = odd_pieces(facts, "xpdr1")
    assert (piece.cable, piece.ohm, piece.port_ohm, piece.worst_vswr) == ("w31", 75.0, 50.0, 2.25)
    assert 0.0 <= piece.adds_db <= piece.worst_db
    for length_m, adds_db in ((piece.best_m, 0.0), (piece.worst_m, piece.worst_db)):
        at = odd_piece_loss_db(75.0, 50.0, piece.frequency_hz, length_m, 0.695)
        assert float(at) == pytest.approx(adds_db, abs=1e-9)
        assert abs(length_m - piece.length_m) < 0.15
