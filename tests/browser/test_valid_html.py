"""Every built page is valid HTML, but for a short list of things that are right all the same."""

from __future__ import annotations

import json
import shutil
import subprocess
import tomllib
from pathlib import Path

import pytest

from site_build.setup import packages
from site_build.setup.paths import SITE

pytestmark = [pytest.mark.browser, pytest.mark.contract]
LET_PASS = tomllib.loads((Path(__file__).parent / "valid_html.toml").read_text(encoding="utf-8"))["let_pass"]


@pytest.mark.skipif(shutil.which("java") is None, reason="the checker of HTML needs Java")
def test_every_page_is_valid_but_for_what_is_listed() -> None:
    checker = packages.fetch("vnu-jar") / "build/dist/vnu.jar"
    command = ["java", "-jar", str(checker), "--skip-non-html", "--errors-only", "--format", "json", str(SITE)]
    told = subprocess.run(command, capture_output=True, text=True, check=False).stderr
    messages = [f"{each['url'].rpartition('/site/')[2]}: {each['message']}" for each in json.loads(told)["messages"]]
    assert messages
    wrong = [each for each in messages if not any(rule["says"] in each for rule in LET_PASS)]
    assert wrong == []
    unneeded = [rule["says"] for rule in LET_PASS if not any(rule["says"] in each for each in messages)]
    assert unneeded == []
