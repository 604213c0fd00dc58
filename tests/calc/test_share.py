"""Links: what goes in comes out, for every worksheet and reader; nothing that is opened can do harm."""

from __future__ import annotations

import json
import re
import tomllib
from hashlib import sha256
from pathlib import Path
from typing import TYPE_CHECKING, Any

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from calc import share, units
from calc.share import Link, decode, encode, word
from calc.worksheets import catalogue
from calc.worksheets.core import Choice, Lines, Number, Tip, read_field, read_inputs, usual

if TYPE_CHECKING:
    from collections.abc import Mapping

    from calc.units import System
    from calc.worksheets.core import Field, Worksheet

pytestmark = pytest.mark.exact
SHEETS = tuple(catalogue().values())
STRING = catalogue()["string"]
SYSTEMS: tuple[System, ...] = ("inch", "metric")
HERE = Path(__file__).parent
LINKS: list[dict[str, Any]] = tomllib.loads((HERE / "links.toml").read_text("utf-8"))["link"]
LINK_WORDS: dict[str, dict[str, list[str]]] = tomllib.loads((HERE / "link_words.toml").read_text("utf-8"))
EACH_SHEET = pytest.mark.parametrize("sheet", SHEETS, ids=lambda sheet: sheet.id)
STRANGE = re.compile(r"[<>\x00-\x1f\x7f-\x9f\u2028\u2029]")
LAW = settings(derandomize=True, deadline=None, max_examples=60)


def numbers(low: float, high: float, quantity: units.Quantity) -> st.SearchStrategy[str]:
    """Draw typed numbers of a field: with a unit or bare, on the steps of a tape, on a fine grid or far outside."""
    inside = st.floats(low, high)
    shown = st.builds(lambda value, system: units.show(value, quantity, system), inside, st.sampled_from(SYSTEMS))
    fine = st.builds(lambda value, unit: f"{value:.4f} {unit}", inside, st.sampled_from([units.si_unit(quantity), ""]))
    bare = st.one_of(st.integers(0, 3000).map(str), st.sampled_from(["62 1/2", "1,575", "5' 2½\"", "8.4 g / 50 m"]))
    return st.one_of(shown, fine, bare)


def typed(each: Field) -> st.SearchStrategy[str]:
    """Draw what may be typed into a field: sound, near sound, and anything."""
    rubbish = st.text(max_size=12)
    if isinstance(each, Number):
        return st.one_of(numbers(each.low, each.high, each.quantity), st.just(each.absent), rubbish)
    if isinstance(each, Choice):
        return st.one_of(st.sampled_from([text for one in each.options for text in (one.value, one.label)]), rubbish)
    if isinstance(each, Lines):
        return st.one_of(st.just(each.example), st.text('ab12,;\t \n"/.<', max_size=60))
    assert isinstance(each, Tip)
    size = numbers(each.low, each.high, "length")
    sections = st.one_of(
        size.map(lambda text: f"round {text}"), st.tuples(size, size).map(" x ".join), st.just("PIPE 3/4 in"), size
    )
    return st.one_of(sections, st.just(""), rubbish)


def forms(sheet: Worksheet) -> st.SearchStrategy[dict[str, str]]:
    return st.fixed_dictionaries({}, optional={each.key: typed(each) for each in sheet.fields})


def meaning(sheet: Worksheet, inputs: Mapping[str, str], system: System) -> tuple[object, object]:
    values, problems = read_inputs(sheet, inputs, system)
    return values, {each.field for each in problems}


def odd(each: Field, text: str) -> bool:
    """Tell whether a text has characters that links do not carry; a list may have tabs and line ends."""
    return bool(STRANGE.search(re.sub(r"[\t\n]", "", text) if isinstance(each, Lines) else text.strip()))


@EACH_SHEET
@LAW
@given(data=st.data(), sender=st.sampled_from(SYSTEMS), reader=st.sampled_from(SYSTEMS))
def test_a_link_means_to_every_reader_what_it_meant_to_the_sender(
    sheet: Worksheet, data: st.DataObject, sender: System, reader: System
) -> None:
    """And no character of it is one that is cut off or changed on the way."""
    typed_in = data.draw(forms(sheet))
    form = usual(sheet, typed_in)
    link = encode(sheet, form, sender)
    for each in (link, encode(sheet, typed_in, sender)):
        assert re.fullmatch(r"[A-Za-z0-9%&+./:=?-]+[a-z0-9]", each)
    opened = decode(link)
    assert (opened.worksheet, opened.system) == (sheet.id, sender)
    if not any(odd(each, form[each.key]) for each in sheet.fields):
        assert opened.notes == ()
        assert meaning(sheet, opened.inputs, reader) == meaning(sheet, form, sender)
    assert decode(encode(sheet, opened.inputs, reader)).inputs == opened.inputs


@EACH_SHEET
def test_only_what_differs_is_told(sheet: Worksheet) -> None:
    assert re.fullmatch(rf"v{share.VERSION}/{sheet.id}\?end=....", encode(sheet, usual(sheet), "inch"))
    assert decode(encode(sheet, {}, "metric")).inputs == usual(sheet)


