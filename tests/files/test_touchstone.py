# SPDX-License-Identifier: Apache-2.0
"""A sweep reads as scikit-rf reads it, or is refused with every fault at its place."""

from __future__ import annotations

import gzip
import os
import pickle
from pathlib import Path

import numpy as np
import pytest
import skrf
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from rfplan.files.problems import ProblemsError
from rfplan.files.touchstone import MAX_BYTES, read_sweep
from rfplan.model.sweep import Sweep

OPTIONS = "# MHz S RI R 50\n"
ONE_PORT = OPTIONS + "100 0.1 0.2\n200 0.3 -0.4\n"
NO_OPTIONS = "no option line; expected an option line such as '# MHz S RI R 50'"
NO_DATA = "1:1: the file holds no data; expected frequencies with scattering parameters"
TWO_PORT_ROW = "0.1 0 0.8 -0.1 0.7 -0.2 0.2 0.05"


def written(folder: Path, text: str | bytes, name: str = "sweep.s1p") -> Path:
    path = folder / name
    path.write_bytes(text.encode() if isinstance(text, str) else text)
    return path


def read(folder: Path, text: str | bytes, name: str = "sweep.s1p") -> Sweep:
    return read_sweep(written(folder, text, name), name)


def refusals(folder: Path, text: str | bytes, name: str = "sweep.s1p") -> list[str]:
    with pytest.raises(ProblemsError) as caught:
        read(folder, text, name)
    return [str(problem).removeprefix(f"{name}:") for problem in caught.value.problems]


def oracle(path: Path) -> skrf.Network:
    network = skrf.Network()
    network.read_touchstone(str(path))
    return network


def assert_reads_as_the_oracle_does(path: Path) -> None:
    ours, theirs = read_sweep(path), oracle(path)
    matrices = np.array(ours.s).reshape(theirs.s.shape)
    np.testing.assert_allclose(ours.frequency_hz, theirs.f, rtol=1e-12, atol=0.0)
    np.testing.assert_allclose(matrices, theirs.s, rtol=1e-12, atol=1e-12)
    assert ours.reference_ohm == pytest.approx(theirs.z0.real[0, 0], rel=1e-12)
    assert ours.ports == theirs.nports


ROWS = st.lists(
    st.tuples(*[st.floats(0.0, 1.0), st.floats(-179.0, 179.0)] * 4), min_size=1, max_size=6
)


@settings(suppress_health_check=[HealthCheck.function_scoped_fixture], max_examples=60)
@given(
    rows=ROWS,
    ports=st.sampled_from([1, 2]),
    unit=st.sampled_from(["Hz", "kHz", "MHz", "GHz", "GHZ", "hz"]),
    form=st.sampled_from(["MA", "DB", "RI", "ma", "Db"]),
    reference=st.sampled_from(["R 50", "r 75.0", "R 5e1", ""]),
    ending=st.sampled_from(["\n", "\r\n"]),
)
def test_every_valid_file_reads_as_scikit_rf_reads_it(
    tmp_path: Path,
    rows: list[tuple[float, ...]],
    ports: int,
    unit: str,
    form: str,
    reference: str,
    ending: str,
) -> None:
    comment = " ! options" if reference else ""  # without one, scikit-rf 2.1 stumbles over it
    lines = ["! invented", f"# {unit} S {form} {reference}{comment}", ""]
    for index, row in enumerate(rows, start=1):
        values = " \t".join(f"{value:.9e}" for value in row[: 2 * ports**2])
        lines.append(f"  {index * 0.25} {values}  ! row {index}")
    assert_reads_as_the_oracle_does(written(tmp_path, ending.join(lines), f"sweep.s{ports}p"))


def test_a_two_port_row_is_s11_s21_s12_s22_and_the_matrix_is_kept_by_rows(tmp_path: Path) -> None:
    sweep = read(tmp_path, OPTIONS + "100 1 0 .21 0 .12 0 .22 0\n", "sweep.s2p")
    assert sweep.s == ((1.0 + 0j, 0.12 + 0j, 0.21 + 0j, 0.22 + 0j),)


def test_a_bare_option_line_means_gigahertz_magnitude_and_angle_and_50_ohm(tmp_path: Path) -> None:
    path = written(tmp_path, "#\n1.5 0.5 90\n")
    assert_reads_as_the_oracle_does(path)
    assert read_sweep(path).frequency_hz == (1.5e9,)
    assert read_sweep(path).s[0][0] == pytest.approx(0.5j)


