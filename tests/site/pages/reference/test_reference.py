"""The reference pages: every block is written, every sign explained, every source at the foot."""

from __future__ import annotations

import re
from html.parser import HTMLParser

import pytest

from calc.data import fibres, ropes, sources
from calc.data.fibre_table import PROPERTIES
from calc.geometry.lay import LOOSE_PACKING, jam
from site_build.pages.blocks import BlockError
from site_build.pages.reference import charts
from site_build.pages.reference.citations import Citing
from site_build.pages.reference.formulas import constant, formulas, function, groups
from site_build.pages.reference.page import CHARTS, TABLES, equation, page_of, write_reference
from site_build.setup.paths import ROOT

pytestmark = pytest.mark.exact

PAGES = sorted((ROOT / "docs" / "reference").glob("*.md"))
WRITTEN = {path.stem: write_reference(path.read_text(encoding="utf-8")) for path in PAGES}
BOW = {key for key in (*groups(), *TABLES) if key.startswith(("bow-", "worked-"))}
KINDS = {
    "cord": {*groups(), "take-up", "sources"} - BOW,
    "fibres": {*TABLES, "fibre-curves", "sources"} - BOW - {"notebook-records"},
    "bow": {*BOW, "sources"},
}


class Words(HTMLParser):
    """The words of a page, what its links go to and what they can go to."""

    def __init__(self, html: str) -> None:
        super().__init__()
        self.said, self.links, self.ids = "", set[str](), list[str]()
        self.feed(html)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        """Note links and ids."""
        for name, value in attrs:
            if name == "href" and value:
                self.links.add(value)
            if name == "id" and value:
                self.ids.append(value)
        del tag

    def handle_data(self, data: str) -> None:
        """Note words."""
        self.said += data


@pytest.mark.parametrize("page", sorted(KINDS))
def test_a_page_has_all_its_blocks(page: str) -> None:
    asked = set(
        re.findall(r"^::: reference ([\w-]+)$", (ROOT / f"docs/reference/{page}.md").read_text("utf-8"), re.MULTILINE)
    )
    assert asked == KINDS[page]
    assert ":::" not in WRITTEN[page]
    assert {*CHARTS} <= KINDS["cord"] | KINDS["fibres"]


@pytest.mark.parametrize("page", sorted(KINDS))
def test_every_source_stands_at_the_foot_and_no_sign_of_the_code_is_left(page: str) -> None:
    words = Words(WRITTEN[page])
    assert words.links
    assert words.links <= {f"#{each}" for each in words.ids}
    assert len(set(words.ids)) == len(words.ids)
    keys = [each.key for each in sources() if ":" in each.key or any(sign.isdigit() for sign in each.key)]
    assert [key for key in keys if key in words.said] == []
    for sign in ("`", "[-]", "Return ", "_m ", "_rad", "**"):
        assert sign not in words.said, sign


def test_what_is_left_out_is_said_of_most() -> None:
    assert sum(bool(each.leaves_out) for each in formulas().values()) > len(formulas()) / 2


def test_a_block_is_found_on_its_page() -> None:
    assert {key: page_of(key) for key in groups()} == {
        key: page for page, keys in KINDS.items() for key in keys & set(groups())
    }


def test_every_number_of_every_fibre_is_on_the_page() -> None:
    words = Words(WRITTEN["fibres"]).said
    for title in PROPERTIES.values():
        assert title in words
    for each in fibres():
        assert words.count(each.words) >= len(each.facts) + len(each.verdicts)
    assert words.count("g/m") >= len(ropes())


def test_the_chart_ends_each_line_at_its_jam() -> None:
    drawing = charts.take_up()
    for bundles in (2, 3, 4):
        turns = jam(bundles).cord_turns_times_diameter / charts.BUNDLE_M * charts.SPAN_M
        assert f"{bundles} bundles jam at {turns:.0f} turns, {100 * jam(bundles).take_up:.0f} %" in drawing.desc
    labels = " ".join(each.text for each in drawing.labels)
    assert all(f"{bundles} bundles" in labels for bundles in (2, 3, 4))


def test_the_curves_end_where_the_fibres_break() -> None:
    assert "polyester breaks at 0.8 N/tex and 13 %" in charts.fibre_curves().desc


def test_other_pages_stay_as_they_are() -> None:
    page = "# A page\n\n::: worksheet string\n\n    ::: reference lay\n"
    assert write_reference(page) == page


def test_a_key_that_is_not_known_is_named_with_its_line() -> None:
    with pytest.raises(BlockError, match=r"there is no reference lie; there are: loops, splices,") as caught:
        write_reference("# A\n\n::: reference lay\n\n::: reference lie\n")
    assert caught.value.line == 5


@pytest.mark.parametrize(
    ("written", "said"),
    [
        ("a = b**2", "<i>a</i> = <i>b</i><sup>2</sup>"),
        ("a = k**((t - 293.15) / 10)", "<i>a</i> = <i>k</i><sup>(<i>t</i> − 293.15) / 10</sup>"),
        ("a = sqrt(2 * pi)", "<i>a</i> = √(2 × π)"),
        ("a = jam(bundles) + twist_efficiency(a)", "<i>a</i> = <i>jam</i> + <i>twist efficiency</i>(<i>a</i>)"),
        ("low_m = 2 * cos(lay_rad)", "<i>low</i> = 2 × cos(<i>lay</i>)"),
    ],
)
def test_equations_are_set_as_by_hand(written: str, said: str) -> None:
    assert equation(written) == said


def test_a_function_without_a_formula_is_refused() -> None:
    with pytest.raises(KeyError, match="nowhere"):
        function("nowhere")
    with pytest.raises(KeyError, match="NOWHERE"):
        constant("NOWHERE")


def test_a_constant_is_told_by_its_value() -> None:
    assert Citing().html("filled to `LOOSE_PACKING`") == f"filled to {LOOSE_PACKING:g}"
