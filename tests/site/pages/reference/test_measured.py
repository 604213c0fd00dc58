"""The pages show every measurement of a bow, and every miss."""

from __future__ import annotations

from xml.etree import ElementTree as ET

import pytest

from site_build.pages.reference.measured import plot, with_misses
from tests.published.rows import checks

pytestmark = pytest.mark.exact


def test_the_page_shows_every_row_and_every_miss() -> None:
    page = with_misses("before\n\n::: misses bow\n\nafter")
    assert page.startswith("before\n")
    assert page.endswith("\nafter")
    assert page.count("**misses**") == sum(not check.meets for check in checks()) > 0
    for check in checks():
        assert check.words in page
        assert check.place in page
        assert check.miss in page
    figure = page[page.index("<figure>") : page.index("</figure>") + len("</figure>")]
    assert "\n\n" not in figure
    assert ET.fromstring(figure).find(".//{*}title") is not None  # noqa: S314 - our own drawing


def test_a_page_without_the_block_is_left_alone() -> None:
    assert with_misses("a\n::: misses pipe\n::: worksheet string") == "a\n::: misses pipe\n::: worksheet string"


def test_the_plot_tells_in_words_what_it_shows() -> None:
    told = plot(checks()).desc
    assert told.count("misses") == sum(not check.meets for check in checks())
    assert told.count(";") == len(checks()) - 1
