"""One browser a round, in a fresh profile: how long from opening a page to its first answer, visit after visit."""

from __future__ import annotations

import json
import os
import tempfile
import time
from contextlib import contextmanager
from pathlib import Path
from typing import TYPE_CHECKING, Any, cast

from calc.worksheets import catalogue
from calc.worksheets.core import usual
from site_build.bench.hosts import KEY, LENGTH, BenchHost
from site_build.cli import serving

if TYPE_CHECKING:
    from collections.abc import Iterator

    from playwright.sync_api import BrowserContext, Page, Playwright

FLAGS = ["--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking",
         "--disable-component-update", "--disable-sync"]  # fmt: skip
COLD, WARM, KEPT, OFF = "first visit", "later visit", "kept on the device", "no signal"
PATIENCE_S = 120
READ_MS = 3000
_GROUPS = (Path("/sys/fs/cgroup/cpu"), Path("/sys/fs/cgroup"))
_TYPED = f"localStorage.setItem('plied-true:typed', JSON.stringify({{nock_to_nock: {{text: '{LENGTH}', from: 'x'}}}}));"
_NOTE = """
  new MutationObserver((_, observer) => {
    if (!document.querySelector('[data-worksheet][data-state=new]')) return;
    window.done = performance.now();
    observer.disconnect();
  }).observe(document, { subtree: true, childList: true, attributes: true, attributeFilter: ['data-state'] });
"""
_READY = "document.querySelector('.pt-offline p')?.textContent.startsWith('Ready without signal')"


@contextmanager
def cpu_share(share: float | None) -> Iterator[Path | None]:
    """Make a group of processes that gets this share of one core; yield the file to join it by, or nothing."""
    if share is None:
        yield None
        return
    for root in _GROUPS:
        group = root / "plied-true-bench"
        try:
            group.mkdir(exist_ok=True)
            if (group / "cpu.cfs_quota_us").exists():
                (group / "cpu.cfs_period_us").write_text("100000")
                (group / "cpu.cfs_quota_us").write_text(str(int(100_000 * share)))
            else:
                (group / "cpu.max").write_text(f"{int(100_000 * share)} 100000")
        except OSError:
            continue
        yield group / "cgroup.procs"
        group.rmdir()
        return
    yield None


@contextmanager
def browser(play: Playwright, path: Path, join: Path | None, *, keeps: bool = True) -> Iterator[BrowserContext]:
    """Open a browser in a fresh profile, in a group of processes if one is given; `keeps` lets sites stay on it.

    It has stood open for `READ_MS` and is quiet.
    """
    with tempfile.TemporaryDirectory(ignore_cleanup_errors=True) as folder:
        start = path
        if join:
            start = Path(folder) / "start"
            start.write_text(f'#!/bin/sh\necho $$ > {join}\nexec {path} "$@"\n')
            start.chmod(0o755)
        context = play.chromium.launch_persistent_context(
            Path(folder) / "profile",
            executable_path=start,
            args=FLAGS,
            headless=True,
            service_workers="allow" if keeps else "block",
        )
        context.set_default_timeout(1000 * PATIENCE_S)
        time.sleep(READ_MS / 1000)
        yield context
        context.close()


def fetched(context: BrowserContext, folder: Path, *, ours: bool) -> dict[str, float]:
    """Return the milliseconds to the first answer with nothing at hand, then with what the browser itself holds on to.

    The first page is open for `READ_MS` before the second is opened, as when a person reads an answer.
    """
    taken: dict[str, float] = {}
    host = BenchHost(folder)
    with serving.running(host):
        for visit in (COLD, WARM):
            page = _opened(context, host, ours=ours)
            taken[visit] = _done(page)
            page.wait_for_timeout(READ_MS)
            page.close()
    return taken