@EACH_SHEET
def test_the_words_of_links_are_all_different(sheet: Worksheet) -> None:
    names = [name for each in sheet.fields for name in {word(each), each.key, each.key.replace("_", "-")}]
    assert len(set(names)) == len(names)
    assert "end" not in names
    for each in sheet.fields:
        if isinstance(each, Choice) and each.absent:
            assert share.OPEN not in {option.value for option in each.options}


def longest(each: Field) -> str:
    """Return a long text such as a maker types, for a measure that is not the usual one."""
    if isinstance(each, Number):
        sizes = {
            "length": "1587.5" if each.key == "nock_to_nock" else "660.5",
            "force": "177.9",
            "linear_density": "8.45 g / 50 m",
            "temperature": "-12.5",
        }
        return sizes.get(each.quantity, "118")
    if isinstance(each, Choice):
        return max((one.value for one in each.options if one.value != each.example), key=len)
    return "flat 15.9 x 12.7"


def full_link(system: System, name: str = "") -> str:
    """Return the end of a link to a bench sheet with all that can be asked."""
    return encode(STRING, {each.key: longest(each) for each in STRING.fields}, system, name)


@pytest.mark.parametrize("system", SYSTEMS)
def test_a_full_bench_sheet_is_a_short_link(system: System) -> None:
    """With all that can be asked, and with what nobody has to answer besides."""
    asked = {each.key: longest(each) for each in STRING.fields}
    link = full_link(system)
    assert link.count("=") == len(STRING.fields) + 1
    assert len(link) < 820
    usual_only = {each.key: asked[each.key] for each in STRING.fields if each.group not in STRING.folded}
    assert len(encode(STRING, usual_only, system)) < 420


@pytest.mark.pinned
@pytest.mark.parametrize("pinned", LINKS, ids=lambda pinned: pinned["name"])
def test_links_that_are_out_there_open_for_ever(pinned: dict[str, Any]) -> None:
    """Every field means what it meant; one the sheet has asked only since then has the usual text of that version."""
    opened, sheet = decode(pinned["link"]), catalogue()[pinned["worksheet"]]
    version = int(pinned["link"].partition("/")[0].removeprefix("v"))
    standing = usual(sheet, share.EARLIER.get(version, {}).get(sheet.id))
    since = {key: text for key, text in standing.items() if key not in pinned["inputs"]}
    assert (opened.worksheet, opened.system, opened.notes) == (pinned["worksheet"], pinned["system"], ())
    for reader in SYSTEMS:
        assert meaning(sheet, opened.inputs, reader) == meaning(sheet, {**since, **pinned["inputs"]}, reader)


def test_every_worksheet_has_a_link_that_is_kept() -> None:
    assert {pinned["worksheet"] for pinned in LINKS} == set(LINK_WORDS) == {sheet.id for sheet in SHEETS}
    assert len({pinned["name"] for pinned in LINKS}) == len(LINKS)


SEALED = ((50, "868c6eb6b48dc068"), (56, "dec575a2a682837a"), (65, "c463937727c9acb4"), (67, "2e3a8f6e417d8154"))
"""How many links were published by then, and a digest of them in their order: add a line, change none."""


@pytest.mark.pinned
@pytest.mark.parametrize(("count", "digest"), SEALED)
def test_no_published_link_is_removed_or_changed(count: int, digest: str) -> None:
    told = json.dumps(LINKS[:count], sort_keys=True, ensure_ascii=False)
    assert sha256(told.encode()).hexdigest()[:16] == digest


def test_no_word_of_a_link_loses_its_meaning() -> None:
    for sheet_id, words in LINK_WORDS.items():
        fields = {each.key: each for each in catalogue()[sheet_id].fields}
        for name, (key, *choices) in words.items():
            for text in choices or ["none"]:
                opened = decode(sealed(f"{name}={text}", f"v1/{sheet_id}"))
                assert (opened.given, opened.notes) == ((key,), ()), f"{sheet_id}: {name}={text}"
                assert not choices or read_field(fields[key], opened.inputs[key], "inch") == text


@pytest.mark.parametrize("sheet_id", list(LINK_WORDS))
def test_every_word_that_a_link_may_have_is_on_record(sheet_id: str) -> None:
    """Whoever adds a field or a choice writes it into the record: from then on links have it."""
    for each in catalogue()[sheet_id].fields:
        choices = [option.value for option in each.options] if isinstance(each, Choice) else []
        key, *known = LINK_WORDS[sheet_id][word(each)]
        assert key == each.key
        assert not set(choices) - set(known), each.key


@LAW
@given(st.text())
@example("v1/string?nock=1e999in&end=bbbb")
@example("v1/string?%ff=%00&end=")
@example("v9999/string?nock=62in&end=bbbb")
@example("v0/string?end=bbbb")
@example("v1/nothing?end=bbbb")
@example("v1/string/mm/mm?")
@example("#")
@example("=&?#%23%3d")
def test_any_text_opens_with_sentences_and_the_usual_measures(text: str) -> None:
    opened = decode(text)
    if opened.worksheet:
        assert opened.inputs == usual(catalogue()[opened.worksheet])
        assert opened.notes
    elif opened.notes:
        assert all(note.endswith(".") for note in opened.notes)
    assert "<" not in json.dumps([opened.notes, dict(opened.inputs)])
    assert not opened.notes or not re.search(r"[<>&\x00-\x1f]", " ".join(opened.notes))


