"""Finding a browser, or bringing one, on three systems."""

from __future__ import annotations

import sys
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from site_build.setup import chromium
from site_build.setup.programs import Ran
from site_build.setup.progress import StopError

if TYPE_CHECKING:
    from collections.abc import Sequence


def test_usual_places_follow_each_system() -> None:
    mac = [str(place) for place in chromium.usual_places("darwin", {"HOME": "/Users/me"})]
    assert mac[0] == "/Applications/Google Chrome.app/Contents/MacOS/Google Chrome"
    assert mac[-1] == "/Users/me/Applications/Chromium.app/Contents/MacOS/Chromium"
    windows = [str(place) for place in chromium.usual_places("win32", {"PROGRAMFILES": "C:\\Programs"})]
    assert windows == [
        "C:\\Programs\\Google\\Chrome\\Application\\chrome.exe",
        "C:\\Programs\\Chromium\\Application\\chrome.exe",
    ]
    assert "/opt/google/chrome/chrome" in map(str, chromium.usual_places("linux", {}))


def test_a_browser_works_when_it_tells_its_version(tmp_path: Path) -> None:
    stub = tmp_path / "chromium"
    stub.write_text("not a program")
    assert chromium.works(Path(sys.executable), "linux")
    assert not chromium.works(stub, "linux")
    assert not chromium.works(tmp_path / "gone", "linux")
    assert chromium.works(stub, "win32")


def test_the_one_that_is_named_is_used_or_refused(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv(chromium.VARIABLE, sys.executable)
    assert chromium.installed() == Path(sys.executable)
    monkeypatch.setenv(chromium.VARIABLE, "/nowhere")
    with pytest.raises(StopError, match=r"^CHROMIUM is set to /nowhere, which is not a browser that starts: correct"):
        chromium.installed()


def test_a_stub_on_the_path_is_stepped_over(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.delenv(chromium.VARIABLE, raising=False)
    monkeypatch.setattr("shutil.which", lambda name: f"/bin/{name}" if "chrom" in name else None)
    monkeypatch.setattr(chromium, "works", lambda browser: browser == Path("/bin/google-chrome"))
    assert chromium.installed() == Path("/bin/google-chrome")


class Machine:
    """Stands for a machine without a browser, and for what can bring one."""

    def __init__(self, bringer: str) -> None:
        self.bringer = bringer
        self.asked: list[str] = []
        self.there = False

    def run(self, command: Sequence[object], log: str, **_: object) -> Ran:
        """Answer for every program."""
        words = [str(word) for word in command]
        if log == "playwright-path":
            return Ran(0, "/play/chrome\n")
        self.asked.append(" ".join(words[-2:]))
        self.there = self.there or self.bringer in words
        return Ran(0, "")

    def works(self, browser: Path) -> bool:
        """Tell whether a path is the browser that was brought."""
        wanted = Path("/play/chrome") if self.bringer == "playwright" else Path("/usr/lib/chromium/chromium")
        return self.there and browser == wanted


def machine_without(monkeypatch: pytest.MonkeyPatch, bringer: str, *, root: bool) -> Machine:
    """Pretend a machine on which only one way works."""
    machine = Machine(bringer)
    monkeypatch.delenv(chromium.VARIABLE, raising=False)
    monkeypatch.setattr(sys, "platform", "linux")
    monkeypatch.setattr("shutil.which", lambda _name: None)
    monkeypatch.setattr(chromium, "run_logged", machine.run)
    monkeypatch.setattr(chromium, "works", machine.works)
    monkeypatch.setattr(chromium, "may_use_apt", lambda: root)
    return machine


def test_playwrights_own_is_brought_first(monkeypatch: pytest.MonkeyPatch) -> None:
    machine = machine_without(monkeypatch, "playwright", root=True)
    assert chromium.ensure() == Path("/play/chrome")
    assert machine.asked == ["install chromium"]
    assert chromium.ensure() == Path("/play/chrome")
    assert machine.asked == ["install chromium"]


def test_debians_package_comes_next(monkeypatch: pytest.MonkeyPatch) -> None:
    machine = machine_without(monkeypatch, "apt-get", root=True)
    assert chromium.ensure() == Path("/usr/lib/chromium/chromium")
    assert machine.asked == ["install chromium", "apt-get update", "--yes chromium"]


@pytest.mark.parametrize("root", [True, False])
def test_where_all_fails_a_sentence_says_so(monkeypatch: pytest.MonkeyPatch, *, root: bool) -> None:
    machine = machine_without(monkeypatch, "nobody", root=root)
    with pytest.raises(StopError, match=r"^There is no Chromium or Chrome .* --no-browser leaves these tests out\.$"):
        chromium.ensure()
    assert ("apt-get update" in machine.asked) is root
