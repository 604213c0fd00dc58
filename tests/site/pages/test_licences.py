"""Every part that is shipped has its licence on the page, and the text of it in the site."""

from __future__ import annotations

import json
import re

import pytest

from site_build.pages import licences
from site_build.setup.paths import ROOT

pytestmark = pytest.mark.contract
PAGE = (ROOT / "docs" / "reference" / "code" / "licences.md").read_text(encoding="utf-8")
PACKAGES = json.loads((ROOT / "site_build" / "package.json").read_text(encoding="utf-8"))["dependencies"]
TOOLS = {"esbuild", "linkedom"}
"""Work at the build alone: nothing of them is in the site."""


def test_every_package_that_a_reader_gets_is_listed_in_the_version_that_is_locked() -> None:
    listed = dict(re.findall(r"^\| `([^`]+)` \| ([\d.]+) \|", PAGE, re.MULTILINE))
    assert listed == {name: version for name, version in PACKAGES.items() if name not in TOOLS}
    assert set(licences.SHIPPED) == listed.keys() - {"pyodide"}


def test_every_text_that_the_page_leads_to_is_there_and_is_that_licence() -> None:
    kept = {
        f"{licences.FOLDER}/{path.name}": path.read_text("utf-8") for path in (ROOT / "docs/assets/licences").iterdir()
    }
    texts = kept | licences.files()
    named = re.findall(r"\[([\w.-]+)\]\(\.\./\.\./([^)]+)\)", PAGE)
    assert {address for _, address in named} == texts.keys()
    words = {
        "MIT": "Permission is hereby granted, free of charge",
        "MPL-2.0": "Mozilla Public License Version 2.0",
        "PSF-2.0": "PYTHON SOFTWARE FOUNDATION LICENSE VERSION 2",
        "OFL-1.1": "SIL OPEN FONT LICENSE Version 1.1",
        "Apache-2.0": "Apache 2.0",
        "ISC": "Permission to use, copy, modify, and/or distribute this software for any purpose",
    }
    for licence, address in named:
        assert words[licence] in " ".join(texts[address].split()), address
