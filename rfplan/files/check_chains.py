# SPDX-License-Identifier: Apache-2.0
"""Signal paths of one state: unit.port, what the signal goes through, antenna; each thing once."""

from __future__ import annotations

from collections.abc import Collection, Iterable
from dataclasses import dataclass, field
from itertools import dropwhile, pairwise

from rfplan.files.check_names import check_known
from rfplan.files.draft import PlanDraft
from rfplan.files.faults import listed, one_of, quoted
from rfplan.files.nodes import Location
from rfplan.files.shape import entries
from rfplan.model.catalog import Catalog
from rfplan.model.plan import Path, State

_LINKS = ("cables", "parts")
_SECTIONS = ("units", "antennas", "cables", "parts")
_ONE = {"units": "a unit", "antennas": "an antenna", "cables": "a cable", "parts": "a part"}
_SHORTEST = 3


@dataclass(frozen=True, slots=True)
class ChainCheck:
    """The paths of one state, looked at one by one and against each other."""

    draft: PlanDraft
    state: State
    catalog: Catalog
    _users: dict[str, str] = field(default_factory=dict)  # the path of a unit.port
    _before: dict[str, tuple[str, str]] = field(default_factory=dict)  # path, and what feeds it
    _behind: dict[str, tuple[str, str]] = field(default_factory=dict)  # path, and what it feeds

    def run(self) -> None:
        """Add a problem for each path that no signal could take."""
        for id, path in self.draft.fitted[self.state].paths.items():
            loc = ("paths", id)
            paths = self.draft.named("paths", self.state)
            at = (self.draft.trees[self.state], (*loc, "redundant"))
            check_known(path.redundant, "path", paths, at, self.draft.faults)
            if len(path.chain) < _SHORTEST:
                self._say((*loc, "chain"), "too short", "unit.port, cable and antenna at least")
            elif self._each_fits(path, loc):
                self._check_sharing(id, path)

    def _say(self, loc: Location, words: str, expected: str = "") -> None:
        self.draft.faults.say(self.draft.trees[self.state], loc, words, expected)

    def _each_fits(self, path: Path, loc: Location) -> bool:
        """Check each member of a chain on its own; tell whether all have their kind and place."""
        last = len(path.chain) - 1
        sections = [("units",), *[_LINKS] * (last - 1), ("antennas",)]
        fits = [
            self._fits(member, kinds, (*loc, "chain", number))
            for number, (member, kinds) in enumerate(zip(path.chain, sections, strict=True))
        ]
        names = [_name(member) for member in path.chain]
        for number, name in enumerate(names):
            if name in names[:number]:
                self._say((*loc, "chain", number), f"{quoted(name)} comes twice", "each thing once")
                fits.append(False)
        if all(fits) and not any(name in self.draft.named("cables") for name in names):
            self._say((*loc, "chain"), "there is no cable in it", "one cable at least")
        return all(fits)

    def _fits(self, member: str, kinds: Iterable[str], loc: Location) -> bool:
        """Tell whether a member exists in this state and is of a kind that may stand there."""
        name, _, port = member.partition(".")
        section = next((s for s in _SECTIONS if name in self.draft.named(s)), None)
        if section is None:
            known = {id for kind in kinds for id in self.draft.named(kind)}
            what = " or ".join(_ONE[kind] for kind in kinds)
            self._say(loc, f"nothing is named {quoted(name)}", one_of(known, name, what))
        elif section not in kinds:
            what = " or ".join(_ONE[kind] for kind in kinds)
            self._say(loc, f"{quoted(name)} is {_ONE[section]}", f"{what} in this place")
        elif not any(name in self.draft.named(section, state) for state in State):
            pass  # it is at fault itself, which is told elsewhere
        elif name not in self.draft.named(section, self.state):
            words = f"{quoted(name)} is not fitted in the state '{self.state}'"
            self._say(loc, words, "the path told by state too")
        else:
            return self._port_fits(section, name, port, loc)
        return False

    def _port_fits(self, section: str, name: str, port: str, loc: Location) -> bool:
        """Tell whether a member names a port exactly where it has to, and one that exists."""
        ports = self._ports(section, name)
        if ports is None or (port in ports if port else not ports):
            return True
        members = [f"{name}.{id}" for id in ports]
        if not members:
            self._say(loc, f"{quoted(name)} has no ports with names", quoted(name))
        elif not port:
            self._say(loc, f"the port of {quoted(name)} is not named", listed(members))
        else:
            member = f"{name}.{port}"
            self._say(loc, f"no port {quoted(member)}", one_of(members, member, "a port"))
        return False

    def _ports(self, section: str, name: str) -> Collection[str] | None:
        """Return the ports of which one has to be named; None if they cannot be known."""
        fitted = self.draft.fitted[self.state]
        if section == "units":
            return entries(self.draft.trees[self.state].at(("units", name, "ports")))
        if section == "antennas" and name in fitted.antennas:
            antenna = self.catalog.antennas.get(fitted.antennas[name].type)
            return None if antenna is None else antenna.ports
        if section == "parts" and name in fitted.parts:
            part = self.catalog.inline_parts.get(fitted.parts[name].type)
            return None if part is None else part.ports
        return () if section == "cables" else None

    def _check_sharing(self, id: str, path: Path) -> None:
        """Check a path against those before it: one line leads into each thing and out of it."""
        chain, loc = path.chain, ("paths", id, "chain")
        user = self._users.setdefault(chain[0], id)
        joined = user != id and self._meet_in_a_combiner(chain, user)
        if user != id and not joined:
            words = f"{quoted(chain[0])} is already used by the path {user}"
            self._say((*loc, 0), words, "a port in one path only")
            return
        for number, (before, member) in enumerate(pairwise(chain), start=1):
            other, link = self._before.setdefault(member, (id, before))
            elsewhere = self._branch(link) != self._branch(before)
            if elsewhere or (number == 1 and other != id and not joined):
                words = f"{quoted(member)} is already fed by {quoted(link)} in the path {other}"
                self._say((*loc, number), words, "a splitter between them, and one line behind it")
                return
            if number > 1:
                other, link = self._behind.setdefault(self._branch(before), (id, member))
                if link != member and not (joined and _name(link) == _name(member)):
                    words = f"{quoted(before)} already leads to {quoted(link)} in the path {other}"
                    self._say((*loc, number), words, "one way to the antenna")
                    return

    def _branch(self, member: str) -> str:
        """Return where a line begins: a branch of a combiner, or a thing as a whole."""
        return member if self._combines(member) else _name(member)

    def _combines(self, member: str) -> bool:
        """Tell whether a member is a combiner, which has its branches on the side of antennas."""
        part = self.draft.fitted[self.state].parts.get(_name(member))
        entry = self.catalog.inline_parts.get(part.type) if part else None
        return entry is not None and entry.kind == "combiner"

    def _meet_in_a_combiner(self, chain: tuple[str, ...], user: str) -> bool:
        """Tell whether a path and one before it are the same line up to a combiner of both."""
        other = self.draft.fitted[self.state].paths[user].chain
        pairs = dropwhile(lambda pair: pair[0] == pair[1], zip(chain, other, strict=False))
        one, two = next(pairs, ("", "?"))
        return _name(one) == _name(two) and self._combines(one)


def _name(member: str) -> str:
    return member.partition(".")[0]
