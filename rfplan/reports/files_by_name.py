# SPDX-License-Identifier: Apache-2.0
"""The files of one folder by name, each read when it is first asked for, so that one costs one."""

from __future__ import annotations

import importlib
from collections.abc import Iterable, Iterator, Mapping
from typing import TypeVar, cast

F = TypeVar("F")


class FilesByName(Mapping[str, F]):
    """Files of a package by name, in a given order; knowing the names reads none of them."""

    def __init__(self, package: str, names: Iterable[str]) -> None:
        self._package, self._names = package, tuple(names)

    def __getitem__(self, key: str) -> F:
        if key not in self._names:
            raise KeyError(key)
        return cast(F, importlib.import_module(f"{self._package}.{key}"))

    def __contains__(self, key: object) -> bool:
        return key in self._names

    def __iter__(self) -> Iterator[str]:
        return iter(self._names)

    def __len__(self) -> int:
        return len(self._names)
