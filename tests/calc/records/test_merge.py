"""Two or three devices, any order of edits and exchanges: they end the same, and nothing that was written is lost."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from hypothesis.stateful import RuleBasedStateMachine, initialize, invariant, rule

from calc.records import (
    DELETED,
    Notebook,
    Record,
    delete,
    edit,
    merge,
    merge_notebooks,
    read_notebook,
    restore,
    write_notebook,
)
from calc.records.stamps import format_time

pytestmark = pytest.mark.exact
DEVICES = ("aaaa", "bbbb", "cccc")
FIELDS = ("name", "owner", "brace_height")
TEXTS = st.sampled_from(["", "Ash 62", "Hazel", "6 in", "6 1/4 in"])
START = datetime(2026, 5, 3, 10, tzinfo=UTC)
IDS = ("bow-aaaaaa", "bow-bbbbbb")


class _Devices(RuleBasedStateMachine):
    """Devices with a notebook each, whose clocks go wrong, and a second account of what each of them knows.

    The account is by whole sets: a write is named by its number, and a device knows a set of numbers. What must stand
    in a record is every write it knows of that no other write it knows of was made in knowledge of.
    """

    def __init__(self) -> None:
        super().__init__()
        self.books = {device: Notebook() for device in DEVICES}
        self.knows: dict[str, frozenset[int]] = {device: frozenset() for device in DEVICES}
        self.writes: list[tuple[str, str, str, frozenset[int]]] = []  # id, field, text, what its writer knew
        self.clock = START

    def _write(self, device: str, record: Record, name: str, text: str) -> None:
        if record == self.books[device].records.get(record.id, Record("bow", record.id)):
            return
        self.writes.append((record.id, name, text, self.knows[device]))
        self.knows[device] |= {len(self.writes) - 1}
        self.books[device] = self.books[device].with_all([record])

    def _now(self, ahead: int) -> str:
        self.clock += timedelta(milliseconds=1)
        return format_time(self.clock + timedelta(seconds=ahead))

    @initialize()
    def begin(self) -> None:
        self.edit("aaaa", IDS[0], "name", "Ash 62", 0)

    @rule(
        device=st.sampled_from(DEVICES),
        ident=st.sampled_from(IDS),
        name=st.sampled_from(FIELDS),
        text=TEXTS,
        ahead=st.integers(-3, 3),
    )
    def edit(self, device: str, ident: str, name: str, text: str, ahead: int) -> None:
        record = self.books[device].records.get(ident, Record("bow", ident))
        self._write(device, edit(record, {name: text}, self._now(ahead), device), name, text)

    @rule(device=st.sampled_from(DEVICES), ident=st.sampled_from(IDS), ahead=st.integers(-3, 3), back=st.booleans())
    def delete(self, device: str, ident: str, ahead: int, *, back: bool) -> None:
        record = self.books[device].records.get(ident)
        if record is None:
            return
        made = (restore if back else delete)(record, self._now(ahead), device)
        self._write(device, made, DELETED, made.text(DELETED))
        if not back:
            assert made.is_deleted

    @rule(here=st.sampled_from(DEVICES), there=st.sampled_from(DEVICES), through_file=st.booleans())
    def take_over(self, here: str, there: str, *, through_file: bool) -> None:
        theirs = self.books[there]
        if through_file:
            opened = read_notebook(write_notebook(theirs))
            assert opened.faults == ()
            assert opened.notebook == theirs
            theirs = opened.notebook
        found = merge_notebooks(self.books[here], theirs)
        assert found is not None
        book, changes = found
        assert {each.record.id for each in changes} == {
            key for key, each in book.records.items() if self.books[here].records.get(key) != each
        }
        again = merge_notebooks(book, theirs)
        assert again is not None
        assert again[1] == ()
        self.books[here] = book
        self.knows[here] |= self.knows[there]

    @invariant()
    def nothing_is_lost_and_nothing_comes_back(self) -> None:
        for device in DEVICES:
            known = self.knows[device]
            wanted: dict[tuple[str, str], list[str]] = {}
            for number in known:
                ident, name, text, _ = self.writes[number]
                later = (self.writes[each] for each in known)
                if not any((one, which) == (ident, name) and number in knew for one, which, _, knew in later):
                    wanted.setdefault((ident, name), []).append(text)
            book = self.books[device]
            stands = {
                (key, name): sorted(heads.values())
                for key, each in book.records.items()
                for name, heads in each.heads.items()
            }
            assert stands == {key: sorted(texts) for key, texts in wanted.items()}

    @invariant()
    def whoever_knows_the_same_has_the_same(self) -> None:
        for here in DEVICES:
            for there in DEVICES:
                if self.knows[here] == self.knows[there]:
                    assert self.books[here] == self.books[there]
                    assert write_notebook(self.books[here]) == write_notebook(self.books[there])

    @invariant()
    def joining_is_commutative_and_associative(self) -> None:
        for ident in IDS:
            one, two, three = (self.books[each].records.get(ident) for each in DEVICES)
            if one and two:
                assert merge(one, two) == merge(two, one)
            if one and two and three:
                assert merge(merge(one, two), three) == merge(one, merge(two, three))


_Devices.TestCase.settings = settings(
    max_examples=40,
    stateful_step_count=25,
    deadline=None,
    derandomize=True,
    suppress_health_check=[HealthCheck.too_slow],
)
TestDevices = _Devices.TestCase


def bow(**texts: str) -> Record:
    return edit(Record("bow", IDS[0]), texts, format_time(START), "aaaa")


def test_the_later_of_two_edits_is_shown_and_the_earlier_is_told() -> None:
    base = bow(brace_height="6 in")
    here = edit(base, {"brace_height": "6 1/4 in"}, format_time(START + timedelta(days=1)), "aaaa")
    there = edit(base, {"brace_height": "6 1/2 in"}, format_time(START + timedelta(days=2)), "bbbb")
    both = merge(here, there)
    assert both.text("brace_height") == "6 1/2 in"
    assert both.conflicts() == {"brace_height": ("6 1/4 in",)}
    settled = edit(both, {"brace_height": "6 1/2 in"}, format_time(START + timedelta(days=3)), "aaaa")
    assert settled.conflicts() == {}
    assert merge(settled, there) == settled


def test_an_edit_that_had_seen_the_other_is_no_conflict() -> None:
    later = edit(bow(name="Ash"), {"name": "Ash 62"}, format_time(START), "bbbb")
    assert merge(bow(name="Ash"), later).conflicts() == {}
    assert merge(bow(name="Ash"), later).text("name") == "Ash 62"


def test_a_clock_that_is_behind_does_not_undo_an_edit() -> None:
    later = edit(bow(name="Ash"), {"name": "Ash 62"}, format_time(START - timedelta(days=400)), "bbbb")
    assert merge(bow(name="Ash"), later).text("name") == "Ash 62"


def test_what_was_changed_elsewhere_while_it_was_deleted_here_comes_back_and_is_told() -> None:
    base = bow(name="Ash", brace_height="6 in")
    here = delete(base, format_time(START + timedelta(days=1)), "aaaa")
    there = edit(base, {"brace_height": "6 1/4 in"}, format_time(START + timedelta(hours=1)), "bbbb")
    both = merge(here, there)
    assert here.is_deleted
    assert not both.is_deleted
    assert both.texts() == {"name": "Ash", "brace_height": "6 1/4 in"}
    assert both.conflicts() == {DELETED: ("",)}
    kept = restore(both, format_time(START + timedelta(days=2)), "aaaa")
    assert not kept.is_deleted
    assert kept.conflicts() == {}


def test_deleted_on_both_devices_stays_deleted() -> None:
    base = bow(name="Ash")
    both = merge(delete(base, format_time(START), "aaaa"), delete(base, format_time(START), "bbbb"))
    assert both.is_deleted


def test_joining_can_be_stopped() -> None:
    book = Notebook({IDS[0]: bow(name="Ash")})
    assert merge_notebooks(Notebook(), book, lambda _done, _of: False) is None


def test_records_of_other_ids_are_not_joined() -> None:
    with pytest.raises(ValueError, match="not the same record"):
        merge(Record("bow", IDS[0]), Record("bow", IDS[1]))


@settings(derandomize=True, deadline=None)
@given(st.lists(st.sampled_from(FIELDS), min_size=1), st.data())
def test_a_copied_device_that_gives_a_stamp_twice_still_ends_the_same_on_both_sides(
    names: list[str], data: st.DataObject
) -> None:
    now = format_time(START)
    here, there = (edit(Record("bow", IDS[0]), {each: data.draw(TEXTS) for each in names}, now, "aaaa") for _ in "ab")
    assert merge(here, there) == merge(there, here)
