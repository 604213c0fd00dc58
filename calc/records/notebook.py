"""Many records: what stands in a notebook, two notebooks joined, and what joining them would change."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from calc.records.kinds import KINDS, fields_of
from calc.records.questions import ReferenceField
from calc.records.record import Record, merge

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Iterator, Mapping

_STEP = 500
"""After so many records the progress is told."""


@dataclass(frozen=True, slots=True)
class Notebook:
    """Records by their id.

    Attributes
    ----------
    records : mapping of str to Record
        Those that were deleted too.
    """

    records: Mapping[str, Record] = field(default_factory=dict)

    def of(self, kind: str) -> Iterator[Record]:
        """Go through the records of a kind that are there.

        Parameters
        ----------
        kind : str
            A key of `KINDS`.
        """
        return (each for each in self.records.values() if each.kind == kind and not each.is_deleted)

    def named(self, kind: str, name: str) -> tuple[Record, ...]:
        """Return the records of a kind with a name, or else those whose name begins so; capitals do not matter.

        Parameters
        ----------
        kind, name : str
        """
        wanted = " ".join(name.split()).casefold()
        by_name = [(each.text("name").casefold(), each) for each in self.of(kind)]
        exact = tuple(each for called, each in by_name if called == wanted)
        return exact or tuple(each for called, each in by_name if wanted and called.startswith(wanted))

    def with_all(self, records: Iterable[Record]) -> Notebook:
        """Return a notebook with some records put in the place of those of the same id.

        Parameters
        ----------
        records : iterable of Record
        """
        return Notebook({**self.records, **{each.id: each for each in records}})


@dataclass(frozen=True, slots=True)
class Change:
    """What joining changes in one record.

    Attributes
    ----------
    record : Record
        As it will be.
    what : {"new", "changed", "deleted", "restored", "conflict", "history"}
        New here; other texts; deleted; no longer deleted; in conflict; or nothing that is shown.
    fields : tuple of str
        Whose text will be another.
    """

    record: Record
    what: str
    fields: tuple[str, ...] = ()


def merge_notebooks(
    ours: Notebook, theirs: Notebook, progress: Callable[[int, int], bool] | None = None
) -> tuple[Notebook, tuple[Change, ...]] | None:
    """Join two notebooks.

    Parameters
    ----------
    ours, theirs : Notebook
        In either order: the result is the same.
    progress : Callable, optional
        Told from time to time how many records of how many are done; false stops.

    Returns
    -------
    (Notebook, tuple of Change) or None
        What comes out, and what that changes in ``ours``; None when it was stopped.
    """
    changes = []
    of = len(theirs.records)
    for done, each in enumerate(theirs.records.values()):
        if progress is not None and done % _STEP == 0 and not progress(done, of):
            return None
        change = merge_change(ours.records.get(each.id), each)
        if change is not None:
            changes.append(change)
    if progress is not None:
        progress(of, of)
    return ours.with_all(each.record for each in changes), tuple(changes)


def merge_change(ours: Record | None, theirs: Record) -> Change | None:
    """Return what a version from elsewhere changes in a record.

    Parameters
    ----------
    ours : Record or None
        None where it is not here.
    theirs : Record

    Returns
    -------
    Change or None
        None where it changes nothing at all.

    Raises
    ------
    ValueError
        For an id that is a record of another kind here.
    """
    if ours is None:
        return Change(theirs, "history" if theirs.is_deleted else "new", tuple(theirs.texts()))
    found = merge(ours, theirs)
    if found is ours:
        return None
    names = tuple(name for name in fields_of(ours.kind) if found.text(name) != ours.text(name))
    if found.is_deleted != ours.is_deleted:
        return Change(found, "deleted" if found.is_deleted else "restored", names)
    if found.conflicts() != ours.conflicts() and found.conflicts() and not found.is_deleted:
        return Change(found, "conflict", names)
    return Change(found, "changed" if names and not found.is_deleted else "history", names)


def extract(notebook: Notebook, ids: Iterable[str]) -> Notebook:
    """Return the part of a notebook that belongs to some records: a bow's strings, their cords, hands and entries.

    Parameters
    ----------
    notebook : Notebook
    ids : iterable of str
        Where to begin.

    Returns
    -------
    Notebook
        With the lines about them.
    """
    wanted = {each for each in ids if each in notebook.records}
    by_target: dict[str, list[Record]] = {}
    for each in notebook.records.values():
        for name in _references(each.kind):
            by_target.setdefault(each.text(name), []).append(each)
    for kind in ("string", "entry"):  # what speaks of what is wanted
        wanted |= {each.id for target in list(wanted) for each in by_target.get(target, ()) if each.kind == kind}
    for one in list(wanted):  # and what that needs
        record = notebook.records[one]
        wanted |= {record.text(name) for name in _references(record.kind)} & notebook.records.keys()
    return Notebook({key: each for key, each in notebook.records.items() if key in wanted})


def _references(kind: str) -> tuple[str, ...]:
    return _REFERENCES[kind]


_REFERENCES = {
    kind: tuple(name for name, each in fields_of(kind).items() if isinstance(each, ReferenceField)) for kind in KINDS
}
