"""The main journeys once more, in Firefox: the tests themselves are those that Chromium passes."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from tests.browser.offline_pages import GUIDE, ready
from tests.browser.sheets import ADDRESS, Sheet, asked
from tests.browser.test_along import test_the_place_and_the_counts_are_remembered
from tests.browser.test_guides import test_one_text_shows_one_hand_at_a_time_and_it_stays
from tests.browser.test_notebook import (
    test_a_bow_is_written_down_field_by_field_and_is_there_after_a_reload,
    test_a_sheet_opens_for_a_bow_and_says_where_its_values_are_from,
)
from tests.browser.test_policy import (
    test_a_script_that_got_into_a_page_does_not_run,
    test_without_any_one_source_something_is_refused,
)
from tests.browser.test_walk import test_a_beginner_sees_one_bows_numbers_from_the_tape_to_the_last_step

if TYPE_CHECKING:
    from tests.browser.conftest import OpenTab
    from tests.browser.hosts import Host

__all__ = [
    "test_a_beginner_sees_one_bows_numbers_from_the_tape_to_the_last_step",
    "test_a_bow_is_written_down_field_by_field_and_is_there_after_a_reload",
    "test_a_script_that_got_into_a_page_does_not_run",
    "test_a_sheet_opens_for_a_bow_and_says_where_its_values_are_from",
    "test_one_text_shows_one_hand_at_a_time_and_it_stays",
    "test_the_place_and_the_counts_are_remembered",
    "test_without_any_one_source_something_is_refused",
]
pytestmark = pytest.mark.browser


def test_python_answers_without_signal_once_the_site_is_kept(open_tab: OpenTab, sub_host: Host) -> None:
    page = open_tab()
    ready(page, sub_host)
    sub_host.signal = False
    page.goto(sub_host.address + ADDRESS)
    sheet = Sheet(page)
    sheet.type("nock_to_nock", "61 in")
    sheet.settled()
    shown = {row["key"]: row["shown"] for row in asked({"nock_to_nock": "61 in"})["outcome"]["rows"]}
    assert {row[0]: row[2].replace("\u2044", "/") for row in sheet.rows}["cut_length"] == shown["cut_length"]
    page.goto(sub_host.address + GUIDE)
    assert "Brace safely" in page.locator("h1").inner_text()
