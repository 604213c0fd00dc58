"""The server on this machine: right types, nothing outside its folder, a free port."""

from __future__ import annotations

import http.client
import socket
from typing import TYPE_CHECKING

import pytest

from site_build import serving
from site_build.tell import StopError

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
