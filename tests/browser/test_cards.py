"""Cards as Chromium prints them: so many pages, nothing cut off, and a code that another program reads."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np
import PIL.Image
import pypdfium2  # type: ignore[import-untyped]
import pytest
import zxingcpp
from playwright.sync_api import expect

from calc.draw.cards import PAPERS, CardFacts
from calc.paper import card_facts, card_html, pack_html, square_code
from tests.browser.conftest import PATIENCE_MS
from tests.calc.test_share import full_link

if TYPE_CHECKING:
    from pathlib import Path

    from playwright.sync_api import Browser, Page

    from calc.paper import Form
    from tests.browser.conftest import OpenPage

pytestmark = [pytest.mark.browser, pytest.mark.contract]
LINK = "https://strings.example/worksheets/string/#v2/string/mm?for=Anna&nock=1575mm&pull=200N&hand=S&end=7k2m"
FULL_LINK = f"{LINK.partition('#')[0]}#{full_link('inch', 'Ash 62 of Anna')}"
"""With all that the bench sheet can be asked."""
DOTS_PER_INCH = 200
CODE_MM = 25.0
"""How wide the code of a full bench sheet is printed at least, and read."""
EDGE_MM = 5.0
"""What most printers leave white."""


def printed(browser: Browser, tmp_path: Path, paper: str, *, form: Form, count: int) -> list[PIL.Image.Image]:
    """Return the pages of some cards as Chromium prints them."""
    facts = card_facts({"bundles": "3"}, "metric", name="Ash 62", link=FULL_LINK, code=square_code(FULL_LINK))
    assert isinstance(facts, CardFacts)
    file = tmp_path / "cards.html"
    file.write_text(card_html([facts] * count, paper, form), encoding="utf-8")
    page = browser.new_page()
    page.goto(file.as_uri())
    page.pdf(path=tmp_path / "cards.pdf", prefer_css_page_size=True, print_background=True)
    page.close()
    return pictures_of(tmp_path, paper)


def pictures_of(tmp_path: Path, paper: str) -> list[PIL.Image.Image]:
    document = pypdfium2.PdfDocument(tmp_path / "cards.pdf")
    size = document[0].get_size()
    assert size == pytest.approx((PAPERS[paper].wide_mm * 72 / 25.4, PAPERS[paper].tall_mm * 72 / 25.4), abs=1.0)
    return [each.render(scale=DOTS_PER_INCH / 72).to_pil().convert("L") for each in document]


@pytest.mark.parametrize("paper", list(PAPERS))
@pytest.mark.parametrize("form", ["page", "pocket"])
def test_cards_print_whole_and_their_code_is_read(browser: Browser, tmp_path: Path, paper: str, form: Form) -> None:
    count = {"page": 2, "pocket": 5}[form]
    pictures = printed(browser, tmp_path, paper, form=form, count=count)
    assert len(pictures) == 2
    rim = round(EDGE_MM / 25.4 * DOTS_PER_INCH)
    read: list[str] = []
    for picture in pictures:
        dark = np.asarray(picture) < 128
        assert not any(edge.any() for edge in (dark[:rim], dark[-rim:], dark[:, :rim], dark[:, -rim:]))
        for each in zxingcpp.read_barcodes(picture):
            read.append(each.text)
            across_mm = (each.position.top_right.x - each.position.top_left.x) / DOTS_PER_INCH * 25.4
            assert across_mm >= CODE_MM - 0.3, "to one dot to either side"
    assert read == [FULL_LINK] * count


@pytest.mark.parametrize("paper", list(PAPERS))
@pytest.mark.parametrize(("bows", "pages"), [(4, 5), (30, 16)])
def test_a_clubs_afternoon_prints_whole(browser: Browser, tmp_path: Path, paper: str, bows: int, pages: int) -> None:
    """What to buy and cut, the timetable, what to sign, labels, and cards four a page begin their own pages."""
    lines = "\n".join(f"Bow of a maker with a long name {at}, {50 + at % 17} in, 30 lb" for at in range(bows))
    facts = card_facts({}, "inch", name="Ash", link=LINK, code=square_code(LINK))
    assert isinstance(facts, CardFacts)
    html = pack_html({"bows": lines, "makers": "3"}, "inch", [facts] * bows, paper)
    assert isinstance(html, str)
    (tmp_path / "pack.html").write_text(html, encoding="utf-8")
    page = browser.new_page()
    page.goto((tmp_path / "pack.html").as_uri())
    page.pdf(path=tmp_path / "cards.pdf", prefer_css_page_size=True, print_background=True)
    page.close()
    pictures = pictures_of(tmp_path, paper)
    assert len(pictures) == pages
    rim = round(EDGE_MM / 25.4 * DOTS_PER_INCH)
    read = 0
    for picture in pictures:
        dark = np.asarray(picture) < 128
        assert dark.any(), "no page is empty"
        assert not any(edge.any() for edge in (dark[:rim], dark[-rim:], dark[:, :rim], dark[:, -rim:]))
        read += len(zxingcpp.read_barcodes(picture))
    assert read == bows
    text = [each.get_textpage().get_text_range() for each in pypdfium2.PdfDocument(tmp_path / "cards.pdf")]
    assert [sum(head in each for each in text) for head in ("Club afternoon", "Timetable", "Looked at and signed")] == [
        1
    ] * 3
    assert sum(each.count("2 bundles of") for each in text) >= bows


def on(page: Page) -> None:
    """Wait until the sheet answers."""
    expect(page.locator(".sheet")).to_have_attribute("data-state", "new", timeout=PATIENCE_MS)


def test_a_link_is_read_from_the_screen(open_page: OpenPage, tmp_path: Path) -> None:
    page = open_page("worksheets/string/", width=390, dark=True)
    page.locator("[name=nock_to_nock]").fill("64 in")
    page.get_by_role("button", name="Calculate").click()
    on(page)
    page.get_by_role("button", name="Show it as a square code").click()
    shown = page.locator(".code-shown svg")
    expect(shown).to_be_visible(timeout=PATIENCE_MS)
    shown.screenshot(path=tmp_path / "code.png")
    (read,) = zxingcpp.read_barcodes(PIL.Image.open(tmp_path / "code.png"))
    assert "/worksheets/string/#v4/string?nock=64in" in read.text
    assert page.locator(".sheet").get_attribute("data-state") == "new"


def test_the_card_of_a_sheet_is_drawn_and_saved(open_page: OpenPage, tmp_path: Path) -> None:
    page = open_page("worksheets/string/")
    page.get_by_role("button", name="Print its card").click()
    dialog = page.get_by_role("dialog", name="Cards to print")
    card = dialog.frame_locator("iframe")
    expect(card.locator("svg.page")).to_have_count(1, timeout=PATIENCE_MS)
    dialog.get_by_label("For (").fill("Ash 62")
    dialog.get_by_label("How").select_option("pocket")
    expect(card.get_by_text("Ash 62", exact=True)).to_be_visible(timeout=PATIENCE_MS)
    dialog.get_by_label("How").select_option("strip")
    expect(card.locator("svg.page")).to_have_count(2, timeout=PATIENCE_MS)
    for form, words in {"pegs": "Pegs for one bundle, Ash 62", "gauges": "Loops of cord"}.items():
        dialog.get_by_label("How").select_option(form)
        expect(card.locator("svg.page").nth(1).locator("text", has_text=words)).to_be_visible(timeout=PATIENCE_MS)
        expect(card.locator("svg.page")).to_have_count(2)
    dialog.get_by_label("How").select_option("strip")
    expect(card.locator("text", has_text="Marks of one bundle").first).to_be_visible(timeout=PATIENCE_MS)
    with page.expect_download() as saved:
        dialog.get_by_role("button", name="Save as a file").click()
    saved.value.save_as(tmp_path / "card.html")
    assert "in true size" not in (tmp_path / "card.html").read_text(encoding="utf-8")
    assert "Marks of one bundle, Ash 62" in (tmp_path / "card.html").read_text(encoding="utf-8")
    dialog.get_by_role("button", name="Close").click()
    expect(dialog).to_have_count(0)


def test_the_posts_of_an_endless_string_are_printed_on_a_strip(open_page: OpenPage) -> None:
    page = open_page("worksheets/endless/", width=390)
    page.get_by_role("button", name="Print a strip for the posts").click()
    dialog = page.get_by_role("dialog", name="Strip to print")
    words = dialog.frame_locator("iframe").locator("text", has_text="over their outer sides")
    expect(words.first).to_be_visible(timeout=PATIENCE_MS)
    expect(dialog.get_by_label("How").locator("option")).to_have_count(1)


def test_a_club_prints_all_its_cards_at_once(open_page: OpenPage) -> None:
    page = open_page("worksheets/club/")
    page.get_by_role("button", name="Print all for the afternoon").click()
    dialog = page.get_by_role("dialog", name="Cards to print")
    card = dialog.frame_locator("iframe")
    many = page.locator("section[data-table=cards] tbody tr").count()
    assert many > 3
    expect(card.get_by_role("heading", name="Timetable")).to_be_visible(timeout=PATIENCE_MS)
    expect(card.locator(".label")).to_have_count(many)
    expect(card.locator("svg.page")).to_have_count(-(-many // 4))
    dialog.get_by_label("How").select_option("page")
    expect(card.locator("svg.page")).to_have_count(many, timeout=PATIENCE_MS)
    dialog.get_by_label("How").select_option("pocket")
    expect(card.locator("svg.page")).to_have_count(-(-many // 4), timeout=PATIENCE_MS)
