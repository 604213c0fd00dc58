"""What a browser asks of a site before it may stand among a device's apps, judged by Chromium itself."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from tests.browser.offline_pages import GUIDE, PAGES_READY, line

if TYPE_CHECKING:
    from tests.browser.conftest import OpenOwn
    from tests.browser.hosts import Host

pytestmark = pytest.mark.browser


def test_the_site_can_be_installed_and_is_told_from_others_at_its_address(open_own: OpenOwn, sub_host: Host) -> None:
    page = open_own({})
    page.goto(sub_host.address + GUIDE)
    line(page, PAGES_READY)
    session = page.context.new_cdp_session(page)
    assert session.send("Page.getInstallabilityErrors")["installabilityErrors"] == []
    told = session.send("Page.getAppManifest")
    assert told["errors"] == []
    assert told["manifest"]["scope"] == told["manifest"]["startUrl"] == sub_host.address
    assert session.send("Page.getAppId")["appId"] == sub_host.address  # other sites of this host have other addresses
    sizes = {icon["url"]: icon["sizes"] for icon in told["manifest"]["icons"]}
    for url, size in sizes.items():
        if url.endswith(".svg"):
            continue
        real = page.evaluate(
            "url => fetch(url).then(found => found.blob()).then(createImageBitmap)"
            ".then(({ width, height }) => `${width}x${height}`)", url)  # fmt: skip
        assert real == size
    assert {"192x192", "512x512"} <= set(sizes.values())
