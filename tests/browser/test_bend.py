"""Look at the bend: a picture is marked on the page, and neither leaves it nor stays on the device."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from tests.browser.sheets import Sheet

if TYPE_CHECKING:
    from pathlib import Path

    from tests.browser.conftest import OpenPage

pytestmark = pytest.mark.browser
ADDRESS = "worksheets/bend/"
PICTURE = """() => new Promise((done) => {
const canvas = new OffscreenCanvas(3000, 1200);
const ink = canvas.getContext('2d');
ink.fillStyle = '#999'; ink.fillRect(0, 0, 3000, 1200);
ink.fillStyle = '#321'; ink.fillRect(100, 500, 2800, 30);
canvas.convertToBlob({type: 'image/png'}).then(async (blob) => done([...new Uint8Array(await blob.arrayBuffer())]));
})"""
KEPT = """async () => JSON.stringify({local: {...localStorage}, session: {...sessionStorage},
bases: (await indexedDB.databases()).map((each) => each.name), caches: await caches.keys()})"""


def test_a_picture_is_marked_and_nowhere_kept_or_sent(open_page: OpenPage, tmp_path: Path) -> None:
    page = open_page(ADDRESS, natively=True)
    page.wait_for_selector(".pt-bend:not([hidden])")
    taps, sheet = page.locator("#bend-taps"), Sheet(page, "bend")
    picture = tmp_path / "bow.png"
    picture.write_bytes(bytes(page.evaluate(PICTURE)))
    before = page.evaluate(KEPT)
    asked: list[str] = []
    page.on("request", lambda request: asked.append(f"{request.method} {request.url} {len(request.post_data or '')}"))
    said: list[str] = []
    page.on("console", lambda message: said.append(message.text) if message.type == "error" else None)

    page.locator("#bend-picture").set_input_files(picture)
    page.wait_for_selector(".pt-bend .said:has-text('0 marked')")
    canvas = page.locator(".pt-bend .picture")
    assert canvas.evaluate("each => [each.width, each.height]") == [1600, 640]
    assert page.evaluate(KEPT) == before
    assert asked == []

    box = canvas.bounding_box()
    assert box is not None
    scale = box["width"] / 1600.0

    def tap(x: float, y: float) -> None:
        page.mouse.move(box["x"] + x * scale, box["y"] + y * scale)
        page.mouse.down()
        assert page.locator(".pt-bend .loupe").is_visible()
        page.mouse.up()

    for k in range(6):
        tap(880 + 120 * k, 280 + 6 * k * k)
    page.locator(".pt-bend input[value=lower]").check()
    for k in range(6):
        tap(720 - 120 * k, 280 + 6 * k * k)
    page.locator(".pt-bend input[value=string]").check()
    tap(800, 430)
    assert [each.split(":")[0] for each in taps.input_value().splitlines()] == ["upper", "lower", "string"]
    sheet.settled()
    assert "braced at" in page.locator("[data-worksheet=bend] .headlines").inner_text()

    tap(860, 500)  # the string has one point: it moves there
    moved = taps.input_value()
    page.locator(".pt-bend .undo").click()
    assert taps.input_value() != moved
    canvas.focus()
    page.keyboard.press("Enter")
    page.keyboard.press("Shift+ArrowDown")
    page.keyboard.press("Enter")
    assert taps.input_value() != moved
    page.locator(".pt-bend .forget").click()
    assert page.locator(".pt-bend .said").inner_text().startswith("The picture is gone")
    kept = page.evaluate(KEPT)
    assert len(kept) < len(before) + 4000, "the points and what was typed, no picture"
    assert len(picture.read_bytes()) > 4000
    outside = [each for each in asked if "/asked" not in each or not each.startswith("POST ")]
    assert all(each.startswith("GET ") for each in outside), outside
    assert all(int(each.rsplit(" ", 1)[1]) < 1000 for each in asked), "only the points go to the sums"
    assert said == []


def test_the_bend_goes_to_the_other_sheets(open_page: OpenPage) -> None:
    page = open_page(ADDRESS, natively=True)
    page.wait_for_selector(".pt-bend:not([hidden])")
    page.locator("#bend-nock_to_nock").fill("65 in")
    page.locator("#bend-nock_to_nock").press("Tab")
    Sheet(page, "bend").settled()
    page.goto(page.url.replace("worksheets/bend/", "worksheets/tiller/"))
    page.wait_for_selector("[data-worksheet=tiller] [name=limb_shape]")
    page.wait_for_timeout(500)
    chosen = page.evaluate("new FormData(document.querySelector('[data-worksheet=tiller] form')).get('limb_shape')")
    assert chosen.startswith("photo ")