def kept(context: BrowserContext, folder: Path, *, ours: bool) -> dict[str, float]:
    """Return the milliseconds to the first answer once the site is kept on the device, with a server and without."""
    taken: dict[str, float] = {}
    host = BenchHost(folder)
    with serving.running(host):
        page = _opened(context, host, ours=ours)
        _done(page)
        _wait(page, _READY if ours else "window.kept")
        page.wait_for_timeout(READ_MS)
        page.close()
        page = _opened(context, host, ours=ours)
        taken[KEPT] = _done(page)
        page.close()
    page = _opened(context, host, ours=ours)
    taken[OFF] = _done(page)
    page.close()
    return taken


def _opened(context: BrowserContext, host: BenchHost, *, ours: bool) -> Page:
    page = context.new_page()
    if ours:
        page.add_init_script(_NOTE)
        page.add_init_script(_TYPED)
    page.goto(host.address + (f"worksheets/{KEY}/" if ours else ""))
    return page


def over_link(context: BrowserContext, host: BenchHost, *, ours: bool) -> float:
    """Return the milliseconds to the first answer of a first visit."""
    if ours:
        context.add_init_script(_NOTE)
        context.add_init_script(_TYPED)
    page = context.new_page()
    page.goto(host.address + (f"worksheets/{KEY}/" if ours else ""), wait_until="commit")
    return _done(page)


def sums(context: BrowserContext, site: Path, rounds: int) -> dict[str, tuple[float, list[float]]]:
    """Return the milliseconds of each sum, from the page to the worker and back, by worksheet.

    First each worksheet is asked once, straight after the start, and all else when that answer was there for `READ_MS`.
    """
    asks = {key: [_ask(key, example.inputs, turn) for turn in range(rounds) for example in sheet.examples]
            for key, sheet in catalogue().items()}  # fmt: skip
    with serving.running(BenchHost(site)) as host:
        page = context.new_page()
        page.goto(host.address)
        first, taken = page.evaluate(_SUMS, [asks, READ_MS])
        page.close()
    return {key: (first[key], cast("list[float]", taken[key])) for key in asks}


_SUMS = """async ([asks, readMs]) => {
  const worker = new Worker('assets/web/worker.js', { type: 'module' });
  const heard = () => new Promise((settle) => { worker.onmessage = ({ data }) => settle(JSON.parse(data)); });
  while ((await heard()).stage !== 'ready');
  const timed = async (text) => {
    const begun = performance.now();
    worker.postMessage(text);
    let reply = await heard();
    while (reply.working !== undefined) reply = await heard();
    if (reply.fault) throw new Error(reply.fault);
    return reply.ok ? [performance.now() - begun] : [];
  };
  const first = {};
  for (const [key, [text]] of Object.entries(asks).reverse()) [first[key]] = await timed(text);
  await new Promise((settle) => setTimeout(settle, readMs));
  const taken = {};
  for (const [key, [, ...texts]] of Object.entries(asks)) {
    taken[key] = [];
    for (const text of texts) taken[key].push(...await timed(text));
  }
  worker.terminate();
  return [first, taken];
}"""


def _ask(key: str, inputs: Any, turn: int) -> str:  # noqa: ANN401 - the examples' own type
    asked = usual(catalogue()[key], inputs)
    if "nock_to_nock" in asked and "nock_to_nock" not in inputs:
        asked = {**asked, "nock_to_nock": f"{66 + 0.03 * turn:.2f} in"}  # from the usual one on: no ask is like another
    return json.dumps({"v": 1, "id": turn, "worksheet": key, "system": "inch", "inputs": asked})


def _done(page: Page) -> float:
    _wait(page, "window.done")
    return cast("float", page.evaluate("window.done"))


def _wait(page: Page, what: str) -> None:
    for _ in range(PATIENCE_S * 10):
        if page.evaluate(what):
            return
        page.wait_for_timeout(100)
    msg = f"{what} did not come true"
    raise TimeoutError(msg)


def cores() -> int:
    """Return how many processors there are."""
    return os.cpu_count() or 1
