"""The server on this machine: right types, nothing outside its folder, a free port."""

from __future__ import annotations

import gzip
import http.client
import os
import socket
from typing import TYPE_CHECKING

import pytest

from site_build.cli import compressing, serving
from site_build.setup.progress import StopError

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path


@pytest.fixture
def port(tmp_path: Path) -> Iterator[int]:
    site = tmp_path / "site"
    (site / "sub").mkdir(parents=True)
    (site / "bare").mkdir()
    for name in ("index.html", "sub/index.html", "404.html", "a.wasm", "a.mjs", "a.js", "a.woff2", "a.odd"):
        (site / name).write_text(f"this is {name}")
    (tmp_path / "secret.txt").write_text("secret")
    with serving.running(serving.Server(site, 0)) as server:
        yield server.server_port


def ask(port: int, path: str, method: str = "GET") -> tuple[int, dict[str, str], str]:
    """Return status, headers and body of one answer."""
    connection = http.client.HTTPConnection(serving.HOST, port, timeout=10)
    connection.request(method, path)
    answer = connection.getresponse()
    told = answer.status, {name.lower(): value for name, value in answer.headers.items()}, answer.read().decode()
    connection.close()
    return told


@pytest.mark.parametrize(
    ("name", "media"),
    [
        ("a.wasm", "application/wasm"),
        ("a.mjs", "text/javascript; charset=utf-8"),
        ("a.js", "text/javascript; charset=utf-8"),
        ("a.woff2", "font/woff2"),
        ("index.html", "text/html; charset=utf-8"),
        ("a.odd", "application/octet-stream"),
    ],
)
def test_each_file_is_given_with_its_type(port: int, name: str, media: str) -> None:
    status, headers, body = ask(port, f"/{name}")
    assert (status, headers["content-type"], body) == (200, media, f"this is {name}")
    assert headers["cache-control"] == "no-cache"


def test_a_folder_gives_its_page(port: int) -> None:
    assert ask(port, "/")[2] == "this is index.html"
    assert ask(port, "/sub/")[2] == "this is sub/index.html"
    assert ask(port, "/sub")[0] == 301


@pytest.mark.parametrize("path", ["/nowhere", "/bare/", "/../secret.txt", "/%2e%2e/secret.txt", "/..%2fsecret.txt"])
def test_what_is_not_in_the_site_gets_the_sites_own_page(port: int, path: str) -> None:
    status, headers, body = ask(port, path)
    assert (status, headers["content-type"], body) == (404, "text/html; charset=utf-8", "this is 404.html")


def test_asking_for_the_head_gives_no_body(port: int) -> None:
    status, headers, body = ask(port, "/a.wasm", "HEAD")
    assert (status, headers["content-length"], body) == (200, "14", "")
    assert ask(port, "/nowhere", "HEAD")[2] == ""


def test_the_site_is_replaced_only_between_two_answers(tmp_path: Path) -> None:
    (tmp_path / "a.txt").write_text("old")
    with serving.running(serving.Server(tmp_path, 0)) as server:
        connection = http.client.HTTPConnection(serving.HOST, server.server_port, timeout=10)
        with server.guard:
            connection.request("GET", "/a.txt")
            (tmp_path / "a.txt").write_text("new")
        assert connection.getresponse().read() == b"new"
        connection.close()


