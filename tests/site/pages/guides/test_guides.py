"""Every guide: its parts, both hands, its words, its numbers, its links."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

import pytest

from calc.data import UNITS, practice, practices, rules
from calc.worksheets import catalogue
from site_build.pages.guides.amounts import values
from site_build.pages.guides.cautions import cautions
from site_build.pages.guides.marks import plain_text
from site_build.pages.guides.texts import load, pages
from site_build.pages.guides.words import words
from site_build.setup.paths import DOCS

if TYPE_CHECKING:
    from pathlib import Path

    from site_build.pages.guides.texts import GuidePage

pytestmark = pytest.mark.exact
WANTED = (
    "brace", "care", "choose-cord", "club-afternoon", "endless", "faults", "measure", "nocking-point", "one-loop",
    "serve", "settle", "short-fibre", "splice", "stringer", "three-bundle", "tillering-string", "transfer-twist",
    "two-bundle",
)  # fmt: skip
"""All guides."""
MAKING = (
    "endless", "nocking-point", "one-loop", "serve", "short-fibre", "splice", "three-bundle", "transfer-twist",
    "two-bundle",
)  # fmt: skip
SHEETS = frozenset({
    "string", "brace", "strands", "cord-test", "loops", "cuts", "twist", "endless", "settle", "tune", "serving", "shot",
    "club", "nail", "limb-test", "tiller", "spares", "note", "copy", "stringer", "bend",
})  # fmt: skip
TRADE = (
    "bow", "limb", "nock", "belly", "back of the bow", "brace height", "fistmele", "string follow", "bundle", "strand",
    "ply", "loop", "throat", "splice", "tail", "lay of the string", "S-twist", "Z-twist", "take-up", "serving",
    "nocking point", "creep", "tex", "tenacity", "timber hitch", "whipping", "taper", "counter-twist", "endless string",
    "settle", "groove", "grip of the bow", "fibre", "wax", "draw length", "bench sheet",
)  # fmt: skip
"""The trade's terms, and the few of our own, that a guide may need."""


PAGES = pages()


def guide(name: str) -> GuidePage:
    return load(DOCS / "guides" / f"{name}.md")


PAIRS = (
    ("away from you", "towards you"), ("far bundle", "near bundle"), ("far pair", "near pair"),
    ("far side", "near side"), ("far one", "near one"), ("right hand", "left hand"), ("clockwise", "counter-clockwise"),
)  # fmt: skip
_DIRECTION = re.compile(
    "|".join(
        rf"(?<![\w-]){re.escape(word)}\b" for word in sorted({w for pair in PAIRS for w in pair}, key=len, reverse=True)
    )
    + r"|(?<!')\b(?-i:[SZ])\b",
    re.IGNORECASE,
)
_OPPOSITE = {word: other for one, two in PAIRS for word, other in ((one, two), (two, one))} | {"s": "z", "z": "s"}


def mirrored(text: str) -> str:
    """Change every word of direction for its opposite."""

    def opposite(found: re.Match[str]) -> str:
        other = _OPPOSITE[found[0].lower()]
        return other.upper() if len(other) == 1 else other

    return _DIRECTION.sub(opposite, text)


def test_the_mirror_itself() -> None:
    assert mirrored("Turn it counter-clockwise, then clockwise: Z.") == "Turn it clockwise, then counter-clockwise: S."


@pytest.mark.parametrize("page", PAGES, ids=lambda page: page.stem)
def test_no_step_says_one_direction_for_both_hands(page: Path) -> None:
    told = load(page)
    for place, text in told.texts():
        if page.stem in {"words", "cautions", "index"}:
            continue
        z, s = (re.sub(r"\bS or Z\b", "", plain_text(text, hand, "inch")) for hand in ("Z", "S"))
        assert mirrored(z).lower() == s.lower(), (page.stem, place)


def test_the_making_guides_do_speak_of_direction() -> None:
    for name in set(MAKING) - {"nocking-point"}:
        told = guide(name)
        differing = [
            place for place, text in told.texts() if plain_text(text, "Z", "inch") != plain_text(text, "S", "inch")
        ]
        assert differing, name


def test_all_fifteen_are_there_and_in_the_list_and_the_navigation() -> None:
    assert tuple(sorted(path.stem for path in (DOCS / "guides").glob("*.md") if path.stem != "index")) == WANTED
    index = (DOCS / "guides" / "index.md").read_text(encoding="utf-8")
    navigation = (DOCS.parent / "mkdocs.yml").read_text(encoding="utf-8")
    for name in WANTED:
        assert f"({name}.md)" in index
        assert f"guides/{name}.md" in navigation


@pytest.mark.parametrize("name", WANTED)
def test_a_guide_has_every_part(name: str) -> None:
    told = guide(name)
    for part in ("title", "for", "time", "tools", "materials", "first"):
        assert told.meta[part], part
    assert bool(told.meta.get("making")) == (name in MAKING)
    assert len(told.of("check")) == 1
    assert len(told.of("check")[0].many("point")) >= 3
    steps = told.of("step") + told.of("fault")
    assert len(steps) >= 5
    for step in told.of("step"):
        for part in ("title", "do", "looks", "wrong", "figure"):
            assert step.maybe(part), (step.key, part)
    keys = [step.key for step in steps]
    assert len(set(keys)) == len(keys)
    assert told.blocks[-1].kind == "check"


