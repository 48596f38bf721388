# SPDX-License-Identifier: Apache-2.0
"""The container: one for the same members, and whatever is not exactly that is refused."""

from __future__ import annotations

import io
import os
import random
import stat
import zipfile
from collections.abc import Callable

import pytest
from hypothesis import given
from hypothesis import strategies as st

from rfplan.records import container
from rfplan.records.container import DamagedError, is_member_name, pack, unpack
from rfplan.records.manifest import MANIFEST, checked_manifest, manifest_of
from rfplan.records.settings import Settings

MEMBERS = {"b.txt": b"second", "a/c.txt": b"first", "a/d.json": b"{}"}
NAMES = st.from_regex(r"[a-z]{1,8}(/[a-z]{1,8}){0,2}", fullmatch=True)


def made(change: Callable[[zipfile.ZipFile], None]) -> bytes:
    """Return a zip that somebody else has written."""
    stream = io.BytesIO()
    with zipfile.ZipFile(stream, "w") as file:
        change(file)
    return stream.getvalue()


def entry(name: str, mode: int = stat.S_IFREG | 0o644) -> zipfile.ZipInfo:
    one = zipfile.ZipInfo(name, (1980, 1, 1, 0, 0, 0))
    one.create_system, one.external_attr = 3, mode << 16
    return one


@given(st.dictionaries(NAMES, st.binary(max_size=60), max_size=6))
def test_what_is_packed_comes_out_again(members: dict[str, bytes]) -> None:
    assert unpack(pack(members)) == members


def test_the_order_in_which_members_come_does_not_matter() -> None:
    assert pack(dict(reversed(MEMBERS.items()))) == pack(MEMBERS)


def test_members_are_stored_sorted_and_without_time_or_owner() -> None:
    with zipfile.ZipFile(io.BytesIO(pack(MEMBERS))) as file:
        entries = file.infolist()
    assert [one.filename for one in entries] == sorted(MEMBERS)
    for one in entries:
        assert one.compress_type == zipfile.ZIP_STORED
        assert one.date_time == (1980, 1, 1, 0, 0, 0)
        assert (one.extra, one.comment, one.create_system, one.flag_bits) == (b"", b"", 3, 0)
        assert one.external_attr == (stat.S_IFREG | 0o644) << 16


@pytest.mark.parametrize(
    "name",
    [
        *("../a", "a/../b", "/a", "//a", "C:/a", "C:\\a", "a\\b", "..", ".", "", "a/", "a//b"),
        *("a.", "é", "a\nb", ".hidden", "a/./b", "a ", "~/a:b", "a" * 81, "a/b/c/d/e"),
    ],
)
def test_a_name_that_could_lead_elsewhere_is_refused(name: str) -> None:
    assert not is_member_name(name)
    with pytest.raises(DamagedError):
        unpack(made(lambda file: file.writestr(entry(name or "/"), b"")))


@pytest.mark.parametrize("name", ["plan.yaml", "catalog/cables/rg_58.yaml", "Plan B-2.yaml"])
def test_ordinary_names_are_taken(name: str) -> None:
    assert is_member_name(name)
    assert unpack(pack({name: b"x"})) == {name: b"x"}


def with_comment(file: zipfile.ZipFile) -> None:
    file.writestr(entry("a"), b"x")
    file.comment = b"hello"


def twice(file: zipfile.ZipFile) -> None:
    file.writestr(entry("a"), b"x")
    file.writestr(entry("A"), b"y")


def compressed(file: zipfile.ZipFile) -> None:
    file.writestr(entry("a"), b"x" * 99, zipfile.ZIP_DEFLATED)


def linked(file: zipfile.ZipFile) -> None:
    file.writestr(entry("a", stat.S_IFLNK | 0o777), b"/etc/passwd")


def executable(file: zipfile.ZipFile) -> None:
    file.writestr(entry("a", stat.S_IFREG | 0o755), b"x")


def with_folder(file: zipfile.ZipFile) -> None:
    file.writestr(entry("a/", stat.S_IFDIR | 0o755), b"")


def unsorted(file: zipfile.ZipFile) -> None:
    file.writestr(entry("b"), b"x")
    file.writestr(entry("a"), b"y")


