# SPDX-License-Identifier: Apache-2.0
"""Whatever stands in the files of an aircraft, the loader returns a plan or a list of problems."""

from __future__ import annotations

import os
import random
import time
from collections.abc import Callable, Sequence
from pathlib import Path

import pytest
import yaml
from plan_files import AIRFRAME, PLAN, loaded, write_aircraft

from rfplan.files.problems import Problem, ProblemsError

THOROUGH = os.environ.get("RFPLAN_THOROUGH") == "1"
ROUNDS = 10_000 if THOROUGH else 500
SEED = 20261125
LONGEST_S = 5.0

SCRAPS = (
    *("{", "}", "[", "]", ":", ",", "-", "?", "'", '"', "#", "&a", "*a", "!t", "|", ">", "%", "@"),
    *(
        "\n",
        "  ",
        "\t",
        "\r",
        "\u2028",
        "\ufeff",
        "\x85",
        "\x00",
        "\U0001f4e1",
        "\u202e",
        "e9",
        "~",
    ),
    *("null", "true", "none", "found", "design", "like", "source", "all", "id", ".inf", "0x10"),
    *("1e999", "-0 in", "9" * 30, "1_000", "12:30", "1,5 kg", "L0 .. R0 in", "0 0 in", "in", "dB"),
)
VALUES: tuple[object, ...] = (
    *(
        None,
        True,
        0,
        -1,
        10**17,
        1.5,
        "",
        "?",
        "none",
        "a",
        "a.b",
        "x" * 200,
        "0 in",
        "-3 m",
        "nan",
    ),
    *([], [[]], {}, {"": ""}, {"all": None}, {"like": "w1"}, {"found": None}, ["w1", "w1"]),
    *(
        {"source": "tape"},
        {"unit": "in", "rows": [[]]},
        "1 .. 2 dB",
        "3 .. in",
        "RF501",
        "2026-02-30",
    ),
)

LONGEST_S = 20.0
"""Seconds of the processor that no text of this size may take; what is not linear takes minutes."""


def random_bytes(dice: random.Random) -> bytes:
    """Return bytes of any value, now and then after a header that lets them in."""
    noise = dice.randbytes(dice.randrange(400))
    return noise if dice.random() < 0.5 else b"rfplan: plan/1\n" + noise


def random_yaml(dice: random.Random) -> bytes:
    """Return a mapping of known and unknown keys with values of any kind, nested anyhow."""
    keys = [word.strip(" :{}[],") for word in PLAN.split() if word.isprintable()]

    def value(depth: int) -> object:
        if depth == 0 or dice.random() < 0.4:
            return dice.choice(VALUES)
        if dice.random() < 0.2:
            return [value(depth - 1) for _ in range(dice.randrange(4))]
        return {dice.choice(keys): value(depth - 1) for _ in range(dice.randrange(5))}

    body = {dice.choice(keys): value(4) for _ in range(12)}
    return b"rfplan: plan/1\n" + yaml.safe_dump(body, allow_unicode=True).encode()


def torn_text(dice: random.Random, text: str = PLAN) -> bytes:
    """Return the plan with a few pieces cut out, doubled, moved or replaced by scraps."""
    for _ in range(dice.randrange(1, 4)):
        start = dice.randrange(len(text))
        end = start + dice.randrange(12)
        piece = dice.choice(("", text[start:end] * 2, dice.choice(SCRAPS)))
        text = text[:start] + piece + text[end:]
    return text.encode("utf-8", "surrogatepass")


def changed_value(dice: random.Random, text: str = PLAN) -> bytes:
    """Return the plan, still good YAML, with a few of its values replaced by others."""
    tree = yaml.load(text, yaml.BaseLoader)
    for _ in range(dice.randrange(1, 4)):
        holder, key = tree, "rfplan"
        while isinstance(holder, dict | list) and holder:
            keys = list(holder) if isinstance(holder, dict) else range(len(holder))
            key = dice.choice(keys)
            if not isinstance(holder[key], dict | list) or dice.random() < 0.2:
                break
            holder = holder[key]
        if isinstance(holder, dict | list) and holder and key != "rfplan":
            holder[key] = dice.choice(VALUES)
    return yaml.safe_dump(tree, allow_unicode=True, sort_keys=False).encode()


def survives(folder: Path) -> None:
    """Load what is in a folder; fail on anything but a plan or problems with a place, in time."""
    start = time.monotonic()
    problems = problems_in(folder)
    assert time.monotonic() - start < LONGEST_S
    assert problems is None or problems
    for problem in problems or ():
        assert problem.line >= 1
        assert problem.column >= 1
        assert problem.text().isprintable()


def problems_in(folder: Path) -> Sequence[Problem] | None:
    """Return the problems of a plan, None if it loads."""
    try:
        loaded(folder)
    except ProblemsError as error:
        return error.problems
    return None


@pytest.mark.parametrize("content", [random_bytes, random_yaml, torn_text, changed_value])
def test_any_plan_file_gives_a_plan_or_problems(
    content: Callable[[random.Random], bytes], tmp_path: Path
) -> None:
    write_aircraft(tmp_path)
    for number in range(ROUNDS // 4):
        (tmp_path / "plan.yaml").write_bytes(content(random.Random(SEED + number)))
        survives(tmp_path)


@pytest.mark.parametrize("content", [torn_text, changed_value])
def test_any_airframe_file_gives_a_plan_or_problems(
    content: Callable[[random.Random, str], bytes], tmp_path: Path
) -> None:
    write_aircraft(tmp_path)
    for number in range(ROUNDS // 10):
        (tmp_path / "airframe.yaml").write_bytes(content(random.Random(SEED + number), AIRFRAME))
        survives(tmp_path)


@pytest.mark.parametrize(
    "body",
    [
        "cables:\n" + "".join(f"  w{n}: {{type: x, plugs: [a, b]}}\n" for n in range(3000)),
        "paths:\n  p: {chain: [" + ", ".join(f"w{n}" for n in range(3000)) + "]}\n",
        "units:\n" + "".join(f"  u{n}: {{like: u{n + 1}}}\n" for n in range(3000)),
        "units: " + "{ports: " * 30 + "1" + "}" * 30 + "\n",
        "".join(f"key{n}: 1\n" for n in range(3000)),
        "source: " + "A" * 9000 + "\n",
        "units: {" + "a" * 900 + ": {}}\n",
    ],
    ids=["cables", "chain", "copies of copies", "depth", "keys", "source", "id"],
)
def test_much_of_the_same_takes_no_long_time(body: str, tmp_path: Path) -> None:
    head = "rfplan: plan/1\nairframe: airframe.yaml\ntitle: much\n"
    start_s = time.process_time()
    survives(write_aircraft(tmp_path, head + body))
    assert time.process_time() - start_s < LONGEST_S


@pytest.mark.parametrize("name", ["5", "1.5", "true", "~", "[]", '""', ".", "a" * 3000, '"\\0"'])
def test_any_name_of_an_airframe_gives_problems(name: str, tmp_path: Path) -> None:
    write_aircraft(tmp_path, f"rfplan: plan/1\ntitle: name\nairframe: {name}\n")
    assert problems_in(tmp_path)
