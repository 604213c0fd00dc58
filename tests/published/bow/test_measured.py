"""Bows as they were measured: every row meets ours or says why it does not, and the page shows both."""

from __future__ import annotations

from xml.etree import ElementTree as ET

import pytest

from calc.data import source
from calc.numerics import Spread
from site_build.pages.reference.measured import plot, with_misses
from tests.published.bow.comparison import Check, checks


def marks(check: Check) -> list[pytest.MarkDecorator]:
    """Return what kind of check a row is, and that a known miss must fail."""
    kind = pytest.mark.recalled if source(check.source).read == "memory" else pytest.mark.published
    return [kind, *([pytest.mark.xfail(strict=True, reason=check.miss)] if check.miss else [])]


@pytest.mark.parametrize("check", [pytest.param(each, id=each.id, marks=marks(each)) for each in checks()])
def test_a_measurement_meets_ours(check: Check) -> None:
    assert check.meets, f"ours {check.ours}, measured {check.measured}"


@pytest.mark.contract
def test_every_row_says_where_it_was_read_and_what_was_taken() -> None:
    for check in checks():
        assert source(check.source).words
        assert check.place
        assert check.assumed


@pytest.mark.contract
def test_every_miss_is_within_half_of_what_was_measured() -> None:
    """A miss is shown, but one that is out by more than half is a fault and no model."""
    assert all(0.5 < check.ours.value / check.measured.value < 1.5 for check in checks())


@pytest.mark.exact
def test_ranges_meet_where_they_touch_and_not_beyond() -> None:
    def meets(low: float, high: float) -> bool:
        return Check(
            "", "", "1", Spread(1.0, 1.5, 2.0), Spread(low, low, high), assumed="", miss="", source="", place=""
        ).meets

    assert meets(2.0, 3.0)
    assert meets(0.0, 1.0)
    assert meets(1.2, 1.3)
    assert not meets(2.001, 3.0)
    assert not meets(0.0, 0.999)


@pytest.mark.exact
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


@pytest.mark.exact
def test_a_page_without_the_block_is_left_alone() -> None:
    assert with_misses("a\n::: misses pipe\n::: worksheet string") == "a\n::: misses pipe\n::: worksheet string"


@pytest.mark.exact
def test_the_plot_tells_in_words_what_it_shows() -> None:
    told = plot(checks()).desc
    assert told.count("misses") == sum(not check.meets for check in checks())
    assert told.count(";") == len(checks()) - 1
