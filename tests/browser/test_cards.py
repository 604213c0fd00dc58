"""Cards as Chromium prints them: so many pages, nothing cut off, and a code that another program reads."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np
import PIL.Image
import pypdfium2  # type: ignore[import-untyped]
import pytest
import zxingcpp
from playwright.sync_api import expect

from calc.cards import card_facts, card_html
from calc.draw.cards import PAPERS, CardFacts
from calc.terminal_card import square_code
from tests.browser.conftest import PATIENCE_MS

if TYPE_CHECKING:
    from pathlib import Path

    from playwright.sync_api import Browser, Page

    from calc.cards import Form
    from tests.browser.conftest import OpenPage

pytestmark = [pytest.mark.browser, pytest.mark.contract]
LINK = "https://strings.example/worksheets/string/#v2/string/mm?for=Anna&nock=1575mm&pull=200N&hand=S&end=7k2m"
DOTS_PER_INCH = 200
EDGE_MM = 5.0
"""What most printers leave white."""


def printed(browser: Browser, tmp_path: Path, paper: str, *, form: Form, count: int) -> list[PIL.Image.Image]:
    """Return the pages of some cards as Chromium prints them."""
    facts = card_facts({"bundles": "3"}, "metric", name="Ash 62", link=LINK, code=square_code(LINK))
    assert isinstance(facts, CardFacts)
    file = tmp_path / "cards.html"
    file.write_text(card_html([facts] * count, paper, form), encoding="utf-8")
    page = browser.new_page()
    page.goto(file.as_uri())
    page.pdf(path=tmp_path / "cards.pdf", prefer_css_page_size=True, print_background=True)
    page.close()
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
        assert not dark[:rim].any()
        assert not dark[-rim:].any()
        assert not dark[:, :rim].any()
        assert not dark[:, -rim:].any()
        read += [each.text for each in zxingcpp.read_barcodes(picture)]
    assert read == [LINK] * count


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
    assert "/worksheets/string/#v2/string?nock=64in" in read.text
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
    with page.expect_download() as saved:
        dialog.get_by_role("button", name="Save as a file").click()
    saved.value.save_as(tmp_path / "card.html")
    assert "in true size" not in (tmp_path / "card.html").read_text(encoding="utf-8")
    assert "Marks of one bundle: Ash 62" in (tmp_path / "card.html").read_text(encoding="utf-8")
    dialog.get_by_role("button", name="Close").click()
    expect(dialog).to_have_count(0)


def test_a_club_prints_all_its_cards_at_once(open_page: OpenPage) -> None:
    page = open_page("worksheets/club/")
    page.get_by_role("button", name="Print all cards").click()
    dialog = page.get_by_role("dialog", name="Cards to print")
    card = dialog.frame_locator("iframe")
    many = page.locator("section[data-table=cards] tbody tr").count()
    assert many > 3
    expect(card.locator("svg.page")).to_have_count(many, timeout=PATIENCE_MS)
    dialog.get_by_label("How").select_option("pocket")
    expect(card.locator("svg.page")).to_have_count(-(-many // 4), timeout=PATIENCE_MS)