GOOD = encode(STRING, {"nock_to_nock": "62 1/2", "hand": "S", "strands": "16", "tail_length": "200 mm"}, "inch")


@pytest.mark.parametrize("at", range(len(GOOD)))
def test_no_damage_passes_for_a_measure(at: int) -> None:
    sound = decode(GOOD)
    for hurt in (GOOD[:at], GOOD[at + 1 :], GOOD[:at] + GOOD[at + 1 :], GOOD[:at] + "7" + GOOD[at + 1 :]):
        opened = decode(hurt)
        assert opened == sound or not opened.worksheet or opened.inputs == usual(STRING), hurt
        assert opened == sound or opened.notes or not hurt, hurt


@pytest.mark.parametrize(
    "dressed",
    [
        f"#{GOOD}",
        f"/worksheets/string/#{GOOD}",
        f"{GOOD}.",
        f"{GOOD})",
        f" {GOOD}>\n",
        GOOD.replace("&", "&amp;"),
        GOOD.replace("+", "%20"),
        GOOD.replace("/", "%2F").replace("?", "%3F").replace("=", "%3D").replace("&", "%26"),
        GOOD.replace("/", "%2f").replace("?", "%3f").replace("=", "%3d").replace("&", "%26"),
        f"{GOOD}&from=elsewhere",
    ],
)  # fmt: skip
def test_what_messengers_do_to_a_link_does_not_hurt_it(dressed: str) -> None:
    assert decode(dressed) == decode(GOOD)


def sealed(told: str, head: str = "v1/string") -> str:
    """Return a link whose check is right, whatever it tells: what a newer version or an enemy may write."""
    pairs, _ = share._pairs(told)  # noqa: SLF001 - only the inside can make a right check for a wrong text
    return f"{head}?{told}&end={share._check(head, pairs)}"  # noqa: SLF001


def test_fields_of_a_newer_version_are_named_and_left_out() -> None:
    opened = decode(sealed("nock=70in&mood=1g&moon=full", f"v{share.VERSION + 1}/string"))
    assert opened.inputs == usual(STRING, {"nock_to_nock": "70 in"})
    assert "newer version" in opened.notes[0]
    assert opened.notes[1] == "This link holds more than this worksheet asks. Left out: mood, moon."


def test_an_unknown_worksheet_is_named() -> None:
    assert decode("v1/moonshot?end=bbbb").notes == ("This link is for a worksheet that is not here: moonshot.",)
    assert decode("v1/<b>?end=bbbb").worksheet is None


def test_markup_never_comes_through() -> None:
    told = "nock=%3Cscript%3Ealert(1)%3C/script%3E&%3Cb%3E=1&brace=7in%00&hand=S"
    opened = decode(sealed(told))
    assert opened.inputs == usual(STRING, {"hand": "S"})
    assert opened.notes == (
        "The link's nock to nock cannot be read here. The usual one stands: 66 in.",
        "The link's brace height wanted cannot be read here. The usual one stands: 6 1/2 in.",
        "This link holds more than this worksheet asks. Left out: a field without a proper name.",
    )


def test_an_older_link_keeps_the_usual_measures_of_its_time(monkeypatch: pytest.MonkeyPatch) -> None:
    old = encode(STRING, {"hand": "S"}, "inch")
    monkeypatch.setattr(share, "VERSION", share.VERSION + 1)
    monkeypatch.setattr(share, "EARLIER", {share.VERSION - 1: {"string": {"tail_length": "9 in"}}})
    assert decode(old).inputs == usual(STRING, {"hand": "S", "tail_length": "9 in"})
    assert decode(encode(STRING, {"hand": "S"}, "inch")).inputs == usual(STRING, {"hand": "S"})


def test_a_field_that_got_another_name_is_found(monkeypatch: pytest.MonkeyPatch) -> None:
    old = sealed("lay=S&nock=70in")
    assert decode(old).notes == ("This link holds more than this worksheet asks. Left out: lay.",)
    monkeypatch.setattr(share, "RENAMED", {"string": {"lay": "hand"}})
    assert decode(old) == Link("string", usual(STRING, {"hand": "S", "nock_to_nock": "70 in"}), "inch")


def test_a_link_that_is_too_long_is_refused() -> None:
    assert decode("v1/string?nock=" + "9" * 500_000).notes
    opened = decode(sealed("nock=" + "9" * 300))
    assert opened.inputs == usual(STRING)
    assert "nock to nock cannot be read" in opened.notes[0]


def test_open_fields_stay_open() -> None:
    opened = decode(encode(STRING, {"handle_length": ""}, "inch"))
    assert opened.inputs["handle_length"] == "not known"
    said = decode(encode(STRING, {"handle_length": "none"}, "inch"))
    assert meaning(STRING, said.inputs, "inch")[1] == {"handle_length"}