def dated(file: zipfile.ZipFile) -> None:
    one = entry("a")
    one.date_time = (1999, 1, 1, 0, 0, 0)
    file.writestr(one, b"x")


def with_extra(file: zipfile.ZipFile) -> None:
    one = entry("a")
    one.extra = b"\x99\x99\x02\x00hi"
    file.writestr(one, b"x")


ODD = [
    (with_comment, "between, before or behind"),
    (twice, "twice"),
    (compressed, "is compressed"),
    (linked, "no ordinary file"),
    (executable, "no ordinary file"),
    (with_folder, "is a folder"),
    (unsorted, "between, before or behind"),
    (dated, "between, before or behind"),
    (with_extra, "between, before or behind"),
]


@pytest.mark.parametrize(("change", "words"), ODD, ids=[one.__name__ for one, _ in ODD])
def test_a_zip_that_is_no_container_is_refused(
    change: Callable[[zipfile.ZipFile], None], words: str
) -> None:
    with pytest.raises(DamagedError, match=words):
        unpack(made(change))


def test_an_encrypted_member_is_refused() -> None:
    content = bytearray(pack({"a": b"x"}))
    for signature, place in ((b"PK\x03\x04", 6), (b"PK\x01\x02", 8)):
        content[content.index(signature) + place] |= 1
    with pytest.raises(DamagedError, match="is encrypted"):
        unpack(bytes(content))


@pytest.mark.parametrize("content", [b"", b"PK", b"hello", b"PK\x05\x06" + bytes(18)[:-1]])
def test_what_is_no_zip_is_refused(content: bytes) -> None:
    with pytest.raises(DamagedError):
        unpack(content)


def test_data_before_or_behind_is_refused() -> None:
    content = pack(MEMBERS)
    for odd in (b"x" + content, content + b"x", content[:-1]):
        with pytest.raises(DamagedError):
            unpack(odd)


def test_what_is_too_large_is_refused_unread(monkeypatch: pytest.MonkeyPatch) -> None:
    content = pack(MEMBERS)
    monkeypatch.setattr(container, "MOST_BYTES", len(content) - 1)
    with pytest.raises(DamagedError, match="larger than"):
        unpack(content)


def test_members_that_overlap_to_be_more_than_the_file_are_refused() -> None:
    content = pack({"a": b"x" * 400, "b": b"x"})
    end = content.index(b"PK\x05\x06")
    first = content[content.index(b"PK\x01\x02") :][: 46 + 1]
    many = 50
    directory = b"".join(first[:46] + bytes([0x41 + i]) for i in range(many))
    tail = bytearray(content[end:])
    tail[8:12] = many.to_bytes(2, "little") * 2
    tail[12:16] = len(directory).to_bytes(4, "little")
    with pytest.raises(DamagedError):
        unpack(content[: content.index(b"PK\x01\x02")] + directory + bytes(tail))


# --- single bits --------------------------------------------------------------------------------


def whole() -> bytes:
    """Return a small container with a manifest that fits."""
    members = {"plan.yaml": b"rfplan: plan/1\n", "check.json": b"{}\n"}
    manifest = manifest_of(members, Settings(plan="plan.yaml"), "0.0.1")
    return pack({**members, MANIFEST: manifest.content()})


def is_refused(content: bytes) -> bool:
    try:
        checked_manifest(unpack(content))
    except DamagedError:
        return True
    return False


def flipped(content: bytes, bit: int) -> bytes:
    changed = bytearray(content)
    changed[bit // 8] ^= 1 << bit % 8
    return bytes(changed)


def test_a_flipped_bit_is_refused_wherever_it_is() -> None:
    content = whole()
    assert not is_refused(content)
    bits = range(len(content) * 8)
    if os.environ.get("RFPLAN_THOROUGH") != "1":
        bits = random.Random(5).sample(bits, 200)  # type: ignore[assignment]
    assert [bit for bit in bits if not is_refused(flipped(content, bit))] == []


@given(st.binary(max_size=300))
def test_bytes_from_anywhere_are_refused_calmly(content: bytes) -> None:
    assert is_refused(content)
    assert is_refused(pack(MEMBERS)[:40] + content)