@pytest.mark.parametrize("options", ["#RI R 75 kHz S", "# r 75 s khz ri", "  #\tS RI kHz R 75"])
def test_the_words_of_the_option_line_stand_in_any_order(tmp_path: Path, options: str) -> None:
    sweep = read(tmp_path, f"{options}\n100 0.5 -0.5\n")
    assert (sweep.frequency_hz, sweep.s) == ((1.0e5,), ((0.5 - 0.5j,),))
    assert sweep.reference_ohm == 75.0


@pytest.mark.parametrize("mark", [b"", b"\xef\xbb\xbf"])
def test_comments_may_be_in_any_encoding(tmp_path: Path, mark: bytes) -> None:
    sweep = read(tmp_path, mark + b"! 23 \xb0C, 50 \xd9\n" + ONE_PORT.encode())
    assert len(sweep.s) == 2


def test_the_ending_may_be_in_capitals(tmp_path: Path) -> None:
    assert read(tmp_path, ONE_PORT, "SWEEP.S1P").ports == 1


def test_noise_data_is_left_out_with_a_note(tmp_path: Path) -> None:
    text = f"{OPTIONS}100 {TWO_PORT_ROW}\n200 {TWO_PORT_ROW}\n! noise\n50 1.2 0.3 40 0.2\n"
    path = written(tmp_path, text + "250 1.3 0.3 50 0.2\n", "amplifier.s2p")
    assert len(read_sweep(path).s) == 2
    assert read_sweep(path).notes == ("noise data of the amplifier in lines 5 to 6 left out",)
    assert read(tmp_path, f"{OPTIONS}100 {TWO_PORT_ROW}\n", "plain.s2p").notes == ()


def test_a_row_of_the_network_behind_noise_is_refused(tmp_path: Path) -> None:
    text = f"{OPTIONS}200 {TWO_PORT_ROW}\n50 1 0 0 0\n300 {TWO_PORT_ROW}\n"
    assert refusals(tmp_path, text, "a.s2p") == ["4:1: a row of the network after noise data"]


def test_a_short_row_at_a_rising_frequency_is_not_taken_for_noise(tmp_path: Path) -> None:
    text = f"{OPTIONS}100 {TWO_PORT_ROW}\n200 0.1 0 0.8 0\n"
    assert refusals(tmp_path, text, "a.s2p") == ["3:16: the row has 5 columns; expected 9"]


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("", [f"1:1: {NO_OPTIONS}", NO_DATA]),
        (OPTIONS, [NO_DATA]),
        ("! x\n1 2 3\n", [f"2:1: {NO_OPTIONS}"]),
        (ONE_PORT + "# Hz\n", ["4:1: a second option line, after the one in line 1; "
                               "expected one option line"]),
        ("1 0 0\n" + OPTIONS, ["1:1: data above the option line; expected the option line first"]),
        (OPTIONS + "1 0\n", ["2:4: the row has 2 columns; expected 3"]),
        (OPTIONS + "1 0 0 0\n", ["2:7: the row has 4 columns; expected 3"]),
        (OPTIONS + "1 nan 0\n", ["2:3: 'nan' is not a finite number; "
                                 "expected a number like -3.5e-2"]),
        (OPTIONS + "1 0 -Inf\n", ["2:5: '-Inf' is not a finite number; "
                                  "expected a number like -3.5e-2"]),
        (OPTIONS + "1 1e999 0\n", ["2:3: '1e999' is not a finite number; "
                                   "expected a number like -3.5e-2"]),
        (OPTIONS + "1 0,5 0\n", ["2:3: decimal comma in '0,5'; expected a number like -3.5e-2"]),
        (OPTIONS + "1 1_0 x\n", ["2:3: '1_0' is not a number; expected a number like -3.5e-2",
                                 "2:7: 'x' is not a number; expected a number like -3.5e-2"]),
        (OPTIONS + "2 0 0\n2 0 0\n1 0 0\n",
         ["3:1: the frequency '2' does not rise; expected one above that of the row before",
          "4:1: the frequency '1' does not rise; expected one above that of the row before"]),
        (OPTIONS + "-1 0 0\n", ["2:1: '-1' is not a frequency; expected zero or above"]),
        (OPTIONS + "1e305 0 0\n", ["2:1: '1e305' is not a frequency; expected zero or above"]),
        (OPTIONS + "1 1e7 0\n", ["2:3: '1e7 0' is too large for a scattering parameter"]),
        ("# Hz S MA\n1 -.5 0\n", ["2:3: '-.5 0' has a negative magnitude"]),
        ("# Hz S DB\n1 1e300 0\n", ["2:3: '1e300 0' is too large for a scattering parameter"]),
        ("[Version] 2.0\n" + ONE_PORT, ["1:1: the keyword '[Version]' belongs to version 2 of the "
                                        "format; expected a file exported as version 1"]),
    ],
)  # fmt: skip
def test_every_fault_of_the_data_is_told_at_its_place(
    tmp_path: Path, text: str, said: list[str]
) -> None:
    assert refusals(tmp_path, text) == said


