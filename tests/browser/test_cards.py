"""Cards as Chromium prints them: so many pages, nothing cut off, and a code that another program reads."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np
import pypdfium2  # type: ignore[import-untyped]
import pytest
import zxingcpp

from calc.cards import card_facts, card_html
from calc.draw.cards import PAPERS, CardFacts
from calc.terminal_card import square_code

if TYPE_CHECKING:
    from pathlib import Path

    from PIL.Image import Image
    from playwright.sync_api import Browser

    from calc.cards import Form

pytestmark = [pytest.mark.browser, pytest.mark.contract]
LINK = "https://strings.example/worksheets/string/#v2/string/mm?for=Anna&nock=1575mm&pull=200N&hand=S&end=7k2m"
DOTS_PER_INCH = 200
EDGE_MM = 5.0
"""What most printers leave white."""


def printed(browser: Browser, tmp_path: Path, paper: str, *, form: Form, count: int) -> list[Image]:
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
