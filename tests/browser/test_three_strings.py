"""Three strings for one bow without signal: each is planned, made, measured and written down, and the range narrows."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np
import pytest

from calc import units
from calc.records import Notebook, Record, edit, fields_of, write_notebook
from calc.units import INCH
from tests.browser.notebooks import ADDRESS as NOTEBOOK
from tests.browser.notebooks import open_notebook, said, set_field
from tests.browser.offline_pages import ready
from tests.browser.sheets import ADDRESS, PYTHON_MS, Sheet
from tests.experiment import truths
from tests.experiment.strings import Bows, Told, make

if TYPE_CHECKING:
    from pathlib import Path

    from playwright.sync_api import Page

    from tests.browser.conftest import OpenTab
    from tests.browser.hosts import Host

pytestmark = [pytest.mark.browser, pytest.mark.exact]
PLACE = 3
"""Which of the bows drawn by lot: of this one neither handle nor bend of the limbs is known."""
TAIL_M = 8 * INCH
NOW = "2026-05-03T10:11:12.000Z"


def shelf() -> str:
    """Return a notebook's file with what its owner knows of the bow and the cord."""
    typed = truths.draw(PLACE).typed
    made = {}
    for kind, name in (("bow", "Ash"), ("cord", "White")):
        texts = {key: text for key, text in typed.items() if key in fields_of(kind)}
        made[f"{kind}-000001"] = edit(Record(kind, f"{kind}-000001"), {**texts, "name": name}, NOW, "aaaa")
    return write_notebook(Notebook(made))


def length_m(text: str) -> float:
    return units.read("length", text, "length", low=0.0, high=10.0, system="inch")


def told(rows: dict[str, str]) -> Told:
    """Return what a maker reads off the sheet, as it is shown."""

    def of(key: str) -> np.ndarray[tuple[int], np.dtype[np.float64]]:
        text = rows[key]
        return np.array([length_m(text) if "in" in text else float(text)])

    return Told(
        loop_upper_m=of("loop_upper"),
        loop_lower_m=of("loop_lower"),
        body_raw_m=of("body_raw"),
        turns=of("turns_body"),
        counter=of("counter_twist_body"),
        strands=of("strands"),
        tail_m=np.array([TAIL_M]),
    )


def planned(page: Page, host: Host) -> tuple[Told, tuple[float, float]]:
    """Return what the sheet says of the bow and the cord that are chosen, and the range of its brace height [m]."""
    page.goto(host.address + ADDRESS)
    page.wait_for_selector(".nb-pick select", timeout=PYTHON_MS)
    for kind, name in (("Bow", "Ash"), ("Cord", "White")):
        page.locator(".nb-pick").get_by_label(kind, exact=True).select_option(label=name)
    sheet = Sheet(page)
    page.wait_for_function("document.querySelector('[data-field=fibre] .origin').textContent.includes('White')")
    sheet.settled()
    rows = {each[0]: (each[2], each[3]) for each in sheet.rows}
    low, high = (length_m(each) for each in rows["brace_height"][1].strip("()").split(" to "))
    return told({key: value for key, (value, _) in rows.items()}), (low, high)


def test_three_strings_for_one_bow_narrow_the_range_each_time_without_signal(
    open_tab: OpenTab, plain_host: Host, tmp_path: Path
) -> None:
    true = truths.together([truths.draw(PLACE)])
    bow, off = Bows.of(true), np.random.default_rng(PLACE)
    (tmp_path / "shelf.pliedtrue.json").write_text(shelf(), encoding="utf-8")
    page = open_tab()
    ready(page, plain_host)
    plain_host.signal = False
    page.goto(plain_host.address + NOTEBOOK)
    open_notebook(page, "import")
    page.wait_for_selector("#nb-file")
    page.set_input_files("#nb-file", tmp_path / "shelf.pliedtrue.json")
    page.get_by_role("button", name="Take it over").click(timeout=PYTHON_MS)
    said(page, "Taken over: 2 new here.")
    widths = []
    for name in ("1", "2", "3"):
        asked, (low, high) = planned(page, plain_host)
        string = make(true, asked, off.normal(0.0, INCH / 40, (4, 1)) * [[1], [1], [1], [0]])
        height_m, pull_n = bow.braced(string)
        assert low <= height_m[0] <= high, "the range holds the truth"
        widths.append(high - low)
        page.get_by_role("button", name="Put it down as a string of Ash").click()
        page.get_by_role("link", name="See it in the notebook").click()
        set_field(page, "name", name)
        set_field(page, "braced_height", f"{height_m[0] / INCH:.2f} in")
        set_field(page, "braced_length", f"{string.on_bow_m(pull_n)[0] / INCH:.2f} in")
    assert widths[0] > 4 * widths[1]
    assert widths[1] > widths[2]
    planned(page, plain_host)
    lessons = page.locator(".headlines dt", has_text="From the string").all_inner_texts()
    assert [each.split(" of ")[0] for each in lessons] == ["From the string 2", "From the string 3"]
