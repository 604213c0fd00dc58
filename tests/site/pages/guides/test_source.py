"""The source form of guides: what it reads, and what it refuses with which words."""

from __future__ import annotations

import pytest
from mkdocs.exceptions import PluginError

from calc.units.tables import DEFINITIONS
from site_build.pages.blocks import Block, BlockError, parts
from site_build.pages.guides.amounts import amount, source_of
from site_build.pages.guides.club import needed
from site_build.pages.guides.hands import HANDED
from site_build.pages.guides.marks import Html, pieces, plain_text
from site_build.pages.guides.page import guide_page

pytestmark = pytest.mark.exact
STEP = "::: step one\ntitle: Cut\ndo: Cut it. Then rest.\nlooks: level\nwrong: slack -> cut again\n:::\n"
META = {"title": "A guide", "time": "{10 min}", "for": "All", "tools": ["A nail"], "materials": ["Cord"], "first": "-"}


def test_a_block_keeps_its_fields_its_lines_and_the_text_about_it() -> None:
    before, block, after = parts(
        "Above\n::: step one\ntitle: Cut\ndo: Cut\n  it\nwrong: a -> b\nwrong: c -> d\n:::\nBelow"
    )
    assert isinstance(block, Block)
    assert (before, after) == ("Above\n", "Below")
    assert (block.kind, block.key, block.line) == ("step", "one", 2)
    assert block.one("do") == "Cut it"
    assert block.many("wrong") == ("a -> b", "c -> d")
    assert block.maybe("figure") == ""


def test_blocks_of_others_stay_in_the_text() -> None:
    assert parts("::: worksheet string") == ["::: worksheet string"]


@pytest.mark.parametrize(
    ("source", "line", "words"),
    [
        ("::: step one\ntitle: Cut", 1, "does not end"),
        ("::: step one\nlook: level\n:::", 2, "did you mean looks:"),
        ("\n::: step one\ntitle: a\ntitle: b\n:::", 4, "stands twice"),
        ("::: step one\nzzzz\n:::", 2, "a step has"),
    ],
)
def test_a_source_that_cannot_be_is_named_with_its_line(source: str, line: int, words: str) -> None:
    with pytest.raises(BlockError, match=words) as refused:
        parts(source)
    assert refused.value.line == line


@pytest.mark.parametrize(
    ("source", "words"),
    [
        ("::: step one\ntitle: a\ndo: b\nwrong: c -> d\n:::", r"guides/x.md:1: step one has no looks"),
        (STEP.replace(" -> ", " "), "has no cure"),
        (STEP.replace(":::\n", "caution: nobody\n:::\n").replace("::: ", "::: ", 1), "no caution nobody"),
        (STEP.replace("looks:", "figure: two-bundle-rol\nlooks:"), "did you mean two-bundle-roll?"),
        ("Roll it {sideways}.", "is no mark"),
        ("Roll it {roll.", "without its }"),
        ("Roll it roll}.", "without its {"),
        ("About {3 ells}.", "no unit"),
        ("About {3 in @hearsay}.", "hearsay is no working constant"),
        ("::: kit\neach: two pins\n:::", "number | thing"),
        ("::: fault x\nsee: a\ntest: b\ncase: c -> d\n:::", "what the test shows -> cause"),
    ],
)
def test_a_page_that_cannot_be_is_refused_with_its_place(source: str, words: str) -> None:
    with pytest.raises(PluginError, match=words.replace("{", r"\{").replace("}", r"\}").replace("|", r"\|")):
        guide_page(source, META, "guides/x.md")


def test_other_pages_are_left_alone() -> None:
    assert guide_page("Keep {this}", {}, "worksheets/x.md") == "Keep {this}"


def test_one_text_makes_both_hands() -> None:
    text = "Roll it {roll}: {twist}. {Over} bundle {ply}: {lay}."
    assert plain_text(text, "Z", "inch") == "Roll it away from you: S. Far bundle towards you: Z."
    assert plain_text(text, "S", "inch") == "Roll it towards you: Z. Near bundle away from you: S."
    made = Html().text("{roll}")
    assert made.index('data-hand="Z">away from you<') < made.index('data-hand="S" data-search-exclude hidden>towards')


