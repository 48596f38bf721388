# SPDX-License-Identifier: Apache-2.0
"""A plan file that is open for work: saved whole or not at all, never over a stranger's change."""

from __future__ import annotations

import tempfile
from collections.abc import Callable
from dataclasses import dataclass, replace
from hashlib import sha256
from pathlib import Path

from rfplan.edits import differences, named
from rfplan.files.load import LoadedPlan, load_plan
from rfplan.files.marks import Document
from rfplan.files.problems import Problem, ProblemsError
from rfplan.files.replacing import NotSavedError, is_read_only, replace_file, words_of
from rfplan.files.updating import updated
from rfplan.model.catalog import Catalog
from rfplan.model.plan import Plan, State
from rfplan.model.rulebook import Rulebook

Announce = Callable[[str], None]


class ChangedOnDiskError(NotSavedError):
    """Somebody else has changed the file since it was read."""


@dataclass(frozen=True, slots=True)
class PlanFile:
    """A plan file as it was read, and the hashes of what is known to be on disk."""

    path: Path
    loaded: LoadedPlan
    catalog: Catalog
    rulebook: Rulebook
    sha256: str

    @property
    def airframe_path(self) -> Path:
        """The airframe file beside the plan."""
        return Path(self.loaded.documents[1].file)

    @property
    def airframe_sha256(self) -> str:
        """The hash of the airframe file as it was read."""
        return _sha256(_content(self.loaded.documents[1]))

    @property
    def read_only(self) -> bool:
        """Whether saving would be refused."""
        return is_read_only(self.path)

    def hashes_on_disk(self) -> tuple[str | None, str | None]:
        """Return the hashes of plan and airframe as they are on disk, None for a missing file."""
        return hash_of_file(self.path), hash_of_file(self.airframe_path)

    def save(self, plan: Plan, announce: Announce = lambda _: None) -> PlanFile:
        """Write a plan into the file as it was read, and return the file as it is then.

        `announce` gets the hash of the new content just before it takes the place of the old.
        Raises NotSavedError, ChangedOnDiskError, or ProblemsError for a plan that the file
        cannot tell; the file is then as it was.
        """
        self._refuse_changed()
        content = self._content_for(plan)
        digest = _sha256(content)
        if digest == self.sha256:
            return self
        with replace_file(self.path, content) as put:
            self._refuse_changed()
            announce(digest)
            put()
        return replace(self, sha256=digest)

    def save_as(self, plan: Plan, path: Path) -> PlanFile:
        """Write a plan to a new file, with its airframe where there is none, and open that."""
        if path.exists():
            raise NotSavedError(f"{path.name} is there already")
        content = self._content_for(plan)
        beside = path.parent / self.airframe_path.name
        if beside.exists() and hash_of_file(beside) != self.airframe_sha256:
            raise NotSavedError(f"another {beside.name} is in that folder")
        if not beside.exists():
            _write_new(beside, _content(self.loaded.documents[1]))
        _write_new(path, content)
        return open_plan_file(path, self.catalog, self.rulebook, plan.state, plan.serial)

    def _content_for(self, plan: Plan) -> bytes:
        document = updated(self.loaded.documents[0], self.loaded.plan, plan)
        self._check_reads_as(document, plan)
        return _content(document)

    def _check_reads_as(self, document: Document, plan: Plan) -> None:
        """Raise ProblemsError if the loader does not read the plan out of a document."""
        try:
            read = self._read_again(document)
        except OSError as error:
            raise NotSavedError(words_of(error)) from None
        left = differences(read, plan)
        if left:
            message = f"{named(left)} would not be read again as it is"
            raise ProblemsError([Problem(str(self.path), 1, 1, message)])

    def _read_again(self, document: Document) -> Plan:
        with tempfile.TemporaryDirectory(prefix="rfplan-") as name:
            plan, airframe = Path(name, self.path.name), Path(name, self.airframe_path.name)
            plan.write_bytes(_content(document))
            airframe.write_bytes(_content(self.loaded.documents[1]))
            try:
                return load_plan(plan, catalog=self.catalog, rulebook=self.rulebook).plan
            except ProblemsError as error:
                here = str(self.path.parent)
                moved = (replace(p, file=p.file.replace(name, here)) for p in error.problems)
                raise ProblemsError(moved) from None

    def _refuse_changed(self) -> None:
        now = hash_of_file(self.path)
        if now is None:
            raise ChangedOnDiskError(f"{self.path.name} is no longer there")
        if now != self.sha256:
            raise ChangedOnDiskError(f"{self.path.name} changed on disk")
        if self.read_only:
            raise NotSavedError(f"{self.path.name} is read-only")


def open_plan_file(
    path: Path, catalog: Catalog, rulebook: Rulebook, state: State, serial: str | None
) -> PlanFile:
    """Read a plan file, or the one in a folder, to work on it; raises ProblemsError."""
    loaded = load_plan(path, catalog=catalog, rulebook=rulebook, state=state, serial=serial)
    document = loaded.documents[0]
    return PlanFile(Path(document.file), loaded, catalog, rulebook, _sha256(_content(document)))


def hash_of_file(path: Path) -> str | None:
    """Return the hash of what is in a file, None if it cannot be read."""
    try:
        return _sha256(path.read_bytes())
    except OSError:
        return None


def _write_new(path: Path, content: bytes) -> None:
    with replace_file(path, content) as put:
        put()


def _content(document: Document) -> bytes:
    """Return a document as the bytes of its file."""
    return ("\ufeff" * document.bom + document.text).encode()


def _sha256(content: bytes) -> str:
    return sha256(content).hexdigest()