@pytest.mark.parametrize(
    ("options", "said"),
    [
        ("# MHzz S RI", "1:3: 'MHzz' is not known in an option line; expected Hz, kHz, MHz or GHz, "
                        "then S, then MA, DB or RI, then R and ohms"),
        ("#THz", "1:2: 'THz' is not known in an option line; expected Hz, kHz, MHz or GHz, "
                 "then S, then MA, DB or RI, then R and ohms"),
        ("# Z RI", "1:3: the file holds impedances (Z); expected scattering parameters (S)"),
        ("# y", "1:3: the file holds admittances (Y); expected scattering parameters (S)"),
        ("# H", "1:3: the file holds hybrid parameters (H); expected scattering parameters (S)"),
        ("# g", "1:3: the file holds inverse hybrid parameters (G); "
                "expected scattering parameters (S)"),
        ("# Hz S RI MA", "1:11: a second format, 'MA'; expected one format"),
        ("# Hz R", "1:6: R without a number; expected ohms above zero"),
        ("# Hz R 0", "1:8: '0' is not a resistance; expected ohms above zero"),
        ("# Hz R -50 S", "1:8: '-50' is not a resistance; expected ohms above zero"),
        ("# Hz R nan", "1:8: 'nan' is not a resistance; expected ohms above zero"),
        ("# Hz R 50 r 50", "1:11: a second reference, 'r'; expected one reference"),
    ],
)  # fmt: skip
def test_every_fault_of_the_option_line_is_told_at_its_place(
    tmp_path: Path, options: str, said: str
) -> None:
    assert refusals(tmp_path, f"{options}\n1 -0.5 0\n") == [said]


def test_faults_of_option_line_and_rows_are_told_together(tmp_path: Path) -> None:
    text = "# foo S\n1 x 0\n2 0\n3 0 0 ! good\n"
    assert [said.split(":")[0] for said in refusals(tmp_path, text)] == ["1", "2", "3"]


def test_a_hopeless_file_is_given_up_after_two_hundred_faults(tmp_path: Path) -> None:
    assert len(refusals(tmp_path, OPTIONS + "x y z\n" * 1000)) == 200


@pytest.mark.parametrize(("name", "columns"), [("a.s1p", 9), ("a.s2p", 3)])
def test_rows_of_another_number_of_ports_are_told_once(
    tmp_path: Path, name: str, columns: int
) -> None:
    row = " ".join(["1"] * columns)
    (said,) = refusals(tmp_path, OPTIONS + f"{row}\n" * 5, name)
    assert said.startswith(f"2:1: rows of {columns} columns are those of a .s")


@pytest.mark.parametrize(
    ("name", "said"),
    [
        ("sweep.txt", "1:1: the name ends in '.txt'; expected a sweep of one or two ports"),
        ("sweep", "1:1: the name has no ending; expected a sweep of one or two ports"),
        ("sweep.s3p", "1:1: the name ends in '.s3p'; expected a sweep of one or two ports"),
        ("sweep.s2p.gz", "1:1: the name ends in '.gz'; expected a sweep of one or two ports"),
    ],
)
def test_another_ending_is_refused(tmp_path: Path, name: str, said: str) -> None:
    assert refusals(tmp_path, ONE_PORT, name) == [f"{said}, .s1p or .s2p"]


def test_a_compressed_file_is_refused_whatever_its_name(tmp_path: Path) -> None:
    content = gzip.compress(ONE_PORT.encode())
    assert refusals(tmp_path, content) == ["1:1: the file is compressed; expected it unpacked"]


