# SPDX-License-Identifier: Apache-2.0
"""Whether names are ids, and whether they name something."""

from __future__ import annotations

from collections.abc import Collection

from rfplan.files.faults import Faults, one_of, quoted
from rfplan.files.marks import is_id
from rfplan.files.nodes import Location, Node
from rfplan.files.shape import entries

ID_WORDS = "small letters, digits and '_', a letter first, at most 40"


def check_ids(root: Node, sections: Collection[str], faults: Faults) -> None:
    """Add a problem for every key of these mappings by id that is no id."""
    for name in sections:
        section = entries(root).get(name)
        for id in entries(section):
            if section is not None and not is_id(id):
                message = f"{quoted(id)} is no id"
                faults.add(section.key_marks[id], message, ID_WORDS, (name, id))


def check_no_id(root: Node, loc: Location, named_by: str, faults: Faults) -> None:
    """Add a problem if an entry says its own id, which something else tells."""
    holder = root.at(loc)
    if "id" in entries(holder):
        message = f"{faults.subject(loc)}: unknown key 'id'"
        expected = f"no id, which is the name of {named_by}"
        faults.add(holder.key_marks["id"], message, expected, (*loc, "id"))


def check_known(
    name: str | None, what: str, known: Collection[str], at: tuple[Node, Location], faults: Faults
) -> bool:
    """Tell whether a name, where there is one, is among the known ones; else add a problem."""
    if name is None or name in known:
        return True
    faults.say(*at, f"no {what} {quoted(name)}", one_of(known, name, f"a {what}"))
    return False
