"""Starting Python: from this site alone, told in words, once more when it goes wrong; and pages without it."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING
from urllib.parse import urlsplit

import pytest

from tests.browser.offline_pages import search_for
from tests.browser.sheets import ADDRESS, Sheet, asked

if TYPE_CHECKING:
    from playwright.sync_api import Browser, Page, Route

    from tests.browser.conftest import OpenPage

pytestmark = pytest.mark.browser

SAID = "{ worksheet: 'string', headlines: [], cautions: [], figures: [], rows: [], leaves_out: [] }"


def with_worker(open_page: OpenPage, script: str) -> tuple[Page, list[str]]:
    """Open a worksheet with a script in place of the worker; the list grows with each start."""
    starts: list[str] = []

    def give(route: Route) -> None:
        starts.append(route.request.url)
        route.fulfill(body=f"const tell = (said) => self.postMessage(JSON.stringify({{ v: 1, ...said }}));\n{script}",
                      content_type="text/javascript")  # fmt: skip

    page = open_page("404.html")
    page.context.route("**/web/worker.js", give)
    page.clock.install()
    page.goto(page.url.replace("404.html", ADDRESS))
    return page, starts


def test_a_page_whose_search_nobody_opens_reads_no_index(open_page: OpenPage) -> None:
    page = open_page(ADDRESS)
    urls: list[str] = []
    page.on("request", lambda request: urls.append(urlsplit(request.url).path))
    page.reload(wait_until="networkidle")
    assert urls
    assert not [url for url in urls if "search" in url]
    search_for(page, "brace height")
    assert len([url for url in urls if url.endswith("search_index.json")]) == 1


def test_the_search_reads_words_that_stand_apart_and_are_shown(open_page: OpenPage) -> None:
    page = open_page(ADDRESS)
    read = page.evaluate(
        "async () => (await (await fetch('/search/search_index.json')).json()).docs.map(({ text }) => text)"
    )
    whole = "\n".join(read)
    assert "Cure:" in whole
    assert "Arrow speed" in whole
    assert not re.findall(r"[a-z](?:Cure:|Goes wrong|From:|Arrow speed|Common practice)", whole)
    for unseen in ("lacks WebAssembly", "Old answer", "Scripts are off"):
        assert unseen not in whole


def test_python_comes_from_this_site_alone_and_says_how_far_it_is(open_page: OpenPage, site_url: str) -> None:
    page = open_page()
    urls: list[str] = []
    page.context.on("request", lambda request: urls.append(request.url))
    page.goto(site_url + ADDRESS)
    page.evaluate("""() => {
      window.said = [];
      const note = () => window.said.push(document.querySelector('.status').firstChild?.textContent);
      new MutationObserver(note).observe(document.querySelector('.status'), { childList: true });
    }""")
    sheet = Sheet(page)
    sheet.type("nock_to_nock", "60 in")
    sheet.settled()
    fetched = [url for url in urls if not url.startswith("data:")]
    assert {urlsplit(url.removeprefix("blob:")).netloc for url in fetched} == {urlsplit(site_url).netloc}
    names = {urlsplit(url).path.rsplit("/", 1)[-1] for url in urls}
    assert "worker.js" in names
    for kind, ending in (("wasm", "wasm"), ("script", "mjs"), ("loader", "mjs"), ("snapshot", "txt")):
        assert any(re.fullmatch(rf"{kind}-[0-9a-f]+\.{ending}", name) for name in names), kind
    assert not [name for name in names if name.startswith(("library-", "calc-"))]
    said = page.evaluate("window.said")
    stages = {"Fetching what is needed to work it out, once …", "Starting …", "Working it out …"}
    assert "Starting …" in said
    assert set(said[:-1]) <= stages
    assert said[-1] == "", "what is seen is told beside the answer; the rest is for ears"
    assert sheet.headlines[0] in sheet.find(".status").inner_text().replace("\u2044", "/")


def test_a_page_without_a_worksheet_does_not_start_python(open_page: OpenPage, site_url: str) -> None:
    page = open_page()
    urls: list[str] = []
    page.context.on("request", lambda request: urls.append(request.url))
    page.goto(site_url)
    page.wait_for_timeout(1500)
    assert [url for url in urls if "runtime" in url or "worker.js" in url] == []


def test_without_scripts_the_page_answers_the_usual_example(browser: Browser, site_url: str) -> None:
    context = browser.new_context(java_script_enabled=False, viewport={"width": 390, "height": 844})
    page = context.new_page()
    page.goto(site_url + ADDRESS)
    sheet = Sheet(page)
    for line in asked({})["outcome"]["headlines"]:
        assert page.locator("dt:visible", has_text=line["lead"]).count() == 1
        shown = page.locator(".said:visible").all_inner_texts()
        assert line["text"] in [text.replace("\u2044", "/") for text in shown]
    assert page.locator("tr[data-row=cut_length]").is_visible()
    assert page.locator("figure svg").first.is_visible()
    assert "Scripts are off" in page.locator("noscript").inner_text()
    for dead in (".go button", ".units", ".strip", ".problem", ".fault", ".old"):
        assert sheet.find(dead).is_hidden()
    context.close()


@pytest.mark.stops_python
def test_a_silent_worker_is_replaced_and_what_it_falls_silent_over_is_given_up_after_three(open_page: OpenPage) -> None:
    page, starts = with_worker(
        open_page,
        f"""
        const said = {SAID};
        tell({{ stage: 'ready' }});
        self.onmessage = ({{ data }}) => {{
          const {{ id, inputs }} = JSON.parse(data);
          tell({{ working: id }});
          if (inputs.nock_to_nock !== '60 in') tell({{ id, ok: true, outcome: said }});
        }};
    """,
    )
    sheet = Sheet(page)
    page.clock.run_for(2000)
    sheet.type("nock_to_nock", "61 in")
    sheet.settled()
    sheet.type("nock_to_nock", "60 in")
    for times in (1, 2, 3):
        page.clock.run_for(9000)
        assert len(starts) == times
        assert sheet.find(".fault").is_hidden()
        page.clock.run_for(2000)
        page.wait_for_timeout(300)
    sheet.settled("old")
    told = sheet.find(".fault").inner_text()
    assert "This could not be worked out: Nock to nock: “60 in”." in told
    assert sheet.control("nock_to_nock").input_value() == "60 in"
    sheet.type("nock_to_nock", "62 in")
    sheet.settled()
    assert sheet.find(".fault").is_hidden()
    assert len(starts) == 4


def test_a_plain_start_may_take_long_over_its_first_answer_since_it_loads_what_that_needs(open_page: OpenPage) -> None:
    page, starts = with_worker(
        open_page,
        f"""
        const said = {SAID};
        tell({{ stage: 'ready', plain: true }});
        self.onmessage = ({{ data }}) => {{
          const {{ id }} = JSON.parse(data);
          tell({{ working: id }});
          setTimeout(() => tell({{ id, ok: true, outcome: said }}), 2500);
        }};
    """,
    )
    sheet = Sheet(page)
    page.clock.run_for(2000)
    sheet.type("nock_to_nock", "61 in")
    page.clock.run_for(1000)
    page.clock.run_for(20_000)  # the page's clock alone; the worker's answer comes after
    sheet.settled()
    assert len(starts) == 1
    assert sheet.find(".fault").is_hidden()


@pytest.mark.stops_python
def test_a_worker_that_stops_over_every_ask_is_replaced_three_times_for_each(open_page: OpenPage) -> None:
    page, starts = with_worker(
        open_page,
        """
        tell({ stage: 'ready' });
        self.onmessage = ({ data }) => {
          tell({ working: JSON.parse(data).id });
          for (let each = 0; each < 20; each++) setTimeout(() => { throw new Error('unreachable'); });
        };
    """,
    )
    page.evaluate("""() => {
      window.asked = new Set();
      const post = Worker.prototype.postMessage;
      Worker.prototype.postMessage = function (text) { window.asked.add(JSON.parse(text).id); post.call(this, text); };
    }""")
    sheet = Sheet(page)
    sheet.type("nock_to_nock", "60 in")
    sheet.type("brace_height", "7 in")
    page.clock.run_for(1000)
    sheet.settled("old")
    assert "what is typed" in sheet.find(".fault").inner_text()
    asked = page.evaluate("window.asked.size")  # two, and one more for each pause that a slow machine makes in typing
    assert 2 <= asked <= 4
    assert len(starts) <= 3 * asked


@pytest.mark.stops_python
def test_a_slow_start_is_waited_for_while_something_comes_and_a_stuck_one_is_told(open_page: OpenPage) -> None:
    page, starts = with_worker(open_page, "let at = 0; self.onmessage = () => tell({ stage: 'fetch', bytes: ++at });")
    sheet = Sheet(page)
    page.clock.run_for(2000)
    for turn in range(4):
        sheet.type("nock_to_nock", f"6{turn} in")
        page.wait_for_timeout(100)
        page.clock.run_for(8000)
    assert len(starts) == 1
    assert sheet.find(".status").inner_text() == "Fetching what is needed to work it out, once …"
    assert sheet.find(".fault").is_hidden()
    page.clock.run_for(3000)
    sheet.settled("old")
    assert sheet.find("[data-cause=slow]").is_visible()


@pytest.mark.stops_python
def test_signs_of_life_without_progress_are_no_progress(open_page: OpenPage) -> None:
    page, starts = with_worker(
        open_page, "tell({ stage: 'fetch', bytes: 5 }); setInterval(() => tell({ stage: 'fetch', bytes: 5 }), 50);"
    )
    sheet = Sheet(page)
    sheet.type("nock_to_nock", "60 in")
    for _ in range(14):
        page.clock.run_for(1000)
        page.wait_for_timeout(60)
    assert sheet.find("[data-cause=slow]").is_visible()
    assert len(starts) == 2


@pytest.mark.stops_python
def test_a_start_that_only_takes_its_time_is_told_of_and_not_broken_off(open_page: OpenPage) -> None:
    page, starts = with_worker(
        open_page,
        f"""
        const said = {SAID};
        tell({{ stage: 'start', bytes: 5 }});
        self.onmessage = ({{ data }}) => setTimeout(() => {{
          tell({{ stage: 'ready' }});
          tell({{ id: JSON.parse(data).id, ok: true, outcome: said }});
        }}, 1500);
    """,
    )
    sheet = Sheet(page)
    sheet.type("nock_to_nock", "60 in")
    page.clock.run_for(15_000)
    assert sheet.find("[data-cause=slow]").is_visible()
    sheet.settled()
    assert sheet.find(".fault").is_hidden()
    assert len(starts) == 1


def test_an_error_of_python_is_told_and_the_worker_goes_on(open_page: OpenPage) -> None:
    page, starts = with_worker(
        open_page,
        f"""
        const said = {SAID};
        tell({{ stage: 'ready' }});
        self.onmessage = ({{ data }}) => {{
          const {{ id, inputs }} = JSON.parse(data);
          if (inputs.nock_to_nock === '60 in') tell({{ id, fault: 'KeyError: wax' }});
          else tell({{ id, ok: true, outcome: said }});
        }};
    """,
    )
    sheet = Sheet(page)
    sheet.type("nock_to_nock", "60 in")
    sheet.settled("old")
    assert sheet.find("[data-cause=ours]").is_visible()
    assert "KeyError: wax" in (sheet.find(".report pre").text_content() or "")
    sheet.type("nock_to_nock", "61 in")
    sheet.settled()
    assert sheet.find(".fault").is_hidden()
    assert len(starts) == 1


@pytest.mark.stops_python
def test_a_start_that_fails_is_told_and_goes_on_by_itself(open_page: OpenPage) -> None:
    page, starts = with_worker(open_page, "tell({ stopped: 'wasm-1.wasm could not be fetched: 500' });")
    sheet = Sheet(page)
    page.clock.run_for(1000)
    sheet.type("nock_to_nock", "60 in")
    page.clock.run_for(1000)
    sheet.settled("old")
    assert sheet.find("[data-cause=signal]").is_visible()
    assert "could not be fetched" in (sheet.find(".report pre").text_content() or "")
    page.context.unroute("**/web/worker.js")
    before = len(starts)
    page.clock.run_for(40_000)
    sheet.settled()
    assert sheet.find(".fault").is_hidden()
    assert len(starts) == before


def test_without_workers_the_usual_example_stays_with_a_sentence(open_page: OpenPage) -> None:
    page = open_page()
    page.add_init_script("delete window.Worker;")
    page.goto(page.url + ADDRESS)
    sheet = Sheet(page)
    before = sheet.headlines
    sheet.type("nock_to_nock", "60 in")
    sheet.settled("old")
    assert sheet.headlines == before
    assert sheet.find("[data-cause=worker]").is_visible()


def test_only_the_newest_ask_is_shown_and_late_answers_are_ignored(open_page: OpenPage) -> None:
    page, _ = with_worker(
        open_page,
        f"""
        const said = {SAID};
        const line = (text) => ({{ ...said, headlines: [{{ lead: 'Cut', text, range: '' }}] }});
        const heard = [];
        tell({{ stage: 'ready' }});
        self.onmessage = ({{ data }}) => {{
          heard.push(JSON.parse(data));
          if (heard.length < 3) return;
          for (const {{ id, inputs }} of heard.reverse()) tell({{ id, ok: true, outcome: line(inputs.nock_to_nock) }});
        }};
    """,
    )
    sheet = Sheet(page)
    for text in ("60 in", "61 in", "62 in"):
        sheet.type("nock_to_nock", text)
    sheet.settled()
    page.wait_for_timeout(200)
    assert sheet.headlines == ["62 in"]


@pytest.mark.parametrize("instant", [True, False])
def test_worksheets_work_when_a_link_leads_to_them(open_page: OpenPage, instant: bool) -> None:  # noqa: FBT001 - two ways of one test
    page = open_page("worksheets/", natively=True)
    site_url = page.url.removesuffix("worksheets/")
    page.context.route("**/sitemap.xml", lambda route: route.fulfill(
        body=sitemap(site_url) if instant else "<urlset/>", content_type="application/xml"))  # fmt: skip
    page.reload()
    page.evaluate("window.kept = true")
    page.wait_for_timeout(500)
    for turn in (1, 2):
        page.locator("article a[href*=string]").first.click()
        page.wait_for_selector("#string")
        assert bool(page.evaluate("window.kept")) is instant
        sheet = Sheet(page)
        sheet.type("nock_to_nock", f"6{turn} in")
        sheet.settled()
        expected = asked({"nock_to_nock": f"6{turn} in"})["outcome"]
        assert sheet.headlines == [line["text"] for line in expected["headlines"]]
        page.go_back()
        page.wait_for_selector("#string", state="detached")


def sitemap(site_url: str) -> str:
    """Return a map of the site at the address where it is served, as a build for that address has it."""
    places = "".join(f"<url><loc>{site_url}{path}</loc></url>" for path in ("", "worksheets/", ADDRESS))
    return f'<?xml version="1.0"?><urlset xmlns="http://www.sitemaps.org/schemas/sitemap/0.9">{places}</urlset>'
