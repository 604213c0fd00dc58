"""Python goes on from a snapshot of its memory; where that does not work, it starts plainly, and answers alike."""

from __future__ import annotations

import json
import shutil
from typing import TYPE_CHECKING

import pytest

from site_build import offline, runtime
from tests.browser.hosts import ABSENT, CUT, DAMAGED
from tests.browser.offline_pages import READY, line
from tests.browser.sheets import ADDRESS, Sheet, asked, working

if TYPE_CHECKING:
    from playwright.sync_api import Page

    from tests.browser.conftest import OpenTab
    from tests.browser.hosts import Host

pytestmark = pytest.mark.browser


def answers(page: Page, host: Host, length: str) -> list[str]:
    """Have an answer worked out on a new visit; return what of the runtime was asked of the server for it."""
    host.asked.clear()
    page.goto(host.address + ADDRESS)
    sheet = Sheet(page)
    sheet.type("nock_to_nock", length)
    sheet.settled()
    assert sheet.rows == working(asked({"nock_to_nock": length})["outcome"])
    return [path.rsplit("/", 1)[1] for path in host.asked if path.startswith(runtime.FOLDER)]


def started(host: Host) -> dict[str, str]:
    found: dict[str, str] = json.loads((host.folder / runtime.MANIFEST).read_text(encoding="utf-8"))
    return found


@pytest.mark.parametrize("wrong", [ABSENT, CUT, DAMAGED])
def test_a_snapshot_that_does_not_come_whole_is_left_for_the_plain_way(
    open_tab: OpenTab, plain_host: Host, wrong: str
) -> None:
    start = started(plain_host)
    plain_host.wrong[f"{runtime.FOLDER}/{start['snapshot']}"] = wrong
    names = answers(open_tab(), plain_host, "61 in")
    assert {start["library"], start["calc"]} <= set(names)


def test_a_snapshot_with_one_wrong_byte_is_left_for_the_plain_way(open_tab: OpenTab, plain_host: Host) -> None:
    start = started(plain_host)
    place = plain_host.folder / runtime.FOLDER / start["snapshot"]
    content = bytearray(place.read_bytes())
    content[-5000] ^= 1
    place.unlink()  # elsewhere too, the same file stands under this name
    place.write_bytes(content)
    assert start["calc"] in answers(open_tab(), plain_host, "61 in")


def test_a_device_that_needs_the_plain_way_has_it_without_signal_too(open_tab: OpenTab, plain_host: Host) -> None:
    page = open_tab()
    page.add_init_script(
        "const W = Worker; Worker = class extends W {"
        " constructor(url, how) { super(how.name === 'plain' ? url : 'data:text/javascript,throw 1', how); } };"
    )
    spare = {path.name for path in (plain_host.folder / runtime.FOLDER).iterdir() if runtime.spare(path.name)}
    assert spare <= set(answers(page, plain_host, "61 in"))
    line(page, READY)
    plain_host.signal = False
    answers(page, plain_host, "62 in")


def test_a_site_whose_snapshot_is_not_made_yet_answers_plainly_without_signal_too(
    open_tab: OpenTab, plain_host: Host
) -> None:
    shutil.rmtree(plain_host.folder / runtime.FOLDER)
    for name in (runtime.WORKER, offline.WORKER):
        place = plain_host.folder / name
        text = place.read_text(encoding="utf-8")
        place.unlink()  # elsewhere too, the same file stands under this name
        place.write_text(text, encoding="utf-8")
    runtime.install(plain_host.folder, plain=True)
    offline.install(plain_host.folder)
    page, start = open_tab(), started(plain_host)
    names = answers(page, plain_host, "61 in")
    assert "snapshot" not in start
    assert {start["library"], start["calc"]} <= set(names)
    line(page, READY)
    plain_host.signal = False
    answers(page, plain_host, "62 in")


def test_what_is_kept_is_not_asked_for_again_and_nothing_spare_comes(open_tab: OpenTab, plain_host: Host) -> None:
    page = open_tab()
    names = answers(page, plain_host, "61 in")
    line(page, READY)
    assert started(plain_host)["snapshot"] in names
    assert answers(page, plain_host, "62 in") == []
    assert not [path for path in plain_host.asked if runtime.spare(path.rsplit("/", 1)[-1])]


SNAPSHOTS = """async () => {
  const cache = await caches.open('plied-true-site /');
  const names = (await cache.keys()).map(({ url }) => url.split('/').at(-1));
  return names.filter((name) => /^snapshot-.*[?]kept=/.test(name));
}"""
OLDER = """caches.open('plied-true-site /').then(
  (cache) => cache.put('/assets/runtime/snapshot-0a.txt?kept=0b', new Response()))"""
NO_SERVICE_WORKER = "delete Navigator.prototype.serviceWorker"


def test_where_no_service_worker_is_the_newest_snapshot_is_kept_all_the_same(
    open_tab: OpenTab, plain_host: Host
) -> None:
    page = open_tab()
    page.add_init_script(NO_SERVICE_WORKER)
    page.goto(plain_host.address)
    page.evaluate(OLDER)
    start = started(plain_host)
    assert start["snapshot"] in answers(page, plain_host, "61 in")
    page.wait_for_function(f"async () => (await ({SNAPSHOTS})()).length === 1")
    assert page.evaluate(SNAPSHOTS) == [f"{start['snapshot']}?kept={start['sum']}"]
    plain_host.wrong[f"{runtime.FOLDER}/{start['snapshot']}"] = ABSENT
    assert start["snapshot"] not in answers(page, plain_host, "62 in")


def test_a_reader_who_wants_nothing_kept_has_no_snapshot_kept(open_tab: OpenTab, plain_host: Host) -> None:
    page = open_tab()
    page.add_init_script(NO_SERVICE_WORKER)
    page.goto(plain_host.address)
    page.evaluate("localStorage.setItem('plied-true:offline', '\"off\"')")
    for length in ("61 in", "62 in"):  # the second is begun by the page's head
        answers(page, plain_host, length)
        page.wait_for_timeout(1000)
        assert page.evaluate(SNAPSHOTS) == []


def test_a_snapshot_that_is_kept_damaged_is_left_for_the_plain_way(open_tab: OpenTab, plain_host: Host) -> None:
    page = open_tab()
    answers(page, plain_host, "61 in")
    line(page, READY)
    page.evaluate("""async () => {
      for (const name of await caches.keys()) {
        const cache = await caches.open(name);
        for (const request of await cache.keys()) {
          if (request.url.includes('/snapshot-')) await cache.put(request, new Response(new Uint8Array(70000)));
        }
      }
    }""")
    assert started(plain_host)["calc"] in answers(page, plain_host, "63 in")


def test_what_is_typed_in_thousands_is_answered_without_signal_and_so_is_what_follows(
    open_tab: OpenTab, plain_host: Host
) -> None:
    page = open_tab()
    answers(page, plain_host, "61 in")
    line(page, READY)
    plain_host.signal = False
    page.goto(plain_host.address + ADDRESS)
    page.add_init_script("""
      window.made = 0;
      window.Worker = class extends Worker { constructor(...given) { super(...given); made += 1; } };
    """)
    page.reload()
    sheet = Sheet(page)
    for length in ("1,575 mm", "64 in"):
        sheet.type("nock_to_nock", length)
        sheet.settled()
        assert sheet.rows == working(asked({"nock_to_nock": length})["outcome"])
    assert page.evaluate("made") == 1, "the worker was replaced"