def test_a_taken_port_is_said_or_stepped_over(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    with socket.socket() as taken:
        taken.bind((serving.HOST, 0))
        taken.listen()
        number = taken.getsockname()[1]
        with pytest.raises(StopError, match=rf"^Port {number} is taken or not allowed: choose another with --port\.$"):
            serving.open_server(tmp_path, number)
        monkeypatch.setattr(serving, "FIRST_PORT", number)
        monkeypatch.setattr(serving, "LAST_PORT", number)
        with pytest.raises(StopError, match=r"^Every port from \d+ to \d+ is taken"):
            serving.open_server(tmp_path, None)
        monkeypatch.setattr(serving, "LAST_PORT", number + 50)
        server = serving.open_server(tmp_path, None)
        assert server.server_port > number
        assert server.address == f"http://127.0.0.1:{server.server_port}/"
        server.server_close()


@pytest.fixture
def compressing_port(tmp_path: Path) -> Iterator[int]:
    site = tmp_path / "site"
    (site / "sub").mkdir(parents=True)
    for name in ("index.html", "sub/index.html", "a.wasm", "a.png"):
        (site / name).write_text(f"this is {name} " * 200)
    (site / "tiny.js").write_text("tiny")
    (site / "404.html").write_text("not here " * 200)
    with serving.running(serving.Server(site, 0, compresses=True)) as server:
        yield server.server_port


def ask_for_gzip(port: int, path: str, method: str = "GET", **more: str) -> tuple[int, dict[str, str], bytes]:
    """Return status, headers and the bytes of one answer to a browser that takes gzip."""
    connection = http.client.HTTPConnection(serving.HOST, port, timeout=10)
    connection.request(method, path, headers={"Accept-Encoding": "gzip, deflate, br", **more})
    answer = connection.getresponse()
    told = answer.status, {name.lower(): value for name, value in answer.headers.items()}, answer.read()
    connection.close()
    return told


@pytest.mark.parametrize("path", ["/", "/sub/", "/sub/index.html", "/a.wasm", "/a.wasm?again"])
def test_a_large_file_is_compressed_for_a_browser_that_takes_it(compressing_port: int, path: str) -> None:
    status, headers, body = ask_for_gzip(compressing_port, path)
    plain = ask(compressing_port, path)
    assert (status, headers["content-encoding"], headers["vary"]) == (200, "gzip", "Accept-Encoding")
    assert int(headers["content-length"]) == len(body) < len(plain[2]) / 4
    assert gzip.decompress(body).decode() == plain[2]
    assert headers["content-type"] == plain[1]["content-type"]
    assert "content-encoding" not in plain[1]
    assert plain[1]["vary"] == "Accept-Encoding"
    assert ask_for_gzip(compressing_port, path, "HEAD")[1]["content-length"] == headers["content-length"]


@pytest.mark.parametrize("path", ["/a.png", "/tiny.js", "/nowhere", "/sub"])
def test_what_gains_nothing_is_sent_as_it_is(compressing_port: int, path: str) -> None:
    status, headers, body = ask_for_gzip(compressing_port, path)
    assert "content-encoding" not in headers
    assert (status, body.decode()) == ask(compressing_port, path)[::2]


def test_a_browser_that_has_a_file_is_told_so_and_gets_no_body(compressing_port: int) -> None:
    told = ask_for_gzip(compressing_port, "/")[1]
    status, headers, body = ask_for_gzip(compressing_port, "/", **{"If-Modified-Since": told["last-modified"]})
    assert (status, body, headers["vary"]) == (304, b"", "Accept-Encoding")


def test_a_file_is_compressed_once_and_again_when_it_changes(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    place = tmp_path / "a.css"
    place.write_text("a { color: red } " * 100)
    done: list[bytes] = []
    real = gzip.compress

    def noted(content: bytes, level: int, mtime: float) -> bytes:
        done.append(content)
        return real(content, level, mtime=mtime)

    monkeypatch.setattr(gzip, "compress", noted)
    with serving.running(serving.Server(tmp_path, 0, compresses=True)) as server:
        first, second = (ask_for_gzip(server.server_port, "/a.css")[2] for _ in range(2))
        assert first == second
        assert len(done) == 1
        place.write_text("a { color: tan } " * 100)
        os.utime(place, (2e9, 2e9))
        assert gzip.decompress(ask_for_gzip(server.server_port, "/a.css")[2]) == place.read_bytes()
        assert len(done) == 2


def test_a_file_that_changed_since_it_was_compressed_is_no_longer_current(tmp_path: Path) -> None:
    place = tmp_path / "a.css"
    place.write_text("a " * 1000)
    kept = compressing.Compressions()
    kept.of(place)
    assert kept.current(place)
    os.utime(place, (2e9, 2e9))
    assert not kept.current(place)
    place.unlink()
    assert not kept.current(place)


def test_serve_compresses(tmp_path: Path) -> None:
    server = serving.open_server(tmp_path, None)
    assert server.compresses
    server.server_close()
