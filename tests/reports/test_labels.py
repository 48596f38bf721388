# SPDX-License-Identifier: Apache-2.0
"""Both ends of every cable carry a label that fits the sleeve and tells them apart."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st
from sample import sample_catalog, sample_installation, with_entry

from rfplan.model.plan import Part, Path
from rfplan.model.record import ById
from rfplan.reports.labels import SLEEVE, Ends, assembly_ends, labels

IDS = st.from_regex(r"[a-z][a-z0-9_]{0,30}", fullmatch=True)


def test_a_label_says_path_from_and_to_with_ports() -> None:
    ends = Ends("w11", "nav1.gnss", "gnss1", ("gnss1",))
    assert labels(ends) == ("GNSS1-NAV1.GNSS/GNSS1", "GNSS1-GNSS1/NAV1.GNSS")


@pytest.mark.parametrize(
    ("ends", "first"),
    [
        (Ends("w11", "navigator_1.gnss", "gnss1", ("gnss1",)), "GNSS1-NAVIGATOR_1/GNSS1"),
        (Ends("w1", "navigator1.a", "antenna1", ("long_path1",)), "W1-NAVIGATOR1/ANTENNA1"),
        (Ends("w1", "navigator_left.a", "antenna_left", ("p",)), "W1-A"),
    ],
)
def test_a_label_gives_up_ports_then_the_path_then_all_but_the_end(ends: Ends, first: str) -> None:
    assert labels(ends)[0] == first


def test_a_cable_that_several_paths_use_is_labelled_by_itself() -> None:
    assert labels(Ends("w31", "nav1.nav", "split1", ("a", "b")))[0] == "W31-NAV1.NAV/SPLIT1"


@given(IDS, IDS, IDS, IDS)
def test_labels_always_fit_and_the_two_ends_always_differ(cable, near, far, path) -> None:
    one, other = labels(Ends(cable, near, f"{far}x", (path,)))
    assert max(len(one), len(other)) <= SLEEVE
    assert one != other or near == f"{far}x"


def test_what_a_cable_connects_is_read_from_the_chain() -> None:
    ends = assembly_ends(sample_installation(), sample_catalog())
    assert ends["w21"] == Ends("w21", "nav1.com", "com1", ("com1",))


def test_a_shared_cable_names_every_path_and_the_first_one_tells_its_ends() -> None:
    fitted = sample_installation()
    shared = replace(
        fitted, paths=ById({"b": Path(("u.b", "w11", "x")), "a": Path(("u.a", "w11", "x"))})
    )
    assert assembly_ends(shared, sample_catalog())["w11"] == Ends("w11", "u.a", "x", ("a", "b"))


@pytest.mark.parametrize(
    ("kind", "before", "behind"),
    [("diplexer", "part.b", "part.common"), ("combiner", "part.common", "part.b")],
)
def test_a_cable_behind_a_branch_meets_the_common_plug_of_the_part(
    kind: str, before: str, behind: str
) -> None:
    fitted = sample_installation()
    fitted = replace(
        fitted,
        parts=ById({"part": Part("split_2", "n")}),
        paths=ById({"p": Path(("u.x", "w11", "part.b", "w21", "gnss1"))}),
    )
    ends = assembly_ends(fitted, with_entry(sample_catalog(), "inline_parts", "split_2", kind=kind))
    assert (ends["w11"].far, ends["w21"].near) == (before, behind)
