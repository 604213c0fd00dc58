"""Every part that is shipped has its licence on the page, its text in the site, and its place in the bill."""

from __future__ import annotations

import json
import re
from base64 import b64encode

import pytest
from cyclonedx.validation.json import JsonStrictValidator

from site_build.pages import licences, materials
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


def test_the_bill_of_materials_keeps_to_the_schema_of_cyclonedx(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("SOURCE_DATE_EPOCH", "1790000000")
    text = materials.text()
    assert text == materials.text(), "of one source, one text"
    validator = JsonStrictValidator(materials.SCHEMA)
    assert validator.validate_str(text) is None
    assert validator.validate_str(text.replace('"library"', '"book"')) is not None


def test_the_bill_of_materials_has_every_part_of_the_page_with_its_licence_and_hash() -> None:
    bill = json.loads(materials.text())
    parts = [bill["metadata"]["component"], *bill["components"]]
    rows = [
        [cell.strip(" `") for cell in line.split("|")[1:-1]]
        for line in PAGE.splitlines()
        if "](../../" in line and line[0] == "|"
    ]
    told = {row[0]: re.findall(r"\[([^]]+)\]", row[3]) for row in rows}
    assert {each["name"]: [one["expression"] for one in each["licenses"]] for each in parts} == told
    assert parts[0]["name"] == "Plied True"
    lock = json.loads((ROOT / "site_build" / "package-lock.json").read_text("utf-8"))["packages"]
    for name in (*licences.SHIPPED, "pyodide"):
        (part,) = (each for each in parts if each["name"] == name)
        held = "sha512-" + b64encode(bytes.fromhex(part["hashes"][0]["content"])).decode()
        assert (part["version"], held) == tuple(lock[f"node_modules/{name}"][each] for each in ("version", "integrity"))
        assert part["purl"] == f"pkg:npm/{name.replace('@', '%40')}@{part['version']}"
