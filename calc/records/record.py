"""One record as devices exchange it: its texts with when they were changed, and how two versions are joined.

A text that was changed on two devices, neither knowing of the other, keeps both: the later one is shown, the earlier is
a conflict until somebody changes the text again. Joining is commutative, associative and idempotent.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from types import MappingProxyType
from typing import TYPE_CHECKING

from calc.records.kinds import fields_of
from calc.records.stamps import is_seen, latest_times, next_stamp

if TYPE_CHECKING:
    from collections.abc import Mapping

DELETED = "deleted"
"""Name of the text that says a record was deleted: what was seen of it then, or nothing."""
_NOTHING: Mapping[str, str] = MappingProxyType({})


@dataclass(frozen=True, slots=True)
class Record:
    """A record with its history.

    Attributes
    ----------
    kind, id : str
        What it is; who it is, for ever.
    heads : mapping of str to mapping of str to str
        By field: the texts that no later change has replaced, by their stamps.
    seen : mapping of str to str
        The time of the last change that is in it, by device.
    """

    kind: str
    id: str
    heads: Mapping[str, Mapping[str, str]] = field(default_factory=dict)
    seen: Mapping[str, str] = field(default_factory=dict)

    def text(self, name: str) -> str:
        """Return the text that is shown of a field: the latest; empty where there is none."""
        found = self.heads.get(name)
        if not found:
            return ""
        return next(iter(found.values())) if len(found) == 1 else found[max(found)]

    def texts(self) -> dict[str, str]:
        """Return all that is shown, by field, without what is empty."""
        return {name: text for name in fields_of(self.kind) if (text := self.text(name))}

    def changed(self, name: str) -> str:
        """Return the stamp of the text that is shown of a field."""
        return max(self.heads.get(name, _NOTHING), default="")

    @property
    def is_deleted(self) -> bool:
        """Whether it is deleted: nothing was changed that the deletion had not seen."""
        marks = self.heads.get(DELETED, _NOTHING).values()
        if not marks or not all(marks):
            return False
        seen = latest_times(each for mark in marks for each in mark.split())
        return all(is_seen(each, seen) for name, found in self.heads.items() if name != DELETED for each in found)

    def conflicts(self) -> dict[str, tuple[str, ...]]:
        """Return the earlier texts of fields that were changed on two devices at once, the latest of them first.

        A record that was changed on one device and deleted on another has an empty text at `DELETED`: it is kept.
        """
        found = {
            name: tuple(heads[each] for each in sorted(heads, reverse=True)[1:])
            for name, heads in self.heads.items()
            if len(heads) > 1 and name != DELETED and len(set(heads.values())) > 1
        }
        if any(self.heads.get(DELETED, _NOTHING).values()) and not self.is_deleted:
            found[DELETED] = ("",)
        return found


def edit(record: Record, texts: Mapping[str, str], now: str, device: str) -> Record:
    """Return a record with some texts changed; those that are as before and in no conflict are left alone.

    Parameters
    ----------
    record : Record
        As it is.
    texts : mapping of str to str
        New texts by field; an empty one takes the old away.
    now, device : str
        As for `calc.records.stamps.stamp`.
    """
    new = {
        name: text for name, text in texts.items() if text != record.text(name) or len(record.heads.get(name, ())) > 1
    }
    if not new:
        return record
    mark = next_stamp(now, device, record.seen)
    heads = {**record.heads, **{name: {mark: text} for name, text in new.items()}}
    return Record(record.kind, record.id, heads, {**record.seen, device: mark.partition("/")[0]})


def delete(record: Record, now: str, device: str) -> Record:
    """Return a record marked as deleted; its texts stay, so that it can come back.

    Parameters
    ----------
    record, now, device
        As for `edit`.
    """
    return edit(
        record, {DELETED: " ".join(f"{time}/{each}" for each, time in sorted(record.seen.items()))}, now, device
    )


def restore(record: Record, now: str, device: str) -> Record:
    """Return a record that was deleted as one that is there.

    Parameters
    ----------
    record, now, device
        As for `edit`.
    """
    return edit(record, {DELETED: ""}, now, device)


def merge(ours: Record, theirs: Record) -> Record:
    """Return two versions of a record as one.

    Parameters
    ----------
    ours, theirs : Record
        Of one kind and id.

    Returns
    -------
    Record
        ``ours`` itself where ``theirs`` has nothing new.

    Raises
    ------
    ValueError
        For records that are not the same one.

    Notes
    -----
    Each side keeps what the other has too, or has never seen; what the other has seen and no longer has was replaced.
    """
    if (ours.kind, ours.id) != (theirs.kind, theirs.id):
        raise ValueError(f"{ours.kind} {ours.id} and {theirs.kind} {theirs.id} are not the same record")
    if ours.seen == theirs.seen and ours.heads == theirs.heads:
        return ours
    heads = {}
    for name in ours.heads.keys() | theirs.heads.keys():
        found = _joined(ours.heads.get(name, _NOTHING), theirs.heads.get(name, _NOTHING), ours.seen, theirs.seen)
        if found:
            heads[name] = found
    seen = {**ours.seen, **{each: time for each, time in theirs.seen.items() if time > ours.seen.get(each, "")}}
    if seen == ours.seen and heads == ours.heads:
        return ours
    return Record(ours.kind, ours.id, heads, seen)


def _joined(
    ours: Mapping[str, str], theirs: Mapping[str, str], our_seen: Mapping[str, str], their_seen: Mapping[str, str]
) -> Mapping[str, str]:
    if ours == theirs:
        return ours
    found = {each: text for each, text in ours.items() if each in theirs or not is_seen(each, their_seen)}
    for each, text in theirs.items():
        if each in ours:
            found[each] = max(text, ours[each])  # a stamp given twice, by a device that was copied
        elif not is_seen(each, our_seen):
            found[each] = text
    return found
