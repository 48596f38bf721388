# SPDX-License-Identifier: Apache-2.0
"""Text from files is data: nothing in the package evaluates, unpickles, or lets a library do so."""

from __future__ import annotations

import ast
from collections.abc import Iterator
from pathlib import Path

import pytest

PACKAGE = Path(__file__).parents[2] / "rfplan"

RUNS_TEXT = {"eval", "exec", "compile", "__import__"}
UNPICKLES = {"pickle", "_pickle", "marshal", "shelve", "dill", "cloudpickle", "joblib"}
LIBRARY = "skrf"
READS = {"read", "read_all", "from_zip", "from_dir", "load_all_touchstones", "NetworkSet"}
"""Names of scikit-rf that unpickle what they are given, or that open files by such a name."""


def breaches(source: str) -> Iterator[str]:
    """Yield what a module does that could run the text of a file."""
    tree = ast.parse(source)
    borrowed = set(_borrowed(tree))
    for node in ast.walk(tree):
        yield from _imports(node)
        if isinstance(node, ast.Call):
            yield from _calls(node, borrowed)


def _borrowed(tree: ast.AST) -> Iterator[str]:
    """Yield the names under which a module knows scikit-rf or anything of it."""
    for node in ast.walk(tree):
        if isinstance(node, ast.Import):
            for name in node.names:
                if name.name.split(".")[0] == LIBRARY:
                    yield name.asname or LIBRARY
        elif isinstance(node, ast.ImportFrom) and (node.module or "").split(".")[0] == LIBRARY:
            yield from (name.asname or name.name for name in node.names)


def _imports(node: ast.AST) -> Iterator[str]:
    modules = []
    if isinstance(node, ast.Import):
        modules = [name.name for name in node.names]
    elif isinstance(node, ast.ImportFrom):
        modules = [node.module or ""]
        if modules[0].split(".")[0] == LIBRARY:
            yield from (f"imports {one.name}" for one in node.names if one.name in READS)
    yield from (f"imports {one}" for one in modules if one.split(".")[0] in UNPICKLES)


def _calls(node: ast.Call, borrowed: set[str]) -> Iterator[str]:
    called = ast.unparse(node.func)
    first, last = called.partition(".")[0], called.rpartition(".")[2]
    if called in RUNS_TEXT or called in {f"builtins.{name}" for name in RUNS_TEXT}:
        yield f"calls {called}"
    if any(keyword.arg == "allow_pickle" for keyword in node.keywords):
        yield f"calls {called} with allow_pickle"
    if last in ("read_pickle", "unsafe_load", "full_load") or called == "yaml.load":
        yield f"calls {called}"
    if first in borrowed and last in READS:
        yield f"calls {called}"
    if first in borrowed and last == "Network" and node.args:
        yield f"calls {called} with a file"
    if first in borrowed and last == "Network" and "file" in {one.arg for one in node.keywords}:
        yield f"calls {called} with a file"


@pytest.mark.parametrize("path", sorted(PACKAGE.rglob("*.py")), ids=lambda path: path.stem)
def test_no_module_runs_what_it_reads(path: Path) -> None:
    assert list(breaches(path.read_text("utf-8"))) == []


@pytest.mark.parametrize(
    "source",
    [
        "eval('1')",
        "import builtins\nbuiltins.exec('1')",
        "import pickle",
        "def f():\n    from pickle import loads",
        "import skrf as rf\nrf.Network('a.s2p')",
        "from skrf import Network\nNetwork(path)",
        "from skrf.network import Network as N, Network\nNetwork(file=path)",
        "import skrf\nskrf.network.Network(path)",
        "import skrf as rf\nrf.read('a')",
        "from skrf.io.general import read",
        "from skrf import NetworkSet",
        "import numpy as np\nnp.load('a', allow_pickle=True)",
        "import yaml\nyaml.unsafe_load(text)",
    ],
)
def test_each_way_of_running_text_is_noticed(source: str) -> None:
    assert list(breaches(source)) != []


@pytest.mark.parametrize(
    "source",
    [
        "from rfplan.analysis.routing import Network\nNetwork(points, nodes)",
        "import skrf\nskrf.Network()",
        "from skrf.network import cascade_list\ncascade_list(parts)",
        "path.open().read()",
        "import re\nre.compile('a')",
    ],
)
def test_what_only_looks_like_it_is_let_be(source: str) -> None:
    assert list(breaches(source)) == []