@pytest.mark.parametrize("name", WANTED)
def test_a_step_asks_for_one_thing(name: str) -> None:
    """Its first sentence, which stands alone when making along, is short and begins with what to do or what with."""
    for step in guide(name).of("step"):
        first = re.split(r"(?<=[.!?])\s+(?=[A-Z{*\[])", step.one("do"), maxsplit=1)[0]
        said = plain_text(first, "Z", "inch")
        assert len(re.sub(r"\]\([^)]*\)", "", said).split()) <= 36, (step.key, said)


def test_a_hand_that_can_be_hurt_is_cautioned() -> None:
    needs = {
        "two-bundle": ("knife", "hot-wax", "hanging", "heat-fibre"), "brace": ("braced-bow", "first-draw", "dry-shot"),
        "settle": ("hanging", "braced-bow"), "serve": ("braced-bow", "dry-shot"), "nocking-point": ("dry-shot",),
        "care": ("doubt", "braced-bow"), "club-afternoon": ("children", "knife", "hanging", "braced-bow", "hair"),
        "choose-cord": ("hot-wax", "low-stretch"), "measure": ("braced-bow",), "endless": ("hanging",),
        "one-loop": ("braced-bow",), "splice": ("knife",), "stringer": ("braced-bow", "knife"),
        "short-fibre": ("hanging", "knife"),
        "tillering-string": ("braced-bow",),
    }  # fmt: skip
    for name, wanted in needs.items():
        given = {caution for step in guide(name).of("step") for caution in step.many("caution")}
        assert set(wanted) <= given, name
    used = {caution for name in WANTED for step in guide(name).of("step") for caution in step.many("caution")}
    assert used <= set(cautions())


def test_no_number_stands_without_its_origin() -> None:
    """A figure in a guide is a mark, so that it is shown in both systems and with its source."""
    allowed = re.compile(r"ISO 2|\]\([^)]*\)")
    for page in PAGES:
        for place, text in load(page).texts():
            if place.split(".")[-1] in {"each", "shared", "once", "part"}:
                text = text.partition("|")[2]  # noqa: PLW2901 - how many, before the bar
            bare = re.sub(r"\{[^{}]*\}", "", re.sub(r"\{[^{}]*\{[^{}]*\}[^{}]*\}", "", allowed.sub("", text)))
            assert not re.search(r"\d", bare), (page.stem, place, bare)


_MARK = re.compile(r"\{(\d[^{}]*)\}")
_SI = {**{name: factor for name, (factor, _) in UNITS.items()}, "lb": UNITS["lbf"][0], "h": 3600.0, "min": 60.0,
       "ft": 0.3048, "turns": 1.0, "strands": 1.0, "shots": 1.0}  # fmt: skip


def test_numbers_with_a_source_are_those_of_its_table() -> None:
    checked = 0
    for page in PAGES:
        for place, text in load(page).texts():
            for mark in _MARK.findall(text):
                body, _, key = (part.strip() for part in mark.partition("@"))
                facts = (
                    [practice(key)] if key in practices() else [f for r in rules() if r.id == key for f in r.figures]
                )
                if not facts:
                    continue
                unit = re.sub(r"[\d /.-]", "", body)
                offset = UNITS.get(unit, (1.0, 0.0))[1]
                for value in values(mark):
                    si = value * _SI[unit] + offset
                    inside = [f for f in facts if f.spread.low * 0.999 <= si <= f.spread.high * 1.001]
                    assert inside, (page.stem, place, mark)
                    checked += 1
    assert checked >= 20


@pytest.mark.parametrize("name", WANTED)
def test_own_numbers_are_results_that_a_worksheet_gives(name: str) -> None:
    known = {key for worksheet in catalogue().values() for key in worksheet.results}
    text = (DOCS / "guides" / f"{name}.md").read_text(encoding="utf-8")
    keys = set(re.findall(r"\{own (\w+)", text))
    for step in guide(name).of("step"):
        keys |= set(step.maybe("own").split()) | set(step.maybe("count").split(" | ")[:1]) - {"", "unknown"}
    assert keys <= known, keys - known
    sheets = set(re.findall(r"\{sheet ([\w-]+)", text))
    assert sheets <= SHEETS
    assert sheets or not keys


def test_an_own_number_of_turns_is_followed_by_what_it_counts() -> None:
    found = 0
    for name in WANTED:
        for place, text in guide(name).texts():
            for key, after in re.findall(r"\{own ((?:turns|counter_twist|wraps|strands)\w*)[^{}]*\}\s*(\w*)", text):
                assert after == key.split("_")[0].replace("counter", "turns"), (name, place)
                found += 1
    assert found >= 8


def test_the_list_of_words_has_all_the_trade_ones_once() -> None:
    forms = [form.lower() for word in words() for form in word.forms]
    assert len(set(forms)) == len(forms)
    for term in TRADE:
        if term != "bow":
            assert term.lower() in forms, term
    assert len({word.key for word in words()}) == len(words())


def test_each_fault_leads_from_what_is_seen_to_a_cure() -> None:
    told = guide("faults")
    wanted = {
        "too-long", "loop-slips", "not-round", "bundle-proud", "serving-parts", "nock-tight", "height-creeps",
        "strand-broken",
    }  # fmt: skip
    assert wanted <= {block.key for block in told.of("fault")}
    listed = set(re.findall(r"\(#([\w-]+)\)", told.body.split("::: fault")[0]))
    for fault in told.of("fault"):
        assert fault.key in listed
        assert len(fault.many("case")) >= 2
        for case in fault.many("case"):
            seen, cause, cure, then = case.split(" -> ")
            assert seen
            assert cause
            assert cure
            assert "{sheet " in then or "](" in then
