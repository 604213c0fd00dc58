"""Finding a Firefox, or bringing Debian's where that may be done."""

from __future__ import annotations

import sys
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from site_build.setup import firefox
from site_build.setup.programs import Ran
from site_build.setup.progress import StopError

if TYPE_CHECKING:
    from collections.abc import Sequence


def test_the_one_that_is_named_is_used_or_refused(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv(firefox.VARIABLE, sys.executable)
    assert firefox.installed() == Path(sys.executable)
    monkeypatch.setenv(firefox.VARIABLE, "/nowhere")
    with pytest.raises(StopError, match=r"^FIREFOX is set to /nowhere, which is no program: correct or unset it"):
        firefox.installed()


@pytest.mark.parametrize(("allowed", "comes"), [(True, True), (True, False), (False, False)])
def test_debians_is_brought_where_it_may_be_and_its_absence_is_told(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str], *, allowed: bool, comes: bool
) -> None:
    there: list[str] = []
    asked: list[Sequence[object]] = []

    def ran(command: Sequence[object], *_: object, **__: object) -> Ran:
        asked.append(command)
        if comes and "install" in command:
            there.append("/usr/bin/firefox-esr")
        return Ran(0, "")

    monkeypatch.delenv(firefox.VARIABLE, raising=False)
    monkeypatch.setattr("shutil.which", lambda name: there[0] if there and there[0].endswith(f"/{name}") else None)
    monkeypatch.setattr(firefox, "may_use_apt", lambda: allowed)
    monkeypatch.setattr(firefox, "run_logged", ran)
    assert firefox.bring() == (Path("/usr/bin/firefox-esr") if comes else None)
    assert len(asked) == (2 if allowed else 0)
    said = capsys.readouterr().out
    assert ("In /usr/bin/firefox-esr" in said) == comes
    assert ("its tests are skipped" in said) == (not comes)