class _Bomb:
    """An object that makes a folder when it is unpickled."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder

    def __reduce__(self) -> tuple[object, tuple[str]]:
        return os.mkdir, (str(self.folder),)


@pytest.mark.parametrize("protocol", range(pickle.HIGHEST_PROTOCOL + 1))
def test_a_pickle_named_as_a_sweep_is_refused_and_never_run(tmp_path: Path, protocol: int) -> None:
    trace = tmp_path / "ran"
    content = pickle.dumps(_Bomb(trace), protocol)
    assert refusals(tmp_path, content, "evil.s2p")
    assert not trace.exists()
    pickle.loads(content)
    assert trace.exists()  # the bomb is a live one


def test_bytes_that_are_no_text_are_refused(tmp_path: Path) -> None:
    assert "NUL byte" in refusals(tmp_path, b"\x7fELF\x02\x01\x01\x00\x00")[0]
    assert "is not a number" in "".join(refusals(tmp_path, OPTIONS.encode() + b"1 \xff\xfe 0\n"))


def test_a_file_over_twenty_megabytes_is_refused_before_it_is_read(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    path = tmp_path / "huge.s2p"
    with path.open("wb") as file:
        file.truncate(500_000_000)  # a hole: it takes no room on the disk

    def fail(*_: object, **__: object) -> None:
        raise AssertionError("the file was opened")

    monkeypatch.setattr(Path, "open", fail)
    with pytest.raises(ProblemsError, match=r"too large; expected at most 20 MB"):
        read_sweep(path)
    assert MAX_BYTES == 20_000_000


def test_an_endless_line_is_refused_as_one(tmp_path: Path) -> None:
    assert refusals(tmp_path, OPTIONS + "1 " * 501) == [
        "2:1: the line has 1002 characters; expected 1000 at most"
    ]
    assert len(read(tmp_path, ONE_PORT + "!" + "1 " * 5000).s) == 2


def test_folders_and_missing_files_are_refused(tmp_path: Path) -> None:
    (tmp_path / "folder.s1p").mkdir()
    with pytest.raises(ProblemsError, match="this is a folder"):
        read_sweep(tmp_path / "folder.s1p")
    with pytest.raises(ProblemsError, match="there is no such file"):
        read_sweep(tmp_path / "none.s1p")
    with pytest.raises(ProblemsError, match=r"there is no folder .*/gone; expected a sweep"):
        read_sweep(tmp_path / "gone" / "none.s1p")
    with pytest.raises(ProblemsError, match="there is no folder"):
        read_sweep(Path("no\0folder") / "none.s1p", plan_folder=tmp_path)


def test_a_missing_file_is_told_with_the_folder_searched_and_the_sweeps_nearby(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    here, plan_folder = Path("here"), Path("kite")
    for folder, name in ((here, "com_open.s1p"), (plan_folder, "gnss.s2p")):
        folder.mkdir()
        (folder / name).write_text(ONE_PORT, "utf-8")

    def told(name: str) -> str:
        with pytest.raises(ProblemsError) as caught:
            read_sweep(here / name, name, plan_folder)
        return str(caught.value)

    searched = f"there is no such file in {tmp_path / 'here'}; expected "
    assert told("com.s1p") == f"com.s1p:1:1: {searched}'com_open.s1p'"
    assert told("gnss.s2p") == f"gnss.s2p:1:1: {searched}'kite/gnss.s2p'"
    assert told("zz").endswith(f"{searched}'com_open.s1p' or 'kite/gnss.s2p'")
    for file in (here / "com_open.s1p", plan_folder / "gnss.s2p"):
        file.unlink()
    nothing = "a sweep of one or two ports, .s1p or .s2p; none is there"
    assert told("zz.s1p").endswith(f"{searched}{nothing}")


@settings(suppress_health_check=[HealthCheck.function_scoped_fixture], max_examples=100)
@given(text=st.text(alphabet="#![]!SRIMADBHzr 0123456789.eE+-,\t\r\n\x0b\u2028é", max_size=120))
def test_no_text_makes_the_reader_stumble(tmp_path: Path, text: str) -> None:
    for name in ("fuzz.s1p", "fuzz.s2p"):
        try:
            sweep = read(tmp_path, OPTIONS + text, name)
        except ProblemsError:
            continue
        assert np.isfinite(np.array(sweep.s)).all()
        assert np.all(np.diff(sweep.frequency_hz) > 0.0)