def test_every_word_of_a_hand_differs_from_that_of_the_other() -> None:
    for name, words in HANDED.items():
        assert words.z != words.s, name
    for one, other in (
        ("roll", "unroll"),
        ("ply", "unply"),
        ("over", "under"),
        ("tighten", "loosen"),
        ("lay", "twist"),
    ):
        assert (HANDED[one].z, HANDED[one].s) == (HANDED[other].s, HANDED[other].z)


def _twist(axis: int, moved: tuple[int, int, int], top: tuple[int, int, int]) -> int:
    """Return the sense about +x in which `top` moves to `moved`: 1 right-handed, -1 left-handed."""
    assert axis == 0
    return top[1] * moved[2] - top[2] * moved[1]


def test_the_words_are_those_of_the_geometry() -> None:
    """The cord runs along +x from the held end; y points away from the maker, z up: a right-handed frame.

    Turning the right-hand end right-handed about +x, the left one held, makes a right-handed helix, which is Z (ISO 2).
    """
    away, towards, up = (0, 1, 0), (0, -1, 0), (0, 0, 1)
    where = {"away from you": away, "towards you": towards}
    side = {"far": away, "near": towards}
    for hand, letter in (("Z", 1), ("S", -1)):
        rolled = _twist(0, where[HANDED["roll"].of(hand)], up)
        assert rolled == {"Z": 1, "S": -1}[HANDED["twist"].of(hand)]
        over = _twist(0, up, side[HANDED["over"].of(hand)])
        down = _twist(0, where[HANDED["ply"].of(hand)], up)
        assert over == down == letter
        # Seen along +x from the near end, clockwise is right-handed; the near end turned so unwinds a Z lay.
        near_end = {"clockwise": 1, "counter-clockwise": -1}[HANDED["tighten"].of(hand)]
        assert -near_end == letter


@pytest.mark.parametrize(
    ("written", "inch", "metric"),
    [
        ("1/2 in", "½ in", "13 mm"),
        ("1 1/2-2 in", "1½ to 2 in", "40 to 50 mm"),
        ("66 in", "66 in", "1680 mm"),
        ("10 ft", "10 ft", "3 m"),
        ("2 ft", "2 ft", "0.6 m"),
        ("50 lb", "50 lb", "23 kg"),
        ("35 degC", "95 °F", "35 °C"),
        ("10-12 turns", "10 to 12 turns", "10 to 12 turns"),
        ("1 h", "1 hour", "1 hour"),
        ("5/64 in", "⁵⁄₆₄ in", "2 mm"),
    ],
)
def test_an_amount_is_shown_in_both_systems(written: str, inch: str, metric: str) -> None:
    told = amount(written)
    assert (told.inch, told.metric) == (inch, metric)


def test_metric_figures_stay_within_what_rounding_allows() -> None:
    for quarter in range(1, 400):
        shown = amount(f"{quarter // 4} {quarter % 4}/4 in").metric
        exact = quarter / 4 * 25.4
        step = 1 if exact < 30 else 5 if exact < 100 else 10
        assert abs(float(shown.removesuffix(" mm")) - exact) <= step / 2 + 1e-9
    for pounds in range(2, 200):
        kilograms = float(amount(f"{pounds} lb").metric.removesuffix(" kg"))
        assert abs(kilograms - pounds * float(DEFINITIONS["pound"].value)) <= 0.5 + 1e-9


def test_a_source_is_that_of_its_constant_rule_or_itself() -> None:
    assert source_of("strand_step") == "pope1923hunting"
    assert source_of("tails") == "common-practice"
    assert source_of("krell1996") == "krell1996"


def test_own_numbers_keep_words_to_fall_back_on() -> None:
    assert plain_text("Cut {own cut_length | about {66 in}} long", "Z", "metric") == "Cut about 1680 mm long"
    made = Html().text("{own cut_length | about {66 in}}")
    assert made.startswith('<span class="pt-own" data-own="cut_length">about <span class="pt-amount">')
    assert pieces("no marks") == ("no marks",)


@pytest.mark.parametrize(
    ("makers", "each", "per", "once", "count"), [(8, 2, 0, 0, 16), (9, 0, 4, 0, 3), (1, 0, 4, 1, 2)]
)
def test_the_kit_list_scales(makers: int, each: float, per: float, once: float, count: int) -> None:
    assert needed(makers, each=each, per=per, once=once) == count
